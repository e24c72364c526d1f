"""What is in the outlines that a document names, by another reader and another joiner of lines and arcs (ezdxf's)?

An outline is its corners `(x, y, bulge)`, counter-clockwise, in millimetres.
"""

import math

import ezdxf
import ezdxf.edgeminer
import ezdxf.edgesmith
import ezdxf.math

# One unit of a drawing in millimetres, by the numbers of $INSUNITS in the published DXF reference.
UNITS = {1: 25.4, 2: 304.8, 4: 1.0, 5: 10.0, 6: 1000.0}
TOLD = {"in": 25.4, "mm": 1.0}


def corners(build, section):
    """The outline that a section of the document names, as drawn."""
    drawing = ezdxf.readfile(build.document_path.parent / section["outline"])
    told = section.get("outline_units")
    scale = TOLD[told] if told else UNITS[drawing.header["$INSUNITS"]]
    edges = list(ezdxf.edgesmith.edges_from_entities_2d(drawing.modelspace()))
    if edges:
        loop = ezdxf.edgeminer.find_loop(ezdxf.edgeminer.Deposit(edges, gap_tol=1e-4))
        line = ezdxf.edgesmith.lwpolyline_from_chain(loop)
    else:
        (line,) = drawing.modelspace().query("LWPOLYLINE")
    found = [(float(x) * scale, float(y) * scale, float(bulge)) for x, y, bulge in line.get_points("xyb")]
    # What joins two ends that round to different decimals is no line of its own.
    found = [one for one, after in zip(found, found[1:] + found[:1]) if math.dist(one[:2], after[:2]) > 1e-4]
    return found if area(found) > 0 else reversed_loop(found)


def reversed_loop(found):
    """The same loop run the other way."""
    bulges = [-bulge for _, _, bulge in found]
    return [(x, y, bulges[index - 1]) for index, (x, y, _) in reversed(list(enumerate(found)))]


def mirrored(found):
    return reversed_loop([(x, -y, -bulge) for x, y, bulge in found])


def moved(found, dx, dy):
    return [(x + dx, y + dy, bulge) for x, y, bulge in found]


def area(found):
    """Enclosed, arcs included, with its sign."""
    points = flattened(found)
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(points, points[1:] + points[:1])) / 2


def flattened(found):
    """Points round the loop: on each arc a thousand, which stand off it by less than a tenth of a micrometre."""
    points = []
    for (x0, y0, bulge), (x1, y1, _) in zip(found, found[1:] + found[:1]):
        points.append((x0, y0))
        if bulge:
            centre, start, end, radius = ezdxf.math.bulge_to_arc((x0, y0), (x1, y1), bulge)
            sweep = (end - start) % math.tau
            turn = [start + sweep * step / 1000 for step in range(1, 1000)]
            turn = turn if bulge > 0 else turn[::-1]
            points.extend((centre.x + radius * math.cos(angle), centre.y + radius * math.sin(angle)) for angle in turn)
    return points


def bounds(found):
    points = flattened(found)
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return min(xs), min(ys), max(xs), max(ys)


def headstock(build):
    """The drawn headstock in the instrument's plan, or nothing where it is a rectangle: its right end on the nut's rear face,
    the middle of that end on the centre line."""
    section = build.document.get("headstock", {})
    if "outline" not in section:
        return None
    found = corners(build, section)
    right = max(x for x, _, _ in found)
    joint = [y for x, y, _ in found if abs(x - right) < 0.05]
    found = moved(found, build.layout["nut"]["rear_x_mm"] - right, -(min(joint) + max(joint)) / 2)
    return mirrored(found) if build.document.get("handed") == "left" else found


def opening(build, number):
    """The drawn opening of the document's hole of that number, from 0, in the lid's coordinates."""
    hole = build.layout["box"]["holes"][number]
    found = corners(build, build.document["box"]["holes"][number])
    left, low, right, high = bounds(found)
    found = moved(found, -(left + right) / 2, -(low + high) / 2)
    if build.document.get("handed") == "left":
        found = mirrored(found)
    return moved(found, *hole["at_mm"])

"""Does each part enter what a round bit cuts for it? By another library's offsets, on the files that a machine gets.

What a bit of radius `r` clears is the morphological opening of the space that the drawing leaves: shrunk by `r`, grown by
`r`. Curves are broken so finely that they are off by less than 0.001 mm.
"""

import math

import ezdxf
import ezdxf.path
import pytest
import shapely

import builds
import written
from frame import BoxFrame

# What the chords of arcs and the offsets' own rounding may be off.
OFF = 0.002


def outline(entity):
    """A closed polyline with its arcs broken into chords that stand off by 0.0002 mm at most."""
    path = ezdxf.path.make_path(entity)
    return shapely.Polygon([(point.x, point.y) for point in path.flattening(0.0002)])


def on(path, layer):
    entities = ezdxf.readfile(path).modelspace()
    return [outline(e) for e in entities if e.dxftype() == "LWPOLYLINE" and e.dxf.layer.startswith(layer)]


def reached(space, radius):
    """A bit that is thinner by the allowance on its way also goes into a bite of exactly its size."""
    return space.buffer(-(radius - OFF), quad_segs=256).buffer(radius, quad_segs=256)


def stands_beyond(mate, space, radius):
    """How far the farthest corner of a mate lies beyond what a bit clears."""
    rest = mate.difference(reached(space, radius))
    if rest.is_empty:
        return 0.0
    cleared = reached(space, radius)
    return max(cleared.distance(shapely.Point(corner)) for corner in shapely.get_coordinates(rest))


def tongue(build, part_outline, face):
    """The rectangle that passes through a wall: from the drawing's own middle and upper edge, by the layout's numbers."""
    layout, frame = build.layout, BoxFrame(build.layout)
    box = layout["box"]
    left, _, right, top = part_outline.bounds
    middle, half = (left + right) / 2, layout["neck"]["width_at_box_mm"] / 2
    faces = (0.0, box["wall_mm"]) if face == "neck end" else (box["length_mm"], box["length_mm"] - box["wall_mm"])
    underside = min((layout["neck"]["bottom_z_mm"] - frame.place(along, 0.0)[1]) / frame.cos for along in faces)
    # The wall's upper edge is the lid's underside.
    lid_top = top + box["lid_mm"]
    return shapely.box(middle - half, lid_top + underside, middle + half, lid_top + layout["neck"]["tongue_top_above_lid_mm"])


def mates():
    for build in builds.made():
        if build.layout["neck"]["joint"] == "through":
            yield pytest.param(build, "neck end", id=f"{build.name}-neck-end")
            yield pytest.param(build, "tail end", id=f"{build.name}-tail-end")
        if build.layout["saddle"]["let_in_mm"] > 0:
            yield pytest.param(build, "lid", id=f"{build.name}-lid")


@pytest.mark.parametrize(("instrument", "face"), list(mates()))
def test_a_part_enters_what_the_bit_clears(instrument, face):
    build = instrument
    radius = float(written.length_mm(build.document, "router.bit")) / 2
    air = float(written.length_mm(build.document, "print.clearance"))
    name = "lid" if face == "lid" else f"box-{face.replace(' ', '-')}"
    path = build.folder / f"drawings/{name}_mm.dxf"
    if face == "lid":
        [space] = on(path, "POCKET_")
        # The foot stands on the centre line, as far from the lid's neck end as the layout says.
        [(left, low, _, high)] = [part.bounds for part in on(path, "CUT_OUTER")]
        plan = build.layout["saddle"]
        x, y = left + plan["along_mm"] + plan["shift_mm"], (low + high) / 2
        half = plan["thickness_mm"] / 2, (plan["ends_mm"][1] - plan["ends_mm"][0]) / 2
        mate = shapely.box(x - half[0], y - half[1], x + half[0], y + half[1])
    else:
        [part] = on(path, "CUT_OUTER")
        space = shapely.box(*part.bounds).buffer(100 + 2 * radius).difference(part)
        mate = tongue(build, part, face)
    guides = on(path, "GUIDE")
    assert any(guide.symmetric_difference(mate).area < 1e-3 for guide in guides), "the drawing shows what must enter"
    found = stands_beyond(mate, space, radius)
    if written.value(build.document, "router.corner_relief") == "none":
        expected = max(0.0, radius * (math.sqrt(2) - 1) - air * math.sqrt(2))
        assert found == pytest.approx(expected, abs=0.01), "a sharp corner stands before the bit's fillet"
        mate = mate.buffer(-radius).buffer(radius, quad_segs=256)
        found = stands_beyond(mate, space, radius)
    assert found <= OFF, f"{name}: the part stands {found} mm beyond what the bit clears"

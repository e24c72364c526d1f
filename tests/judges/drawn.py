"""Which lines and arcs does an entity draw? In the reader's numbers, by formulas of the published DXF reference."""

import math


def segments(entity):
    """Lines as `("line", from, to)` and arcs as `("arc", centre, radius, start, sweep)`, angles in radians."""
    kind = entity.dxftype()
    if kind == "LINE":
        return [("line", entity.dxf.start.vec2, entity.dxf.end.vec2)]
    if kind == "CIRCLE":
        return [("arc", entity.dxf.center.vec2, entity.dxf.radius, 0.0, math.tau)]
    if kind == "ARC":
        start, end = math.radians(entity.dxf.start_angle), math.radians(entity.dxf.end_angle)
        return [("arc", entity.dxf.center.vec2, entity.dxf.radius, start, (end - start) % math.tau)]
    if kind == "LWPOLYLINE":
        rows, closed = [tuple(row) for row in entity.get_points("xyb")], entity.closed
    elif kind == "POLYLINE":
        rows = [(*vertex.dxf.location.vec2, vertex.dxf.get("bulge", 0.0)) for vertex in entity.vertices]
        closed = entity.is_closed
    else:
        raise AssertionError(f"{entity} is not among the entities that every program reads")
    following = rows[1:] + (rows[:1] if closed else [])
    return [segment(a, b) for a, b in zip(rows, following)]


def segment(a, b):
    from ezdxf.math import Vec2

    start, end, bulge = Vec2(a[:2]), Vec2(b[:2]), a[2]
    if abs(bulge) < 1e-12:
        return ("line", start, end)
    sweep = 4 * math.atan(bulge)
    chord = end - start
    centre = start + chord / 2 + chord.orthogonal() * ((1 - bulge * bulge) / (4 * bulge))
    return ("arc", centre, start.distance(centre), (start - centre).angle, sweep)


def points(piece, count):
    """Points along a piece, both ends included."""
    shares = [index / count for index in range(count + 1)]
    if piece[0] == "line":
        return [piece[1].lerp(piece[2], share) for share in shares]
    _, centre, radius, start, sweep = piece
    return [centre + centre.from_angle(start + sweep * share, radius) for share in shares]


def length(piece):
    return piece[1].distance(piece[2]) if piece[0] == "line" else abs(piece[2] * piece[4])


def area(pieces):
    """Square millimetres within the loops that pieces make, by Green's theorem: of a line a triangle, of an arc its cap too."""
    return sum(abs(sum(map(swept, loop))) for loop in loops(pieces))


def swept(piece):
    start, end = points(piece, 1)
    cap = piece[2] ** 2 / 2 * (piece[4] - math.sin(piece[4])) if piece[0] == "arc" else 0.0
    return (start.x * end.y - end.x * start.y) / 2 + cap


def loops(pieces):
    """Pieces end to end, turned about where need be: an arc on its own is written counter-clockwise, however the loop runs."""
    rest, found = list(pieces), []
    while rest:
        loop = [rest.pop(0)]
        first, end = points(loop[0], 1)
        while end.distance(first) > 1e-4:
            ends = ((at, points(piece, 1)) for at, piece in enumerate(rest))
            at, turned = next((at, b.distance(end) < 1e-4) for at, (a, b) in ends if min(a.distance(end), b.distance(end)) < 1e-4)
            loop.append(reverse(rest.pop(at)) if turned else rest.pop(at))
            end = points(loop[-1], 1)[1]
        found.append(loop)
    return found


def reverse(piece):
    if piece[0] == "line":
        return ("line", piece[2], piece[1])
    _, centre, radius, start, sweep = piece
    return ("arc", centre, radius, start + sweep, -sweep)


def extents(pieces):
    """Left, bottom, right and top, exact with arcs."""
    corners = []
    for piece in pieces:
        corners += points(piece, 1)
        if piece[0] == "arc":
            _, centre, radius, start, sweep = piece
            for quarter in range(4):
                turn = quarter * math.tau / 4 - start
                turn = turn % math.tau if sweep > 0 else turn % math.tau - math.tau
                if abs(turn) <= abs(sweep):
                    corners.append(centre + centre.from_angle(start + turn, radius))
    xs, ys = [corner.x for corner in corners], [corner.y for corner in corners]
    return min(xs), min(ys), max(xs), max(ys)


def distance(point, piece):
    """From a point to the nearest point of a piece."""
    if piece[0] == "line":
        _, start, end = piece
        along = end - start
        share = min(1.0, max(0.0, (point - start).dot(along) / along.dot(along)))
        return point.distance(start + along * share)
    _, centre, radius, start, sweep = piece
    out = point - centre
    turn = out.angle - start
    turn = turn % math.tau if sweep > 0 else -(-turn % math.tau)
    if abs(turn) <= abs(sweep):
        return abs(out.magnitude - radius)
    return min(point.distance(end) for end in points(piece, 1))

"""What should stand in each drawing, guides aside, worked out from `layout.json`?

An entity is a `Circle`, a `Line`, an `Open` row of lines or a `Closed` contour on a layer. Coordinates are first those of the instrument or the
box; `settled` then moves a drawing's lower left to the origin, where every file has it.
"""

import dataclasses
import decimal
import itertools
import math

import brought
import jigs
import written
from frame import BoxFrame, board_ends, neck_side_polygons, neck_width, polygon_area
from volumes import coupon, saddle_crests, saddle_lost, saddle_profile, saddle_rooms

# What is written with seven or more decimals reads back within this.
EXACT = 1e-6


@dataclasses.dataclass
class Circle:
    layer: str
    at: tuple
    radius: float | None  # None: any that makes the layer's name true


@dataclasses.dataclass
class Line:
    layer: str
    ends: tuple


@dataclasses.dataclass
class Open:
    layer: str
    corners: list


@dataclasses.dataclass
class Closed:
    layer: str
    corners: list
    area: float  # arcs included
    reaches: tuple = ()  # what its arcs reach beyond the corners


def millimetres(value):
    """A length in a layer's name: to 0.001 mm, halves up (1/16 in is 1.5875 mm), at least one decimal, `_` for the point."""
    thousandths = decimal.Decimal(f"{value:.9f}").quantize(decimal.Decimal("0.001"), decimal.ROUND_HALF_UP)
    whole, decimals = str(thousandths).split(".")
    return f"{whole}_{decimals[0]}{decimals[1:].rstrip('0')}"


def drilled(at, diameter):
    return Circle(f"DRILL_D{millimetres(diameter)}", at, diameter / 2)


def polygon(corners, layer="CUT_OUTER"):
    return Closed(layer, corners, polygon_area(corners))


def rectangle(x, y, layer="CUT_OUTER"):
    return polygon([(x[0], y[0]), (x[1], y[0]), (x[1], y[1]), (x[0], y[1])], layer)


def relieved(build, corners, inside, layer="CUT_OUTER"):
    """A contour of right-angled corners of which some are relieved for the router's bit, for a part that must enter.

    A dogbone is half a circle of the bit's radius over the corner's diagonal: it meets both edges `sqrt(2) r` from the
    corner and takes the half disc less the right-angled triangle in it. A T-bone is half a circle on the longer edge: it
    takes `2 r` of that edge and the half disc. An outside loses what a pocket gains.
    """
    relief = written.value(build.document, "router.corner_relief")
    radius = float(written.length_mm(build.document, "router.bit")) / 2
    if relief == "none":
        return polygon(corners, layer)
    found = []
    for index, corner in enumerate(corners):
        if index not in inside:
            found.append(corner)
            continue
        ends = corners[index - 1], corners[(index + 1) % len(corners)]
        lengths = [math.dist(corner, end) for end in ends]
        longer = [lengths[0] >= lengths[1] - EXACT, lengths[0] < lengths[1] - EXACT]
        taken = [math.sqrt(2) * radius] * 2 if relief == "dogbone" else [2 * radius * is_longer for is_longer in longer]
        for end, length, take in zip(ends, lengths, taken):
            found.append(tuple(c + (e - c) * take / length for c, e in zip(corner, end)))
    half_disc = math.pi * radius**2 / 2
    bite = half_disc - radius**2 if relief == "dogbone" else half_disc
    sign = -1 if layer == "CUT_OUTER" else 1
    return Closed(layer, found, polygon_area(corners) + sign * len(inside) * bite)


def across(layout, x):
    half = neck_width(layout, x) / 2
    return ((x, -half), (x, half))


def neck_plan(build):
    layout, neck = build.layout, build.layout["neck"]
    stations = [neck["head_end_x_mm"], neck["nut_front_x_mm"], neck["box_x_mm"]]
    if neck["joint"] == "through":
        stations.append(neck["tail_end_x_mm"])
    edges = [(x, neck_width(layout, x) / 2) for x in stations]
    drawn = brought.headstock(build)
    if drawn:
        # In place of the rectangle's end; what is just as wide runs straight on, and has a corner where it bends.
        edges = edges[1:]
        stick = [(x, -half) for x, half in edges] + [(x, half) for x, half in reversed(edges)]
        under_nut = neck["width_at_nut_mm"] * (neck["nut_front_x_mm"] - layout["nut"]["rear_x_mm"])
        area = brought.area(drawn) + under_nut + polygon_area(stick)
        left, low, right, high = brought.bounds(drawn)
        corners = [corner[:2] for corner in drawn] + stick
        yield Closed("CUT_OUTER", corners, area, ((left, low), (right, high)))
    else:
        yield polygon([(x, -half) for x, half in edges] + [(x, half) for x, half in reversed(edges)])
    for tuner in layout["tuners"]:
        yield drilled((tuner["bore"]["x_mm"], tuner["bore"]["y_mm"]), tuner["diameter_mm"])
    if layout["tail"]["kind"] == "string through":
        for bore, string in zip(layout["tail"]["bores"], layout["strings"]):
            yield drilled((string["tail"]["x_mm"], string["tail"]["y_mm"]), bore["diameter_mm"])
    if layout["fretboard"]["thickness_mm"] == 0.0:
        # The zero fret has a slot, and so has every fret that is let in; what is wrapped round a bare neck is marked.
        yield Line("SLOT", across(layout, 0.0))
        seated = written.length_mm(build.document, "frets.seat_depth") > 0
        for fret in layout["frets"]["stations"]:
            if fret["kind"] == "fret wire" or seated:
                yield Line("SLOT", across(layout, fret["x_mm"]))
            elif fret["kind"] == "wrapped wire":
                yield Line("ENGRAVE", across(layout, fret["x_mm"]))


def neck_side(build):
    head, playing, tongue = neck_side_polygons(build.layout)
    area = sum(polygon_area(piece) for piece in (head, playing, tongue) if piece)
    pieces = head[:1] + head[3:] + playing[3:] + playing[2:3]
    pieces += playing[1:2] if tongue is None else tongue[:0:-1]
    if head[2][1] != playing[3][1]:
        pieces.insert(2, head[2])
    # A through neck's wall step stands on the wall's line, whose foot is inside the stick.
    yield Closed("CUT_OUTER", distinct(pieces), area)


def distinct(points):
    kept = []
    for point in points:
        if all(math.dist(point, other) > EXACT for other in kept):
            kept.append(point)
    return kept


def fretboard(build):
    layout = build.layout
    ends = [across(layout, x) for x in board_ends(layout)]
    yield polygon([ends[0][0], ends[1][0], ends[1][1], ends[0][1]])
    for groove in layout["grooves"]:
        yield Line("SLOT", across(layout, groove["x_mm"]))


def nut_front(build):
    plan = build.layout["nut"]
    half = plan["length_mm"] / 2
    yield rectangle((-half, half), (plan["base_z_mm"], plan["top_z_mm"]))
    for slot in plan["slots"]:
        y = slot["front"]["y_mm"]
        yield Line("SLOT", ((y, plan["top_z_mm"]), (y, slot["front"]["z_mm"])))


def nut_top(build):
    plan = build.layout["nut"]
    half = plan["length_mm"] / 2
    yield rectangle((plan["rear_x_mm"], plan["front_x_mm"]), (-half, half))
    for slot in plan["slots"]:
        yield Line("SLOT", tuple((slot[end]["x_mm"], slot[end]["y_mm"]) for end in ("front", "rear")))


def ridge(layout):
    """The crest line's corners: a crest in line with its neighbours, seen from the front and from above, needs none."""
    crests = saddle_crests(layout)
    kept = crests[:1]
    for here, after in zip(crests[1:], crests[2:]):
        before = kept[-1]
        share = (here[0] - before[0]) / (after[0] - before[0])
        if any(abs(a + (b - a) * share - c) >= EXACT for a, b, c in zip(before[1:], after[1:], here[1:])):
            kept.append(here)
    return kept + crests[-1:]


def saddle_front(build):
    plan = build.layout["saddle"]
    foot = [(y, -plan["let_in_mm"]) for y in plan["ends_mm"]]
    yield polygon(foot + [(across, above) for across, above, _ in reversed(ridge(build.layout))])
    for crest in plan["crests"]:
        y, z = crest["across_mm"], crest["above_mm"]
        yield Line("ENGRAVE", ((y, z - 2.0), (y, z - 0.5)))


def saddle_top(build):
    plan = build.layout["saddle"]
    half = plan["thickness_mm"] / 2
    yield rectangle((-half, half), plan["ends_mm"])
    yield Open("ENGRAVE", [(offset, across) for across, _, offset in ridge(build.layout)])


def saddle_end(build):
    """The section under the bass string."""
    plan = build.layout["saddle"]
    _, half, flanks = saddle_profile(build.layout)
    above, x = plan["crests"][0]["above_mm"], plan["crests"][0]["offset_mm"]
    (front, front_out, front_down), (rear, rear_out, rear_down) = flanks
    feet = [
        above - down - (room - out) * math.tan(angle)
        for (angle, out, down), room in zip(flanks, saddle_rooms(half, x))
    ]
    corners = [
        (-half, -plan["let_in_mm"]), (half, -plan["let_in_mm"]), (half, feet[1]),
        (x + rear_out, above - rear_down), (x - front_out, above - front_down), (-half, feet[0]),
    ]
    yield Closed("CUT_OUTER", corners, 2 * half * (above + plan["let_in_mm"]) - saddle_lost(build.layout, x))


def heel_block_side(build):
    plan = build.layout["heel"]
    front, top, bottom = plan["front_x_mm"], plan["top_z_mm"], plan["bottom_z_mm"]
    bevel = min(plan["reach_mm"] / 2, (top - bottom) / 2)
    at_top, at_bottom = plan["wall_x_mm"]
    yield polygon([(front, top), (front, bottom + bevel), (front + bevel, bottom), (at_bottom, bottom), (at_top, top)])


def heel_block_top(build):
    plan = build.layout["heel"]
    a, b, back = plan["front_width_mm"] / 2, plan["box_width_mm"] / 2, plan["wall_x_mm"][0]
    yield polygon([(plan["front_x_mm"], -a), (back, -b), (back, b), (plan["front_x_mm"], a)])


def tail_block_faces(layout):
    """Height of the face with the string bores, which coordinate they are at, and height of the screws' face."""
    plan = layout["tail"]
    on_lid = plan["kind"] == "block on the lid"
    return (plan["above_mm"], "above_mm", plan["along_mm"]) if on_lid else (plan["along_mm"], "along_mm", plan["above_mm"])


def tail_block_strings(build):
    plan = build.layout["tail"]
    height, coordinate, _ = tail_block_faces(build.layout)
    yield rectangle(plan["across_mm"], height)
    for bore in plan["bores"]:
        at = (bore["across_mm"], bore[coordinate])
        yield drilled(at, bore["diameter_mm"])
        yield Circle(f"POCKET_D{millimetres(plan['ball_depth_mm'])}", at, bore["ball_diameter_mm"] / 2)


def tail_block_screws(build):
    plan = build.layout["tail"]
    _, _, height = tail_block_faces(build.layout)
    yield rectangle(plan["across_mm"], height)
    for placed in plan["screws"]:
        yield drilled((placed["across_mm"], sum(height) / 2), placed["clearance_mm"])


def pilots(layout, place):
    """Pilot holes for the block's screws, narrower than the clearance that the screws pass through."""
    for placed in layout["tail"]["screws"]:
        yield Circle("DRILL", place(placed["across_mm"]), None)


def openings(build, face, sign):
    layout = build.layout
    for number, hole in enumerate(layout["box"]["holes"]):
        if hole["face"] != face:
            continue
        if "outline" in hole["opening"]:
            drawn = brought.opening(build, number)
            yield Closed("CUT_INNER", [corner[:2] for corner in drawn], brought.area(drawn))
            continue
        at, size = (hole["at_mm"][0], sign * hole["at_mm"][1]), hole["opening"]
        if "diameter_mm" not in size:
            half = size["length_mm"] / 2, size["width_mm"] / 2
            yield rectangle((at[0] - half[0], at[0] + half[0]), (at[1] - half[1], at[1] + half[1]), "CUT_INNER")
        elif hole["purpose"] in ("jack", "pot"):
            yield drilled(at, size["diameter_mm"])
        else:
            yield Circle("CUT_INNER", at, size["diameter_mm"] / 2)


def lid(build):
    layout = build.layout
    box, saddle = layout["box"], layout["saddle"]
    yield rectangle((0.0, box["length_mm"]), (-box["width_mm"] / 2, box["width_mm"] / 2))
    yield from openings(build, "lid", 1.0)
    if saddle["let_in_mm"] > 0.0:
        air = float(written.length_mm(build.document, "print.clearance"))
        half = saddle["thickness_mm"] / 2 + air
        middle = saddle["along_mm"] + saddle["shift_mm"]
        x = (middle - half, middle + half)
        y = (saddle["ends_mm"][0] - air, saddle["ends_mm"][1] + air)
        corners = [(x[0], y[0]), (x[1], y[0]), (x[1], y[1]), (x[0], y[1])]
        yield relieved(build, corners, {0, 1, 2, 3}, f"POCKET_D{millimetres(saddle['let_in_mm'])}")
    if layout["tail"]["kind"] == "block on the lid":
        middle = sum(layout["tail"]["along_mm"]) / 2
        yield from pilots(layout, lambda across: (middle, across))


def box_end(build, face):
    layout = build.layout
    box, frame = layout["box"], BoxFrame(layout)
    half_box, low, high = box["width_mm"] / 2, -box["depth_mm"], -box["lid_mm"]
    corners = [(half_box, low), (half_box, high), (-half_box, high), (-half_box, low)]
    floor_corners = set()
    if layout["neck"]["joint"] == "through":
        air = float(written.length_mm(build.document, "print.clearance"))
        half = layout["neck"]["width_at_box_mm"] / 2 + air
        faces = (0.0, box["wall_mm"]) if face == "neck end" else (box["length_mm"], box["length_mm"] - box["wall_mm"])
        # The underside of the stick in the box's own height, at both faces of the wall: the lower one needs the room.
        underside = min((layout["neck"]["bottom_z_mm"] - frame.place(along, 0.0)[1]) / frame.cos for along in faces)
        floor = underside - air
        corners[2:2] = [(half, high), (half, floor), (-half, floor), (-half, high)]
        floor_corners = {3, 4}
    yield relieved(build, corners, floor_corners)
    yield from openings(build, face, -1.0)
    if face == "tail end" and layout["tail"]["kind"] == "block on the end":
        middle = sum(layout["tail"]["above_mm"]) / 2
        yield from pilots(layout, lambda across: (across, middle))


def box_side(build, face):
    box = build.layout["box"]
    yield rectangle((0.0, box["length_mm"]), (-box["depth_mm"], -box["lid_mm"]))
    yield from openings(build, face, -1.0)


def bit(build):
    return float(written.length_mm(build.document, "router.bit"))


def coupon_printed(build):
    slots, bore, ball_depth, foot, (width, length, top) = coupon(build.layout, bit(build))
    corners = [(0.0, 0.0), (width, 0.0), (width, top), (0.0, top)]
    if foot:
        over = top + foot[2]
        corners[2:3] = [(width, over), (width - foot[0], over), (width - foot[0], top)]
    yield polygon(corners)
    edge = 0.0
    for slot, depth in slots:
        middle = edge + 2.0 + slot / 2
        yield Line("SLOT", ((middle, top), (middle, top - depth)))
        edge = middle + slot / 2
    if bore:
        at = (edge + 2.0 + bore["ball_diameter_mm"] / 2, top / 2)
        yield drilled(at, bore["diameter_mm"])
        yield Circle(f"POCKET_D{millimetres(ball_depth)}", at, bore["ball_diameter_mm"] / 2)


def coupon_routed(build):
    """By its description: 8 mm between cuts, half a bit for a bite of the relief, and of a notch that is wider than deep 15 mm
    of the depth or a bit's diameter at most."""
    layout, document = build.layout, build.document
    air, bite = float(written.length_mm(document, "print.clearance")), bit(build) / 2
    wall, through = layout["box"]["wall_mm"], layout["neck"]["joint"] == "through"
    bore, foot = layout["tuners"][0]["diameter_mm"], coupon(layout, bit(build))[3]
    room = lambda size: size + 2 * (air + bite)
    wide, high = (room(foot[0]) + 8.0 + bore, max(room(foot[1]), bore)) if foot else (bore, bore)
    half = layout["neck"]["width_at_box_mm"] / 2 + air
    deep = layout["neck"]["top_z_mm"] - layout["neck"]["bottom_z_mm"]
    deep = air + (min(max(15.0, 2 * bite), deep) if deep < layout["neck"]["width_at_box_mm"] else deep)
    edge, top = max(wide, 2 * (half + bite) if through else 0.0) / 2 + 8.0, 16.0 + high
    floor_corners = set()
    if through:
        floor, top = top + bite, top + bite + deep
        corners = [(edge, 0.0), (edge, top), (half, top), (half, floor), (-half, floor), (-half, top), (-edge, top), (-edge, 0.0)]
        floor_corners = {3, 4}
    else:
        corners = [(edge, 0.0), (edge, top), (-edge, top), (-edge, 0.0)]
    yield relieved(build, corners, floor_corners)
    middle = 8.0 + high / 2
    if foot:
        x, dx, dy = (room(foot[0]) - wide) / 2, foot[0] / 2 + air, foot[1] / 2 + air
        pocket = [(x - dx, middle - dy), (x + dx, middle - dy), (x + dx, middle + dy), (x - dx, middle + dy)]
        yield relieved(build, pocket, {0, 1, 2, 3}, f"POCKET_D{millimetres(min(foot[2], wall / 2))}")
    yield drilled(((wide - bore) / 2, middle), bore)


def tail_guide(build):
    guide = jigs.tail_guide(build)
    yield rectangle((-guide["half"], guide["half"]), (-jigs.WALL, guide["height"]))
    for at in guide["bores"]:
        yield drilled(at, guide["bore"])


def fret_jig(build, number):
    section, layout = jigs.sections(build)[number - 1], build.layout
    start, end = jigs.ends(section)
    half = lambda x: jigs.half(layout, x)
    yield polygon([
        (start, -half(start) - jigs.FENCE), (end, -half(end) - jigs.FENCE), (end, half(end)), (start, half(start)),
    ])
    for _, x in section:
        yield Line("SLOT", ((x, jigs.SPINE - half(x)), (x, half(x))))
    for at in jigs.dimples(build, section):
        yield Circle(f"POCKET_D{millimetres(jigs.THICKNESS / 2)}", at, jigs.DIMPLE / 2)


def has_hole(layout, face):
    return any(hole["face"] == face for hole in layout["box"]["holes"])


# One line a drawing: what it holds, and when the instrument has it.
DRAWINGS = {
    "neck-plan": (neck_plan, lambda layout: True),
    "neck-side": (neck_side, lambda layout: True),
    "fretboard": (fretboard, lambda layout: layout["fretboard"]["thickness_mm"] > 0),
    "nut-front": (nut_front, lambda layout: True),
    "nut-top": (nut_top, lambda layout: True),
    "saddle-front": (saddle_front, lambda layout: True),
    "saddle-top": (saddle_top, lambda layout: True),
    "saddle-end": (saddle_end, lambda layout: True),
    "heel-block-side": (heel_block_side, lambda layout: layout["heel"] is not None),
    "heel-block-top": (heel_block_top, lambda layout: layout["heel"] is not None),
    "tail-block-strings": (tail_block_strings, lambda layout: layout["tail"]["kind"] != "string through"),
    "tail-block-screws": (tail_block_screws, lambda layout: layout["tail"]["kind"] != "string through"),
    "lid": (lid, lambda layout: True),
    "box-neck-end": (lambda build: box_end(build, "neck end"), lambda layout: True),
    "box-tail-end": (lambda build: box_end(build, "tail end"), lambda layout: True),
    "box-bass-side": (lambda build: box_side(build, "bass side"), lambda layout: has_hole(layout, "bass side")),
    "coupon-printed": (coupon_printed, lambda layout: True),
    "coupon-routed": (
        coupon_routed, lambda layout: layout["neck"]["joint"] == "through" or layout["saddle"]["let_in_mm"] > 0
    ),
    "box-treble-side": (lambda build: box_side(build, "treble side"), lambda layout: has_hole(layout, "treble side")),
}


def names(build):
    jig = [f"fret-jig-{number + 1}" for number in range(len(jigs.sections(build)))]
    guide = ["tail-drill-guide"] if jigs.has_tail_guide(build) else []
    return [name for name, (_, needed) in DRAWINGS.items() if needed(build.layout)] + jig + guide


def entities(build, name):
    if name == "tail-drill-guide":
        return settled(list(tail_guide(build)))
    if name.startswith("fret-jig-"):
        return settled(list(fret_jig(build, int(name.rsplit("-", 1)[1]))))
    return settled(list(DRAWINGS[name][0](build)))


def settled(expected):
    """The same entities with the lower left of all of them at the origin."""
    points = list(itertools.chain.from_iterable(reach(entity) for entity in expected))
    x, y = min(point[0] for point in points), min(point[1] for point in points)
    move = lambda point: (point[0] - x, point[1] - y)
    moved = {
        Circle: lambda e: dataclasses.replace(e, at=move(e.at)),
        Line: lambda e: dataclasses.replace(e, ends=tuple(map(move, e.ends))),
        Open: lambda e: dataclasses.replace(e, corners=[move(corner) for corner in e.corners]),
        Closed: lambda e: dataclasses.replace(e, corners=[move(corner) for corner in e.corners]),
    }
    return [moved[type(entity)](entity) for entity in expected]


def reach(entity):
    if isinstance(entity, Circle):
        radius = entity.radius or 0.0
        return [(entity.at[0] - radius, entity.at[1] - radius), (entity.at[0] + radius, entity.at[1] + radius)]
    if isinstance(entity, Line):
        return entity.ends
    return [*entity.corners, *(entity.reaches if isinstance(entity, Closed) else ())]


def fingerprint(entity):
    """The same for two entities that would be cut along the same line, within 0.01 mm, whatever their layers."""
    near = lambda point: (round(point[0], 2), round(point[1], 2))
    if entity.dxftype() == "CIRCLE":
        return ("circle", near(entity.dxf.center), round(entity.dxf.radius, 2))
    if entity.dxftype() == "LINE":
        return ("line", *sorted((near(entity.dxf.start), near(entity.dxf.end))))
    if entity.dxftype() == "LWPOLYLINE":
        return ("polyline", *sorted(near(point) for point in entity.get_points("xy")))
    return (entity.dxftype(), entity.dxf.handle)


def closed_area(entity):
    """Area within a closed polyline: the polygon of its corners, and for each arc the segment beside its chord."""
    rows = list(entity.get_points("xyb"))
    area = 0.0
    for (x, y, bulge), (next_x, next_y, _) in zip(rows, rows[1:] + rows[:1]):
        area += (x * next_y - next_x * y) / 2
        if bulge:
            sweep = 4 * math.atan(bulge)
            radius = math.hypot(next_x - x, next_y - y) / 2 / abs(math.sin(sweep / 2))
            area += radius * radius / 2 * (sweep - math.sin(sweep))
    return abs(area)


def compare(expected, found):
    """Every expected entity is found once, and nothing else is."""
    left = list(found)
    for wanted in expected:
        match = next((entity for entity in left if is_same(wanted, entity)), None)
        assert match is not None, f"expected {wanted}, not found among {[describe(entity) for entity in left]}"
        left.remove(match)
    assert not left, f"not expected: {[describe(entity) for entity in left]}"


def describe(entity):
    return (entity.dxf.layer, fingerprint(entity))


def close(a, b):
    return math.dist(a[:2], b[:2]) < EXACT


def is_same(wanted, entity):
    kind = entity.dxftype()
    if isinstance(wanted, Circle):
        if kind != "CIRCLE" or not close(tuple(entity.dxf.center), wanted.at):
            return False
        if wanted.radius is None:
            return entity.dxf.layer == f"DRILL_D{millimetres(2 * entity.dxf.radius)}"
        return entity.dxf.layer == wanted.layer and abs(entity.dxf.radius - wanted.radius) < EXACT
    if entity.dxf.layer != wanted.layer:
        return False
    if isinstance(wanted, Line):
        if kind != "LINE":
            return False
        ends = tuple(entity.dxf.start), tuple(entity.dxf.end)
        return any(close(a, wanted.ends[0]) and close(b, wanted.ends[1]) for a, b in (ends, ends[::-1]))
    if isinstance(wanted, Open):
        if kind == "LINE":
            found = [tuple(entity.dxf.start), tuple(entity.dxf.end)]
        else:
            found = list(entity.get_points("xy")) if kind == "LWPOLYLINE" and not entity.closed else []
        rows = (found, found[::-1])
        return any(len(row) == len(wanted.corners) and all(map(close, row, wanted.corners)) for row in rows)
    if kind != "LWPOLYLINE" or not entity.closed:
        return False
    corners = list(entity.get_points("xy"))
    return (
        len(corners) == len(wanted.corners)
        and all(any(close(corner, other) for other in wanted.corners) for corner in corners)
        and abs(closed_area(entity) - wanted.area) < EXACT * 1000
    )

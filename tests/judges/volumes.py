"""What should each solid measure, by formulas worked out by hand from `layout.json`?

Every function returns an `Expected`: the volume in cubic millimetres, and the area of the faces that are not flat. A
mesh may differ from the volume by no more than that area times the chord tolerance, because every point of a curved
face lies within the tolerance of the triangles that stand for it.

# Rules used

- *Prismatoid rule* (Simpson's rule): a solid whose sections across one direction have an area that is a polynomial
  of degree three or less in the distance has the volume `h/6 (A0 + 4 Am + A1)`. Where the area is linear, `Am` is
  the mean and the volume is `h (A0 + A1) / 2`.
- *Circular segment*: between a chord of length `c` and its arc of radius `r` lies the area
  `r^2/2 (theta - sin theta)` with `theta = 2 asin(c / 2 r)`.
- *Divergence theorem*: a closed surface encloses a third of the integral of `r . n` over it.
"""

import dataclasses
import math

import numpy

import brought
import jigs
from frame import (
    BoxFrame, board_ends, groove_ends, neck_side_polygons, neck_width, polygon_area, string_entry_z,
)


@dataclasses.dataclass
class Expected:
    volume: float
    curved_area: float


def disc(diameter):
    return math.pi * diameter * diameter / 4


def nut(layout):
    """A block less one round-bottomed slot a string.

    A slot of width `w` across the nut has the same section everywhere but for its depth: half a disc of radius `w/2` whose lowest point
    is the floor, and above it a rectangle up to the top. Its area `w (top - floor - w/2) + pi w^2 / 8` is linear in the
    floor's height, and the floor is a straight line from the front face to the rear: the mean of both heights serves.
    The slot's turn toward the post shifts sections sideways and changes no area (Cavalieri).
    """
    plan = layout["nut"]
    thickness = plan["front_x_mm"] - plan["rear_x_mm"]
    volume = plan["length_mm"] * (plan["top_z_mm"] - plan["base_z_mm"]) * thickness
    curved = 0.0
    for slot in plan["slots"]:
        width, front, rear = slot_across_nut(slot), slot["front"], slot["rear"]
        floor = (front["z_mm"] + rear["z_mm"]) / 2
        section = width * (plan["top_z_mm"] - floor - width / 2) + disc(width) / 2
        volume -= section * thickness
        run = math.dist([front[axis] for axis in ("x_mm", "y_mm", "z_mm")], [rear[axis] for axis in ("x_mm", "y_mm", "z_mm")])
        curved += math.pi * width / 2 * run
    return Expected(volume, curved)


def slot_across_nut(slot):
    """How wide a slot is along the nut's face: as the saw cuts it, and more where it runs aslant."""
    front, rear = slot["front"], slot["rear"]
    return slot["width_mm"] * math.hypot(1, (front["y_mm"] - rear["y_mm"]) / (front["x_mm"] - rear["x_mm"]))


def saddle_profile(layout):
    """Radius of the crest, half the thickness, and for the flanks toward neck and tail: the slope, and how far out and how
    far down from the crest the flank leaves its arc.

    Common practice, stated by the parts: the crest has a radius of 2 mm; the flank toward the neck falls by 15 degrees,
    the one toward the tail by the steepest string's fall plus 5 degrees, at least 15 and at most 60.
    """
    frame = BoxFrame(layout)
    steepest = 0.0
    for string in layout["strings"]:
        fall = frame.above(string["saddle"]) - frame.above(string["tail"])
        run = frame.along(string["tail"]) - frame.along(string["saddle"])
        steepest = max(steepest, math.degrees(math.atan2(fall, run)))
    radius = 2.0
    flanks = []
    for slope in (15.0, min(60.0, max(15.0, steepest + 5.0))):
        angle = math.radians(slope)
        flanks.append((angle, radius * math.sin(angle), radius * (1 - math.cos(angle))))
    return radius, layout["saddle"]["thickness_mm"] / 2, flanks


def saddle_crests(layout):
    """The crest line rising in `y`: across, above the lid, and behind the middle of the foot; beyond the outer strings it
    goes on level and square."""
    plan = layout["saddle"]
    crests = sorted((crest["across_mm"], crest["above_mm"], crest["offset_mm"]) for crest in plan["crests"])
    return [(plan["ends_mm"][0], *crests[0][1:])] + crests + [(plan["ends_mm"][1], *crests[-1][1:])]


def saddle_rooms(half, offset):
    """From the crest to the side toward the neck, and to the side toward the tail."""
    return half + offset, half - offset


def saddle_lost(layout, offset):
    """What a section of the saddle lacks under the level of a crest that stands `offset` behind the middle of the foot.

    On each side, up to where the arc ends at `a = r sin s`, the integral of `r - sqrt(r^2 - x^2)`, which is
    `r a - r^2/2 (s + sin s cos s)`; beyond it, over the width `w` that is left to that side, a trapezoid under the flank:
    `w down + w^2/2 tan s`.
    """
    radius, half, flanks = saddle_profile(layout)
    lost = 0.0
    for (angle, out, down), room in zip(flanks, saddle_rooms(half, offset)):
        width = room - out
        lost += radius * out - radius * radius / 2 * (angle + math.sin(angle) * math.cos(angle))
        lost += width * down + width * width / 2 * math.tan(angle)
    return lost


def saddle(layout):
    """A ridge with flanks of the same slopes all along, whose crest rises, falls and wanders on straight lines.

    Under a crest of height `h` and offset `o` the section has the area `t (h + let_in) - lost(o)`, where `t` is the
    thickness. Both `h` and `o` are linear between crests and `lost` is quadratic in `o`: the prismatoid rule is exact.
    """
    plan = layout["saddle"]
    radius, _, flanks = saddle_profile(layout)
    area = lambda above, offset: plan["thickness_mm"] * (above + plan["let_in_mm"]) - saddle_lost(layout, offset)
    crests = saddle_crests(layout)
    volume = curved = 0.0
    for (from_y, *start), (to_y, *end) in zip(crests, crests[1:]):
        middle = [(a + b) / 2 for a, b in zip(start, end)]
        volume += (to_y - from_y) / 6 * (area(*start) + 4 * area(*middle) + area(*end))
        run = math.dist((from_y, *start), (to_y, *end))
        curved += run * radius * (flanks[0][0] + flanks[1][0])
    return Expected(volume, curved)


def counterbored(length, bore, ball, ball_depth):
    """A bore through `length` with a wider one from one face: volume and wall."""
    volume = disc(bore) * (length - ball_depth) + disc(ball) * ball_depth
    wall = math.pi * (bore * (length - ball_depth) + ball * ball_depth)
    return volume, wall


def countersunk(length, hole, head):
    """A hole with a right-angled countersink, as deep as the radii differ: a frustum is `pi d/3 (R^2 + R r + r^2)`."""
    outer, inner = head / 2, hole / 2
    depth = outer - inner
    volume = math.pi * depth / 3 * (outer * outer + outer * inner + inner * inner) + disc(hole) * (length - depth)
    wall = math.pi * (outer + inner) * math.hypot(depth, depth) + math.pi * hole * (length - depth)
    return volume, wall


def tail_block(layout):
    """A block less a counterbored hole a string and a countersunk hole a screw, none of which meet."""
    plan = layout["tail"]
    if plan["kind"] == "string through":
        return None
    along, across, above = (plan[key][1] - plan[key][0] for key in ("along_mm", "across_mm", "above_mm"))
    through_string, through_screw = (along, above) if plan["kind"] == "block on the lid" else (above, along)
    volume, curved = along * across * above, 0.0
    for bore in plan["bores"]:
        lost, wall = counterbored(
            through_string, bore["diameter_mm"], bore["ball_diameter_mm"], plan["ball_depth_mm"]
        )
        volume, curved = volume - lost, curved + wall
    for placed in plan["screws"]:
        lost, wall = countersunk(through_screw, placed["clearance_mm"], placed["head_mm"])
        volume, curved = volume - lost, curved + wall
    return Expected(volume, curved)


def coupon(layout, bit):
    """Sizes of the printed coupon, from its description: 2 mm of wall beside and under every slot and round the bore, 6 mm
    of bore behind the counterbore, at most 6 mm of a slot's or a counterbore's depth. Of the saddle's foot 12 mm, or as much
    as makes it 1 mm longer than thick and than two diameters of the bit.

    Width and depth of each slot, the bore or `None`, how deep its counterbore is, the foot as length, thickness and what is
    let in, or `None`, and the bar: across, along and up.
    """
    nut, tail, saddle = layout["nut"], layout["tail"], layout["saddle"]
    deep = lambda slot: nut["top_z_mm"] - slot["front"]["z_mm"]
    slots = [(s["width_mm"], min(max(deep(s), s["width_mm"]), max(6.0, s["width_mm"]))) for s in nut["slots"]]
    bore = None if tail["kind"] == "string through" else tail["bores"][0]
    ball_depth = min(tail["ball_depth_mm"], 6.0)
    foot = None
    if saddle["let_in_mm"] > 0:
        length = min(max(12.0, 1.0 + max(saddle["thickness_mm"], 2 * bit)), saddle["ends_mm"][1] - saddle["ends_mm"][0])
        foot = (length, saddle["thickness_mm"], saddle["let_in_mm"])
    ball = bore["ball_diameter_mm"] if bore else 0.0
    width = 2.0 + sum(slot + 2.0 for slot, _ in slots) + (ball + 2.0 if bore else 0.0) + (foot[0] if foot else 0.0)
    height = max(max(depth for _, depth in slots) + 2.0, ball + 4.0)
    return slots, bore, ball_depth, foot, (width, ball_depth + 6.0, height)


def coupon_printed(layout, bit):
    """A bar less round-bottomed slots and a counterbored bore, and behind it the saddle's foot."""
    slots, bore, ball_depth, foot, (width, length, height) = coupon(layout, bit)
    volume, curved = width * length * height, 0.0
    for slot, depth in slots:
        volume -= (slot * (depth - slot / 2) + disc(slot) / 2) * length
        curved += math.pi * slot / 2 * length
    if bore:
        lost, wall = counterbored(length, bore["diameter_mm"], bore["ball_diameter_mm"], ball_depth)
        volume, curved = volume - lost, curved + wall
    if foot:
        volume += foot[0] * foot[1] * (height + foot[2])
    return Expected(volume, curved)


def tail_guide(build):
    """A plate, and on its edges a ledge and two cheeks, less the bores through the plate."""
    guide = jigs.tail_guide(build)
    outer = 2 * guide["half"] * (guide["height"] + jigs.WALL)
    tray = outer - 2 * guide["room"] * guide["height"]
    bores = len(guide["bores"])
    volume = outer * jigs.GUIDE + tray * guide["reach"] - bores * disc(guide["bore"]) * jigs.GUIDE
    return Expected(volume, bores * math.pi * guide["bore"] * jigs.GUIDE)


def fret_jig(build, number):
    """Fence and spine over the whole length, and between the slots a comb as wide as the rest of the neck.

    The width is linear along the neck: a slot takes its width in the middle times how wide it is.
    """
    section = jigs.sections(build)[number - 1]
    start, end = jigs.ends(section)
    length, mean = end - start, jigs.half(build.layout, (start + end) / 2)
    fence = jigs.FENCE * (jigs.THICKNESS + jigs.HOOK) * length
    plate = 2 * mean * jigs.THICKNESS * length
    for _, x in section:
        plate -= (2 * jigs.half(build.layout, x) - jigs.SPINE) * jigs.kerf(build) * jigs.THICKNESS
    count, deep = len(list(jigs.dimples(build, section))), jigs.THICKNESS / 2
    volume = fence + plate - count * disc(jigs.DIMPLE) * deep
    return Expected(volume, count * math.pi * jigs.DIMPLE * deep)


def heel_block(layout):
    """A bevelled piece and a full one.

    The bevel takes the width from `w0` to `w1` while the height goes from `h0` to `h1`: a product of two linear sizes,
    so the prismatoid rule is exact with the means of both in the middle. In the full piece every level section is a
    trapezoid between the widths `w1` and `w2`, as long as the piece is at that height: the mean width times the area
    seen from the side.
    """
    plan = layout["heel"]
    if plan is None:
        return None
    height, front_x = plan["top_z_mm"] - plan["bottom_z_mm"], plan["front_x_mm"]
    bevel = min(plan["reach_mm"] / 2, height / 2)
    share = bevel / (plan["wall_x_mm"][0] - front_x)
    w0, w2 = plan["front_width_mm"], plan["box_width_mm"]
    w1 = w0 + (w2 - w0) * share
    h0, h1 = height - bevel, height
    bevelled = bevel / 6 * (w0 * h0 + 4 * (w0 + w1) / 2 * (h0 + h1) / 2 + w1 * h1)
    seen = [
        (front_x + bevel, plan["bottom_z_mm"]), (plan["wall_x_mm"][1], plan["bottom_z_mm"]),
        (plan["wall_x_mm"][0], plan["top_z_mm"]), (front_x + bevel, plan["top_z_mm"]),
    ]
    # The bevelled piece is ruled between lines that are not parallel when the neck tapers; so is the side of the
    # full piece when its wall leans.
    twisted = 0.0 if w0 == w2 else 2 * polygon_area(seen) + 2 * bevel * height
    return Expected(bevelled + (w1 + w2) / 2 * polygon_area(seen), twisted)


def fretboard(layout):
    """A plank with slots.

    Flat: the width is linear in `x`, so plank and slots measure their mean width times their length. Crowned: what is
    missing above the edges of a crowned section of width `w` is `w s - segment(w)`, where `s` is the sagitta. A slot
    takes the same off a section, its width times its depth, because its floor is crowned like the top. The missing area
    is not linear in `x`; between two stations the loft is ruled, so its volume is found by the divergence theorem.
    """
    thickness, radius_mm = layout["fretboard"]["thickness_mm"], layout["fretboard"]["radius_mm"]
    if thickness == 0.0:
        return None
    start, end = board_ends(layout)
    width = lambda x: neck_width(layout, x)
    slots = sum(width(g["x_mm"]) * g["width_mm"] * g["depth_mm"] for g in layout["grooves"])
    if radius_mm is None:
        return Expected((width(start) + width(end)) / 2 * (end - start) * thickness - slots, 0.0)

    def ring(x, depth):
        half = width(x) / 2
        sweep = math.asin(half / radius_mm)
        edge = radius_mm * (math.cos(sweep) - 1) - depth
        return [
            (x, -half, -thickness, 0.0), (x, half, -thickness, 0.0),
            (x, half, edge, math.tan(sweep / 2)), (x, -half, edge, 0.0),
        ]

    pieces, at = [], start
    for groove in layout["grooves"]:
        low, high = groove_ends(groove)
        pieces += [(ring(at, 0.0), ring(low, 0.0)), (ring(low, groove["depth_mm"]), ring(high, groove["depth_mm"]))]
        at = high
    pieces.append((ring(at, 0.0), ring(end, 0.0)))
    volume = sum(loft_volume(a, b) for a, b in pieces)
    return Expected(volume, (end - start) * max(width(start), width(end)) * 1.1)


def neck(layout, drawn=None):
    """Headstock, playing length and tongue, less grooves and bores.

    Headstock and tongue are as wide throughout as they are at their ends: width times the area seen from the side; of a
    headstock that was drawn, its area times its thickness and what lies under the nut. The playing length is a chain of lofts:
    see `playing_length`.
    """
    plan = layout["neck"]
    head, _, tongue = neck_side_polygons(layout)
    head_thickness = plan["head_top_z_mm"] - plan["bottom_z_mm"]
    volume, curved = plan["width_at_nut_mm"] * polygon_area(head), 0.0
    if drawn:
        under_nut = plan["width_at_nut_mm"] * (plan["nut_front_x_mm"] - layout["nut"]["rear_x_mm"])
        volume = (brought.area(drawn) + under_nut) * head_thickness
        # Its edge is no longer than round its bounds, twice.
        left, low, right, high = brought.bounds(drawn)
        curved = 4 * (right - left + high - low) * head_thickness
    for tuner in layout["tuners"]:
        volume -= disc(tuner["diameter_mm"]) * head_thickness
        curved += math.pi * tuner["diameter_mm"] * head_thickness
    if tongue is not None:
        volume += plan["width_at_box_mm"] * polygon_area(tongue)
    if layout["tail"]["kind"] == "string through":
        length = string_entry_z(layout) - plan["bottom_z_mm"]
        for bore in layout["tail"]["bores"]:
            lost, wall = counterbored(
                length, bore["diameter_mm"], bore["ball_diameter_mm"], layout["tail"]["ball_depth_mm"]
            )
            volume, curved = volume - lost, curved + wall
    playing = playing_length(layout)
    return Expected(volume + playing.volume, curved + playing.curved_area)


def playing_length(layout):
    """From the nut to the box wall.

    Where sections are square or eased and the wall is upright, the area of a section is linear in its width: `w t` less
    `2 (1 - pi/4) r^2` for the two eased edges, a square less a quarter of a disc each. The volume is then the mean width
    times thickness and length, less the edges, less each groove's width, depth and the neck's width there. Otherwise
    each loft is measured by the divergence theorem.
    """
    plan, frame = layout["neck"], BoxFrame(layout)
    start, top, bottom = plan["nut_front_x_mm"], plan["top_z_mm"], plan["bottom_z_mm"]
    grooves = layout["grooves"] if top == 0.0 else []
    thickness, length = top - bottom, plan["box_x_mm"] - start
    edge = plan["edge_radius_mm"] if plan["section"] == "eased" else 0.0
    if plan["section"] != "oval" and frame.angle == 0.0:
        mean = (plan["width_at_nut_mm"] + plan["width_at_box_mm"]) / 2
        volume = mean * thickness * length - 2 * (1 - math.pi / 4) * edge * edge * length
        volume -= sum(g["width_mm"] * g["depth_mm"] * neck_width(layout, g["x_mm"]) for g in grooves)
        return Expected(volume, math.pi * edge * length)
    return Expected(playing_length_by_lofts(layout), math.pi * plan["width_at_nut_mm"] * length)


def playing_length_by_lofts(layout):
    """The playing length as a chain of ruled solids, each measured by the divergence theorem."""
    plan, frame = layout["neck"], BoxFrame(layout)
    grooves = layout["grooves"] if plan["top_z_mm"] == 0.0 else []

    def ring(x, depth):
        corners = neck_ring(plan, neck_width(layout, x))
        lowered = [(y, z - depth if index < 2 else z, bulge) for index, (y, z, bulge) in enumerate(corners)]
        return [(x, y, z, bulge) for y, z, bulge in lowered]

    pieces, at = [], plan["nut_front_x_mm"]
    for groove in grooves:
        low, high = groove_ends(groove)
        pieces += [(ring(at, 0.0), ring(low, 0.0)), (ring(low, groove["depth_mm"]), ring(high, groove["depth_mm"]))]
        at = high
    pieces.append((ring(at, 0.0), on_slanting_wall(frame, neck_ring(plan, plan["width_at_box_mm"]))))
    return sum(loft_volume(a, b) for a, b in pieces)


def on_slanting_wall(frame, corners):
    """A section as the wall cuts it, heights `1 / cos` longer there. Its arcs are circles through the ends and the middle of the cut.

    An arc's middle lies the sagitta, bulge times half the chord, beside the chord's middle, square to it; stretched with the wall, its
    distance from the stretched chord over half of that is the bulge there.
    """
    stretch = 1 / math.cos(frame.angle)
    found = []
    for (y, z, bulge), (next_y, next_z, _) in zip(corners, corners[1:] + corners[:1]):
        along, up = next_y - y, next_z - z
        chord, beside = (along, stretch * up), (bulge * up / 2, -stretch * bulge * along / 2)
        length = math.hypot(*chord)
        distance = (beside[0] * chord[1] - beside[1] * chord[0]) / length
        found.append((frame.wall_x(z), y, z, 2 * distance / length))
    return found


def neck_ring(plan, width):
    """Corners and bulges of a section, counter-clockwise seen from the tail, from the treble edge of the top.

    The oval is a three-centred arch of rise `b` over a half width `a`: small arcs of radius `r`, a large one of radius
    `R`. The large circle's centre lies on the centre line, the small one's `a - r` beside it, and they touch where the
    line through the centres meets them: `(R - r)^2 = (a - r)^2 + (R - b)^2`, which gives
    `R = (a^2 + b^2 - 2 a r) / (2 (b - r))`.
    """
    half, top, bottom = width / 2, plan["top_z_mm"], plan["bottom_z_mm"]
    if plan["section"] == "square":
        return [(half, top, 0.0), (-half, top, 0.0), (-half, bottom, 0.0), (half, bottom, 0.0)]
    if plan["section"] == "eased":
        edge, quarter = plan["edge_radius_mm"], math.tan(math.pi / 8)
        return [
            (half, top, 0.0), (-half, top, 0.0), (-half, bottom + edge, quarter), (edge - half, bottom, 0.0),
            (half - edge, bottom, quarter), (half, bottom + edge, 0.0),
        ]
    # The arch takes 60 % of the thickness, at most 90 % of the half width; the small radius is half of its rise.
    a, b = half, min(0.6 * (top - bottom), 0.9 * half)
    r = b / 2
    big = (a * a + b * b - 2 * a * r) / (2 * (b - r))
    lean = math.atan2(a - r, big - b)
    meet_y, meet_z = (a - r) + r * math.sin(lean), bottom + b - r * math.cos(lean)
    shoulder, flat = math.tan((math.pi / 2 - lean) / 4), math.tan(lean / 2)
    return [
        (a, top, 0.0), (-a, top, 0.0), (-a, bottom + b, shoulder), (-meet_y, meet_z, flat),
        (meet_y, meet_z, shoulder), (a, bottom + b, 0.0),
    ]


GAUSS = numpy.polynomial.legendre.leggauss(24)


def loft_volume(start, end):
    """Volume of the solid between two rings of `(x, y, z, bulge)`, ruled between points at equal shares of their sides.

    A third of the integral of `r . (r_s x r_t)` over the sides `r(s, t) = (1 - t) A(s) + t B(s)`, and of the flat caps.
    Quadratic in `t`, so two Gauss points are exact; along an arc 24 points are good to the last digits. Rings run
    counter-clockwise seen from the end's side, and an arc that turns left does so about the ring's own normal.
    """
    total = 0.0
    shares, weights = (GAUSS[0] + 1) / 2, GAUSS[1] / 2
    rows = numpy.polynomial.legendre.leggauss(2)
    normals = [ring_normal(ring) for ring in (start, end)]
    for index in range(len(start)):
        sides = [side(ring, index, normal, shares) for ring, normal in zip((start, end), normals)]
        (a, a_s), (b, b_s) = sides
        for t, weight in zip((rows[0] + 1) / 2, rows[1] / 2):
            r, r_s, r_t = (1 - t) * a + t * b, (1 - t) * a_s + t * b_s, b - a
            total += weight * numpy.sum(weights * numpy.einsum("ij,ij->i", r, numpy.cross(r_s, r_t)))
    for ring, normal, sign in ((start, normals[0], -1.0), (end, normals[1], 1.0)):
        corner = numpy.array(ring[0][:3])
        double_area = 0.0
        for index in range(len(ring)):
            points, tangents = side(ring, index, normal, shares)
            double_area += numpy.sum(weights * (numpy.cross(points - corner, tangents) @ normal))
        total += sign * (corner @ normal) * double_area / 2
    return total / 3


def ring_normal(ring):
    """Newell's normal of the corners."""
    points = numpy.array([corner[:3] for corner in ring])
    normal = numpy.cross(points, numpy.roll(points, -1, axis=0)).sum(axis=0)
    return normal / numpy.linalg.norm(normal)


def side(ring, index, normal, shares):
    """Points and derivatives of one side at shares of its sweep."""
    first, second = numpy.array(ring[index][:3]), numpy.array(ring[(index + 1) % len(ring)][:3])
    bulge, chord, column = ring[index][3], second - first, shares[:, None]
    if bulge == 0.0:
        return first + column * chord, numpy.tile(chord, (len(shares), 1))
    centre = first + chord / 2 + numpy.cross(normal, chord) * (1 - bulge * bulge) / (4 * bulge)
    spoke = first - centre
    across, sweep = numpy.cross(normal, spoke), 4 * math.atan(bulge)
    angle = sweep * column
    points = centre + spoke * numpy.cos(angle) + across * numpy.sin(angle)
    return points, sweep * (across * numpy.cos(angle) - spoke * numpy.sin(angle))

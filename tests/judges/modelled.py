"""What does another kernel make of the same numbers, by ordinary modelling?

Each part is built from `layout.json` alone with OpenCascade, as a person at a modeller would: extrude, cut, fillet,
intersect. None of it follows the program's own way (sections and lofts), so that a mistake made there is not made here.
Every solid is returned as it lies to be made, its lower left at the origin.
"""

import math

from OCP.Bnd import Bnd_Box
from OCP.BRepAlgoAPI import BRepAlgoAPI_Common, BRepAlgoAPI_Cut, BRepAlgoAPI_Fuse
from OCP.BRepBndLib import BRepBndLib
from OCP.BRepBuilderAPI import (
    BRepBuilderAPI_MakeEdge, BRepBuilderAPI_MakeFace, BRepBuilderAPI_MakePolygon, BRepBuilderAPI_MakeWire,
    BRepBuilderAPI_Transform,
)
from OCP.BRepFilletAPI import BRepFilletAPI_MakeFillet
from OCP.BRepGProp import BRepGProp
from OCP.BRepOffsetAPI import BRepOffsetAPI_ThruSections
from OCP.BRepPrimAPI import (
    BRepPrimAPI_MakeBox, BRepPrimAPI_MakeCone, BRepPrimAPI_MakeCylinder, BRepPrimAPI_MakePrism,
)
from OCP.GC import GC_MakeArcOfCircle
from OCP.GProp import GProp_GProps
from OCP.gp import gp_Ax1, gp_Ax2, gp_Dir, gp_Pnt, gp_Trsf, gp_Vec
from OCP.TopAbs import TopAbs_EDGE
from OCP.TopExp import TopExp_Explorer
from OCP.TopoDS import TopoDS

import jigs
from frame import BoxFrame, board_ends, neck_side_polygons, neck_width, string_entry_z
from volumes import coupon, neck_ring, saddle_crests, saddle_profile, slot_across_nut

FAR = 1000.0


def nut(layout):
    """A block, and a long rounded cutter pushed along the floor of each slot."""
    plan = layout["nut"]
    half, front, rear = plan["length_mm"] / 2, plan["front_x_mm"], plan["rear_x_mm"]
    solid = box((rear, -half, plan["base_z_mm"]), (front, half, plan["top_z_mm"]))
    for slot in plan["slots"]:
        start, end, radius = slot["rear"], slot["front"], slot_across_nut(slot) / 2
        push = [end[axis] - start[axis] for axis in ("x_mm", "y_mm", "z_mm")]
        y, z = start["y_mm"], start["z_mm"] + radius
        # Begun a whole slot's length before the block and ended as much behind it.
        at = lambda dy, dz: gp_Pnt(rear - push[0], y + dy - push[1], z + dz - push[2])
        wire = wire_of([
            ("line", at(radius, 50), at(-radius, 50)), ("line", at(-radius, 50), at(-radius, 0)),
            ("arc", at(-radius, 0), at(0, -radius), at(radius, 0)), ("line", at(radius, 0), at(radius, 50)),
        ])
        solid = cut(solid, prism(face_of(wire), [3 * part for part in push]))
    return settled(solid)


def saddle(layout):
    """Pieces of a tall and wide profile pushed from crest to crest, within the foot's outline and cut level below."""
    plan = layout["saddle"]
    _, half, flanks = saddle_profile(layout)
    (front, front_out, front_down), (rear, rear_out, rear_down) = flanks
    wide, crests, solid = 2 * plan["thickness_mm"], saddle_crests(layout), None
    foot = lambda angle, out, down: down + (wide - out) * math.tan(angle)
    for (from_y, from_z, from_x), (to_y, to_z, to_x) in zip(crests, crests[1:]):
        at = lambda x, down: gp_Pnt(from_x + x, from_y, from_z - down)
        front_foot, rear_foot = at(-wide, foot(*flanks[0])), at(wide, foot(*flanks[1]))
        wire = wire_of([
            ("line", at(-wide, 200), at(wide, 200)), ("line", at(wide, 200), rear_foot),
            ("line", rear_foot, at(rear_out, rear_down)),
            ("arc", at(rear_out, rear_down), at(0, 0), at(-front_out, front_down)),
            ("line", at(-front_out, front_down), front_foot), ("line", front_foot, at(-wide, 200)),
        ])
        piece = prism(face_of(wire), (to_x - from_x, to_y - from_y, to_z - from_z))
        solid = piece if solid is None else fuse(solid, piece)
    return settled(common(solid, box((-half, -FAR, -plan["let_in_mm"]), (half, FAR, FAR))))


def tail_block(layout):
    """A block on its foot; along the strings is `x`. Cylinders and cones are cut from it."""
    plan = layout["tail"]
    if plan["kind"] == "string through":
        return None
    (near, far), (left, right), (low, high) = plan["along_mm"], plan["across_mm"], plan["above_mm"]
    solid = box((near, left, low), (far, right, high))
    on_lid = plan["kind"] == "block on the lid"
    for bore in plan["bores"]:
        across = bore["across_mm"]
        if on_lid:
            mouth, way = (far, across, bore["above_mm"]), (-1, 0, 0)
        else:
            mouth, way = (bore["along_mm"], across, low), (0, 0, 1)
        solid = cut(solid, cylinder(mouth, way, bore["diameter_mm"] / 2, FAR))
        solid = cut(solid, cylinder(mouth, way, bore["ball_diameter_mm"] / 2, plan["ball_depth_mm"]))
    for placed in plan["screws"]:
        across = placed["across_mm"]
        mouth, way = (((near + far) / 2, across, high), (0, 0, -1)) if on_lid else ((far, across, (low + high) / 2), (-1, 0, 0))
        solid = cut(solid, cylinder(mouth, way, placed["clearance_mm"] / 2, FAR))
        outer, inner = placed["head_mm"] / 2, placed["clearance_mm"] / 2
        cone = BRepPrimAPI_MakeCone(gp_Ax2(gp_Pnt(*mouth), gp_Dir(*way)), outer, inner, outer - inner).Shape()
        solid = cut(solid, cone)
    return settled(solid)


def coupon_printed(layout, bit):
    """A box, a rounded cutter for each slot, two cylinders, and a box behind it. Along the strings is `x`."""
    slots, bore, ball_depth, foot, (width, length, height) = coupon(layout, bit)
    solid, edge = box((0, 0, 0), (length, width, height)), 0.0
    for slot, depth in slots:
        middle, radius = edge + 2.0 + slot / 2, slot / 2
        floor = height - depth + radius
        solid = cut(solid, cylinder((-1, middle, floor), (1, 0, 0), radius, length + 2))
        solid = cut(solid, box((-1, middle - radius, floor), (length + 1, middle + radius, height + 1)))
        edge = middle + radius
    if bore:
        mouth = (0, edge + 2.0 + bore["ball_diameter_mm"] / 2, height / 2)
        solid = cut(solid, cylinder(mouth, (1, 0, 0), bore["diameter_mm"] / 2, length))
        solid = cut(solid, cylinder(mouth, (1, 0, 0), bore["ball_diameter_mm"] / 2, ball_depth))
    if foot:
        solid = fuse(solid, box((length, width - foot[0], 0), (length + foot[1], width, height + foot[2])))
    return settled(solid)


def tail_guide(build):
    """A box less the room for what is bored, cylinders through its plate; on its plate, with the ledge at its lower edge."""
    guide = jigs.tail_guide(build)
    half, room, height, reach = guide["half"], guide["room"], guide["height"], guide["reach"]
    solid = box((-half, -jigs.WALL, -jigs.GUIDE), (half, height, reach))
    solid = cut(solid, box((-room, 0, 0), (room, height + 1, reach + 1)))
    for across, up in guide["bores"]:
        # Seen along the bit; the plate lies on the bed, and the bit comes from below.
        solid = cut(solid, cylinder((-across, up, -jigs.GUIDE - 1), (0, 0, 1), guide["bore"] / 2, jigs.GUIDE + 2))
    return settled(solid)


def fret_jig(build, number):
    """A plate and a fence pushed up, slots cut across, dimples; on its back."""
    section = jigs.sections(build)[number - 1]
    start, end = jigs.ends(section)
    half = lambda x: jigs.half(build.layout, x)
    plate = pushed_up([(start, -half(start) - jigs.FENCE), (end, -half(end) - jigs.FENCE), (end, half(end)), (start, half(start))])
    fence = pushed_up([(start, -half(start) - jigs.FENCE), (end, -half(end) - jigs.FENCE), (end, -half(end)), (start, -half(start))])
    solid = common(plate, box((-FAR, -FAR, 0), (FAR, FAR, jigs.THICKNESS)))
    spine = pushed_up([
        (start - 9, -half(start - 9) - 9), (end + 9, -half(end + 9) - 9),
        (end + 9, jigs.SPINE - half(end + 9)), (start - 9, jigs.SPINE - half(start - 9)),
    ])
    for slot in section:
        kerf = jigs.kerf(build) / 2
        solid = cut(solid, cut(box((slot[1] - kerf, -FAR, -FAR), (slot[1] + kerf, FAR, FAR)), spine))
    solid = fuse(solid, common(fence, box((-FAR, -FAR, -jigs.HOOK), (FAR, FAR, jigs.THICKNESS))))
    for x, y in jigs.dimples(build, section):
        solid = cut(solid, cylinder((x, y, jigs.THICKNESS), (0, 0, -1), jigs.DIMPLE / 2, jigs.THICKNESS / 2))
    upside_down = gp_Trsf()
    upside_down.SetRotation(gp_Ax1(gp_Pnt(0, 0, 0), gp_Dir(1, 0, 0)), math.pi)
    return settled(moved(solid, upside_down))


def heel_block(layout):
    """The side view pushed across, within the outline seen from below, which tapers as far as the wall's top."""
    plan = layout["heel"]
    if plan is None:
        return None
    height, front = plan["top_z_mm"] - plan["bottom_z_mm"], plan["front_x_mm"]
    top, bottom, (wall_top, wall_bottom) = plan["top_z_mm"], plan["bottom_z_mm"], plan["wall_x_mm"]
    bevel = min(plan["reach_mm"] / 2, height / 2)
    side_view = [(front, top), (front, bottom + bevel), (front + bevel, bottom), (wall_bottom, bottom), (wall_top, top)]
    a, b = plan["front_width_mm"] / 2, plan["box_width_mm"] / 2
    beyond = max(wall_top, wall_bottom)
    plan_view = [(front, -a), (wall_top, -b), (beyond + 1, -b), (beyond + 1, b), (wall_top, b), (front, a)]
    solid = common(pushed_across(side_view), pushed_up(plan_view))
    upside_down = gp_Trsf()
    upside_down.SetRotation(gp_Ax1(gp_Pnt(0, 0, 0), gp_Dir(1, 0, 0)), math.pi)
    return settled(moved(solid, upside_down))


def fretboard(layout):
    """The outline pushed up, under a cylinder where the board is crowned, with a saw cut a groove."""
    thickness, radius_mm = layout["fretboard"]["thickness_mm"], layout["fretboard"]["radius_mm"]
    if thickness == 0.0:
        return None
    start, end = board_ends(layout)
    a, b = neck_width(layout, start) / 2, neck_width(layout, end) / 2
    solid = common(
        pushed_up([(start, -a), (end, -b), (end, b), (start, a)]), box((-FAR, -FAR, -thickness), (FAR * 2, FAR, 0))
    )
    crown = lambda depth: cylinder((-FAR, 0, -radius_mm - depth), (1, 0, 0), radius_mm, 3 * FAR)
    if radius_mm is not None:
        solid = common(solid, crown(0.0))
    for groove in layout["grooves"]:
        half, depth = groove["width_mm"] / 2, groove["depth_mm"]
        kerf = box((groove["x_mm"] - half, -FAR, -FAR), (groove["x_mm"] + half, FAR, FAR))
        floor = box((-FAR, -FAR, -depth), (2 * FAR, FAR, FAR)) if radius_mm is None else None
        saw = common(kerf, floor) if radius_mm is None else cut(kerf, crown(depth))
        if radius_mm is not None:
            # Below its axis the crown's cylinder ends; a saw cuts from above only.
            saw = common(saw, box((-FAR, -FAR, -thickness), (2 * FAR, FAR, FAR)))
        solid = cut(solid, saw)
    return settled(solid)


def neck(layout, drawn=None):
    """The side view pushed across within the plan; eased edges are fillets, an oval back a loft; then cuts and bores."""
    plan, frame = layout["neck"], BoxFrame(layout)
    head, playing, tongue = neck_side_polygons(layout)
    box_x, end = plan["box_x_mm"], plan["tail_end_x_mm"]
    a, b = plan["width_at_nut_mm"] / 2, plan["width_at_box_mm"] / 2
    nut_x, wall_x = plan["nut_front_x_mm"], frame.wall_x(plan["bottom_z_mm"])
    last = max(box_x, frame.wall_x(plan["top_z_mm"]), wall_x) + 1
    taper = pushed_up([(nut_x, -a), (box_x, -b), (last, -b), (last, b), (box_x, b), (nut_x, a)])
    stick = common(pushed_across(playing), taper)
    if plan["section"] == "eased":
        stick = filleted_below(stick, plan["bottom_z_mm"], plan["edge_radius_mm"])
    if plan["section"] == "oval":
        loft = BRepOffsetAPI_ThruSections(True, True)
        # The arch does not grow in proportion to the width: twenty stations follow it to 1e-6 of the volume. Beyond the
        # box, where a leaning wall may still have some of the neck, the width stays.
        for x in [nut_x + (box_x - nut_x) * share / 20 for share in range(21)] + [last]:
            loft.AddWire(ring_wire(plan, x, neck_width(layout, x)))
        stick = common(pushed_across(playing), loft.Shape())
    if drawn:
        under_nut = box((layout["nut"]["rear_x_mm"], -a, plan["bottom_z_mm"]), (nut_x, a, plan["head_top_z_mm"]))
        thick = plan["head_top_z_mm"] - plan["bottom_z_mm"]
        solid = fuse(fuse(stick, under_nut), prism(face_of(loop_wire(drawn, plan["bottom_z_mm"])), (0, 0, thick)))
    else:
        solid = fuse(stick, between_y(head, a))
    if tongue is not None:
        solid = fuse(solid, between_y(tongue, b))
    if plan["top_z_mm"] == 0.0:
        for groove in layout["grooves"]:
            half = groove["width_mm"] / 2
            x = groove["x_mm"]
            solid = cut(solid, box((x - half, -FAR, -groove["depth_mm"]), (x + half, FAR, FAR)))
    for tuner in layout["tuners"]:
        mouth = tuner["bore"]
        at = (mouth["x_mm"], mouth["y_mm"], plan["bottom_z_mm"] - 1)
        solid = cut(solid, cylinder(at, (0, 0, 1), tuner["diameter_mm"] / 2, FAR))
    if layout["tail"]["kind"] == "string through":
        for bore, string in zip(layout["tail"]["bores"], layout["strings"]):
            at = (string["tail"]["x_mm"], string["tail"]["y_mm"], plan["bottom_z_mm"])
            solid = cut(solid, cylinder(at, (0, 0, 1), bore["diameter_mm"] / 2, FAR))
            solid = cut(solid, cylinder(at, (0, 0, 1), bore["ball_diameter_mm"] / 2, layout["tail"]["ball_depth_mm"]))
    return settled(solid)


def ring_wire(plan, x, width):
    corners = neck_ring(plan, width)
    sides = []
    for (y, z, bulge), (next_y, next_z, _) in zip(corners, corners[1:] + corners[:1]):
        a, b = gp_Pnt(x, y, z), gp_Pnt(x, next_y, next_z)
        if bulge == 0.0:
            sides.append(("line", a, b))
        else:
            # The middle of an arc lies the sagitta, bulge times half the chord, to the right of the chord.
            middle = gp_Pnt(x, (y + next_y) / 2 + bulge * (next_z - z) / 2, (z + next_z) / 2 - bulge * (next_y - y) / 2)
            sides.append(("arc", a, middle, b))
    return wire_of(sides)


def loop_wire(corners, z):
    """A loop of corners with bulges, level at a height."""
    sides = []
    for (x, y, bulge), (next_x, next_y, _) in zip(corners, corners[1:] + corners[:1]):
        a, b = gp_Pnt(x, y, z), gp_Pnt(next_x, next_y, z)
        if bulge == 0.0:
            sides.append(("line", a, b))
        else:
            middle = gp_Pnt((x + next_x) / 2 + bulge * (next_y - y) / 2, (y + next_y) / 2 - bulge * (next_x - x) / 2, z)
            sides.append(("arc", a, middle, b))
    return wire_of(sides)


def filleted_below(solid, bottom_z, radius):
    """Rounds the long edges between sides and underside."""
    fillet = BRepFilletAPI_MakeFillet(solid)
    explorer, seen = TopExp_Explorer(solid, TopAbs_EDGE), []
    while explorer.More():
        edge = TopoDS.Edge(explorer.Current())
        low, high = bounds(edge)
        long = high[0] - low[0] > 20 and abs(high[2] - bottom_z) < 1e-3 and abs(low[2] - bottom_z) < 1e-3
        if long and not any(edge.IsSame(other) for other in seen):
            seen.append(edge)
            fillet.Add(radius, edge)
        explorer.Next()
    return fillet.Shape()


def wire_of(sides):
    wire = BRepBuilderAPI_MakeWire()
    for kind, *points in sides:
        curve = GC_MakeArcOfCircle(*points).Value() if kind == "arc" else None
        edge = BRepBuilderAPI_MakeEdge(curve) if curve is not None else BRepBuilderAPI_MakeEdge(*points)
        wire.Add(edge.Edge())
    return wire.Wire()


def face_of(wire):
    return BRepBuilderAPI_MakeFace(wire, True).Face()


def polygon(points):
    maker = BRepBuilderAPI_MakePolygon()
    for point in points:
        maker.Add(gp_Pnt(*point))
    maker.Close()
    return face_of(maker.Wire())


def prism(face, push):
    return BRepPrimAPI_MakePrism(face, gp_Vec(*push)).Shape()


def pushed_across(side_view):
    return between_y(side_view, FAR)


def between_y(side_view, half):
    return prism(polygon([(x, -half, z) for x, z in side_view]), (0, 2 * half, 0))


def pushed_up(plan_view):
    return prism(polygon([(x, y, -FAR) for x, y in plan_view]), (0, 0, 2 * FAR))


def box(low, high):
    return BRepPrimAPI_MakeBox(gp_Pnt(*low), gp_Pnt(*high)).Shape()


def cylinder(start, way, radius, length):
    return BRepPrimAPI_MakeCylinder(gp_Ax2(gp_Pnt(*start), gp_Dir(*way)), radius, length).Shape()


def cut(solid, tool):
    return BRepAlgoAPI_Cut(solid, tool).Shape()


def fuse(solid, other):
    return BRepAlgoAPI_Fuse(solid, other).Shape()


def common(solid, other):
    return BRepAlgoAPI_Common(solid, other).Shape()


def moved(solid, motion):
    return BRepBuilderAPI_Transform(solid, motion, True).Shape()


def settled(solid):
    """Its lower left at the origin."""
    low, _ = bounds(solid)
    motion = gp_Trsf()
    motion.SetTranslation(gp_Vec(*[-value for value in low]))
    return moved(solid, motion)


def bounds(shape):
    """The smallest box, without the kernel's own tolerance round it."""
    found = Bnd_Box()
    BRepBndLib.AddOptimal_s(shape, found, False, False)
    low, high = found.CornerMin(), found.CornerMax()
    return (low.X(), low.Y(), low.Z()), (high.X(), high.Y(), high.Z())


def measured(shape):
    """Volume and centre of mass.

    Integrated adaptively: with its fixed number of points the kernel is off by 1e-4 on rational surfaces.
    """
    properties = GProp_GProps()
    BRepGProp.VolumeProperties_s(shape, properties, 1e-5, True, False)
    centre = properties.CentreOfMass()
    return properties.Mass(), (centre.X(), centre.Y(), centre.Z())

"""How long do other kernels take for the same parts?

Builds the nut, the tail block and the fretboard of one build from its `layout.json`, with OpenCascade (a model and its
triangles; a model and its STEP text on disk) and with manifold3d (its own booleans to triangles), and writes medians in
milliseconds as JSON; OpenCascade prints what it pleases. Called by `tests/bench`: `solids.py LAYOUT.json PEERS.json`.
"""

import json
import math
import pathlib
import statistics
import sys
import tempfile
import time

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parents[1] / "judges"))

import manifold3d
import numpy
from OCP.BRepMesh import BRepMesh_IncrementalMesh
from OCP.STEPControl import STEPControl_AsIs, STEPControl_Writer

import modelled
from frame import board_ends, neck_width

# The chord tolerance of our own meshes, in millimetres.
CHORD = 0.02


def sides(radius):
    """How many chords a full circle takes at the tolerance: each subtends `2 acos(1 - tolerance / radius)`."""
    return max(8, math.ceil(math.pi / math.acos(1 - CHORD / radius)))


def block(low, high):
    return manifold3d.Manifold.cube([b - a for a, b in zip(low, high)]).translate(low)


def rod(start, way, radius, length, radius_far=None):
    """A round rod; `way` is one axis, with its sign."""
    rod = manifold3d.Manifold.cylinder(length, radius, radius if radius_far is None else radius_far, sides(radius))
    turn = {(1, 0, 0): (0, 90, 0), (-1, 0, 0): (0, -90, 0), (0, 0, 1): (0, 0, 0), (0, 0, -1): (180, 0, 0)}[way]
    return rod.rotate(turn).translate(start)


def nut(layout):
    plan = layout["nut"]
    half = plan["length_mm"] / 2
    solid = block((plan["rear_x_mm"], -half, plan["base_z_mm"]), (plan["front_x_mm"], half, plan["top_z_mm"]))
    for slot in plan["slots"]:
        ends, radius = [slot[end] for end in ("rear", "front")], slot["width_mm"] / 2
        count = sides(radius) // 2 + 1
        arc = [(math.cos(a), math.sin(a)) for a in numpy.linspace(math.pi, 2 * math.pi, count)]
        ring = [(radius * y, radius * z) for y, z in arc] + [(radius, 50.0), (-radius, 50.0)]
        # The rounded profile at both faces, a little beyond them: the hull of two convex ends is the pushed cutter.
        points = []
        for share in (-0.5, 1.5):
            x, y, z = (ends[0][a] + (ends[1][a] - ends[0][a]) * share for a in ("x_mm", "y_mm", "z_mm"))
            points += [(x, y + dy, z + radius + dz) for dy, dz in ring]
        solid -= manifold3d.Manifold.hull_points(numpy.array(points))
    return solid


def tail_block(layout):
    plan = layout["tail"]
    (near, far), (left, right), (low, high) = plan["along_mm"], plan["across_mm"], plan["above_mm"]
    solid = block((near, left, low), (far, right, high))
    on_lid = plan["kind"] == "block on the lid"
    for bore in plan["bores"]:
        y = bore["across_mm"]
        mouth, way = ((far, y, bore["above_mm"]), (-1, 0, 0)) if on_lid else ((bore["along_mm"], y, low), (0, 0, 1))
        solid -= rod(mouth, way, bore["diameter_mm"] / 2, 100.0)
        solid -= rod(mouth, way, bore["ball_diameter_mm"] / 2, plan["ball_depth_mm"])
    for placed in plan["screws"]:
        y, outer, inner = placed["across_mm"], placed["head_mm"] / 2, placed["clearance_mm"] / 2
        middle = (near + far) / 2, (low + high) / 2
        mouth, way = ((middle[0], y, high), (0, 0, -1)) if on_lid else ((far, y, middle[1]), (-1, 0, 0))
        solid -= rod(mouth, way, inner, 100.0)
        solid -= rod(mouth, way, outer, outer - inner, inner)
    return solid


def fretboard(layout):
    thickness, radius = layout["fretboard"]["thickness_mm"], layout["fretboard"]["radius_mm"]
    start, end = board_ends(layout)
    a, b = neck_width(layout, start) / 2, neck_width(layout, end) / 2
    outline = manifold3d.CrossSection([[(start, -a), (end, -b), (end, b), (start, a)]])
    solid = outline.extrude(thickness).translate((0, 0, -thickness))
    crown = lambda depth: rod((start - 50, 0, -radius - depth), (1, 0, 0), radius, end - start + 100)
    if radius is not None:
        solid ^= crown(0.0)
    for groove in layout["grooves"]:
        half = groove["width_mm"] / 2
        depth = groove["depth_mm"] if radius is None else thickness
        saw = block((groove["x_mm"] - half, -b - 50, -depth), (groove["x_mm"] + half, b + 50, 1.0))
        solid -= saw if radius is None else saw - crown(groove["depth_mm"])
    return solid


PARTS = {
    "nut": (modelled.nut, nut),
    "tail-block": (modelled.tail_block, tail_block),
    "fretboard": (modelled.fretboard, fretboard),
}


def occ_mesh(model):
    # The third value is an angle in radians, wide enough to leave the chord to decide.
    BRepMesh_IncrementalMesh(model, CHORD, False, 0.5, False)


def occ_step(model, path):
    writer = STEPControl_Writer()
    writer.Transfer(model, STEPControl_AsIs)
    writer.Write(str(path))


def median_ms(work, rounds):
    times = []
    for _ in range(rounds):
        began = time.perf_counter()
        work()
        times.append((time.perf_counter() - began) * 1000)
    return statistics.median(times)


def main(layout_path, peers_path, rounds=15):
    layout = json.loads(pathlib.Path(layout_path).read_text(encoding="utf-8"))
    rows = {}
    with tempfile.TemporaryDirectory() as folder:
        path = pathlib.Path(folder) / "part.step"
        for name, (occ, manifold) in PARTS.items():
            model = occ(layout)
            if model is None:
                continue
            volume, _ = modelled.measured(model)
            solid = manifold(layout)
            # Two ways to one part, or the times compare nothing: chords take 0.24 % off a thin crowned board.
            assert abs(solid.volume() / volume - 1) < 5e-3, f"{name}: {solid.volume()} and {volume} mm3"
            rows[name] = {
                "occ_mesh_ms": median_ms(lambda: occ_mesh(occ(layout)), rounds),
                "occ_step_ms": median_ms(lambda: occ_step(occ(layout), path), rounds),
                "manifold3d_mesh_ms": median_ms(lambda: manifold(layout).to_mesh(), rounds),
            }
    pathlib.Path(peers_path).write_text(json.dumps(rows, indent=2), encoding="utf-8")


if __name__ == "__main__":
    main(*sys.argv[1:3])

"""Do solids meet as the program says? A kernel that is not ours cuts every pair of 500 random instruments."""

import json
import math
import multiprocessing
import os
import pathlib

import manifold3d
import numpy
import pytest


FOLDER = os.environ.get("BOXNECK_ASSEMBLIES")

# The program calls two solids touching within three of these; what is round is facetted to less than a half of it. mm.
HAIR = 0.01
# The program does not look farther. mm.
FAR = 10.0
# Nor does the judge look farther than this for the smallest gap, which takes it long. mm.
LOOKED = 2.0
# What two solids that are said to be clear may share by rounding. mm3.
NOTHING = 1e-5
# Of these only some faces are compared.
PARTLY = ({"neck", "lid"},)


def solids(told, raw):
    found, at = {}, 0
    for row in told["solids"]:
        points = numpy.frombuffer(raw, "<f8", row["points"] * 3, at).reshape(-1, 3).copy()
        at += points.nbytes
        triangles = numpy.frombuffer(raw, "<u4", row["triangles"] * 3, at).reshape(-1, 3)
        at += triangles.nbytes
        mesh = manifold3d.Mesh64(vert_properties=points, tri_verts=triangles.astype("u8"))
        found[row["name"]] = manifold3d.Manifold(mesh)
    return found


def wrong(path):
    """What is wrong with one instrument, in words, and how many pairs were near enough to be cut."""
    told = json.loads(path.read_text())
    found = solids(told, path.with_suffix(".bin").read_bytes())
    rounded = {row["name"]: row["rounded"] for row in told["solids"]}
    faults, cut = [], 0
    for name, solid in found.items():
        if solid.status() != manifold3d.Error.NoError or solid.volume() <= 0:
            faults.append(f"{name}: {solid.status()}, volume {solid.volume()}")
    for meeting in told["meetings"]:
        one, other = (found[name] for name in meeting["pair"])
        air, pair = meeting["air"], " and ".join(meeting["pair"])
        boxes = [numpy.array(solid.bounding_box()).reshape(2, 3) for solid in (one, other)]
        apart = numpy.maximum(boxes[0][0] - boxes[1][1], boxes[1][0] - boxes[0][1])
        if numpy.linalg.norm(numpy.maximum(apart, 0)) > FAR:
            if air < FAR - HAIR:
                faults.append(f"{pair}: {air} mm of air told, boxes {apart} mm apart")
            continue
        cut += 1
        # What is rounded reaches that much beyond the mesh where that is cut square at an end, and the mesh that much
        # beyond it where it is mitred at a right angle.
        round_end = sum(rounded[name] for name in meeting["pair"])
        mitre = round_end * (math.sqrt(2) - 1)
        gap = one.min_gap(other, LOOKED)
        volume = (one ^ other).volume() if gap < 4 * HAIR else 0.0
        words = f"{pair} ({meeting['meant']}): {air:.4f} mm of air told, found {gap:.4f} mm and {volume:.6f} mm3 shared"
        whole = set(meeting["pair"]) not in PARTLY
        agrees = -2 * HAIR - mitre < gap - min(air, LOOKED) < 2 * HAIR + round_end
        # Where the air told is more than a mitre takes, nothing may be shared at all.
        shared = volume > NOTHING and air > mitre + 2 * HAIR
        if air > HAIR and whole and (shared or not agrees):
            faults.append(words)
        elif air < -2 * HAIR and not volume > 0:
            faults.append(words)
        elif abs(air) <= HAIR and whole and meeting["meant"] == "touch":
            thin = volume / min(one.surface_area(), other.surface_area())
            if thin > HAIR or gap > 3 * HAIR:
                faults.append(words)
    return [f"{path.name}: {fault}" for fault in faults], cut


@pytest.mark.skipif(FOLDER is None, reason="tests/run writes the instruments and names their folder")
def test_every_pair_meets_as_it_is_told():
    paths = sorted(pathlib.Path(FOLDER).glob("*.json"))
    assert len(paths) >= 500, f"500 instruments are judged, found {len(paths)}"
    with multiprocessing.get_context("spawn").Pool() as pool:
        results = pool.map(wrong, paths, chunksize=8)
    faults = [fault for row, _ in results for fault in row]
    cut = sum(count for _, count in results)
    assert cut > 20 * len(paths), f"most pairs are near enough to be cut, found {cut}"
    assert not faults, f"{len(faults)} of {cut}:\n" + "\n".join(faults[:40])

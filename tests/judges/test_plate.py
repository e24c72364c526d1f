"""Is every plate what slicers take without mending: named closed parts, apart, on the bed, in millimetres?"""

import collections
import itertools
import os
import re
import shutil
import subprocess

import lib3mf
import numpy
import pymupdf
import pytest
import shapely
import trimesh

import parts
import written

# What the plates keep between two parts, in millimetres.
GAP = 5.0
# A 32-bit coordinate of a few hundred millimetres reads back within this.
EXACT = 1e-3

PRINTED = ("nut", "saddle", "tail-block")


def read(path):
    return trimesh.load(path, file_type="3mf")


def copies(scene):
    """Every copy on the bed, with its part's name."""
    return [(geometry, scene.geometry[geometry].copy().apply_transform(matrix))
            for matrix, geometry in (scene.graph[node] for node in scene.graph.nodes_geometry)]


def bed(build):
    return [float(written.parse_length_mm(side, "mm")) for side in written.value(build.document, "print.bed")]


def is_printed(path, name):
    """Parts of the instrument lie on plates, what is printed to work with on plates of jigs."""
    return name.startswith(parts.NO_PLACE) if path.stem.startswith("jigs") else name in PRINTED


@pytest.mark.parametrize("kind", ["plate", "jigs"])
def test_every_printed_part_is_on_one_plate(build, kind):
    found = [name for path in build.files(f"solids/{kind}*.3mf") for name, _ in copies(read(path))]
    assert sorted(found) == sorted(name for name in parts.names(build) if is_printed(build.folder / kind, name)), "each once"


def test_a_strict_reader_has_no_warning(plate):
    model = lib3mf.get_wrapper().CreateModel()
    reader = model.QueryReader("3mf")
    reader.SetStrictModeActive(True)
    reader.ReadFromFile(str(plate[1]))
    assert [reader.GetWarning(index) for index in range(reader.GetWarningCount())] == []
    assert model.GetUnit() == lib3mf.ModelUnit.MilliMeter
    items = model.GetBuildItems()
    assert items.Count() > 0
    while items.MoveNext():
        part = items.GetCurrent().GetObjectResource()
        assert is_printed(plate[1], part.GetName()), "every object has its part's name"
        assert part.IsValid() and part.GetType() == lib3mf.ObjectType.Model
    assert model.GetMetaDataGroup().GetMetaDataByKey("", "Title").GetValue().startswith(
        plate[0].document["name"]), "the title names the instrument"


def test_each_part_is_the_one_of_the_stl(plate):
    build, path = plate
    scene = read(path)
    assert scene.units == "millimeter"
    for name, solid in copies(scene):
        alone = trimesh.load(build.folder / "solids" / f"{name}_mm.stl", file_type="stl", process=True)
        assert solid.is_watertight and solid.is_winding_consistent, f"{name} is closed"
        assert solid.volume == pytest.approx(alone.volume, rel=1e-5), f"{name} has the volume of its mesh"
        sides = numpy.sort(solid.extents[:2]), numpy.sort(alone.extents[:2])
        assert sides[0] == pytest.approx(sides[1], abs=EXACT) and solid.extents[2] == pytest.approx(alone.extents[2], abs=EXACT)


def test_all_lie_apart_on_the_bed_and_in_its_middle(plate):
    build, path = plate
    across, deep = bed(build)
    solids = copies(read(path))
    for name, solid in solids:
        low, high = solid.bounds
        assert abs(low[2]) <= 1e-6, f"{name} lies on the bed"
        assert low[0] >= -EXACT and low[1] >= -EXACT and high[0] <= across + EXACT and high[1] <= deep + EXACT, name
    for (one, first), (other, second) in itertools.combinations(solids, 2):
        between = numpy.maximum(first.bounds[0] - second.bounds[1], second.bounds[0] - first.bounds[1])[:2]
        assert between.max() >= GAP - EXACT, f"{one} and {other} are {between.max()} mm apart"
    all_bounds = numpy.array([solid.bounds for _, solid in solids])
    middle = (all_bounds[:, 0].min(axis=0) + all_bounds[:, 1].max(axis=0))[:2] / 2
    assert middle == pytest.approx([across / 2, deep / 2], abs=EXACT), "in the middle"


# The picture is drawn from over the bed's front right corner: what lies to the right in it, and what lies up.
RIGHT, TOP = numpy.array([0.8, 0.6, 0.0]), numpy.array([-0.48, 0.64, 0.6])
# The share of its side that stays free on each edge.
MARGIN = 0.05


def test_its_picture_shows_the_parts_as_they_lie(plate):
    model = lib3mf.get_wrapper().CreateModel()
    model.QueryReader("3mf").ReadFromFile(str(plate[1]))
    assert model.HasPackageThumbnailAttachment(), "file managers find the picture"
    drawn = pymupdf.Pixmap(bytes(model.GetPackageThumbnailAttachment().WriteToBuffer()))
    assert drawn.width == drawn.height and drawn.alpha
    solid = numpy.frombuffer(drawn.samples, dtype=numpy.uint8).reshape(drawn.height, drawn.width, drawn.n)[:, :, -1]
    corners = [numpy.stack([part.triangles @ RIGHT, part.triangles @ TOP], axis=-1) for _, part in copies(read(plate[1]))]
    faces = [shapely.Polygon(face) for face in numpy.concatenate(corners)]
    outline = shapely.unary_union([face.buffer(1e-6) for face in faces if face.area > 0])
    left, bottom, right, top = outline.bounds
    scale = drawn.width * (1 - 2 * MARGIN) / max(right - left, top - bottom)
    assert solid.sum() / 255 / scale**2 == pytest.approx(outline.area, rel=0.02), "as large as their shadows"
    rows, columns = numpy.nonzero(solid)
    for found, side in ((columns, right - left), (rows, top - bottom)):
        assert found.max() - found.min() + 1 == pytest.approx(side * scale, abs=2), "and from edge to edge"


@pytest.fixture(scope="session")
def slicer():
    found = shutil.which("prusa-slicer")
    if found is None:
        # On Debian, tests/run has tried to install it.
        missing = "prusa-slicer is not installed (Debian: apt-get install prusa-slicer)"
        (pytest.fail if os.geteuid() == 0 and shutil.which("apt-get") else pytest.skip)(missing)
    return found


def run(*call):
    done = subprocess.run(call, capture_output=True, text=True, timeout=300)
    assert done.returncode == 0, f"{call}: {done.stdout[-2000:]} {done.stderr[-2000:]}"
    return done.stdout


def test_a_slicer_finds_nothing_to_repair(plate, slicer):
    said = run(slicer, "--info", str(plate[1]))
    words = collections.Counter(re.findall(r"^(\w+) = *(\S+)$", said, re.MULTILINE))
    objects = len(copies(read(plate[1])))
    assert words[("manifold", "yes")] == objects, said
    # A triangle that was turned round or taken out still leaves "manifold = yes".
    for repair in ("facets_removed", "facets_reversed", "edges_fixed", "degenerate_facets", "backwards_edges"):
        assert repair not in said, said


def test_a_slicer_slices_it_where_it_lies(plate, slicer, tmp_path):
    build, path = plate
    across, deep = (f"{side:g}" for side in bed(build))
    program = tmp_path / "plate.gcode"
    run(slicer, "--export-gcode", "--dont-arrange", "--bed-shape", f"0x0,{across}x0,{across}x{deep},0x{deep}",
        "--skirts", "0", "--output", str(program), str(path))
    moves = re.findall(r"^G1 X([\d.]+) Y([\d.]+) E[\d.]+", program.read_text(), re.MULTILINE)
    assert moves, "something is extruded"
    bounds = numpy.array([solid.bounds[:, :2] for _, solid in copies(read(path))])
    low, high = bounds[:, 0].min(axis=0), bounds[:, 1].max(axis=0)
    places = numpy.array(moves, dtype=float)
    # The middle of the outermost line lies half a line's width inside the part.
    assert places.min(axis=0) == pytest.approx(low, abs=0.5) and places.max(axis=0) == pytest.approx(high, abs=0.5)

"""Does an independent reader find every solid of the instrument in its place in the model for looking at?"""

import numpy
import pytest
import trimesh

import parts

# How far the model's curves may deviate from the true ones, in millimetres.
CHORD = 0.05


def path(build):
    (found,) = build.files("solids/*.glb")
    return found


def read(build):
    return trimesh.load(path(build), file_type="glb", process=False)


def in_millimetres(scene, name):
    """A part in the instrument frame: the format's metres with y up, taken back to millimetres with z up."""
    matrix, geometry = scene.graph[name]
    solid = scene.geometry[geometry].copy().apply_transform(matrix)
    x, y, z = solid.vertices.T
    solid.vertices = numpy.column_stack([x, -z, y]) * 1000
    return solid


def placed(build):
    """A coupon is made to try the fit, a jig to mark and drill; neither has a place in the instrument."""
    return {name for name in parts.names(build) if not name.startswith(parts.NO_PLACE)}


def expected(build):
    layout = build.layout
    names = placed(build) | {"lid", "neck-end", "tail-end", "bass-side", "treble-side", "zero-fret"}
    names |= {f"fret-{fret['number']}" for fret in layout["frets"]["stations"]}
    for string in layout["strings"]:
        names |= {f"{thing}-{string['number']}" for thing in ("string", "tuner-post", "tuner-body")}
    return names | {f"tail-screw-{number}" for number in range(1, len(layout["tail"]["screws"]) + 1)}


def test_every_solid_has_a_node_of_its_name(build):
    assert set(read(build).graph.nodes_geometry) == expected(build)


def test_every_solid_is_closed(build):
    scene = read(build)
    for name in scene.graph.nodes_geometry:
        solid = in_millimetres(scene, name)
        assert solid.is_watertight and solid.volume > 0, name


def test_parts_are_as_large_as_their_meshes(build):
    scene = read(build)
    for name in placed(build):
        solid = in_millimetres(scene, name)
        alone = trimesh.load(build.folder / "solids" / f"{name}_mm.stl", file_type="stl", process=True)
        assert solid.volume == pytest.approx(alone.volume, abs=CHORD * alone.area), name


def test_everything_stands_where_the_layout_says(build):
    scene, layout = read(build), build.layout
    solid = lambda name: in_millimetres(scene, name).bounds
    assert solid("neck")[0][0] == pytest.approx(layout["neck"]["head_end_x_mm"], abs=1e-3)
    half = layout["box"]["width_mm"] / 2
    assert solid("lid")[:, 1] == pytest.approx([-half, half], abs=1e-3), "the lid across"
    assert solid("neck-end")[:, 1] == pytest.approx([-half, half], abs=1e-3), "the neck end across"
    sides = solid("bass-side"), solid("treble-side")
    outer = [side[0][1] if side.mean(axis=0)[1] < 0 else side[1][1] for side in sides]
    assert sorted(outer) == pytest.approx([-half, half], abs=1e-3), "the sides stand at the box's edges"
    assert (sides[0].mean(axis=0)[1] < 0) == (layout["handed"] == "right"), "the bass side is the bass strings'"
    for fret in layout["frets"]["stations"]:
        assert solid(f"fret-{fret['number']}").mean(axis=0)[0] == pytest.approx(fret["x_mm"], abs=CHORD), fret
    for string in layout["strings"]:
        low, high = solid(f"string-{string['number']}")
        assert low[0] == pytest.approx(string["post"]["x_mm"], abs=string["diameter_mm"]), "it begins at its post"
        assert high[0] >= string["tail"]["x_mm"] - 1e-3, "it reaches its hole"


def test_it_is_small(build):
    assert path(build).stat().st_size < 300_000


def test_it_is_in_metres_with_y_up(build):
    scene, neck = read(build), build.layout["neck"]
    low, high = scene.bounds
    assert high[0] - low[0] == pytest.approx((build.layout["box_frame"]["neck_end_x_mm"] - neck["head_end_x_mm"]
                                             + build.layout["box"]["length_mm"]) / 1000, rel=0.15)
    assert scene.extents[1] < scene.extents[2] < scene.extents[0], "long along x, thin along y"

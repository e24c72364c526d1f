"""Is every mesh one closed solid, where and as large as the layout says?"""

import math
import struct

import manifold3d
import numpy
import pytest
import trimesh

import modelled
import parts

# The chord tolerance of exported meshes, in millimetres: what every curved face may deviate by.
CHORD = 0.02


def corners_of(path):
    """Binary STL by its published layout: 80 bytes, a count, and 50 bytes a triangle."""
    data = path.read_bytes()
    (count,) = struct.unpack_from("<I", data, 80)
    assert len(data) == 84 + 50 * count, f"{len(data)} bytes do not hold {count} triangles"
    records = numpy.frombuffer(data, dtype=numpy.dtype([("n", "<f4", 3), ("v", "<f4", (3, 3)), ("a", "<u2")]), offset=84)
    return records["n"].astype(float), records["v"].astype(float)


def read(path):
    return trimesh.load(path, file_type="stl", process=True)


def rounding(mesh):
    """How far a 32-bit coordinate may lie from the true one, times the surface: volume lost to the format."""
    reach = float(numpy.abs(mesh.vertices).max())
    return float(numpy.spacing(numpy.float32(reach))) / 2 * float(mesh.area)


def test_every_part_has_its_mesh(build):
    assert {parts.part_of(path) for path in build.files("solids/*.stl")} == parts.names(build)


def test_it_is_watertight_and_wound_outward(mesh):
    solid = read(mesh[1])
    assert solid.is_watertight, "an edge is not shared by two triangles"
    assert solid.is_winding_consistent, "neighbours are wound against each other"
    assert solid.volume > 0, f"volume {solid.volume}"


def test_it_is_one_piece(mesh):
    _, corners = corners_of(mesh[1])
    points, index = numpy.unique(corners.reshape(-1, 3), axis=0, return_inverse=True)
    group = list(range(len(points)))

    def root(at):
        while group[at] != at:
            group[at] = group[group[at]]
            at = group[at]
        return at

    for a, b, c in index.reshape(-1, 3):
        group[root(a)] = root(b)
        group[root(b)] = root(c)
    assert len({root(at) for at in range(len(points))}) == 1


def test_a_strict_kernel_accepts_it(mesh):
    # Vertices merged only where they are equal bit by bit: the file must be a manifold as it stands.
    _, corners = corners_of(mesh[1])
    points, index = numpy.unique(corners.reshape(-1, 3).astype(numpy.float32), axis=0, return_inverse=True)
    solid = manifold3d.Manifold(manifold3d.Mesh(points, index.reshape(-1, 3).astype(numpy.uint32)))
    assert solid.status() == manifold3d.Error.NoError, solid.status()
    assert solid.volume() == pytest.approx(read(mesh[1]).volume, rel=1e-4)


def test_no_triangle_is_degenerate(mesh):
    normals, corners = corners_of(mesh[1])
    edges = corners[:, [1, 2, 0]] - corners
    areas = numpy.linalg.norm(numpy.cross(edges[:, 0], edges[:, 1]), axis=1) / 2
    assert (numpy.linalg.norm(edges, axis=2) > 0).all(), "a triangle has two corners in one place"
    assert (areas > 0).all(), f"triangle {areas.argmin()} has an area of {areas.min()}"
    # The height over the longest side: in 32 bits a lower triangle has no reliable normal.
    heights = 2 * areas / numpy.linalg.norm(edges, axis=2).max(axis=1)
    reach = numpy.spacing(numpy.float32(numpy.abs(corners).max()))
    assert (heights > reach).all(), f"triangle {heights.argmin()} is {heights.min()} mm high"


def test_its_written_normals_are_those_of_its_corners(mesh):
    normals, corners = corners_of(mesh[1])
    cross = numpy.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    own = cross / numpy.linalg.norm(cross, axis=1)[:, None]
    # Thin triangles: 32-bit corners tilt them by rounding over height.
    edges = numpy.linalg.norm(corners[:, [1, 2, 0]] - corners, axis=2).max(axis=1)
    heights = numpy.linalg.norm(cross, axis=1) / edges
    allowed = 1e-3 + 8 * numpy.spacing(numpy.float32(numpy.abs(corners).max())) / heights
    written = numpy.linalg.norm(normals, axis=1)
    assert ((numpy.abs(written - 1) < 1e-3) | (written == 0)).all(), "normals are of length one"
    off = numpy.linalg.norm(normals - own, axis=1)
    assert ((off < allowed) | (written == 0)).all(), f"a normal is off by {off.max()}"


def test_it_lies_on_the_bed_at_the_origin(mesh):
    _, corners = corners_of(mesh[1])
    lowest = corners.reshape(-1, 3).min(axis=0)
    assert numpy.abs(lowest).max() <= 1e-6, f"the lowest corner is {lowest}"


def test_its_volume_is_the_one_worked_out_by_hand(mesh):
    # A chord lies within the tolerance of its arc at most, and two thirds of that in the mean: between a chord and an
    # arc of small sweep `a` lies `r^2 a^3 / 12`, two thirds of the sagitta `r a^2 / 8` times the length `r a`; for larger
    # sweeps less. A twisted face between two triangles is a saddle, whose mean is two thirds of its middle as well.
    build, path = mesh
    expected, solid = parts.expected(build, parts.part_of(path)), read(path)
    allowed = expected.curved_area * CHORD * 2 / 3 + rounding(solid)
    assert solid.volume == pytest.approx(expected.volume, abs=allowed), f"may differ by {allowed:.3f} mm3"


def test_it_fills_the_place_that_another_kernel_gives_it(mesh):
    build, path = mesh
    solid, model = read(path), parts.model(build, parts.part_of(path))
    (_, high), (volume, centre) = modelled.bounds(model), modelled.measured(model)
    reach = float(numpy.spacing(numpy.float32(max(high))))
    assert solid.bounds[1] == pytest.approx(high, abs=CHORD + reach), "the far corner of the bounds"
    # What the chords leave out, wherever it lies, draws the centre by no more than its share of the volume times the
    # farthest place from the centre.
    share = parts.expected(build, parts.part_of(path)).curved_area * CHORD * 2 / 3 / volume
    farthest = math.dist(centre, [max(c, h - c) + c for c, h in zip(centre, high)])
    assert solid.center_mass == pytest.approx(centre, abs=share * farthest + 5e-3), "the centre of mass"

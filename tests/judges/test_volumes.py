"""Are the judges' own formulas right? Known answers from elementary geometry, and one way against the other."""

import math

import pytest

import modelled
import volumes


def test_a_ruled_cube_measures_one():
    square = lambda x: [(x, -0.5, 0.0, 0.0), (x, 0.5, 0.0, 0.0), (x, 0.5, 1.0, 0.0), (x, -0.5, 1.0, 0.0)]
    assert volumes.loft_volume(square(3.0), square(4.0)) == pytest.approx(1.0, abs=1e-12)


def test_a_ruled_cone_stump_measures_by_the_known_formula():
    quarter = math.tan(math.pi / 8)
    ring = lambda x, r: [(x, -r, 0.0, quarter), (x, 0.0, -r, quarter), (x, r, 0.0, quarter), (x, 0.0, r, quarter)]
    expected = math.pi * 5 / 3 * (4 + 2 + 1)
    assert volumes.loft_volume(ring(0.0, 1.0), ring(5.0, 2.0)) == pytest.approx(expected, rel=1e-12)


def test_a_prismatoid_with_turned_ends_measures_by_simpsons_rule():
    # The regular antiprism-like twist: a square ruled to the same square turned by 90 degrees has a middle section of
    # half the size, (cos 45)^2 of the area: V = h/6 (1 + 4/2 + 1).
    corners = [(0.5, 0.5), (-0.5, 0.5), (-0.5, -0.5), (0.5, -0.5)]
    start = [(0.0, y, z, 0.0) for y, z in corners]
    end = [(6.0, y, z, 0.0) for y, z in corners[1:] + corners[:1]]
    assert volumes.loft_volume(start, end) == pytest.approx(6 / 6 * (1 + 2 + 1), rel=1e-12)


PLAN = {
    "head_end_x_mm": -160.0, "nut_front_x_mm": -4.0, "box_x_mm": 420.0, "tail_end_x_mm": 700.0,
    "width_at_nut_mm": 38.0, "width_at_box_mm": 46.0, "top_z_mm": 0.0, "head_top_z_mm": -7.0, "bottom_z_mm": -20.0,
    "joint": "butt", "edge_radius_mm": 3.0,
}


def stick(section, degrees):
    return {
        "neck": PLAN | {"section": section},
        "box_frame": {"neck_end_x_mm": 420.0, "lid_z_mm": -1.0, "back_angle_deg": degrees},
        "grooves": [{"x_mm": x, "width_mm": 0.6, "depth_mm": 1.6} for x in range(0, 420, 20)],
        "tuners": [], "strings": [], "tail": {"kind": "block on the lid"},
    }


@pytest.mark.parametrize("section", ["square", "eased"])
def test_the_formula_of_a_straight_neck_agrees_with_its_lofts(section):
    layout = stick(section, 0.0)
    by_lofts = volumes.playing_length_by_lofts(layout)
    assert volumes.playing_length(layout).volume == pytest.approx(by_lofts, rel=1e-9)


@pytest.mark.parametrize("section", ["square", "eased", "oval"])
@pytest.mark.parametrize(("degrees", "allowed"), [(0.0, 2e-6), (3.0, 1e-4)])
def test_lofts_agree_with_ordinary_modelling(section, degrees, allowed):
    # A fillet of a tapered edge is square to the edge and a section is square to the centre line: the two differ by the
    # square of the taper, (4/424)^2 / 2 < 1e-4 of the edges' small share of the volume. Against a wall that leans, the
    # lofts end as wide as the box end all over the wall, while a tapered plan is narrower where the wall comes nearer
    # to the nut: here by 1 mm of a taper of 8 in 424, so 4e-4 of the width, fading toward the last groove and the top.
    layout = stick(section, degrees)
    volume, _ = modelled.measured(modelled.neck(layout))
    assert volumes.neck(layout).volume == pytest.approx(volume, rel=allowed)

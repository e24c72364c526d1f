//! Do bodies have the volumes of their closed forms?

use std::f64::consts::PI;

use boxneck_geometry::{Body, BodyFault, Bore, Frame3, Loft, Point3, Section, Vector3};
use units::{Angle, ChordTolerance, Length, math};

use super::samples::*;
use super::second_reader::{check_body, check_own_readings};

/// Checks a body in every way, and its volume against a closed form; `curved` is the area of its curved faces in square
/// millimetres, off which a chord may stand by the tolerance.
#[track_caller]
fn check(body: Result<Body, BodyFault>, holes_through: i64, expected: f64, curved: f64) {
    let body = body.expect("a sound description");
    check_body(&body, holes_through);
    check_volume(&body, expected, curved);
}

#[track_caller]
fn check_volume(body: &Body, expected: f64, curved: f64) {
    let chord_mm = 0.002;
    let mesh = body.mesh(ChordTolerance::new(Length::mm(chord_mm))).expect("a closed mesh");
    let (found, within) = (mesh.volume(), 1e-9 * expected + chord_mm * curved);
    assert!((found - expected).abs() <= within, "expected {expected} within {within}, found {found}");
}

#[test]
fn a_prism() {
    check(Body::new(vec![prism_along_x(2.0, 12.0, &rectangle(0.0, 0.0, 3.0, 4.0))], vec![]), 0, 120.0, 0.0);
}

#[test]
fn a_frustum() {
    // Prismatoid: h / 6 (A0 + 4 Am + A1).
    let loft = along_x(0.0, &rectangle(-3.0, -2.0, 3.0, 2.0), 9.0, &rectangle(-1.0, -1.0, 1.0, 1.0));
    check(Body::new(vec![loft], vec![]), 0, 9.0 / 6.0 * (24.0 + 4.0 * 12.0 + 4.0), 0.0);
}

#[test]
fn a_twisted_prism() {
    // The side faces are hyperbolic paraboloids; the section half-way is the square of the edges' middles.
    let square = [(-2.0, -2.0), (2.0, -2.0), (2.0, 2.0), (-2.0, 2.0)];
    let turned = [(0.0, -2.0), (2.0, 0.0), (0.0, 2.0), (-2.0, 0.0)];
    let loft = along_x(0.0, &polygon(&square), 6.0, &polygon(&turned));
    // Corners half-way: (-1, -2), (2, -1), (1, 2), (-2, 1): a square of area 10.
    let body = Body::new(vec![loft], vec![]).expect("a sound description");
    check_own_readings(&body, 0);
    check_volume(&body, 6.0 / 6.0 * (16.0 + 40.0 + 8.0), 110.0);
}

#[test]
fn a_rounded_bar() {
    let loft = prism_along_x(0.0, 30.0, &rounded(10.0, 6.0, 2.0));
    check(Body::new(vec![loft], vec![]), 0, 30.0 * rounded_area(10.0, 6.0, 2.0), 2.0 * PI * 2.0 * 30.0);
}

#[test]
fn a_tapered_rounded_bar() {
    let loft = along_x(0.0, &rounded(10.0, 6.0, 2.0), 30.0, &rounded(14.0, 8.0, 3.0));
    let areas = [rounded_area(10.0, 6.0, 2.0), rounded_area(12.0, 7.0, 2.5), rounded_area(14.0, 8.0, 3.0)];
    let expected = 30.0 / 6.0 * (areas[0] + 4.0 * areas[1] + areas[2]);
    check(Body::new(vec![loft], vec![]), 0, expected, 2.0 * PI * 3.0 * 31.0);
}

#[test]
fn a_cone_frustum() {
    let loft = along_x(0.0, &circle(3.0), 5.0, &circle(1.0));
    check(Body::new(vec![loft], vec![]), 0, PI * 5.0 / 3.0 * (9.0 + 3.0 + 1.0), PI * 4.0 * 5.4);
}

#[test]
fn a_stepped_bar() {
    let lofts = vec![
        prism_along_x(0.0, 10.0, &rectangle(0.0, 0.0, 3.0, 4.0)),
        prism_along_x(10.0, 15.0, &rectangle(0.0, 0.0, 3.0, 2.0)),
        prism_along_x(15.0, 17.0, &rectangle(0.0, 0.0, 1.0, 6.0)),
    ];
    check(Body::new(lofts, vec![]), 0, 120.0 + 30.0 + 12.0, 0.0);
}

#[test]
fn a_shoulder_all_round() {
    let lofts =
        vec![prism_along_x(0.0, 5.0, &rounded(10.0, 8.0, 1.0)), prism_along_x(5.0, 12.0, &circle(2.0))];
    check(
        Body::new(lofts, vec![]),
        0,
        5.0 * rounded_area(10.0, 8.0, 1.0) + 7.0 * PI * 4.0,
        2.0 * PI * 5.0 + 4.0 * PI * 7.0,
    );
}

#[test]
fn rings_that_cross() {
    let lofts = vec![
        prism_along_x(0.0, 5.0, &rectangle(-5.0, -2.0, 5.0, 2.0)),
        prism_along_x(5.0, 9.0, &rectangle(-2.0, -5.0, 2.0, 5.0)),
    ];
    check(Body::new(lofts, vec![]), 0, 200.0 + 160.0, 0.0);
}

#[test]
fn arcs_that_cross() {
    let other = circle(3.0).translated(boxneck_geometry::Vector2::mm(2.0, 1.0));
    let lofts = vec![prism_along_x(0.0, 5.0, &circle(3.0)), prism_along_x(5.0, 9.0, &other)];
    check(Body::new(lofts, vec![]), 0, 9.0 * 9.0 * PI, 6.0 * PI * 9.0);
}

#[test]
fn a_line_that_crosses_arcs() {
    let lofts = vec![
        prism_along_x(0.0, 5.0, &circle(3.0)),
        prism_along_x(5.0, 9.0, &rectangle(-4.0, -1.0, 4.0, 5.0)),
        prism_along_x(9.0, 11.0, &rounded(6.0, 6.0, 2.0)),
    ];
    let expected = 45.0 * PI + 4.0 * 48.0 + 2.0 * rounded_area(6.0, 6.0, 2.0);
    check(Body::new(lofts, vec![]), 0, expected, 30.0 * PI + 8.0 * PI);
}

#[test]
fn a_round_bar_inscribed_in_a_square_one() {
    let lofts = vec![
        prism_along_x(0.0, 5.0, &rectangle(-3.0, -3.0, 3.0, 3.0)),
        prism_along_x(5.0, 9.0, &circle(3.0)),
        prism_along_x(9.0, 11.0, &rectangle(-3.0, -3.0, 3.0, 3.0)),
    ];
    check(Body::new(lofts, vec![]), 0, 7.0 * 36.0 + 36.0 * PI, 24.0 * PI);
}

#[test]
fn a_corner_that_touches_a_side() {
    let lofts = vec![
        prism_along_x(0.0, 5.0, &rectangle(-3.0, -3.0, 3.0, 3.0)),
        prism_along_x(5.0, 9.0, &polygon(&[(-1.0, -2.0), (1.0, -2.0), (0.0, 3.0)])),
    ];
    // Where the corner touches, the skin touches itself: its one point is two vertices, which Euler's formula counts.
    let body = Body::new(lofts, vec![]).expect("a sound description");
    let mesh = body.mesh(ChordTolerance::new(Length::mm(0.01))).expect("a closed mesh");
    assert!((mesh.volume() - 5.0 * 36.0 - 4.0 * 5.0).abs() < 1e-9, "found {}", mesh.volume());
    body.brep().expect("a closed B-rep");
}

#[test]
fn a_corner_all_but_on_an_arc() {
    // 0.0001 mm inside: closer than any tolerance asked for, so the arc is broken finer there.
    let (inner, corner) = (circle(3.0), 2.9999 * std::f64::consts::FRAC_1_SQRT_2);
    let lofts = vec![
        prism_along_x(0.0, 5.0, &inner),
        prism_along_x(5.0, 9.0, &rectangle(-1.0, -1.0, corner, corner)),
    ];
    let body = Body::new(lofts, vec![]).expect("a sound description");
    check_own_readings(&body, 0);
    check_volume(&body, 45.0 * PI + 4.0 * (corner + 1.0) * (corner + 1.0), 30.0 * PI);
}

#[test]
fn a_line_that_cuts_a_sliver_off_a_flat_arc() {
    // The sliver is so short that it is a line, and the arc must keep its curvature all the same.
    let bulge = 0.05;
    let segment = outline(&[(-5.0, 0.0, bulge), (5.0, 0.0, 0.0), (0.0, 6.0, 0.0)]);
    let radius = 10.0 * (1.0 + bulge * bulge) / (4.0 * bulge);
    let sweep = 4.0 * math::atan(bulge);
    let area = 30.0 + radius * radius / 2.0 * (sweep - math::sin(sweep));
    let lofts = vec![
        along_x(0.0, &segment, 5.0, &segment),
        prism_along_x(
            5.0,
            9.0,
            &polygon(&[(4.99, -3.0), (8.0, -3.0), (8.0, 3.0), (-3.0, 3.0), (-3.0, 1.0), (4.99, 1.0)]),
        ),
    ];
    // The two touch at the sliver and above: there is a hole between.
    let expected = 5.0 * area + 4.0 * (11.0 * 2.0 + 3.01 * 4.0);
    check(Body::new(lofts, vec![]), 1, expected, 55.0);
}

#[test]
fn a_slotted_bar() {
    check(slotted_bar(24), 0, slotted_bar_volume(24), 0.0);
}

#[test]
fn a_long_stepped_bar() {
    // The area of a rounded rectangle grows linearly with its width.
    let height = |station: i32| if station % 2 == 0 { 20.0 } else { 16.0 };
    let expected =
        (0..6).map(|station| 20.0 * rounded_area(40.5 + f64::from(station), height(station), 4.0)).sum();
    check(stepped_bar(6), 0, expected, 8.0 * PI * 120.0);
}

#[test]
fn a_block_with_a_grid_of_bores() {
    let bores = 12.0 * PI * (6.25 * 6.0 + 14.0);
    check(bored_block(6, 2), 12, 80_000.0 - bores, 12.0 * 2.0 * PI * (2.5 * 6.0 + 14.0));
}

#[test]
fn stations_leave_no_trace() {
    let ring = rectangle(0.0, 0.0, 3.0, 4.0);
    let lofts =
        (0..9).map(|station| prism_along_x(f64::from(station), f64::from(station + 1), &ring)).collect();
    let body = Body::new(lofts, vec![]);
    let skin = body.as_ref().expect("a sound description").skin().expect("a sound skin");
    let counts = (skin.points().len(), skin.edges().len(), skin.faces().len());
    assert_eq!(counts, (8, 12, 6), "points, edges and faces of a box");
    check(body, 0, 108.0, 0.0);
}

#[test]
fn a_plate_with_every_kind_of_bore() {
    check(bored_plate(), 3, bored_plate_volume(), 700.0);
}

#[test]
fn a_bore_across_stations() {
    let ring = rectangle(0.0, 0.0, 10.0, 4.0);
    let lofts = vec![prism_along_x(0.0, 10.0, &ring), prism_along_x(10.0, 20.0, &ring)];
    let bore = Bore::straight(Point3::mm(10.0, 5.0, 4.0), DOWN, Length::mm(2.0), Length::mm(4.0));
    check(Body::new(lofts, vec![bore]), 1, 20.0 * 40.0 - 16.0 * PI, 16.0 * PI);
}

#[test]
fn bores_from_both_ends_and_a_side() {
    let bores = vec![
        Bore::straight(Point3::mm(0.0, 0.0, 0.0), Vector3::X, Length::mm(2.0), Length::mm(9.0)),
        Bore::straight(Point3::mm(30.0, 0.0, 0.0), -Vector3::X, Length::mm(1.0), Length::mm(9.0)),
        Bore::straight(Point3::mm(15.0, 0.0, 4.0), DOWN, Length::mm(1.5), Length::mm(8.0)),
    ];
    let body = Body::new(vec![prism_along_x(0.0, 30.0, &rounded(12.0, 8.0, 1.0))], bores);
    let expected = 30.0 * rounded_area(12.0, 8.0, 1.0) - PI * (36.0 + 9.0 + 18.0);
    check(body, 1, expected, 60.0 * PI + PI * (36.0 + 18.0 + 24.0));
}

#[test]
fn a_slanted_cut() {
    // A prism cut by a plane: the area of the section times the length through its centroid, here on the x axis.
    let slanted = Frame3 {
        origin: Point3::mm(20.0, 0.0, 0.0),
        u: Vector3::Y,
        v: Vector3::mm(Angle::degrees(30.0).sin(), 0.0, Angle::degrees(30.0).cos()),
    };
    let stretch = 1.0 / Angle::degrees(30.0).cos();
    let stretched = polygon(&[
        (-3.0, -2.0 * stretch),
        (3.0, -2.0 * stretch),
        (3.0, 2.0 * stretch),
        (-3.0, 2.0 * stretch),
    ]);
    let loft = Loft {
        start: Section { frame: Frame3::across_x(Length::ZERO), ring: rectangle(-3.0, -2.0, 3.0, 2.0) },
        end: Section { frame: slanted, ring: stretched },
    };
    check(Body::new(vec![loft], vec![]), 0, 6.0 * 4.0 * 20.0, 0.0);
}

#[test]
fn a_board_between_slanted_sides() {
    // Side outlines in two planes that slant to each other: a board that tapers in plan.
    let side = |y: f64, slant: f64| {
        let frame = Frame3::facing(Point3::mm(0.0, y, 0.0), Vector3::mm(slant, 1.0, 0.0), Vector3::Z)
            .expect("a plane");
        let place = |x: f64, z: f64| frame.flat(Point3::mm(x, y - slant * x, z));
        let corners = [(0.0, 0.0), (0.0, 5.0), (40.0, 5.0), (40.0, 0.0)].map(|(x, z)| place(x, z));
        let ring = boxneck_geometry::Outline::polygon(corners).expect("a side").counter_clockwise();
        Section { frame, ring }
    };
    let loft = Loft { start: side(-10.0, 0.05), end: side(10.0, -0.05) };
    check(Body::new(vec![loft], vec![]), 0, 5.0 * 40.0 * (20.0 + 24.0) / 2.0, 0.0);
}

#[test]
fn centre_of_mass_of_a_plate() {
    let loft = prism_along_x(2.0, 12.0, &rectangle(0.0, 1.0, 3.0, 5.0));
    let mesh = Body::new(vec![loft], vec![])
        .and_then(|body| body.mesh(ChordTolerance::new(Length::mm(0.01))))
        .expect("a closed mesh");
    let center = mesh.center_of_mass().expect("a solid");
    assert!(center.distance(Point3::mm(7.0, 1.5, 3.0)) < 1e-12, "found {center:?}");
    assert!((mesh.area() - 2.0 * (30.0 + 40.0 + 12.0)).abs() < 1e-9, "found {}", mesh.area());
}

/// A paddle 6 thick with a curved end, and a bar 4 wide that grows out of the middle of its flat side, 3 thick at its far end.
fn paddle_and_bar() -> Result<Body, BodyFault> {
    let paddle = outline(&[
        (0.0, -8.0, 0.0),
        (20.0, -8.0, 0.0),
        (20.0, -2.0, 0.0),
        (20.0, 2.0, 0.0),
        (20.0, 8.0, 0.0),
        (0.0, 8.0, 1.0),
    ]);
    let root = Loft::prism(Frame3::across_z(Length::ZERO), paddle, Length::mm(6.0));
    let bar = along_x(20.0, &rectangle(-2.0, 0.0, 2.0, 6.0), 50.0, &rectangle(-2.0, 0.0, 2.0, 3.0));
    // From below, where both are one face, over the line in which they meet.
    let bore = Bore::straight(Point3::mm(20.0, 0.0, 0.0), Vector3::Z, Length::mm(1.0), Length::mm(2.0));
    Body::rooted(root, vec![bar], vec![bore])
}

#[test]
fn a_bar_that_grows_out_of_a_paddle() {
    let volume = (20.0 * 16.0 + PI * 64.0 / 2.0) * 6.0 + 30.0 * 4.0 * 4.5 - PI * 2.0;
    let faces = paddle_and_bar().and_then(|body| body.skin()).map(|skin| skin.faces().len());
    // Below one face for both, above one each because the bar slopes; the arc, two sides, two shoulders; the bar's two sides
    // and its end; the two halves of the bore and its bottom.
    assert_eq!(faces, Ok(1 + 2 + 5 + 3 + 3), "what is one plane is one face");
    let curved = PI * 8.0 * 6.0 + 2.0 * PI * 2.0;
    check(paddle_and_bar(), 0, volume, curved);
    check(paddle_and_bar().map(|body| body.mirrored_y()), 0, volume, curved);
}

#[test]
fn a_chain_that_begins_beside_its_root() {
    let root = prism_along_x(0.0, 10.0, &rectangle(-2.0, 0.0, 2.0, 6.0));
    let beside = prism_along_x(10.0, 20.0, &rectangle(-2.0, 0.0, 2.0, 5.0));
    assert_eq!(Body::rooted(root, vec![beside], vec![]), Err(BodyFault::NoWall), "a wall less high");
}

//! Known answers for outlines, paths and circles: closed forms, and fingerprints that survive another start and sense.

use std::f64::consts::PI;

use boxneck_geometry::{
    Bounds2, Circle, Corner, Outline, OutlineFault, Path, Point2, Segment, Shape, Vector2, Vertex,
};
use units::{Angle, ChordTolerance, Length, math};

const ROUNDING: f64 = 1e-9;

fn vertex(x: f64, y: f64, bulge: f64) -> Vertex {
    Vertex { point: Point2::mm(x, y), bulge }
}

fn outline(vertices: &[(f64, f64, f64)]) -> Outline {
    Outline::new(vertices.iter().map(|&(x, y, bulge)| vertex(x, y, bulge)).collect())
        .expect("the case describes an outline")
}

/// An L of 40 by 30 with a 10 wide arm and 20 high foot, its inside corner and two others rounded.
fn rounded_l() -> Outline {
    let corner = |x, y, radius| Corner { point: Point2::mm(x, y), radius: Length::mm(radius) };
    Outline::rounded(&[
        corner(0.0, 0.0, 0.0),
        corner(40.0, 0.0, 4.0),
        corner(40.0, 20.0, 0.0),
        corner(10.0, 20.0, 5.0),
        corner(10.0, 30.0, 5.0),
        corner(0.0, 30.0, 0.0),
    ])
    .expect("the radii fit")
}

/// A lens between two arcs of radius 5 over a chord of 8: half sweep asin(4/5) each.
fn lens() -> Outline {
    let bulge = 0.5; // tan(asin(0.8) / 2) = 0.8 / (1 + 0.6)
    outline(&[(0.0, 0.0, bulge), (8.0, 0.0, bulge)])
}

/// A stadium: a 10 by 4 rectangle with half circles on its short sides.
fn stadium() -> Outline {
    outline(&[(0.0, 0.0, 0.0), (10.0, 0.0, 1.0), (10.0, 4.0, 0.0), (0.0, 4.0, 1.0)])
}

/// What does not depend on where an outline starts and which way it runs.
#[track_caller]
fn check(outline: &Outline, area: f64, perimeter: f64, bounds: [f64; 4], vertex_count: usize) {
    let count = outline.vertices().len();
    let shifted = |by: usize| {
        let vertices = outline.vertices();
        Outline::new((0..count).map(|i| vertices[(i + by) % count]).collect())
            .expect("the start does not matter")
    };
    let starts: Vec<Outline> = (0..count).map(shifted).collect();
    let sign = outline.signed_area().signum();
    for (start, turned) in starts.iter().enumerate() {
        for (outline, sign) in [(turned.clone(), sign), (turned.reversed(), -sign)] {
            let found = outline.signed_area() * sign;
            assert!((found - area).abs() < ROUNDING, "start {start}: area {found} must be {area}");
            let found = outline.perimeter().as_mm();
            assert!(
                (found - perimeter).abs() < ROUNDING,
                "start {start}: perimeter {found} must be {perimeter}"
            );
            let Bounds2 { min, max } = outline.bounds();
            for (found, expected) in [min.x, min.y, max.x, max.y].into_iter().zip(bounds) {
                assert!(
                    (found - expected).abs() < ROUNDING,
                    "start {start}: bound {found} must be {expected}"
                );
            }
            assert_eq!(outline.vertices().len(), vertex_count, "start {start}: vertices");
            assert_eq!(outline.first_crossing(), None, "start {start}: nothing crosses");
            let same = Outline::new(outline.vertices().to_vec()).expect("a reversed outline is one");
            assert_eq!(same, outline, "start {start}: a made outline is made again unchanged");
        }
    }
}

#[test]
fn rectangle() {
    let outline = Outline::rectangle(Point2::mm(30.0, 20.0), Point2::mm(-10.0, 5.0)).expect("a rectangle");
    assert!(outline.is_counter_clockwise(), "a rectangle runs counter-clockwise");
    check(&outline, 600.0, 110.0, [-10.0, 5.0, 30.0, 20.0], 4);
}

#[test]
fn triangle_three_four_five() {
    check(&outline(&[(0.0, 0.0, 0.0), (4.0, 0.0, 0.0), (0.0, 3.0, 0.0)]), 6.0, 12.0, [0.0, 0.0, 4.0, 3.0], 3);
}

#[test]
fn circle_of_two_arcs() {
    let outline = outline(&[(-3.0, 1.0, 1.0), (3.0, 1.0, 1.0)]);
    check(&outline, 9.0 * PI, 6.0 * PI, [-3.0, -2.0, 3.0, 4.0], 2);
}

#[test]
fn circle_of_a_small_and_a_large_arc() {
    // A quarter (bulge tan 22.5 degrees) and the other three (bulge tan 67.5 degrees) of a circle of radius 2.
    let quarter = 2.0_f64.sqrt() - 1.0;
    let outline = outline(&[(2.0, 0.0, quarter), (0.0, 2.0, 2.0_f64.sqrt() + 1.0)]);
    check(&outline, 4.0 * PI, 4.0 * PI, [-2.0, -2.0, 2.0, 2.0], 2);
}

#[test]
fn half_disc() {
    check(&outline(&[(0.0, 0.0, 0.0), (6.0, 0.0, 1.0)]), 4.5 * PI, 6.0 + 3.0 * PI, [0.0, 0.0, 6.0, 3.0], 2);
}

#[test]
fn circle_segment() {
    // r^2 / 2 (a - sin a), with r = 10 and a = 60 degrees over a chord of 10; the arc bulges down from (0, 0).
    let bulge = Angle::degrees(15.0).tan();
    let area = 50.0 * (PI / 3.0 - 3.0_f64.sqrt() / 2.0);
    let sagitta = 10.0 - 5.0 * 3.0_f64.sqrt();
    check(
        &outline(&[(0.0, 0.0, bulge), (10.0, 0.0, 0.0)]),
        area,
        10.0 + 10.0 * PI / 3.0,
        [0.0, -sagitta, 10.0, 0.0],
        2,
    );
}

#[test]
fn flat_circle_segment() {
    // A rise of 0.001 over a chord of 100: 2/3 chord times rise, and the next term rise^3 / (2 chord), the series of
    // the closed form; perimeter two chords and 8/3 rise^2 / chord.
    let outline = outline(&[(0.0, 0.0, 0.00002), (100.0, 0.0, 0.0)]);
    check(&outline, 200.0 / 3.0 * 0.001, 200.0 + 8.0 / 3.0 * 1e-8, [0.0, -0.001, 100.0, 0.0], 2);
}

#[test]
fn lens_of_two_arcs() {
    // Two caps of r^2 / 2 (a - sin a) with r = 5, sin(a/2) = 4/5, cos(a/2) = 3/5.
    let half = Angle::radians(units::math::asin(0.8)).as_radians();
    let area = 25.0 * (2.0 * half - 2.0 * 0.8 * 0.6);
    check(&lens(), area, 20.0 * half, [0.0, -2.0, 8.0, 2.0], 2);
}

#[test]
fn half_moon_of_two_arcs() {
    // A half disc of radius 4 less a cap over the same chord, r = 5: both arcs on one side.
    let half = units::math::asin(0.8);
    let area = 8.0 * PI - 25.0 * (half - 0.8 * 0.6);
    let outline = outline(&[(0.0, 0.0, 1.0), (8.0, 0.0, -0.5)]);
    check(&outline, area, 4.0 * PI + 10.0 * half, [0.0, -4.0, 8.0, 0.0], 2);
    assert!(outline.contains(Point2::mm(4.0, -3.0)), "between the arcs is inside");
    assert!(!outline.contains(Point2::mm(4.0, -1.0)), "within the inner arc is outside");
}

#[test]
fn stadium_of_lines_and_half_circles() {
    check(&stadium(), 40.0 + 4.0 * PI, 20.0 + 4.0 * PI, [-2.0, 0.0, 12.0, 4.0], 4);
}

#[test]
fn rounded_rectangle() {
    let corner = |x, y| Corner { point: Point2::mm(x, y), radius: Length::mm(3.0) };
    let corners = [corner(0.0, 0.0), corner(20.0, 0.0), corner(20.0, 10.0), corner(0.0, 10.0)];
    let outline = Outline::rounded(&corners).expect("the radii fit");
    // Each corner loses r^2 (1 - pi/4) of area and r (2 - pi/2) of edge.
    check(&outline, 200.0 - 9.0 * (4.0 - PI), 60.0 - 3.0 * (8.0 - 2.0 * PI), [0.0, 0.0, 20.0, 10.0], 8);
}

#[test]
fn rounded_corners_that_use_up_an_edge_join() {
    let corner = |x, y| Corner { point: Point2::mm(x, y), radius: Length::mm(5.0) };
    let corners = [corner(0.0, 0.0), corner(20.0, 0.0), corner(20.0, 10.0), corner(0.0, 10.0)];
    let outline = Outline::rounded(&corners).expect("the radii just fit");
    check(&outline, 100.0 + 25.0 * PI, 20.0 + 10.0 * PI, [0.0, 0.0, 20.0, 10.0], 6);
}

#[test]
fn rounded_inside_and_outside_corners() {
    // 40 x 20 and 10 x 10 on it; the inside corner of radius 5 adds what an outside one takes.
    let lost = 1.0 - PI / 4.0;
    let area = 900.0 - 16.0 * lost - 25.0 * lost + 25.0 * lost;
    let perimeter = 140.0 - (4.0 + 5.0 + 5.0) * (2.0 - PI / 2.0);
    check(&rounded_l(), area, perimeter, [0.0, 0.0, 40.0, 30.0], 8);
}

#[test]
fn rounded_corner_of_sixty_degrees() {
    // An equilateral triangle of side 12 whose corners take its inscribed circle, radius side / (2 sqrt 3).
    let radius = Length::mm(12.0 / (2.0 * 3.0_f64.sqrt()));
    let corner = |x, y| Corner { point: Point2::mm(x, y), radius };
    let corners = [corner(0.0, 0.0), corner(12.0, 0.0), corner(6.0, 6.0 * 3.0_f64.sqrt())];
    let outline = Outline::rounded(&corners).expect("the inscribed circle fits");
    let (r, x) = (radius.as_mm(), 6.0);
    check(&outline, PI * r * r, 2.0 * PI * r, [x - r, 0.0, x + r, 2.0 * r], 3);
}

#[track_caller]
fn check_radius(radii: [f64; 4], expected: Option<(usize, f64)>) {
    let places = [(0.0, 0.0), (20.0, 0.0), (20.0, 10.0), (0.0, 10.0)];
    let corners: Vec<Corner> = places
        .into_iter()
        .zip(radii)
        .map(|((x, y), radius)| Corner { point: Point2::mm(x, y), radius: Length::mm(radius) })
        .collect();
    match (Outline::rounded(&corners), expected) {
        (Ok(_), None) => {}
        (Err(OutlineFault::RadiusDoesNotFit { corner, radius, largest }), Some((at, fits))) => {
            assert_eq!(corner, at, "which corner");
            assert_eq!(radius.as_mm(), radii[at], "its radius");
            assert!((largest.as_mm() - fits).abs() < ROUNDING, "largest {largest:?} must be {fits}");
            let mut mended = corners.clone();
            mended[at].radius = largest;
            assert!(Outline::rounded(&mended).is_ok(), "the largest radius that is told must fit");
        }
        (found, expected) => panic!("expected {expected:?}, found {found:?}"),
    }
}

#[test]
fn radii_that_share_an_edge() {
    check_radius([3.0, 0.0, 4.0, 6.0], None);
    check_radius([4.0, 0.0, 0.0, 7.0], Some((3, 6.0)));
    check_radius([0.0, 11.0, 0.0, 0.0], Some((1, 10.0)));
    check_radius([0.0, 10.0, 0.0, 0.0], None);
}

#[test]
fn a_negative_radius_is_refused() {
    let corner = |x, y, radius| Corner { point: Point2::mm(x, y), radius: Length::mm(radius) };
    let corners = [corner(0.0, 0.0, 0.0), corner(9.0, 0.0, -1.0), corner(0.0, 9.0, 0.0)];
    let expected = OutlineFault::NegativeRadius { corner: 1, radius: Length::mm(-1.0) };
    assert_eq!(Outline::rounded(&corners), Err(expected), "a radius is not negative");
}

#[track_caller]
fn check_fault(vertices: &[(f64, f64, f64)], expected: fn(&OutlineFault) -> bool, message: &str) {
    let vertices = vertices.iter().map(|&(x, y, bulge)| vertex(x, y, bulge)).collect();
    let fault = Outline::new(vertices).expect_err("the case describes no outline");
    assert!(expected(&fault), "another fault: {fault:?}");
    assert_eq!(fault.to_string(), message, "the message");
}

#[test]
fn too_few_vertices() {
    check_fault(
        &[(0.0, 0.0, 0.0), (1.0, 0.0, 0.0)],
        |fault| matches!(fault, OutlineFault::TooFewVertices { found: 2, least: 3 }),
        "at least 3 vertices are needed, found 2",
    );
}

#[test]
fn one_vertex_with_an_arc() {
    check_fault(
        &[(0.0, 0.0, 1.0)],
        |fault| matches!(fault, OutlineFault::TooFewVertices { found: 1, least: 2 }),
        "at least 2 vertices are needed, found 1",
    );
}

#[test]
fn not_finite() {
    check_fault(
        &[(0.0, 0.0, 0.0), (1.0, f64::NAN, 0.0), (0.0, 1.0, 0.0)],
        |fault| matches!(fault, OutlineFault::NotFinite { vertex: 1 }),
        "vertex 1 must have a finite place and bulge",
    );
    check_fault(
        &[(0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, f64::INFINITY)],
        |fault| matches!(fault, OutlineFault::NotFinite { vertex: 2 }),
        "vertex 2 must have a finite place and bulge",
    );
}

#[test]
fn out_of_reach() {
    check_fault(
        &[(0.0, 0.0, 0.0), (1e300, 0.0, 0.0), (0.0, 1.0, 0.0)],
        |fault| matches!(fault, OutlineFault::OutOfReach { vertex: 1, .. }),
        "vertex 1 and the arc that leaves it must keep within 1000000 mm",
    );
    check_fault(
        &[(0.0, 0.0, 1e300), (1.0, 0.0, 0.0)],
        |fault| matches!(fault, OutlineFault::OutOfReach { vertex: 0, .. }),
        "vertex 0 and the arc that leaves it must keep within 1000000 mm",
    );
}

#[test]
fn short_segment() {
    check_fault(
        &[(0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0)],
        |fault| matches!(fault, OutlineFault::ShortSegment { vertex: 1, .. }),
        "the segment that leaves vertex 1 must be longer than 0.000001 mm, found 0 mm",
    );
}

#[test]
fn out_and_back_is_no_outline() {
    check_fault(
        &[(0.0, 0.0, 1.0), (8.0, 0.0, -1.0)],
        |fault| matches!(fault, OutlineFault::NoArea { .. }),
        "an outline must enclose area, found 0 mm2 within 25.132741228718345 mm of edge",
    );
}

#[track_caller]
fn check_crossing(vertices: &[(f64, f64, f64)], expected: Option<(usize, usize, f64, f64)>) {
    let vertices = vertices.iter().map(|&(x, y, bulge)| vertex(x, y, bulge)).collect();
    match (Outline::new(vertices), expected) {
        (Ok(_), None) => {}
        (Err(OutlineFault::Crossing { first, second, at }), Some((i, j, x, y))) => {
            assert_eq!((first, second), (i, j), "which segments");
            assert!(at.distance(Point2::mm(x, y)) < 1e-6, "({}, {}) must be ({x}, {y})", at.x, at.y);
        }
        (found, expected) => panic!("expected {expected:?}, found {found:?}"),
    }
}

#[test]
fn lines_cross() {
    check_crossing(
        &[(0.0, 0.0, 0.0), (6.0, 4.0, 0.0), (6.0, 0.0, 0.0), (0.0, 2.0, 0.0)],
        Some((0, 2, 2.0, 4.0 / 3.0)),
    );
}

#[test]
fn a_vertex_touches_a_line() {
    check_crossing(
        &[(0.0, 0.0, 0.0), (10.0, 0.0, 0.0), (10.0, 5.0, 0.0), (4.0, 0.0, 0.0), (0.0, 5.0, 0.0)],
        Some((0, 2, 4.0, 0.0)),
    );
}

#[test]
fn a_vertex_near_a_line_does_not_touch_it() {
    check_crossing(
        &[(0.0, 0.0, 0.0), (10.0, 0.0, 0.0), (10.0, 5.0, 0.0), (4.0, 1e-5, 0.0), (0.0, 5.0, 0.0)],
        None,
    );
}

#[test]
fn a_line_folds_back() {
    check_crossing(
        &[(0.0, 0.0, 0.0), (10.0, 0.0, 0.0), (5.0, 0.0, 0.0), (5.0, 5.0, 0.0)],
        Some((0, 1, 5.0, 0.0)),
    );
}

#[test]
fn an_arc_crosses_a_line_twice() {
    // A half circle of radius 5 about (5, 5) dips under y = 1, at x = 2 and x = 8.
    check_crossing(
        &[(0.0, 5.0, 1.0), (10.0, 5.0, 0.0), (10.0, 1.0, 0.0), (0.0, 1.0, 0.0)],
        Some((0, 2, 2.0, 1.0)),
    );
}

#[test]
fn an_arc_touches_a_line() {
    check_crossing(
        &[(0.0, 5.0, 1.0), (10.0, 5.0, 0.0), (10.0, 0.0, 0.0), (0.0, 0.0, 0.0)],
        Some((0, 2, 5.0, 0.0)),
    );
}

#[test]
fn an_arc_near_a_line_does_not_touch_it() {
    check_crossing(&[(0.0, 5.0, 1.0), (10.0, 5.0, 0.0), (10.0, -1e-5, 0.0), (0.0, -1e-5, 0.0)], None);
}

#[test]
fn two_arcs_touch() {
    // Half circles of radius 5 about (0, 0) and (10, 0), that face each other, on a frame.
    check_crossing(
        &[
            (0.0, -5.0, 1.0),
            (0.0, 5.0, 0.0),
            (0.0, 8.0, 0.0),
            (10.0, 8.0, 0.0),
            (10.0, 5.0, 1.0),
            (10.0, -5.0, 0.0),
            (10.0, -8.0, 0.0),
            (0.0, -8.0, 0.0),
        ],
        Some((0, 4, 5.0, 0.0)),
    );
}

#[test]
fn an_arc_crosses_the_line_that_follows_it() {
    // Three quarters of a circle of radius 5 from (5, 0), then a chord back through it.
    check_crossing(
        &[(5.0, 0.0, 2.0_f64.sqrt() + 1.0), (0.0, -5.0, 0.0), (0.0, 9.0, 0.0), (9.0, 9.0, 0.0)],
        Some((0, 1, 0.0, 5.0)),
    );
}

#[test]
fn a_line_and_its_tangent_arc_do_not_cross() {
    check_crossing(&[(0.0, 0.0, 0.0), (600.0, 0.0, 1.0), (600.0, 1000.0, 0.0), (0.0, 1000.0, 0.0)], None);
}

#[test]
fn a_small_tangent_arc_far_away_does_not_cross() {
    let (x, y) = (12345.678, -9876.543);
    check_crossing(&[(x, y, 0.0), (x + 600.1, y, 1.0), (x + 600.1, y + 0.07, 0.0), (x, y + 0.07, 1.0)], None);
}

#[track_caller]
fn check_inside(outline: &Outline, inside: &[(f64, f64)], outside: &[(f64, f64)]) {
    let turned = [outline.clone(), outline.reversed()];
    for outline in &turned {
        for &(x, y) in inside {
            assert!(outline.contains(Point2::mm(x, y)), "({x}, {y}) must be inside");
        }
        for &(x, y) in outside {
            assert!(!outline.contains(Point2::mm(x, y)), "({x}, {y}) must be outside");
        }
    }
}

#[test]
fn inside_a_stadium_points_on_the_chords_too() {
    check_inside(
        &stadium(),
        &[(5.0, 2.0), (10.0, 2.0), (0.0, 2.0), (11.9, 2.0), (-1.9, 2.0), (10.0, 0.1), (0.0, 3.9)],
        &[
            (12.1, 2.0),
            (-2.1, 2.0),
            (11.9, 0.1),
            (5.0, 4.1),
            (10.0, 4.1),
            (10.0, -0.1),
            (20.0, 4.0),
            (-20.0, 0.0),
        ],
    );
}

#[test]
fn inside_a_lens_points_on_the_chord_too() {
    check_inside(
        &lens(),
        &[(4.0, 0.0), (4.0, 1.9), (4.0, -1.9), (0.1, 0.0)],
        &[(-1.0, 0.0), (9.0, 0.0), (4.0, 2.1), (1.0, 1.9)],
    );
}

#[test]
fn inside_most_of_a_circle() {
    // Nine tenths of a circle and its chord.
    let bulge = Angle::degrees(81.0).tan();
    let (x, y) = (5.0 * Angle::degrees(18.0).cos(), 5.0 * Angle::degrees(18.0).sin());
    let outline = outline(&[(x, y, bulge), (x, -y, 0.0)]);
    check_inside(&outline, &[(0.0, 0.0), (-4.9, 0.0), (4.7, 0.0), (3.0, 3.0)], &[(4.8, 0.0), (4.0, 4.0)]);
}

#[test]
fn mirrored_keeps_its_sense() {
    let outline = rounded_l();
    let mirrored = outline.mirrored_y();
    assert!((mirrored.signed_area() - outline.signed_area()).abs() < ROUNDING, "the area keeps its sign");
    assert!(mirrored.contains(Point2::mm(5.0, -29.0)), "the arm points down");
    assert!(!mirrored.contains(Point2::mm(5.0, 29.0)), "the arm no longer points up");
    assert_eq!(mirrored.mirrored_y(), outline, "twice mirrored is the same");
}

#[test]
fn a_quarter_turn_swaps_the_sides() {
    let turned = rounded_l().rotated(Angle::degrees(90.0));
    check(&turned, rounded_l().signed_area(), rounded_l().perimeter().as_mm(), [-30.0, 0.0, 0.0, 40.0], 8);
}

#[test]
fn flattened_half_circle_keeps_the_tolerance() {
    // A chord over angle a of a circle of radius 100 stands off 100 (1 - cos a/2): 0.01 allows 45 chords.
    let outline = outline(&[(-100.0, 0.0, 1.0), (100.0, 0.0, 0.0)]);
    let points = outline.flatten(ChordTolerance::new(Length::mm(0.01)));
    let chords = (PI / (2.0 * units::math::acos(1.0 - 0.0001))).ceil();
    assert_eq!(points.len(), chords as usize + 1, "as few points as the tolerance allows");
}

#[test]
fn path_runs_backward_the_same_way() {
    let path = Path::new(vec![vertex(0.0, 0.0, 0.0), vertex(10.0, 0.0, 1.0), vertex(10.0, 6.0, 0.7)])
        .expect("the case describes a path");
    assert_eq!(path.vertices()[2].bulge, 0.0, "the last bulge is unused");
    assert!((path.length().as_mm() - 10.0 - 3.0 * PI).abs() < ROUNDING, "a line and a half circle");
    assert!((path.bounds().max.x - 13.0).abs() < ROUNDING, "the half circle goes out by its radius");
    let back = path.reversed();
    assert_eq!((back.start(), back.end()), (path.end(), path.start()), "the ends swap");
    assert_eq!(back.bounds(), path.bounds(), "the bounds stay");
    assert_eq!(back.reversed(), path, "twice reversed is the same");
    assert_eq!(path.first_crossing(), None, "it does not cross itself");
}

#[test]
fn a_path_may_cross_itself_and_says_where() {
    let points = [(0.0, 0.0), (10.0, 0.0), (10.0, 5.0), (5.0, 5.0), (5.0, -5.0)];
    let path = Path::polyline(points.map(|(x, y)| Point2::mm(x, y))).expect("a path may cross itself");
    assert_eq!(path.first_crossing(), Some((0, 3, Point2::mm(5.0, 0.0))), "where it crosses");
}

#[test]
fn a_path_that_comes_home_does_not_cross_itself() {
    let points = [(0.0, 0.0), (10.0, 0.0), (10.0, 5.0), (0.0, 0.0)];
    let path = Path::polyline(points.map(|(x, y)| Point2::mm(x, y))).expect("a closed path");
    assert_eq!(path.first_crossing(), None, "the shared end is no crossing");
}

#[test]
fn segment_knows_its_directions_and_shares() {
    let arc = Segment::new(Point2::mm(5.0, 0.0), Point2::mm(0.0, 5.0), 2.0_f64.sqrt() - 1.0);
    let start = arc.start_direction() - Vector2::mm(0.0, 1.0);
    let end = arc.end_direction() - Vector2::mm(-1.0, 0.0);
    assert!(start.length() < ROUNDING, "a quarter circle leaves upward");
    assert!(end.length() < ROUNDING, "a quarter circle arrives leftward");
    for sixth in 0..=6 {
        let share = f64::from(sixth) / 6.0;
        let found = arc.share_at(arc.point_at(share));
        assert!((found - share).abs() < ROUNDING, "share {found} must be {share}");
    }
}

#[test]
fn circle_and_its_halves_agree() {
    let circle = Circle::of_diameter(Point2::mm(3.0, -4.0), Length::mm(10.0));
    let shape = Shape::from(circle);
    assert!((shape.area() - 25.0 * PI).abs() < ROUNDING, "pi r^2");
    let halves: f64 = shape.segments().iter().map(|half| half.length().as_mm()).sum();
    assert!((halves - shape.perimeter().as_mm()).abs() < ROUNDING, "the halves make the way round");
    assert!(shape.contains(Point2::mm(7.9, -4.0)), "within the radius");
    assert!(!shape.contains(Point2::mm(7.0, -0.5)), "in the bounds but beyond the radius");
}

/// An outline with every segment cut into so many pieces.
fn cut_up(outline: &Outline, pieces: usize) -> Outline {
    let vertices = outline.segments().flat_map(|segment| {
        (0..pieces).map(move |piece| Vertex {
            point: segment.point_at(piece as f64 / pieces as f64),
            bulge: math::tan(segment.sweep().as_radians() / pieces as f64 / 4.0),
        })
    });
    Outline::new(vertices.collect()).expect("the same loop")
}

#[test]
fn what_was_cut_up_is_merged_again() {
    let bulged = Outline::new(vec![
        Vertex { point: Point2::mm(0.0, 0.0), bulge: 0.0 },
        Vertex { point: Point2::mm(30.0, 0.0), bulge: 0.7 },
        Vertex { point: Point2::mm(25.0, 20.0), bulge: -0.3 },
        Vertex { point: Point2::mm(5.0, 20.0), bulge: 0.0 },
    ])
    .expect("a loop");
    for pieces in [1, 2, 5] {
        let merged = cut_up(&bulged, pieces).merged();
        assert_eq!(merged.vertices().len(), 4, "{pieces} pieces a segment");
        for (found, expected) in merged.vertices().iter().zip(bulged.vertices()) {
            assert!(found.point.distance(expected.point) < 1e-9, "{found:?} for {expected:?}");
            assert!((found.bulge - expected.bulge).abs() < 1e-9, "{found:?} for {expected:?}");
        }
    }
}

#[test]
fn a_circle_in_pieces_is_two_halves() {
    let halves = |bulge| {
        Outline::new(vec![
            Vertex { point: Point2::mm(3.0, 1.0), bulge },
            Vertex { point: Point2::mm(7.0, 1.0), bulge },
        ])
        .expect("a circle")
    };
    for bulge in [1.0, -1.0] {
        for pieces in [1, 2, 3] {
            let merged = cut_up(&halves(bulge).rotated(Angle::degrees(30.0)), pieces).merged();
            let [left, right] = merged.vertices() else { panic!("{pieces}: {merged:?}") };
            assert_eq!([left.bulge, right.bulge], [bulge; 2], "two half circles the same way round");
            assert!((right.point - left.point).y.abs() < 1e-12, "from the leftmost point");
            assert!((merged.signed_area() - bulge * std::f64::consts::PI * 4.0).abs() < 1e-9, "the area");
        }
    }
}

#[test]
fn an_arc_has_a_vertex_where_it_reaches_farthest() {
    let paddle = outline(&[(0.0, -8.0, 0.0), (20.0, -8.0, 0.0), (20.0, 8.0, 0.0), (0.0, 8.0, 0.5)]);
    let split = paddle.with_extremes();
    assert_eq!(split.vertices().len(), 5, "the leftmost point of the arc");
    let leftmost = split.vertices().iter().map(|vertex| vertex.point.x).fold(f64::MAX, f64::min);
    assert!((leftmost - paddle.bounds().min.x).abs() < ROUNDING, "found {leftmost}");
    assert!((split.signed_area() - paddle.signed_area()).abs() < ROUNDING, "the same loop");
    assert_eq!(split.merged().vertices().len(), 4, "which merges to what it was");
    let straight = outline(&[(0.0, 0.0, 0.0), (9.0, 0.0, 0.0), (0.0, 9.0, 0.0)]);
    assert_eq!(straight.with_extremes(), straight, "lines reach farthest at their ends");
}

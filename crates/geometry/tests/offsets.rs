//! Do offsets and the lines of a bit's middle keep their distance, and does what closes or falls apart show it?

mod random;

use std::f64::consts::PI;

use boxneck_geometry::{
    Circle, Contour, CutLineFault, Datum, Drawing, HoleDepth, Operation, Outline, Path, Point2, Preflight,
    Shape, Vertex, cut_line, offset,
};
use proptest::prelude::*;
use random::rounded_polygon;
use units::{Length, math};

fn mm(value: f64) -> Length {
    Length::mm(value)
}

fn vertex(x: f64, y: f64, bulge: f64) -> Vertex {
    Vertex { point: Point2::mm(x, y), bulge }
}

fn shape(vertices: &[(f64, f64, f64)]) -> Shape {
    let vertices = vertices.iter().map(|&(x, y, bulge)| vertex(x, y, bulge)).collect();
    Outline::new(vertices).expect("the case describes an outline").into()
}

fn rectangle(x: [f64; 2], y: [f64; 2]) -> Shape {
    Outline::rectangle(Point2::mm(x[0], y[0]), Point2::mm(x[1], y[1])).expect("it has area").into()
}

/// Two squares of 10 joined by a waist of 4, and the waist's length.
fn dumbbell() -> Shape {
    shape(&[
        (0.0, 0.0, 0.0),
        (10.0, 0.0, 0.0),
        (10.0, 3.0, 0.0),
        (16.0, 3.0, 0.0),
        (16.0, 0.0, 0.0),
        (26.0, 0.0, 0.0),
        (26.0, 10.0, 0.0),
        (16.0, 10.0, 0.0),
        (16.0, 7.0, 0.0),
        (10.0, 7.0, 0.0),
        (10.0, 10.0, 0.0),
        (0.0, 10.0, 0.0),
    ])
}

/// A square of 30 with a hollow of 20 by 20 inside that opens upward through a mouth of 4.
fn flask() -> Shape {
    shape(&[
        (0.0, 0.0, 0.0),
        (30.0, 0.0, 0.0),
        (30.0, 30.0, 0.0),
        (17.0, 30.0, 0.0),
        (17.0, 25.0, 0.0),
        (25.0, 25.0, 0.0),
        (25.0, 5.0, 0.0),
        (5.0, 5.0, 0.0),
        (5.0, 25.0, 0.0),
        (13.0, 25.0, 0.0),
        (13.0, 30.0, 0.0),
        (0.0, 30.0, 0.0),
    ])
}

/// The areas of an offset's loops, in their order, within 1e-6 mm2, whichever way round the outline runs.
#[track_caller]
fn check(shape: &Shape, distance: f64, expected: &[f64]) {
    let reversed = match shape {
        Shape::Outline(outline) => Shape::Outline(outline.reversed()),
        Shape::Circle(_) => shape.clone(),
    };
    for shape in [shape, &reversed] {
        let loops = offset(shape, mm(distance)).expect("the loops do not touch");
        let areas: Vec<f64> = loops.iter().map(Shape::area).collect();
        assert_eq!(areas.len(), expected.len(), "loops, of areas {areas:?}");
        for (found, expected) in areas.iter().zip(expected) {
            assert!((found - expected).abs() < 1e-6, "area {found} must be {expected}");
        }
    }
}

#[test]
fn a_circle_keeps_its_centre() {
    let circle = Shape::Circle(Circle { center: Point2::mm(3.0, 4.0), radius: mm(5.0) });
    check(&circle, 2.0, &[49.0 * PI]);
    check(&circle, -2.0, &[9.0 * PI]);
    check(&circle, -5.0, &[]);
    check(&circle, 0.0, &[25.0 * PI]);
}

#[test]
fn a_rectangle_grows_round_and_shrinks_sharp() {
    let plate = rectangle([-3.0, 37.0], [5.0, 25.0]);
    check(&plate, 2.0, &[800.0 + 240.0 + 4.0 * PI]);
    check(&plate, -2.0, &[36.0 * 16.0]);
    check(&plate, -10.5, &[]);
}

#[test]
fn a_stadium_stays_one() {
    let stadium = shape(&[(0.0, 0.0, 0.0), (10.0, 0.0, 1.0), (10.0, 4.0, 0.0), (0.0, 4.0, 1.0)]);
    check(&stadium, 1.0, &[60.0 + 9.0 * PI]);
    check(&stadium, -1.0, &[20.0 + PI]);
}

/// The area between a line and two arcs of a radius, about two points of a line at the radius from it and 4 apart, that
/// stand between the two points: 2 (2 r - integral of sqrt(r^2 - t^2) from 0 to 2).
fn dip(radius: f64) -> f64 {
    let below = (2.0 * (radius * radius - 4.0).sqrt() + radius * radius * math::asin(2.0 / radius)) / 2.0;
    2.0 * (2.0 * radius - below)
}

// About the corners of the waist the edge runs round.
#[test]
fn a_shape_falls_apart_at_its_waist() {
    check(&dumbbell(), -1.0, &[8.0 * 8.0 * 2.0 + 8.0 * 2.0 + 4.0 - PI]);
    check(&dumbbell(), -2.5, &[25.0 + dip(2.5), 25.0 + dip(2.5)]);
    check(&dumbbell(), -5.0, &[]);
}

// The hollow's loop is what is left of it: 20 less twice the distance each way, and what stands into the mouth.
#[test]
fn a_gap_that_closes_leaves_a_hole() {
    check(&flask(), 3.0, &[900.0 + 120.0 * 3.0 + 9.0 * PI - dip(3.0), 14.0 * 14.0 + dip(3.0)]);
}

// A segment of 0.2 micrometres once made the library give a loop that ran over its own beginning.
#[test]
fn a_corner_rounded_by_almost_nothing_counts_as_sharp() {
    let sharp = shape(&[(28.64157, 0.0, 0.0), (27.4, 47.5, 0.0), (-20.0, 0.0, 0.0), (30.0, -51.9, 0.0)]);
    let blunt = shape(&[
        (28.641569, -1.07e-4, 0.0),
        (28.641563, 1.07e-4, 0.0),
        (27.4, 47.5, 0.0),
        (-20.0, 0.0, 0.0),
        (30.0, -51.9, 0.0),
    ]);
    let areas = [sharp, blunt].map(|shape| {
        let loops = offset(&shape, mm(-13.966)).expect("the loops do not touch");
        loops.iter().map(Shape::area).sum::<f64>()
    });
    assert!((areas[0] - areas[1]).abs() < 0.01, "the areas {areas:?} are one");
}

fn drawing(operations: Vec<Operation>) -> Drawing {
    let datum = Datum { point: Point2::ORIGIN, meaning: "lower left".to_owned() };
    Drawing { name: "plate".to_owned(), title: "Plate".to_owned(), datum, operations }
}

/// The widest bit that works, where one of 10 mm is too wide for what a contour cuts.
#[track_caller]
fn check_widest(operation: Operation, expected: f64) {
    let (contour, shape) = operation.contour().expect("it is a contour");
    let (contour, shape) = (contour, shape.clone());
    match cut_line(&drawing(vec![operation.clone()]), mm(10.0)) {
        Err(CutLineFault::TooNarrow { operation: 0, contour: told, largest, .. }) => {
            assert_eq!(told, contour, "what is cut");
            assert!(
                (largest.as_mm() - expected).abs() < 1e-9,
                "the widest is {largest}, expected {expected} mm"
            );
        }
        other => panic!("{shape:?} must be too narrow, found {other:?}"),
    }
    let cut = cut_line(&drawing(vec![operation.clone()]), mm(expected));
    assert!(cut.is_ok(), "the widest works: {cut:?}");
    let cut = cut_line(&drawing(vec![operation]), mm(expected + 0.011));
    assert!(cut.is_err(), "a wider one does not: {cut:?}");
}

#[test]
fn an_opening_takes_a_bit_that_has_way_to_go() {
    check_widest(Operation::CutInside(rectangle([0.0, 30.0], [0.0, 6.0])), 5.99);
    check_widest(Operation::Pocket { shape: rectangle([0.0, 4.5], [0.0, 60.0]), depth: mm(2.0) }, 4.49);
    check_widest(Operation::CutInside(Circle::of_diameter(Point2::ORIGIN, mm(8.0)).into()), 7.99);
}

#[test]
fn an_opening_is_as_wide_as_its_waist() {
    check_widest(Operation::CutInside(dumbbell()), 3.99);
}

// A notch 5 mm wide and 12 mm deep in the upper edge.
#[test]
fn a_notch_takes_a_bit_that_cuts_its_floor() {
    let notched = shape(&[
        (0.0, 0.0, 0.0),
        (40.0, 0.0, 0.0),
        (40.0, 20.0, 0.0),
        (22.5, 20.0, 0.0),
        (22.5, 8.0, 0.0),
        (17.5, 8.0, 0.0),
        (17.5, 20.0, 0.0),
        (0.0, 20.0, 0.0),
    ]);
    check_widest(Operation::CutOutside(notched), 4.99);
}

#[test]
fn a_hollow_is_as_wide_as_its_mouth() {
    check_widest(Operation::CutOutside(flask()), 3.99);
}

#[test]
fn only_contours_move() {
    let circle = Circle::of_diameter(Point2::mm(10.0, 10.0), mm(2.0));
    let path = |from, to| Path::line(from, to).expect("it has length");
    let kept = [
        Operation::Drill { circle, depth: HoleDepth::Through },
        Operation::Slot {
            path: path(Point2::mm(30.0, 0.0), Point2::mm(30.0, 50.0)),
            width: mm(0.6),
            depth: mm(1.0),
        },
        Operation::Engrave(path(Point2::mm(40.0, 0.0), Point2::mm(40.0, 50.0))),
        Operation::Guide(path(Point2::mm(50.0, 0.0), Point2::mm(50.0, 50.0))),
        Operation::GuideShape(circle.into()),
    ];
    let mut operations = vec![Operation::CutOutside(rectangle([0.0, 100.0], [0.0, 50.0]))];
    operations.push(Operation::Pocket { shape: rectangle([60.0, 80.0], [10.0, 20.0]), depth: mm(3.0) });
    operations.extend(kept.clone());
    let cut = cut_line(&drawing(operations), mm(4.0)).expect("the pocket is wide enough");
    assert_eq!(cut.operations[2..], kept, "what is no contour stays");
    let areas: Vec<f64> =
        cut.operations[..2].iter().map(|cut| cut.contour().expect("a contour").1.area()).collect();
    let expected = [5000.0 + 300.0 * 2.0 + 4.0 * PI, 16.0 * 6.0];
    for (found, expected) in areas.iter().zip(expected) {
        assert!((found - expected).abs() < 1e-9, "area {found} must be {expected}");
    }
    assert!(
        matches!(cut.operations[1], Operation::Pocket { depth, .. } if depth == mm(3.0)),
        "the depth stays"
    );
    assert_eq!(cut.faults(&Preflight::default()), [], "the cut line may be written");
}

#[test]
fn a_bit_has_a_diameter() {
    let fault = cut_line(&drawing(Vec::new()), mm(0.0)).expect_err("there is no such bit");
    assert_eq!(fault.to_string(), "the diameter of the bit must be above 0 mm, found 0 mm", "what is wrong");
    assert_eq!(Contour::Outside.words(), "the outside", "a contour has words");
}

/// How far an offset of an outline may be off, in millimetres.
fn accuracy(outline: &Outline) -> f64 {
    let shortest = outline.segments().map(|segment| segment.length().as_mm()).fold(f64::INFINITY, f64::min);
    if shortest < 0.05 { 0.02 } else { 1e-4 }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn convex_shapes_grow_by_steiner(width in 1.0..80.0_f64, height in 1.0..80.0_f64, round in 0.0..1.0_f64,
            turn in 0.0..360.0_f64, distance in 0.01..30.0_f64) {
        let radius = mm(round * width.min(height) / 2.0);
        let corner = |x, y| boxneck_geometry::Corner { point: Point2::mm(x, y), radius };
        let corners = [corner(0.0, 0.0), corner(width, 0.0), corner(width, height), corner(0.0, height)];
        let plate = Outline::rounded(&corners).expect("the radii fit").rotated(units::Angle::degrees(turn));
        let within = accuracy(&plate);
        let expected = plate.signed_area() + plate.perimeter().as_mm() * distance + PI * distance * distance;
        let loops = offset(&plate.into(), mm(distance)).expect("a convex shape does not touch itself");
        prop_assert_eq!(loops.len(), 1, "one loop");
        let (found, within) = (loops[0].area(), within * loops[0].perimeter().as_mm());
        prop_assert!((found - expected).abs() < within, "area {found} must be {expected} within {within}");
    }

    #[test]
    fn loops_keep_their_distance(outline in rounded_polygon(), distance in -15.0..15.0_f64) {
        prop_assume!(distance.abs() > 0.01);
        let within = accuracy(&outline);
        let shape = Shape::from(outline);
        let edge = shape.segments();
        let off = |point: Point2| edge.iter().map(|s| s.distance_to(point).as_mm()).fold(f64::INFINITY, f64::min);
        let loops = offset(&shape, mm(distance));
        prop_assert!(loops.is_ok(), "random loops do not touch: {loops:?}");
        for segment in loops.expect("just seen").iter().flat_map(Shape::segments) {
            for eighth in 0..8 {
                let point = segment.point_at(f64::from(eighth) / 8.0);
                let found = off(point);
                prop_assert!((found - distance.abs()).abs() < within, "a point is {found} off the edge, not {distance}");
                prop_assert_eq!(shape.contains(point), distance < 0.0, "on which side ({}, {}) is", point.x, point.y);
            }
        }
    }

    #[test]
    fn every_point_far_enough_inside_is_enclosed(outline in rounded_polygon(), distance in -15.0..15.0_f64,
            x in -0.2..1.2_f64, y in -0.2..1.2_f64) {
        let shape = Shape::from(outline);
        let bounds = shape.bounds();
        let point = Point2::mm(
            bounds.min.x + bounds.width().as_mm() * x,
            bounds.min.y + bounds.height().as_mm() * y,
        );
        let apart = shape.segments().iter().map(|s| s.distance_to(point).as_mm()).fold(f64::INFINITY, f64::min);
        let outward = if shape.contains(point) { -apart } else { apart };
        prop_assume!((outward - distance).abs() > 0.03);
        let loops = offset(&shape, mm(distance)).expect("random loops do not touch");
        let holding = loops.iter().filter(|shape| shape.contains(point)).count();
        prop_assert_eq!(holding % 2 == 1, outward < distance, "{} outward of the edge, {} loops hold it", outward, holding);
    }
}

//! Does the check before writing find what stumbles a machine, and nothing else?

use boxneck_geometry::{
    Circle, Datum, Drawing, DrawingFault, HoleDepth, Measure, Operation, Outline, Path, Point2, Preflight,
    Shape, Vector2, Vertex,
};
use units::Length;

fn mm(value: f64) -> Length {
    Length::mm(value)
}

fn rectangle(x: f64, y: f64, to_x: f64, to_y: f64) -> Shape {
    Outline::rectangle(Point2::mm(x, y), Point2::mm(to_x, to_y))
        .expect("the case describes a rectangle")
        .into()
}

fn circle(x: f64, y: f64, radius: f64) -> Circle {
    Circle { center: Point2::mm(x, y), radius: mm(radius) }
}

fn path(points: &[(f64, f64)]) -> Path {
    Path::polyline(points.iter().map(|&(x, y)| Point2::mm(x, y))).expect("the case describes a path")
}

fn slot(points: &[(f64, f64)]) -> Operation {
    Operation::Slot { path: path(points), width: mm(0.6), depth: mm(1.5) }
}

fn through(x: f64, y: f64, radius: f64) -> Operation {
    Operation::Drill { circle: circle(x, y, radius), depth: HoleDepth::Through }
}

fn pocket(shape: Shape, depth: f64) -> Operation {
    Operation::Pocket { shape, depth: mm(depth) }
}

fn part() -> Operation {
    Operation::CutOutside(rectangle(0.0, 0.0, 100.0, 50.0))
}

fn drawing(operations: Vec<Operation>) -> Drawing {
    let datum = Datum { point: Point2::mm(0.0, 25.0), meaning: "middle of the left edge".to_owned() };
    Drawing { name: "plate-1".to_owned(), title: "Plate".to_owned(), datum, operations }
}

/// The faults of a drawing, by their names and the operations that they tell of.
#[track_caller]
fn check(operations: Vec<Operation>, expected: &[&str]) {
    let drawing = drawing(operations);
    let told = |drawing: &Drawing| -> Vec<String> {
        drawing.faults(&Preflight::default()).iter().map(short).collect()
    };
    assert_eq!(told(&drawing), expected, "the faults");
    assert_eq!(told(&drawing.mirrored_y()), expected, "the faults of the mirror image");
    assert_eq!(told(&drawing.translated(Vector2::mm(-321.5, 77.25))), expected, "the faults elsewhere");
}

fn short(fault: &DrawingFault) -> String {
    match fault {
        DrawingFault::NotPositive { operation, measure, .. } => format!("{} of {operation}", measure.word()),
        DrawingFault::ShortSegment { operation, .. } => format!("short segment in {operation}"),
        DrawingFault::CrossesItself { operation, .. } => format!("{operation} crosses itself"),
        DrawingFault::ContoursMeet { first, second, .. } => format!("{first} meets {second}"),
        DrawingFault::DrawnTwice { first, second, .. } => format!("{first} is {second}"),
        DrawingFault::OutsidePart { operation, .. } => format!("{operation} outside"),
        DrawingFault::PartInsidePart { inner, outer } => format!("{inner} inside {outer}"),
        DrawingFault::SlotAstray { operation, .. } => format!("slot {operation} astray"),
        other => format!("{other:?}"),
    }
}

#[test]
fn a_sound_drawing() {
    check(
        vec![
            part(),
            Operation::CutInside(rectangle(10.0, 10.0, 30.0, 40.0)),
            Operation::CutInside(circle(50.0, 25.0, 8.0).into()),
            pocket(rectangle(65.0, 10.0, 95.0, 40.0), 3.0),
            through(80.0, 25.0, 4.0),
            Operation::Drill { circle: circle(80.0, 25.0, 7.0), depth: HoleDepth::To(mm(5.0)) },
            slot(&[(62.0, -1.0), (62.0, 51.0)]),
            Operation::Engrave(path(&[(2.0, 2.0), (98.0, 2.0)])),
            Operation::Guide(path(&[(-20.0, 25.0), (120.0, 25.0)])),
            Operation::GuideShape(rectangle(-5.0, -5.0, 105.0, 55.0)),
        ],
        &[],
    );
}

#[test]
fn nothing_drawn_is_no_fault() {
    check(vec![], &[]);
}

#[test]
fn openings_that_meet() {
    let opening = |x, to_x| Operation::CutInside(rectangle(x, 10.0, to_x, 40.0));
    check(vec![part(), opening(10.0, 30.0), opening(29.0, 50.0)], &["1 is 2"]);
    check(
        vec![part(), opening(10.0, 30.0), Operation::CutInside(rectangle(29.0, 12.0, 50.0, 44.0))],
        &["1 meets 2"],
    );
    check(
        vec![part(), opening(10.0, 30.0), Operation::CutInside(circle(34.0, 25.0, 4.0).into())],
        &["1 meets 2"],
    );
    check(vec![part(), opening(10.0, 30.0), opening(30.5, 50.0)], &[]);
}

#[test]
fn an_opening_through_the_edge() {
    check(vec![part(), Operation::CutInside(rectangle(90.0, 10.0, 110.0, 40.0))], &["0 meets 1"]);
    check(vec![Operation::CutInside(rectangle(90.0, 10.0, 110.0, 40.0)), part()], &["0 meets 1"]);
    check(vec![part(), Operation::CutInside(rectangle(110.0, 10.0, 120.0, 40.0))], &["1 outside"]);
    check(vec![part(), Operation::CutInside(rectangle(-10.0, -10.0, 120.0, 90.0))], &["1 outside"]);
}

#[test]
fn a_hole_through_the_edge() {
    check(vec![part(), through(98.0, 25.0, 4.0)], &["0 meets 1"]);
    check(vec![part(), through(96.0, 25.0, 4.0)], &["0 meets 1"]);
    check(vec![part(), through(95.9, 25.0, 4.0)], &[]);
    check(vec![part(), through(120.0, 25.0, 4.0)], &["1 outside"]);
}

#[test]
fn a_pocket_may_end_at_the_edge_but_not_beyond() {
    check(vec![part(), pocket(rectangle(80.0, 0.0, 100.0, 50.0), 3.0)], &[]);
    check(vec![part(), pocket(rectangle(80.0, 10.0, 100.0, 40.0), 3.0)], &[]);
    check(vec![part(), pocket(rectangle(80.0, 10.0, 101.0, 40.0), 3.0)], &["1 outside"]);
    check(vec![part(), pocket(circle(95.0, 25.0, 5.5).into(), 3.0)], &["1 outside"]);
    check(vec![part(), pocket(circle(95.0, 25.0, 5.0).into(), 3.0)], &[]);
}

#[test]
fn a_pocket_that_bridges_a_notch_is_outside() {
    let points = [
        (0.0, 0.0),
        (100.0, 0.0),
        (100.0, 50.0),
        (60.0, 50.0),
        (60.0, 20.0),
        (40.0, 20.0),
        (40.0, 50.0),
        (0.0, 50.0),
    ];
    let notched = Outline::polygon(points.map(|(x, y)| Point2::mm(x, y))).expect("a notched plate");
    check(
        vec![Operation::CutOutside(notched.into()), pocket(rectangle(30.0, 30.0, 70.0, 40.0), 2.0)],
        &["1 outside"],
    );
}

#[test]
fn two_parts_side_by_side() {
    let second = || Operation::CutOutside(rectangle(110.0, 0.0, 150.0, 50.0));
    check(vec![part(), second(), through(130.0, 25.0, 4.0), through(50.0, 25.0, 4.0)], &[]);
    check(vec![part(), second(), through(105.0, 25.0, 2.0)], &["2 outside"]);
}

#[test]
fn a_part_inside_a_part() {
    check(vec![part(), Operation::CutOutside(rectangle(10.0, 10.0, 20.0, 20.0))], &["1 inside 0"]);
}

#[test]
fn slots_may_run_out_by_two_millimetres() {
    check(vec![part(), slot(&[(50.0, -2.0), (50.0, 52.0)])], &[]);
    check(vec![part(), slot(&[(50.0, -2.1), (50.0, 50.0)])], &["slot 1 astray"]);
    check(vec![part(), slot(&[(50.0, -1.5), (60.0, -1.5)])], &["slot 1 astray"]);
    check(vec![part(), slot(&[(50.0, 10.0), (60.0, 10.0)])], &[]);
}

#[test]
fn one_circle_twice() {
    check(vec![part(), through(50.0, 25.0, 4.0), through(50.0, 25.0, 4.0)], &["1 is 2"]);
    check(vec![part(), through(50.0, 25.0, 4.0), through(50.004, 25.0, 4.003)], &["1 is 2"]);
    // Two circles of one radius, 0.03 mm apart, keep within 0.01 mm for 20 degrees each side of where they cross.
    check(vec![part(), through(50.0, 25.0, 4.0), through(50.03, 25.0, 4.0)], &["1 is 2"]);
    check(vec![part(), through(50.0, 25.0, 4.0), through(50.5, 25.0, 4.0)], &[]);
    check(vec![part(), through(50.0, 25.0, 4.0), through(50.0, 25.0, 4.02)], &[]);
}

#[test]
fn one_line_in_two_kinds() {
    let shape = || rectangle(10.0, 10.0, 30.0, 40.0);
    check(vec![part(), Operation::CutInside(shape()), pocket(shape(), 3.0)], &["1 is 2"]);
    check(vec![part(), Operation::CutInside(shape()), Operation::GuideShape(shape())], &[]);
    check(vec![Operation::GuideShape(shape()), Operation::GuideShape(shape())], &["0 is 1"]);
}

#[test]
fn a_circle_drawn_as_an_outline_is_the_same_line() {
    let vertex = |x, y| Vertex { point: Point2::mm(x, y), bulge: 2.0_f64.sqrt() - 1.0 };
    let vertices = vec![vertex(54.0, 25.0), vertex(50.0, 29.0), vertex(46.0, 25.0), vertex(50.0, 21.0)];
    let quarters = Outline::new(vertices).expect("four quarters");
    check(vec![part(), through(50.0, 25.0, 4.0), Operation::CutInside(quarters.into())], &["1 is 2"]);
}

#[test]
fn lines_that_overlap_in_part() {
    let engrave = |points: &[(f64, f64)]| Operation::Engrave(path(points));
    let long = || engrave(&[(10.0, 10.0), (60.0, 10.0)]);
    check(vec![long(), engrave(&[(50.0, 10.0), (90.0, 10.0)])], &["0 is 1"]);
    check(vec![long(), engrave(&[(90.0, 10.005), (50.0, 10.005)])], &["0 is 1"]);
    check(vec![long(), engrave(&[(60.0, 10.0), (90.0, 10.0)])], &[]);
    check(vec![long(), engrave(&[(50.0, 10.02), (90.0, 10.02)])], &[]);
    check(vec![long(), engrave(&[(30.0, 0.0), (30.0, 20.0)])], &[]);
    // At 0.0001 radians the two keep within 0.01 mm for 100 mm each way.
    check(vec![long(), engrave(&[(0.0, 10.0), (90.0, 10.009)])], &["0 is 1"]);
    check(vec![long(), engrave(&[(0.0, 9.5), (90.0, 10.5)])], &["0 is 1"]);
    check(vec![long(), engrave(&[(0.0, 8.0), (90.0, 12.0)])], &[]);
    check(vec![long(), Operation::Guide(path(&[(0.0, 10.0), (90.0, 10.0)]))], &[]);
}

#[test]
fn pockets_of_one_depth_may_not_share_an_edge() {
    let left = || rectangle(10.0, 10.0, 30.0, 40.0);
    let right = || rectangle(30.0, 10.0, 50.0, 40.0);
    check(vec![part(), pocket(left(), 3.0), pocket(right(), 3.0)], &["1 is 2"]);
    check(vec![part(), pocket(left(), 3.0), pocket(right(), 5.0)], &[]);
}

#[test]
fn parts_that_share_an_edge_are_cut_twice() {
    check(vec![part(), Operation::CutOutside(rectangle(100.0, 0.0, 150.0, 50.0))], &["0 is 1"]);
}

#[test]
fn short_segments() {
    let points = [(10.0, 10.0), (20.0, 10.0), (20.04, 10.0), (20.04, 20.0)];
    check(vec![Operation::Engrave(path(&points))], &["short segment in 0"]);
    let points = [(10.0, 10.0), (20.0, 10.0), (20.06, 10.0), (20.06, 20.0)];
    check(vec![Operation::Engrave(path(&points))], &[]);
}

#[test]
fn lines_that_cross_themselves() {
    let points = [(10.0, 10.0), (20.0, 10.0), (20.0, 15.0), (15.0, 15.0), (15.0, 5.0)];
    check(vec![Operation::Engrave(path(&points))], &["0 crosses itself"]);
    check(vec![slot(&points)], &["0 crosses itself"]);
    check(vec![Operation::Guide(path(&points))], &[]);
}

#[test]
fn sizes_above_zero() {
    check(vec![part(), through(50.0, 25.0, 0.0)], &["radius of 1"]);
    check(vec![part(), through(50.0, 25.0, 1e-20)], &["radius of 1"]);
    check(vec![part(), pocket(circle(50.0, 25.0, -1.0).into(), 0.0)], &["radius of 1", "depth of 1"]);
    let flat = Operation::Slot { path: path(&[(0.0, 0.0), (9.0, 9.0)]), width: mm(0.0), depth: mm(-1.0) };
    check(vec![part(), flat], &["width of 1", "depth of 1"]);
    let hole = Operation::Drill { circle: circle(50.0, 25.0, 4.0), depth: HoleDepth::To(mm(0.0)) };
    check(vec![part(), hole], &["depth of 1"]);
}

#[track_caller]
fn check_message(drawing: &Drawing, expected: &[&str]) {
    let told: Vec<String> = drawing.faults(&Preflight::default()).iter().map(ToString::to_string).collect();
    assert_eq!(told, expected, "the messages");
}

#[test]
fn names_make_file_stems() {
    for name in ["", "Plate", "plate 1", "plate_1", "../plate", "pläte"] {
        let named = Drawing { name: name.to_owned(), ..drawing(vec![]) };
        let message =
            format!("the drawing's name must be lower-case letters, digits and dashes, found \"{name}\"");
        check_message(&named, &[&message]);
    }
}

#[test]
fn what_is_not_finite_or_out_of_reach() {
    let mut broken = drawing(vec![part(), through(f64::NAN, 25.0, 4.0), through(1e17, 25.0, 4.0)]);
    broken.datum.point.x = 2e6;
    check_message(
        &broken,
        &[
            "the drawing's datum must lie within 1000000 mm of the origin",
            "operation 1 must have finite coordinates",
            "the circle of operation 2 must lie within 1000000 mm of the origin",
        ],
    );
    let mut broken = drawing(vec![]);
    broken.datum.point.x = f64::INFINITY;
    check_message(&broken, &["the drawing's datum must have finite coordinates"]);
}

#[test]
fn messages_carry_places_and_values() {
    check_message(
        &drawing(vec![
            part(),
            through(98.0, 25.0, 4.0),
            slot(&[(50.0, -3.0), (50.0, 40.0)]),
            through(60.0, 25.0, -1.0),
        ]),
        &["the radius of operation 3 must be above 0 mm, found -1 mm"],
    );
    check_message(
        &drawing(vec![
            part(),
            Operation::CutInside(rectangle(90.0, 10.0, 110.0, 40.0)),
            slot(&[(50.0, -3.0), (50.0, 40.0)]),
            Operation::Engrave(path(&[(5.0, 5.0), (35.0, 5.0)])),
            Operation::Engrave(path(&[(15.0, 5.0), (45.0, 5.0)])),
            through(200.0, 25.0, 4.0),
        ]),
        &[
            "the contours of operations 0 and 1 meet at (100, 10) mm",
            "operations 3 and 4 draw one line from (15, 5) to (35, 5) mm",
            "the slot of operation 2 must cut the part and end at most 2 mm beyond its bounds, \
             found it from (50, -3) to (50, 40) mm",
            "operation 5 must lie inside the part, found it outside at (200, 29) mm",
        ],
    );
}

#[test]
fn limits_are_the_callers() {
    let preflight = Preflight { shortest_segment: mm(11.0), coincidence: mm(1.0), run_out: mm(5.0) };
    let faults = drawing(vec![
        part(),
        slot(&[(50.0, -4.0), (50.0, 54.0)]),
        Operation::Engrave(path(&[(5.0, 5.0), (15.0, 5.0)])),
        Operation::Engrave(path(&[(5.0, 5.9), (30.0, 5.9)])),
    ])
    .faults(&preflight);
    assert_eq!(
        faults.iter().map(short).collect::<Vec<_>>(),
        ["short segment in 2", "2 is 3"],
        "by the given limits"
    );
}

#[test]
fn at_origin_goes_by_what_is_cut_and_takes_the_datum_along() {
    let moved = drawing(vec![
        Operation::CutOutside(rectangle(-30.0, 10.0, 70.0, 60.0)),
        Operation::Guide(path(&[(-50.0, 35.0), (90.0, 35.0)])),
    ])
    .at_origin();
    let bounds = moved.cut_bounds().expect("something is cut");
    assert_eq!(
        (bounds.min, bounds.max),
        (Point2::ORIGIN, Point2::mm(100.0, 50.0)),
        "the lower left is the origin"
    );
    assert_eq!(moved.datum.point, Point2::mm(30.0, 15.0), "the datum moves along");
    let bounds = moved.bounds().expect("something is drawn");
    assert_eq!((bounds.min.x, bounds.max.x), (-20.0, 120.0), "guides may lie left of the origin");
    assert_eq!(moved.at_origin(), moved, "once is enough");
}

#[test]
fn mirrored_twice_is_the_same() {
    let sound = drawing(vec![part(), through(80.0, 10.0, 4.0), slot(&[(62.0, -1.0), (63.0, 51.0)])]);
    let mirrored = sound.mirrored_y();
    assert_eq!(mirrored.datum.point, Point2::mm(0.0, -25.0), "the datum is mirrored");
    assert_eq!(mirrored.mirrored_y(), sound, "twice mirrored is the same");
    let words = [Measure::Radius, Measure::Depth, Measure::Width].map(Measure::word);
    assert_eq!(words, ["radius", "depth", "width"], "what people call them");
}

//! Are descriptions that are no solid refused, by name?

use boxneck_geometry::{Body, BodyFault, Bore, Frame3, Loft, Outline, Point3, Section, Vector3};
use units::Length;

use super::samples::*;

/// The fault of the description or of its skin.
#[track_caller]
fn fault(lofts: Vec<Loft>, bores: Vec<Bore>) -> BodyFault {
    Body::new(lofts, bores).and_then(|body| body.skin()).expect_err("a description that is no solid")
}

/// The fault of a bore in a plate of 20 x 10 x 6.
#[track_caller]
fn bore_fault(bores: Vec<Bore>) -> BodyFault {
    let plate = Loft::prism(Frame3::across_z(Length::ZERO), rectangle(0.0, 0.0, 20.0, 10.0), Length::mm(6.0));
    fault(vec![plate], bores)
}

fn drilled(x: f64, y: f64, radius: f64, depth: f64) -> Bore {
    Bore::straight(Point3::mm(x, y, 6.0), DOWN, Length::mm(radius), Length::mm(depth))
}

fn square(half: f64) -> Outline {
    rectangle(-half, -half, half, half)
}

#[test]
fn nothing() {
    assert_eq!(fault(vec![], vec![]), BodyFault::NoLoft, "no loft");
}

#[test]
fn rings_of_different_count() {
    let found = fault(vec![along_x(0.0, &square(1.0), 5.0, &circle(1.0))], vec![]);
    assert_eq!(found, BodyFault::VertexCount { loft: 0, start: 4, end: 2 }, "count");
}

#[test]
fn a_line_ruled_to_an_arc() {
    let d = outline(&[(1.0, -1.0, 1.0), (1.0, 1.0, 0.0), (-1.0, 1.0, 0.0), (-1.0, -1.0, 0.0)]);
    let found = fault(vec![along_x(0.0, &square(1.0), 5.0, &d)], vec![]);
    assert!(matches!(found, BodyFault::SegmentKind { loft: 0, .. }), "found {found:?}");
}

#[test]
fn a_loft_that_goes_back() {
    let found = fault(vec![prism_along_x(5.0, 1.0, &square(1.0))], vec![]);
    assert!(matches!(found, BodyFault::Backward { loft: 0, .. }), "found {found:?}");
}

#[test]
fn a_clockwise_ring() {
    let ring = square(1.0).reversed();
    assert_eq!(
        fault(vec![prism_along_x(0.0, 1.0, &ring)], vec![]),
        BodyFault::Clockwise { loft: 0 },
        "clockwise"
    );
}

#[test]
fn a_frame_askew() {
    let frame = Frame3 { v: Vector3::mm(0.0, 0.1, 1.0), ..Frame3::across_x(Length::ZERO) };
    let start = Section { frame, ring: square(1.0) };
    let end = prism_along_x(0.0, 3.0, &square(1.0)).end;
    assert_eq!(fault(vec![Loft { start, end }], vec![]), BodyFault::Frame { loft: 0 }, "frame");
}

#[test]
fn a_gap_between_lofts() {
    let lofts = vec![prism_along_x(0.0, 1.0, &square(1.0)), prism_along_x(1.5, 2.0, &square(1.0))];
    assert_eq!(fault(lofts, vec![]), BodyFault::Gap { loft: 1, gap: 0.5 }, "gap");
}

#[test]
fn lofts_beside_each_other() {
    let lofts = vec![
        prism_along_x(0.0, 1.0, &rectangle(0.0, 0.0, 1.0, 1.0)),
        prism_along_x(1.0, 2.0, &rectangle(3.0, 0.0, 4.0, 1.0)),
    ];
    assert_eq!(fault(lofts, vec![]), BodyFault::Apart { loft: 1 }, "apart");
}

#[test]
fn lofts_that_touch_along_an_edge() {
    let lofts = vec![
        prism_along_x(0.0, 1.0, &rectangle(0.0, 0.0, 1.0, 1.0)),
        prism_along_x(1.0, 2.0, &rectangle(1.0, 0.0, 2.0, 1.0)),
    ];
    assert_eq!(fault(lofts, vec![]), BodyFault::EdgeTouch { at: Point3::mm(1.0, 1.0, 0.5) }, "edge touch");
}

#[test]
fn a_ring_that_twists_through_itself() {
    // Each vertex goes to the one opposite: half-way all are in one point.
    let ring = polygon(&[(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)]);
    let opposite = polygon(&[(1.0, 1.0), (-1.0, 1.0), (-1.0, -1.0), (1.0, -1.0)]);
    assert_eq!(
        fault(vec![along_x(0.0, &ring, 5.0, &opposite)], vec![]),
        BodyFault::Twisted { loft: 0 },
        "twist"
    );
}

#[test]
fn a_bore_without_steps() {
    let bore = Bore { entry: Point3::mm(5.0, 5.0, 6.0), direction: DOWN, steps: vec![] };
    assert_eq!(bore_fault(vec![bore]), BodyFault::BoreShape { bore: 0 }, "no steps");
}

#[test]
fn a_bore_that_begins_in_the_air() {
    let bore = Bore::straight(Point3::mm(5.0, 5.0, 7.0), DOWN, Length::mm(1.0), Length::mm(2.0));
    assert_eq!(
        bore_fault(vec![bore]),
        BodyFault::BoreMissesFace { bore: 0, at: Point3::mm(5.0, 5.0, 7.0) },
        "in the air"
    );
}

#[test]
fn a_bore_beside_the_face() {
    let found = bore_fault(vec![drilled(25.0, 5.0, 1.0, 2.0)]);
    assert_eq!(found, BodyFault::BoreMissesFace { bore: 0, at: Point3::mm(25.0, 5.0, 6.0) }, "beside");
}

#[test]
fn a_bore_over_the_edge() {
    let found = bore_fault(vec![drilled(19.0, 5.0, 2.0, 2.0)]);
    let expected =
        BodyFault::BoreLeavesFace { bore: 0, at: Point3::mm(19.0, 5.0, 6.0), radius: 2.0, room: 1.0 };
    assert_eq!(found, expected, "over the edge");
}

#[test]
fn bores_that_overlap() {
    let found = bore_fault(vec![drilled(5.0, 5.0, 2.0, 6.0), drilled(8.0, 5.0, 2.0, 3.0)]);
    assert!(matches!(found, BodyFault::BoresMeet { first: 0, second: 1, .. }), "found {found:?}");
}

#[test]
fn bores_that_cross_inside() {
    let across = Bore::straight(Point3::mm(0.0, 6.0, 3.0), Vector3::X, Length::mm(1.0), Length::mm(20.0));
    let found = bore_fault(vec![drilled(10.0, 4.5, 1.0, 6.0), across]);
    assert!(matches!(found, BodyFault::BoresMeet { first: 0, second: 1, .. }), "found {found:?}");
}

#[test]
fn a_bore_one_step_too_deep() {
    let found = bore_fault(vec![drilled(5.0, 5.0, 1.0, 6.5)]);
    assert!(
        matches!(found, BodyFault::BoreBreaksOut { bore: 0, depth, .. } if depth == 6.0),
        "found {found:?}"
    );
}

#[test]
fn a_bore_that_comes_out_of_a_round_side() {
    let bar = prism_along_x(0.0, 30.0, &rounded(12.0, 8.0, 3.0));
    let bore = Bore::straight(Point3::mm(0.0, 2.0, 4.0), DOWN, Length::mm(1.0), Length::mm(7.5));
    let bore = Bore { entry: Point3::mm(15.0, 2.0, 4.0), ..bore };
    let bore = Bore { steps: vec![step(0.0, 0.9), step(7.99, 0.9)], ..bore };
    Body::new(vec![bar.clone()], vec![bore.clone()])
        .and_then(|body| body.skin())
        .expect("room above the flat");
    let bore = Bore {
        entry: Point3::mm(15.0, 0.0, 4.0),
        steps: vec![step(0.0, 2.0), step(7.5, 2.0), step(7.5, 4.0), step(7.9, 4.0)],
        ..bore
    };
    let found = fault(vec![bar], vec![bore]);
    assert!(matches!(found, BodyFault::BoreBreaksOut { bore: 0, .. }), "found {found:?}");
}

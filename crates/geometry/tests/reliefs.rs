//! Does relief open corners for a mate, does it take no more than it must, and is what does not enter found out?

mod random;

use std::f64::consts::{PI, SQRT_2};

use boxneck_geometry::{
    Circle, Contour, Corner, Outline, Point2, Relief, ReliefFault, Shape, Vector2, lack, relieved,
};
use proptest::prelude::*;
use random::rounded_polygon;
use units::{Angle, Length, math};

/// How far a lack may be told wrong.
const WITHIN: Length = Length::mm(0.005);

fn mm(value: f64) -> Length {
    Length::mm(value)
}

fn polygon(points: &[(f64, f64)]) -> Outline {
    Outline::polygon(points.iter().map(|&(x, y)| Point2::mm(x, y))).expect("the case describes an outline")
}

fn rectangle(width: f64, height: f64) -> Outline {
    polygon(&[(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)])
}

/// A plate of 60 by 30 with a notch of 20 by 12 in its upper edge.
fn notched() -> Outline {
    polygon(&[
        (0.0, 0.0),
        (60.0, 0.0),
        (60.0, 30.0),
        (40.0, 30.0),
        (40.0, 18.0),
        (20.0, 18.0),
        (20.0, 30.0),
        (0.0, 30.0),
    ])
}

/// By how much relief changes an outline's area, whichever way round it runs, and how many vertices it then has.
#[track_caller]
fn check(outline: &Outline, contour: Contour, relief: Relief, expected: f64, vertices: usize) {
    for outline in [outline.clone(), outline.reversed()] {
        let bitten = relieved(&outline, contour, mm(4.0), relief).expect("the bites have room");
        let found = bitten.signed_area() - outline.signed_area().abs();
        assert!((found - expected).abs() < 1e-9, "the area changes by {found}, expected {expected}");
        assert_eq!(bitten.vertices().len(), vertices, "vertices");
    }
}

// A half circle over the diagonal of the corner, less the triangle that is open already.
#[test]
fn a_dogbone_is_half_a_circle_less_a_triangle() {
    check(&rectangle(40.0, 20.0), Contour::Opening, Relief::Dogbone, 4.0 * (2.0 * PI - 4.0), 8);
    check(&notched(), Contour::Outside, Relief::Dogbone, -2.0 * (2.0 * PI - 4.0), 10);
}

#[test]
fn a_t_bone_is_half_a_circle() {
    check(&rectangle(40.0, 20.0), Contour::Pocket, Relief::TBone, 4.0 * 2.0 * PI, 8);
    check(&notched(), Contour::Outside, Relief::TBone, -2.0 * 2.0 * PI, 10);
}

// The bites of a rectangle reach beyond its long sides, and not beyond its short ones.
#[test]
fn a_t_bone_bites_the_longer_edge() {
    let bitten =
        relieved(&rectangle(40.0, 20.0), Contour::Opening, mm(4.0), Relief::TBone).expect("there is room");
    let bounds = bitten.bounds();
    let found = [bounds.min.x, bounds.max.x, bounds.min.y, bounds.max.y];
    for (found, expected) in found.iter().zip([0.0, 40.0, -2.0, 22.0]) {
        assert!((found - expected).abs() < 1e-9, "a bound {found} must be {expected}");
    }
}

// Of the six corners of an L one points inward: a bit cuts it as it is.
#[test]
fn only_corners_that_a_bit_leaves_rounded_are_relieved() {
    let l = polygon(&[(0.0, 0.0), (40.0, 0.0), (40.0, 20.0), (20.0, 20.0), (20.0, 40.0), (0.0, 40.0)]);
    check(&l, Contour::Opening, Relief::Dogbone, 5.0 * (2.0 * PI - 4.0), 11);
    check(&l, Contour::Outside, Relief::Dogbone, -(2.0 * PI - 4.0), 7);
    let corner = |x, y| Corner { point: Point2::mm(x, y), radius: mm(3.0) };
    let rounded =
        Outline::rounded(&[corner(0.0, 0.0), corner(40.0, 0.0), corner(40.0, 20.0), corner(0.0, 20.0)]);
    check(&rounded.expect("the radii fit"), Contour::Opening, Relief::TBone, 0.0, 8);
}

// An opening of 120 degrees: a segment over two thirds of a third of a turn, less the triangle of chords 2 r cos 60 deg.
#[test]
fn an_obtuse_corner_takes_a_smaller_bite() {
    let (c, s) = (0.5, 3.0_f64.sqrt() / 2.0);
    let hexagon: Vec<(f64, f64)> = [(1.0, 0.0), (c, s), (-c, s), (-1.0, 0.0), (-c, -s), (c, -s)]
        .map(|(x, y)| (20.0 * x, 20.0 * y))
        .to_vec();
    let sweep = 2.0 * PI / 3.0;
    let bite = 2.0 * (sweep - math::sin(sweep)) - 2.0 * s;
    check(&polygon(&hexagon), Contour::Opening, Relief::Dogbone, 6.0 * bite, 12);
}

#[test]
fn bites_that_use_up_an_edge_join() {
    let (r, long) = (2.0, 30.0);
    let dogbone = 2.0 * (2.0 * r / SQRT_2);
    check(&rectangle(long, dogbone), Contour::Opening, Relief::Dogbone, 4.0 * (2.0 * PI - 4.0), 6);
}

#[test]
fn bites_without_room_are_refused() {
    let told = |opening: &Outline, relief| match relieved(opening, Contour::Opening, mm(4.0), relief) {
        Err(ReliefFault::Overlap { found, least, .. }) => (found.as_mm(), least.as_mm()),
        other => panic!("the bites have no room, found {other:?}"),
    };
    let (found, least) = told(&rectangle(30.0, 5.0), Relief::Dogbone);
    assert!((found - 5.0).abs() < 1e-9, "the edge is 5 mm long, told {found}");
    assert!((least - 4.0 * SQRT_2).abs() < 1e-9, "two diagonals of the bit's radius, told {least}");
    let (found, least) = told(&rectangle(7.5, 7.0), Relief::TBone);
    assert!((found - 7.5).abs() < 1e-9, "the longer edge is 7.5 mm long, told {found}");
    assert!((least - 8.0).abs() < 1e-9, "two diameters, told {least}");
    let sharp = relieved(
        &polygon(&[(0.0, 0.0), (40.0, 0.0), (20.0, 30.0)]),
        Contour::Opening,
        mm(4.0),
        Relief::TBone,
    );
    assert!(matches!(sharp, Err(ReliefFault::TooSharp { .. })), "a triangle is too sharp, found {sharp:?}");
    let none = relieved(&rectangle(40.0, 20.0), Contour::Opening, mm(0.0), Relief::Dogbone);
    assert!(matches!(none, Err(ReliefFault::NotPositive { .. })), "there is no such bit, found {none:?}");
}

// A slit that comes within a bite of the corner.
#[test]
fn a_bite_that_meets_another_edge_is_refused() {
    let slit = polygon(&[
        (0.0, 0.0),
        (60.0, 0.0),
        (60.0, 30.0),
        (41.0, 30.0),
        (41.0, 1.0),
        (40.8, 1.0),
        (40.8, 30.0),
        (40.0, 30.0),
        (40.0, 18.0),
        (20.0, 18.0),
        (20.0, 30.0),
        (0.0, 30.0),
    ]);
    let found = relieved(&slit, Contour::Outside, mm(4.0), Relief::Dogbone);
    assert!(
        matches!(found, Err(ReliefFault::Overlap { .. } | ReliefFault::Outline(_))),
        "the bite runs into the slit, found {found:?}"
    );
}

/// How far a mate stands beyond a bit of 4 mm, within what may be told wrong.
#[track_caller]
fn check_lack(mate: &Shape, contour: Contour, cut: &Shape, expected: Option<f64>) {
    let found =
        lack(mate, contour, cut, mm(4.0), WITHIN).expect("the bit's way is a line").map(Length::as_mm);
    match (found, expected) {
        (Some(found), Some(expected)) => {
            let off = (found - expected).abs();
            assert!(off <= 2.0 * WITHIN.as_mm(), "lacking {found}, expected {expected} mm");
        }
        (found, expected) => assert_eq!(found, expected, "whether the bit goes in"),
    }
}

#[test]
fn a_sharp_corner_lacks_what_a_fillet_leaves() {
    let opening = Shape::from(rectangle(40.0, 20.0));
    check_lack(&opening, Contour::Opening, &opening, Some(2.0 * (SQRT_2 - 1.0)));
    check_lack(&opening, Contour::Pocket, &opening, Some(2.0 * (SQRT_2 - 1.0)));
    let mate = Shape::from(rectangle(20.0, 30.0).translated(Vector2::mm(20.0, 18.0)));
    check_lack(&mate, Contour::Outside, &notched().into(), Some(2.0 * (SQRT_2 - 1.0)));
}

#[test]
fn a_mate_as_round_as_the_bit_enters() {
    let corner = |x, y| Corner { point: Point2::mm(x, y), radius: mm(2.0) };
    let mate =
        Outline::rounded(&[corner(0.0, 0.0), corner(40.0, 0.0), corner(40.0, 20.0), corner(0.0, 20.0)]);
    let opening = rectangle(40.0, 20.0).into();
    check_lack(&mate.expect("the radii fit").into(), Contour::Opening, &opening, Some(0.0));
}

#[test]
fn a_mate_that_is_too_wide_lacks_what_it_is_too_wide() {
    let opening = rectangle(40.0, 20.0);
    let bitten =
        relieved(&opening, Contour::Opening, mm(4.0), Relief::Dogbone).expect("there is room").into();
    check_lack(&opening.clone().into(), Contour::Opening, &bitten, Some(0.0));
    let wide = rectangle(40.3, 20.0).translated(Vector2::mm(-0.15, 0.0));
    check_lack(&wide.into(), Contour::Opening, &bitten, Some(0.15));
    let far = rectangle(10.0, 10.0).translated(Vector2::mm(50.0, 5.0));
    check_lack(&far.into(), Contour::Opening, &bitten, Some(20.0));
}

// The bit goes into both ends of a dumbbell and not through its waist: the middle of the waist lacks the most, and lies
// inside the mate. Round the corners of the waist's mouth, 1 mm off its middle line, the bit's middle comes nearest.
#[test]
fn what_lacks_in_the_middle_of_a_mate_is_found() {
    let dumbbell = polygon(&[
        (0.0, 0.0),
        (20.0, 0.0),
        (20.0, 9.0),
        (40.0, 9.0),
        (40.0, 0.0),
        (60.0, 0.0),
        (60.0, 20.0),
        (40.0, 20.0),
        (40.0, 11.0),
        (20.0, 11.0),
        (20.0, 20.0),
        (0.0, 20.0),
    ]);
    let mate = rectangle(50.0, 2.0).translated(Vector2::mm(5.0, 9.0));
    let expected = math::hypot(10.0 + 3.0_f64.sqrt(), 1.0) - 2.0;
    check_lack(&mate.into(), Contour::Opening, &dumbbell.into(), Some(expected));
}

#[test]
fn where_the_bit_does_not_go_in_there_is_no_lack_to_tell() {
    let slit = Shape::from(rectangle(40.0, 3.0));
    check_lack(&slit, Contour::Opening, &slit, None);
    let bore = Shape::from(Circle::of_diameter(Point2::ORIGIN, mm(3.0)));
    check_lack(&bore, Contour::Opening, &bore, None);
}

/// A rectangle or an L, turned, and a bit that is small enough for its bites to have room.
fn opening_and_bit() -> impl Strategy<Value = (Outline, Length)> {
    let sizes = (12.0..60.0_f64, 12.0..60.0_f64, 0.3..0.7_f64, 0.3..0.7_f64);
    (sizes, any::<bool>(), -180.0..180.0_f64, 0.1..1.0_f64).prop_map(
        |((width, height, in_x, in_y), is_l, turn, share)| {
            let (x, y) = (width * in_x, height * in_y);
            let (outline, shortest) = if is_l {
                let points = [(0.0, 0.0), (width, 0.0), (width, y), (x, y), (x, height), (0.0, height)];
                (polygon(&points), x.min(y).min(width - x).min(height - y))
            } else {
                (rectangle(width, height), width.min(height))
            };
            // Two diameters are the longest that the bites at the ends of an edge can want.
            (outline.rotated(Angle::degrees(turn)), Length::mm(shortest / 2.0 * share * 0.999))
        },
    )
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    #[test]
    fn relief_lets_a_mate_in_and_none_does_not((opening, bit) in opening_and_bit()) {
        let mate = Shape::from(opening.clone());
        for relief in [Relief::Dogbone, Relief::TBone] {
            let bitten = relieved(&opening, Contour::Opening, bit, relief);
            prop_assert!(bitten.is_ok(), "{relief:?} must have room: {bitten:?}");
            let bitten = Shape::from(bitten.expect("just seen"));
            prop_assert!(bitten.area() > mate.area(), "{:?} takes something", relief);
            let found = lack(&mate, Contour::Opening, &bitten, bit, WITHIN);
            prop_assert_eq!(found, Ok(Some(Length::ZERO)), "{:?} for a bit of {}", relief, bit);
        }
        let found = lack(&mate, Contour::Opening, &mate, bit, WITHIN).expect("a way").expect("the bit goes in");
        let expected = bit.as_mm() / 2.0 * (SQRT_2 - 1.0);
        let off = (found.as_mm() - expected).abs();
        prop_assert!(off <= 2.0 * WITHIN.as_mm() || expected <= WITHIN.as_mm(), "lacking {found}, expected {expected} mm");
    }

    #[test]
    fn relief_passes_through_every_corner_that_it_bites((opening, bit) in opening_and_bit(), t_bone in any::<bool>()) {
        let relief = if t_bone { Relief::TBone } else { Relief::Dogbone };
        let bitten = relieved(&opening, Contour::Opening, bit, relief).expect("the bites have room");
        for corner in opening.vertices() {
            let off = bitten.segments().map(|s| s.distance_to(corner.point).as_mm()).fold(f64::INFINITY, f64::min);
            prop_assert!(off < 1e-9, "a corner is {off} mm off the relieved outline");
        }
    }

    #[test]
    fn no_sampled_point_lacks_more_than_is_told(cut in rounded_polygon(), mate in rounded_polygon(), diameter in 1.0..20.0_f64,
            points in prop::collection::vec((0.0..1.0_f64, 0.0..1.0_f64), 50)) {
        let mate = mate.translated(cut.bounds().center() - mate.bounds().center());
        let (bounds, mate, cut) = (mate.bounds(), Shape::from(mate), Shape::from(cut));
        let told = lack(&mate, Contour::Opening, &cut, mm(diameter), WITHIN).expect("a way");
        prop_assume!(told.is_some());
        let told = told.expect("just seen").as_mm();
        let way = boxneck_geometry::offset(&cut, mm(-diameter / 2.0)).expect("a way");
        prop_assume!(!way.is_empty());
        for (x, y) in points {
            let point = bounds.min + Vector2::mm(bounds.width().as_mm() * x, bounds.height().as_mm() * y);
            let enclosed = way.iter().any(|shape| shape.contains(point));
            let to_way = way.iter().flat_map(Shape::segments).map(|s| s.distance_to(point).as_mm());
            let lacking = if enclosed { 0.0 } else { to_way.fold(f64::INFINITY, f64::min) - diameter / 2.0 };
            // In a wedge the middle of a bit that is thinner by the tolerance goes much farther, hence the generous bound.
            prop_assert!(!mate.contains(point) || lacking <= told + 0.1, "({x}, {y}) lacks {lacking}, told {told}");
        }
    }
}

//! What holds for every outline: moves keep area, flattening keeps its tolerance, inside agrees with a fine polyline.

mod random;

use boxneck_geometry::{Outline, Point2, Segment, Vector2, gap, meetings, nearest_points};
use proptest::prelude::*;
use random::rounded_polygon;
use units::{Angle, ChordTolerance, Length};

fn segment() -> impl Strategy<Value = Segment> {
    let place = || (0.0..50.0_f64, 0.0..50.0_f64).prop_map(|(x, y)| Point2::mm(x, y));
    let bulge = prop_oneof![Just(0.0), -3.0..3.0_f64];
    (place(), place(), bulge)
        .prop_filter("a segment has length", |(from, to, _)| from.distance(*to) > 0.1)
        .prop_map(|(from, to, bulge)| Segment::new(from, to, bulge))
}

/// The winding number of a closed polyline about a point, by the angles under which its lines are seen.
fn is_wound(points: &[Point2], about: Point2) -> bool {
    let next = points.iter().skip(1).chain(points.first());
    let turn: f64 =
        points.iter().zip(next).map(|(&a, &b)| (a - about).angle_to(b - about).as_radians()).sum();
    turn.abs() > std::f64::consts::PI
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn moves_keep_area(outline in rounded_polygon(), x in -500.0..500.0_f64, y in -500.0..500.0_f64, deg in -360.0..360.0_f64) {
        let area = outline.signed_area();
        for (name, moved, sign) in [
            ("translated", outline.translated(Vector2::mm(x, y)), 1.0),
            ("rotated", outline.rotated(Angle::degrees(deg)), 1.0),
            ("mirrored", outline.mirrored_y(), 1.0),
            ("reversed", outline.reversed(), -1.0),
        ] {
            let found = moved.signed_area() * sign;
            prop_assert!((found - area).abs() < 1e-8, "{name}: area {found} must be {area} within 1e-8");
            let made = Outline::new(moved.vertices().to_vec());
            prop_assert_eq!(made.as_ref(), Ok(&moved), "{} holds what a new outline is checked for", name);
        }
    }

    #[test]
    fn flattening_keeps_its_tolerance(outline in rounded_polygon(), tolerance in 0.001..2.0_f64) {
        let points = outline.flatten(ChordTolerance::new(Length::mm(tolerance)));
        let bounds = outline.bounds().grown(Length::mm(1e-9));
        let edge: Vec<Segment> = outline.segments().collect();
        let to_edge = |point: Point2| edge.iter().map(|s| s.distance_to(point).as_mm()).fold(f64::INFINITY, f64::min);
        for (i, &point) in points.iter().enumerate() {
            let next = points[(i + 1) % points.len()];
            prop_assert!(bounds.contains(point), "point {i} must lie in the bounds");
            prop_assert!(to_edge(point) < 1e-9, "point {i} must lie on the edge within 1e-9");
            for eighth in 1..8 {
                let off = to_edge(point.lerp(next, f64::from(eighth) / 8.0));
                prop_assert!(off <= tolerance + 1e-9, "chord {i} stands off by {off}, more than {tolerance}");
            }
        }
        // The area between an arc and its chords is at most the tolerance times the way round.
        let flat = Outline::polygon(points).expect("a flattened outline is one");
        let (off, most) = ((flat.signed_area() - outline.signed_area()).abs(), tolerance * outline.perimeter().as_mm());
        prop_assert!(off <= most + 1e-8, "the flat area is off by {off}, more than {most}");
    }

    #[test]
    fn inside_agrees_with_a_fine_polyline(outline in rounded_polygon(), x in -0.1..1.1_f64, y in -0.1..1.1_f64) {
        let bounds = outline.bounds();
        let point = bounds.min + Vector2::mm(bounds.width().as_mm() * x, bounds.height().as_mm() * y);
        let off_edge = outline.segments().map(|s| s.distance_to(point).as_mm()).fold(f64::INFINITY, f64::min);
        prop_assume!(off_edge > 1e-4);
        let fine = outline.flatten(ChordTolerance::new(Length::mm(1e-4)));
        prop_assert_eq!(outline.contains(point), is_wound(&fine, point), "({}, {})", point.x, point.y);
    }

    #[test]
    fn points_at_shares_lie_on_the_segment(segment in segment(), share in 0.0..1.0_f64) {
        let point = segment.point_at(share);
        let off = segment.distance_to(point).as_mm();
        prop_assert!(off < 1e-9, "the point is {off} off its segment");
        let found = segment.share_at(point);
        prop_assert!((found - share).abs() < 1e-9, "share {found} must be {share}");
        prop_assert!(segment.bounds().grown(Length::mm(1e-9)).contains(point), "the bounds must hold the point");
    }

    #[test]
    fn nearest_is_not_beaten_by_samples(a in segment(), b in segment()) {
        let (p, q) = nearest_points([a], [b]).expect("both have a segment");
        prop_assert!(a.distance_to(p).as_mm() < 1e-9, "the first point lies on the first segment");
        prop_assert!(b.distance_to(q).as_mm() < 1e-9, "the second point lies on the second segment");
        let found = gap([a], [b]).expect("both have a segment").as_mm();
        let sampled = (0..=400).map(|i| b.distance_to(a.point_at(f64::from(i) / 400.0)).as_mm());
        let (at, sampled) = sampled.enumerate().min_by(|(_, p), (_, q)| p.total_cmp(q)).expect("there are samples");
        prop_assert!(found <= sampled + 1e-9, "the gap {found} is beaten by {sampled} at sample {at}");
        let step = a.length().as_mm() / 400.0;
        prop_assert!(found >= sampled - step, "the gap {found} is far under every sample, {sampled}");
        prop_assert_eq!(meetings([a], [b]).is_empty(), found > 1e-6, "they meet when the gap {} is none", found);
    }
}

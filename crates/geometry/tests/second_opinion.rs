//! Does an independent library, `cavalier_contours`, say the same of area, perimeter, bounds, inside and crossings?

mod random;

use boxneck_geometry::{Outline, OutlineFault, Point2, Vector2, Vertex, gap, meetings};
use cavalier_contours::core::math::Vector2 as TheirVector;
use cavalier_contours::polyline::{PlineSource, PlineSourceMut, Polyline};
use proptest::prelude::*;
use random::rounded_polygon;

fn theirs(vertices: &[Vertex]) -> Polyline<f64> {
    let mut polyline = Polyline::new_closed();
    for vertex in vertices {
        polyline.add(vertex.point.x, vertex.point.y, vertex.bulge);
    }
    polyline
}

/// Any loop of lines and arcs, crossing or not.
fn any_loop() -> impl Strategy<Value = Vec<Vertex>> {
    let vertex = (0.0..100.0_f64, 0.0..100.0_f64, prop_oneof![Just(0.0), -1.0..1.0_f64])
        .prop_map(|(x, y, bulge)| Vertex { point: Point2::mm(x, y), bulge });
    prop::collection::vec(vertex, 3..7)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn area_perimeter_and_bounds(outline in rounded_polygon()) {
        let polyline = theirs(outline.vertices());
        let (ours, other) = (outline.signed_area(), polyline.area());
        prop_assert!((ours - other).abs() < 1e-8, "area {ours} must be {other} within 1e-8");
        let (ours, other) = (outline.perimeter().as_mm(), polyline.path_length());
        prop_assert!((ours - other).abs() < 1e-9, "perimeter {ours} must be {other} within 1e-9");
        let (ours, other) = (outline.bounds(), polyline.extents().expect("it has vertices"));
        for (ours, other) in [
            (ours.min.x, other.min_x), (ours.min.y, other.min_y), (ours.max.x, other.max_x), (ours.max.y, other.max_y),
        ] {
            prop_assert!((ours - other).abs() < 1e-9, "bound {ours} must be {other} within 1e-9");
        }
    }

    #[test]
    fn inside(outline in rounded_polygon(), x in 0.0..1.0_f64, y in 0.0..1.0_f64) {
        let bounds = outline.bounds();
        let point = bounds.min + Vector2::mm(bounds.width().as_mm() * x, bounds.height().as_mm() * y);
        let other = theirs(outline.vertices()).winding_number(TheirVector::new(point.x, point.y)) != 0;
        prop_assert_eq!(outline.contains(point), other, "whether ({}, {}) is inside", point.x, point.y);
    }

    #[test]
    fn self_crossing(vertices in any_loop()) {
        let other = theirs(&vertices).scan_for_self_intersect();
        match Outline::new(vertices) {
            Ok(_) => prop_assert!(!other, "the other sees a crossing"),
            Err(OutlineFault::Crossing { first, second, at }) => {
                prop_assert!(other, "the other sees no crossing of {first} and {second} at {at:?}");
            }
            Err(OutlineFault::NoArea { .. }) => {}
            Err(fault) => prop_assert!(false, "no other fault is in these loops: {fault}"),
        }
    }

    #[test]
    fn crossings_of_two_outlines(a in rounded_polygon(), b in rounded_polygon()) {
        let to_a = a.bounds().center() - b.bounds().center();
        let b = b.translated(to_a + Vector2::mm(31.0, 7.0));
        let ours = meetings(a.segments(), b.segments());
        let found = theirs(a.vertices()).find_intersects(&theirs(b.vertices()));
        prop_assert_eq!(ours.len(), found.basic_intersects.len(), "how often they cross");
        for crossing in found.basic_intersects {
            let point = Point2::mm(crossing.point.x, crossing.point.y);
            let nearest = ours.iter().map(|ours| ours.distance(point)).fold(f64::INFINITY, f64::min);
            prop_assert!(nearest < 1e-4, "a crossing of theirs is {nearest} mm from ours");
        }
        let apart = gap(a.segments(), b.segments()).expect("both have segments").as_mm();
        prop_assert_eq!(ours.is_empty(), apart > 1e-6, "a gap of {} mm goes with no crossing", apart);
    }
}

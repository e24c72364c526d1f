//! Random outlines for the tests that want any.

use boxneck_geometry::{Corner, Outline, Point2, Vector2};
use proptest::prelude::*;
use units::{Angle, Length};

/// A star-shaped polygon about a centre, with rounded corners: always an outline.
pub fn rounded_polygon() -> impl Strategy<Value = Outline> {
    let corner = (20.0..60.0_f64, 0.0..1.0_f64);
    (prop::collection::vec(corner, 3..9), -200.0..200.0_f64, -200.0..200.0_f64).prop_filter_map(
        "the radii must fit",
        |(corners, x, y)| {
            let count = corners.len() as f64;
            let places = corners.iter().enumerate().map(|(i, &(reach, rounding))| {
                let angle = Angle::degrees(360.0 * i as f64 / count);
                let point = Point2::mm(x, y) + Vector2::at_angle(angle) * reach;
                Corner { point, radius: Length::mm(5.0 * rounding) }
            });
            Outline::rounded(&places.collect::<Vec<_>>()).ok()
        },
    )
}

//! What does a full circle enclose?

use units::{Angle, Length};

use crate::{Bounds2, Point2, Segment, Vector2};

/// A full circle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Circle {
    /// Its centre.
    pub center: Point2,
    /// Its radius; a circle of no or negative radius is a fault of the drawing that holds it.
    pub radius: Length,
}

impl Circle {
    /// A circle by its diameter, as holes are given.
    #[must_use]
    pub fn of_diameter(center: Point2, diameter: Length) -> Self {
        Self { center, radius: diameter * 0.5 }
    }

    /// Square millimetres inside.
    #[must_use]
    pub fn area(&self) -> f64 {
        std::f64::consts::PI * self.radius.as_mm() * self.radius.as_mm()
    }

    /// The way round.
    #[must_use]
    pub fn perimeter(&self) -> Length {
        self.radius * std::f64::consts::TAU
    }

    /// The exact bounds.
    #[must_use]
    pub fn bounds(&self) -> Bounds2 {
        Bounds2::at(self.center).grown(self.radius)
    }

    /// Whether a point is inside.
    #[must_use]
    pub fn contains(&self, point: Point2) -> bool {
        self.center.distance(point) < self.radius.as_mm()
    }

    /// The two half circles, counter-clockwise from the rightmost point.
    #[must_use]
    pub fn segments(&self) -> [Segment; 2] {
        let step = Vector2::mm(self.radius.as_mm(), 0.0);
        let (right, left) = (self.center + step, self.center - step);
        let (center, radius, sweep) = (self.center, self.radius, Angle::degrees(180.0));
        [
            Segment::Arc { from: right, to: left, center, radius, sweep },
            Segment::Arc { from: left, to: right, center, radius, sweep },
        ]
    }

    /// The mirror image in the x axis.
    #[must_use]
    pub fn mirrored_y(&self) -> Self {
        Self { center: self.center.mirrored_y(), ..*self }
    }

    /// The same circle elsewhere.
    #[must_use]
    pub fn translated(&self, by: Vector2) -> Self {
        Self { center: self.center + by, ..*self }
    }

    /// The circle after a turn about the origin, counter-clockwise.
    #[must_use]
    pub fn rotated(&self, angle: Angle) -> Self {
        Self { center: self.center.rotated_about(Point2::ORIGIN, angle), ..*self }
    }
}

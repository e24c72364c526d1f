//! How does an edge run from one point in space to another?

use units::math;

use crate::{Point3, Vector3};

/// A line or a circular arc between two points in space.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Curve3 {
    /// Where it begins.
    pub from: Point3,
    /// Where it ends.
    pub to: Point3,
    /// The tangent of a quarter of the sweep; 0 for a line; positive where it turns left for an eye toward which
    /// `normal` points.
    pub bulge: f64,
    /// Square to the plane of the arc, of length 1; without meaning for a line.
    pub normal: Vector3,
}

/// The circle of an arc.
#[derive(Clone, Copy, Debug)]
pub(super) struct Circle3 {
    pub center: Point3,
    /// From the centre to the beginning.
    pub radius: Vector3,
    /// A quarter turn further, in the sense of the arc's normal.
    pub across: Vector3,
    /// Radians, with the sign of the bulge.
    pub sweep: f64,
}

impl Circle3 {
    /// The point of the arc at a share of its sweep.
    fn point(&self, share: f64) -> Point3 {
        let angle = self.sweep * share;
        self.center + self.radius * math::cos(angle) + self.across * math::sin(angle)
    }
}

impl Curve3 {
    /// A line.
    #[must_use]
    pub const fn line(from: Point3, to: Point3) -> Self {
        Self { from, to, bulge: 0.0, normal: Vector3::ZERO }
    }

    /// Whether it is a line.
    #[must_use]
    pub const fn is_line(&self) -> bool {
        self.bulge == 0.0
    }

    /// The same curve run the other way.
    #[must_use]
    pub const fn reversed(&self) -> Self {
        Self { from: self.to, to: self.from, bulge: -self.bulge, normal: self.normal }
    }

    /// The point at a share of the length: 0 is the beginning, 1 the end, both without rounding.
    #[must_use]
    pub fn point(&self, share: f64) -> Point3 {
        if share <= 0.0 {
            return self.from;
        }
        if share >= 1.0 {
            return self.to;
        }
        self.circle().map_or_else(|| self.from.lerp(self.to, share), |circle| circle.point(share))
    }

    /// The points between equal pieces of the length, both ends included.
    pub(super) fn points(&self, pieces: usize) -> Vec<Point3> {
        let circle = self.circle();
        let inner = |index: usize| {
            let share = index as f64 / pieces as f64;
            circle.map_or_else(|| self.from.lerp(self.to, share), |circle| circle.point(share))
        };
        let mut points = vec![self.from];
        points.extend((1..pieces).map(inner));
        points.push(self.to);
        points
    }

    /// The share of the length at which the curve is nearest to a point that lies on it.
    #[must_use]
    pub fn share_of(&self, point: Point3) -> f64 {
        let chord = self.to - self.from;
        match self.circle() {
            None => ((point - self.from).dot(chord) / chord.dot(chord)).clamp(0.0, 1.0),
            Some(circle) => {
                // Measured from the middle of the arc, so that the cut of the angle lies outside it.
                let spoke = point - circle.center;
                let angle = math::atan2(spoke.dot(circle.across), spoke.dot(circle.radius));
                let half = circle.sweep / 2.0;
                let turn = std::f64::consts::TAU;
                let from_middle = angle - half;
                let from_middle = from_middle - turn * (from_middle / turn).round();
                ((from_middle + half) / circle.sweep).clamp(0.0, 1.0)
            }
        }
    }

    /// The circle that an arc is a part of; `None` for a line.
    pub(super) fn circle(&self) -> Option<Circle3> {
        if self.is_line() {
            return None;
        }
        let chord = self.to - self.from;
        let left = self.normal.cross(chord);
        let middle = self.from.lerp(self.to, 0.5);
        let center = middle + left * ((1.0 - self.bulge * self.bulge) / (4.0 * self.bulge));
        let radius = self.from - center;
        Some(Circle3 {
            center,
            radius,
            across: self.normal.cross(radius),
            sweep: 4.0 * math::atan(self.bulge),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A quarter circle of radius 2 about (1, 0, 0), from (3, 0, 0) to (1, 2, 0).
    fn quarter() -> Curve3 {
        let bulge = math::tan(std::f64::consts::FRAC_PI_8);
        Curve3 { from: Point3::mm(3.0, 0.0, 0.0), to: Point3::mm(1.0, 2.0, 0.0), bulge, normal: Vector3::Z }
    }

    #[track_caller]
    fn check(curve: Curve3, share: f64, expected: (f64, f64)) {
        let found = curve.point(share);
        let expected = Point3::mm(expected.0, expected.1, 0.0);
        assert!(found.distance(expected) < 1e-12, "expected {expected:?}, found {found:?}");
        let back = curve.share_of(found);
        assert!((back - share).abs() < 1e-12, "expected share {share}, found {back}");
    }

    #[test]
    fn points_along_a_quarter_circle() {
        let third = std::f64::consts::FRAC_PI_6;
        check(quarter(), 0.0, (3.0, 0.0));
        check(quarter(), 1.0 / 3.0, (1.0 + 2.0 * math::cos(third), 2.0 * math::sin(third)));
        check(quarter(), 1.0, (1.0, 2.0));
    }

    #[test]
    fn the_other_way_is_the_same_circle() {
        let half = std::f64::consts::SQRT_2;
        check(quarter().reversed(), 0.5, (1.0 + half, half));
    }

    #[test]
    fn more_than_half_a_circle() {
        let bulge = math::tan(3.0 * std::f64::consts::FRAC_PI_8);
        let three_quarters = Curve3 {
            from: Point3::mm(1.0, 0.0, 0.0),
            to: Point3::mm(0.0, -1.0, 0.0),
            bulge,
            normal: Vector3::Z,
        };
        check(three_quarters, 1.0 / 3.0, (0.0, 1.0));
        check(three_quarters, 2.0 / 3.0, (-1.0, 0.0));
    }
}

//! What lies between one arc of a neck's ring and its chord, and what does it add to the section?

use units::math;

use super::RingPoint;

/// What lies between an arc and its chord. Lengths in millimetres, in the ring's plane of `y` and `z`.
pub(super) struct Cap {
    /// Height of the circle's centre.
    center: f64,
    radius: f64,
    /// The upward part of the unit vector from the centre to the arc's middle.
    up: f64,
    /// Cosine of half the sweep.
    cosine: f64,
    /// The cube of its sine: negative, as the area is, where the arc turns right.
    sine_cubed: f64,
    area: f64,
}

impl Cap {
    /// What lies between the arc that leaves a corner and its chord to the next; the two corners must differ.
    pub(super) fn over(from: &RingPoint, to: &RingPoint) -> Self {
        let (along, rise) = ((to.y - from.y).as_mm(), (to.z - from.z).as_mm());
        let bulge = from.bulge;
        // The bulge is the tangent of a quarter of the sweep.
        let (half_sweep, square) = (2.0 * math::atan(bulge), bulge * bulge);
        let (sine, cosine) = (2.0 * bulge / (1.0 + square), (1.0 - square) / (1.0 + square));
        let chord = math::hypot(along, rise);
        let radius = chord / (2.0 * sine.abs());
        // To the right of the way for an arc that turns left.
        let up = -along / chord * bulge.signum();
        Self {
            center: (from.z + to.z).as_mm() / 2.0 - up * radius * cosine,
            radius,
            up,
            cosine,
            sine_cubed: sine * sine * sine,
            area: radius * radius * (half_sweep - sine * cosine),
        }
    }

    /// Its area in square millimetres: negative where the arc turns right, and so are the moments.
    pub(super) fn area(&self) -> f64 {
        self.area
    }

    /// The first moment of area about the level axis, in cubic millimetres.
    pub(super) fn first_moment(&self) -> f64 {
        self.center * self.area + self.up * self.first_about_center()
    }

    /// The first moment about the line through the circle's centre that is parallel to the chord.
    ///
    /// - **Source**: derived: `2/3 R^3 sin^3 a` for half a sweep `a`.
    fn first_about_center(&self) -> f64 {
        2.0 / 3.0 * self.sine_cubed * self.radius * self.radius * self.radius
    }

    /// The second moment of area about the level axis, in millimetres to the fourth.
    ///
    /// - **Source**: derived: about the circle's centre `R^4/4 (a - sin a cos a + 2 sin^3 a cos a)` along the middle and
    ///   `R^4/4 (a - sin a cos a - 2/3 sin^3 a cos a)` across it; half a circle has `pi R^4/8` of both.
    pub(super) fn second_moment(&self) -> f64 {
        let square = self.radius * self.radius;
        let uneven = self.sine_cubed * self.cosine * square;
        let along = square / 4.0 * (self.area + 2.0 * uneven);
        let across = square / 4.0 * (self.area - 2.0 / 3.0 * uneven);
        let up = self.up * self.up;
        self.center * self.center * self.area
            + 2.0 * self.center * self.up * self.first_about_center()
            + up * along
            + (1.0 - up) * across
    }

    /// The highest point of its arc, where that is not one of its ends.
    pub(super) fn top(&self) -> Option<f64> {
        (self.up > self.cosine).then_some(self.center + self.radius)
    }

    /// The lowest point, likewise.
    pub(super) fn bottom(&self) -> Option<f64> {
        (-self.up > self.cosine).then_some(self.center - self.radius)
    }
}

//! A place in the instrument frame, and the angles between places.

use units::{Angle, Length, math};

/// A place in the instrument frame.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Place {
    /// Along the centre line, from the crown of the zero fret toward the tail.
    pub x: Length,
    /// Across.
    pub y: Length,
    /// Up from the playing plane.
    pub z: Length,
}

impl Place {
    /// The place mirrored across the centre plane.
    pub(crate) fn mirrored(self) -> Self {
        Self { y: -self.y, ..self }
    }

    /// The place lifted along `z`.
    pub(crate) fn raised(self, by: Length) -> Self {
        Self { z: self.z + by, ..self }
    }

    /// The place on the straight line from `self` to `other` at `x`; the two must differ in `x`.
    pub(crate) fn on_the_way_to(self, other: Self, x: Length) -> Self {
        let share = (x - self.x) / (other.x - self.x);
        Self { x, y: self.y + (other.y - self.y) * share, z: self.z + (other.z - self.z) * share }
    }

    /// Straight distance to another place.
    #[must_use]
    pub fn distance(self, other: Self) -> Length {
        let [x, y, z] = toward(self, other);
        Length::mm((x * x + y * y + z * z).sqrt())
    }
}

/// The angle through which a line turns at `corner` on its way from `before` to `after`; 0 when it runs straight on.
pub(crate) fn turn(before: Place, corner: Place, after: Place) -> Angle {
    let arriving = toward(before, corner);
    let leaving = toward(corner, after);
    let cross = [
        arriving[1] * leaving[2] - arriving[2] * leaving[1],
        arriving[2] * leaving[0] - arriving[0] * leaving[2],
        arriving[0] * leaving[1] - arriving[1] * leaving[0],
    ];
    let sine = cross.iter().map(|part| part * part).sum::<f64>().sqrt();
    let cosine = arriving.iter().zip(leaving).map(|(a, b)| a * b).sum();
    Angle::radians(math::atan2(sine, cosine))
}

fn toward(from: Place, to: Place) -> [f64; 3] {
    [(to.x - from.x).as_mm(), (to.y - from.y).as_mm(), (to.z - from.z).as_mm()]
}

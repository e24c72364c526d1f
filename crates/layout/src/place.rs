//! A place in the instrument frame, and the angles between places.

use mechanics::down_force::{self, Direction};
use units::{Angle, Length};

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

    /// Its `x`, `y` and `z`.
    fn coordinates(self) -> [Length; 3] {
        [self.x, self.y, self.z]
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
}

/// The angle through which a line turns at `corner` on its way from `before` to `after`; 0 when it runs straight on, and
/// where two of the places are one.
pub(crate) fn turn(before: Place, corner: Place, after: Place) -> Angle {
    let toward = |end: Place| Direction::toward(corner.coordinates(), end.coordinates());
    match (toward(before), toward(after)) {
        (Ok(back), Ok(on)) => down_force::turn([back, on]),
        _ => Angle::ZERO,
    }
}

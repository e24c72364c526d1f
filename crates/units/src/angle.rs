//! How far does it turn or lean, and how do people write that?

use crate::error::QuantityError;
use crate::written::{self, Kind};

/// A finite angle, held in radians; positive turns from the first named axis toward the second.
///
/// It prints in degrees to 0.1.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd, Default)]
pub struct Angle(f64);

crate::arithmetic::arithmetic!(Angle);

/// Angles as the grammar sees them.
static ANGLE: Kind = Kind {
    quantity: "an angle",
    example: "3 deg",
    decimal: "1.5 deg",
    known: "\"deg\" or \"°\"",
    units: &[(&["deg", "deg.", "°", "º", "degree", "degrees"], 1, 1)],
    is_length: false,
};

impl Angle {
    /// Reads an angle as people write it: "3 deg", "3°", "1.5 degrees"; a bare number is in degrees.
    ///
    /// - **Accuracy**: within one unit in the last place of the radians.
    /// - **Errors**: any other unit, and what is no number.
    pub fn parse(text: &str) -> Result<Self, QuantityError> {
        written::parse(&ANGLE, text).map(Self::degrees)
    }

    /// From a literal number of radians; a number that is not finite is a bug of ours and panics.
    #[must_use]
    pub const fn radians(value: f64) -> Self {
        assert!(value.is_finite(), "a quantity is a finite number of radians");
        Self(value)
    }

    /// From a number of radians that comes from outside; `None` where it is not finite.
    #[must_use]
    pub fn try_radians(value: f64) -> Option<Self> {
        value.is_finite().then_some(Self(value))
    }

    /// The number of radians.
    #[must_use]
    pub const fn as_radians(self) -> f64 {
        self.0
    }
}

impl Angle {
    /// From a literal number of degrees; a number that is not finite is a bug of ours and panics.
    #[must_use]
    pub const fn degrees(value: f64) -> Self {
        Self::radians(value.to_radians())
    }

    /// The number of degrees, for people.
    #[must_use]
    pub const fn as_degrees(self) -> f64 {
        self.0.to_degrees()
    }

    /// Sine, with the same bits on every platform.
    #[must_use]
    pub fn sin(self) -> f64 {
        crate::math::sin(self.0)
    }

    /// Cosine, with the same bits on every platform.
    #[must_use]
    pub fn cos(self) -> f64 {
        crate::math::cos(self.0)
    }

    /// Tangent, with the same bits on every platform.
    #[must_use]
    pub fn tan(self) -> f64 {
        crate::math::tan(self.0)
    }

    /// The angle of a slope that rises by `rise` over `run`: tangent `rise / run`, in the quadrant of the two, -pi to pi.
    /// Nothing over nothing is level.
    #[must_use]
    pub fn of_slope(rise: crate::Length, run: crate::Length) -> Self {
        Self(crate::math::atan2(rise.as_mm(), run.as_mm()))
    }
}

//! How hard is it pulled, pressed or plucked, and how do people write that?

use crate::error::QuantityError;
use crate::written::{self, Kind};

/// A finite force, held in newtons; it prints in newtons to 0.1.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd, Default)]
pub struct Force(f64);

crate::arithmetic::arithmetic!(Force);

/// Forces as the grammar sees them.
static FORCE: Kind = Kind {
    quantity: "a force",
    example: "12 N",
    decimal: "2.5 N",
    known: "\"N\" or \"lbf\"",
    units: &[
        (&["n", "newton", "newtons"], 1, 1),
        (&["lbf", "lb", "lb.", "lbs"], 44_482_216_152_605, 10_000_000_000_000),
    ],
    is_length: false,
};

impl Force {
    /// Reads a force as people write it: "12 N", "2.7 lbf" (a string's "lb" is a pound-force too); a bare number is in
    /// newtons.
    ///
    /// - **Units**: the pound-force is 4.4482216152605 N exactly (0.45359237 kg times 9.80665 m/s²).
    /// - **Accuracy**: the `f64` nearest to what is written.
    /// - **Errors**: any other unit, and what is no number.
    pub fn parse(text: &str) -> Result<Self, QuantityError> {
        written::parse(&FORCE, text).map(Self::newtons)
    }

    /// From a literal number of newtons; a number that is not finite is a bug of ours and panics.
    #[must_use]
    pub const fn newtons(value: f64) -> Self {
        assert!(value.is_finite(), "a quantity is a finite number of newtons");
        Self(value)
    }

    /// From a number of newtons that comes from outside; `None` where it is not finite.
    #[must_use]
    pub fn try_newtons(value: f64) -> Option<Self> {
        value.is_finite().then_some(Self(value))
    }

    /// The number of newtons.
    #[must_use]
    pub const fn as_newtons(self) -> f64 {
        self.0
    }
}

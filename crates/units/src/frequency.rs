//! How often does it swing a second, and how do people write that?

use crate::error::QuantityError;
use crate::written::{self, Kind};

/// A finite frequency, held in hertz; it prints in hertz to 0.01.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd, Default)]
pub struct Frequency(f64);

crate::arithmetic::arithmetic!(Frequency);

/// Frequencies as the grammar sees them.
static FREQUENCY: Kind = Kind {
    quantity: "a frequency",
    example: "98 Hz",
    decimal: "98.5 Hz",
    known: "\"Hz\"",
    units: &[(&["hz", "hertz"], 1, 1)],
    is_length: false,
};

impl Frequency {
    /// Reads a frequency as people write it: "98 Hz", "98.5 Hz"; a bare number is in hertz.
    ///
    /// - **Accuracy**: the `f64` nearest to what is written.
    /// - **Errors**: any other unit, and what is no number.
    pub fn parse(text: &str) -> Result<Self, QuantityError> {
        written::parse(&FREQUENCY, text).map(Self::hertz)
    }

    /// From a literal number of hertz; a number that is not finite is a bug of ours and panics.
    #[must_use]
    pub const fn hertz(value: f64) -> Self {
        assert!(value.is_finite(), "a quantity is a finite number of hertz");
        Self(value)
    }

    /// From a number of hertz that comes from outside; `None` where it is not finite.
    #[must_use]
    pub fn try_hertz(value: f64) -> Option<Self> {
        value.is_finite().then_some(Self(value))
    }

    /// The number of hertz.
    #[must_use]
    pub const fn as_hertz(self) -> f64 {
        self.0
    }
}

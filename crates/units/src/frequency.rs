//! Frequencies.

/// A finite frequency, held in hertz.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd, Default)]
pub struct Frequency(f64);

crate::arithmetic::arithmetic!(Frequency);

impl Frequency {
    /// From a literal number of hertz; a number that is not finite is a bug of ours and panics.
    #[must_use]
    pub const fn hertz(value: f64) -> Self {
        assert!(value.is_finite(), "a quantity is a finite number of hertz");
        Self(value)
    }

    /// From a number of hertz that comes from outside.
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

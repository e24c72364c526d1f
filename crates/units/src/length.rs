//! Lengths.

/// A finite length, held in millimetres.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd, Default)]
pub struct Length(f64);

crate::arithmetic::arithmetic!(Length);

/// The two units in which a document may write bare numbers and a drawing may be made.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum LengthUnit {
    /// Millimetres.
    #[default]
    Millimetre,
    /// Inches of 25.4 mm exactly.
    Inch,
}

impl Length {
    /// A length from a literal number of millimetres; a number that is not finite is a bug of ours and panics.
    #[must_use]
    pub const fn mm(value: f64) -> Self {
        assert!(value.is_finite(), "a length is a finite number of millimetres");
        Self(value)
    }

    /// A length from a literal number of inches of 25.4 mm.
    #[must_use]
    pub const fn inches(value: f64) -> Self {
        Self::mm(value * 25.4)
    }

    /// A length from a number that comes from outside.
    #[must_use]
    pub fn try_mm(value: f64) -> Option<Self> {
        value.is_finite().then_some(Self(value))
    }

    /// Millimetres: only where a number leaves the program, meets a formula with other units, and in tests.
    #[must_use]
    pub const fn as_mm(self) -> f64 {
        self.0
    }

    /// Metres, for formulas in SI units.
    #[must_use]
    pub const fn as_metres(self) -> f64 {
        self.0 / 1000.0
    }

    /// Inches of 25.4 mm.
    #[must_use]
    pub const fn as_inches(self) -> f64 {
        self.0 / 25.4
    }
}

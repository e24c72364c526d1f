//! What material has: density, mass per length, stress.

/// A finite density, held in kilograms per cubic metre.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd, Default)]
pub struct Density(f64);

crate::arithmetic::arithmetic!(Density);

impl Density {
    /// From a literal number of kilograms per cubic metre; a number that is not finite is a bug of ours and panics.
    #[must_use]
    pub const fn kg_per_m3(value: f64) -> Self {
        assert!(value.is_finite(), "a quantity is a finite number of kilograms per cubic metre");
        Self(value)
    }

    /// From a number of kilograms per cubic metre that comes from outside.
    #[must_use]
    pub fn try_kg_per_m3(value: f64) -> Option<Self> {
        value.is_finite().then_some(Self(value))
    }

    /// The number of kilograms per cubic metre.
    #[must_use]
    pub const fn as_kg_per_m3(self) -> f64 {
        self.0
    }
}
/// A finite mass per length, held in kilograms per metre.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd, Default)]
pub struct LinearDensity(f64);

crate::arithmetic::arithmetic!(LinearDensity);

impl LinearDensity {
    /// From a literal number of kilograms per metre; a number that is not finite is a bug of ours and panics.
    #[must_use]
    pub const fn kg_per_m(value: f64) -> Self {
        assert!(value.is_finite(), "a quantity is a finite number of kilograms per metre");
        Self(value)
    }

    /// From a number of kilograms per metre that comes from outside.
    #[must_use]
    pub fn try_kg_per_m(value: f64) -> Option<Self> {
        value.is_finite().then_some(Self(value))
    }

    /// The number of kilograms per metre.
    #[must_use]
    pub const fn as_kg_per_m(self) -> f64 {
        self.0
    }
}
/// A finite stress, strength or modulus, held in megapascals (newtons per square millimetre).
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd, Default)]
pub struct Stress(f64);

crate::arithmetic::arithmetic!(Stress);

impl Stress {
    /// From a literal number of megapascals; a number that is not finite is a bug of ours and panics.
    #[must_use]
    pub const fn megapascals(value: f64) -> Self {
        assert!(value.is_finite(), "a quantity is a finite number of megapascals");
        Self(value)
    }

    /// From a number of megapascals that comes from outside.
    #[must_use]
    pub fn try_megapascals(value: f64) -> Option<Self> {
        value.is_finite().then_some(Self(value))
    }

    /// The number of megapascals.
    #[must_use]
    pub const fn as_megapascals(self) -> f64 {
        self.0
    }
}

//! What does a string or a plank bring with it: how heavy is it, and how hard may it be pulled?

/// A finite density, held in kilograms per cubic metre: steel about 7850, wood about 350 to 800.
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

    /// From a number of kilograms per cubic metre that comes from outside; `None` where it is not finite.
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

/// A finite mass per length, held in kilograms per metre; a string's is a few grams per metre.
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

    /// From a number of kilograms per metre that comes from outside; `None` where it is not finite.
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

/// A finite stress, strength or elastic modulus, held in megapascals, which are newtons per square millimetre.
///
/// It prints in megapascals to 0.1.
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

    /// From a number of megapascals that comes from outside; `None` where it is not finite.
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

//! Forces.

/// A finite force, held in newtons.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd, Default)]
pub struct Force(f64);

crate::arithmetic::arithmetic!(Force);

impl Force {
    /// From a literal number of newtons; a number that is not finite is a bug of ours and panics.
    #[must_use]
    pub const fn newtons(value: f64) -> Self {
        assert!(value.is_finite(), "a quantity is a finite number of newtons");
        Self(value)
    }

    /// From a number of newtons that comes from outside.
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

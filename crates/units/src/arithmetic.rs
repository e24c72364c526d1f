//! What may be done with a quantity?
//!
//! Add and subtract like with like, scale by a number, divide like by like for a ratio. Nothing else compiles: a length
//! and a force do not add up, and two lengths do not multiply. The operations follow IEEE 754; a division by nothing is a
//! bug of the caller, which tells it before it divides.

/// Implements the arithmetic of a one-field quantity whose field is an `f64`.
macro_rules! arithmetic {
    ($quantity:ident) => {
        impl std::ops::Add for $quantity {
            type Output = Self;
            fn add(self, other: Self) -> Self {
                Self(self.0 + other.0)
            }
        }
        impl std::ops::Sub for $quantity {
            type Output = Self;
            fn sub(self, other: Self) -> Self {
                Self(self.0 - other.0)
            }
        }
        impl std::ops::Neg for $quantity {
            type Output = Self;
            fn neg(self) -> Self {
                Self(-self.0)
            }
        }
        impl std::ops::Mul<f64> for $quantity {
            type Output = Self;
            fn mul(self, factor: f64) -> Self {
                Self(self.0 * factor)
            }
        }
        impl std::ops::Mul<$quantity> for f64 {
            type Output = $quantity;
            fn mul(self, quantity: $quantity) -> $quantity {
                quantity * self
            }
        }
        impl std::ops::Div<f64> for $quantity {
            type Output = Self;
            fn div(self, divisor: f64) -> Self {
                Self(self.0 / divisor)
            }
        }
        impl std::ops::Div for $quantity {
            type Output = f64;
            fn div(self, other: Self) -> f64 {
                self.0 / other.0
            }
        }
        impl std::iter::Sum for $quantity {
            fn sum<I: Iterator<Item = Self>>(quantities: I) -> Self {
                quantities.fold(Self(0.0), |total, quantity| total + quantity)
            }
        }
        impl $quantity {
            /// Nothing of it.
            pub const ZERO: Self = Self(0.0);
            /// The size without the sign.
            #[must_use]
            pub const fn abs(self) -> Self {
                Self(self.0.abs())
            }
            /// The smaller of two.
            #[must_use]
            pub const fn min(self, other: Self) -> Self {
                Self(self.0.min(other.0))
            }
            /// The larger of two.
            #[must_use]
            pub const fn max(self, other: Self) -> Self {
                Self(self.0.max(other.0))
            }
        }
    };
}

pub(crate) use arithmetic;

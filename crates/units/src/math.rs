//! Transcendental functions with the same bits on every platform, from `libm`.
//!
//! `sqrt`, `abs`, `floor` and the four operations are exact by IEEE 754 and are used from the standard library.

/// Sine of an angle in radians.
#[must_use]
pub fn sin(x: f64) -> f64 {
    libm::sin(x)
}

/// Cosine of an angle in radians.
#[must_use]
pub fn cos(x: f64) -> f64 {
    libm::cos(x)
}

/// Tangent of an angle in radians.
#[must_use]
pub fn tan(x: f64) -> f64 {
    libm::tan(x)
}

/// The angle in radians whose sine is given.
#[must_use]
pub fn asin(x: f64) -> f64 {
    libm::asin(x)
}

/// The angle in radians whose cosine is given.
#[must_use]
pub fn acos(x: f64) -> f64 {
    libm::acos(x)
}

/// The angle in radians whose tangent is given.
#[must_use]
pub fn atan(x: f64) -> f64 {
    libm::atan(x)
}

/// e to the power of x.
#[must_use]
pub fn exp(x: f64) -> f64 {
    libm::exp(x)
}

/// Natural logarithm.
#[must_use]
pub fn ln(x: f64) -> f64 {
    libm::log(x)
}

/// Logarithm to base 2.
#[must_use]
pub fn log2(x: f64) -> f64 {
    libm::log2(x)
}

/// 2 to the power of x.
#[must_use]
pub fn exp2(x: f64) -> f64 {
    libm::exp2(x)
}

/// The angle in radians of the direction (`x`, `y`), in its quadrant.
#[must_use]
pub fn atan2(y: f64, x: f64) -> f64 {
    libm::atan2(y, x)
}

/// `base` to a real power.
#[must_use]
pub fn pow(base: f64, power: f64) -> f64 {
    libm::pow(base, power)
}

/// Length of the vector (`x`, `y`) without overflow.
#[must_use]
pub fn hypot(x: f64, y: f64) -> f64 {
    libm::hypot(x, y)
}

/// The error function, `2/sqrt(pi)` times the integral of `exp(-t^2)` from 0 to `x`.
#[must_use]
pub fn erf(x: f64) -> f64 {
    libm::erf(x)
}

//! How do sine, power and their kin come out with the same bits on every machine?
//!
//! The standard library asks each platform, and platforms differ in the last place; these ask `libm`, which is plain
//! arithmetic in a fixed order. `sqrt`, `abs`, `floor` and the four operations are exact by IEEE 754 and are used from the
//! standard library.
//!
//! The library is a translation of musl's, which errs by less than about one unit in the last place (from memory); the tests
//! hold it to two at known values. Outside its domain a function answers NaN, as the standard library's does.

/// Sine of an angle in radians, -1 to 1.
#[must_use]
pub fn sin(x: f64) -> f64 {
    libm::sin(x)
}

/// Cosine of an angle in radians, -1 to 1.
#[must_use]
pub fn cos(x: f64) -> f64 {
    libm::cos(x)
}

/// Tangent of an angle in radians.
#[must_use]
pub fn tan(x: f64) -> f64 {
    libm::tan(x)
}

/// The angle whose sine is given, in radians, -pi/2 to pi/2; NaN for a sine outside -1 to 1.
#[must_use]
pub fn asin(x: f64) -> f64 {
    libm::asin(x)
}

/// The angle whose cosine is given, in radians, 0 to pi; NaN for a cosine outside -1 to 1.
#[must_use]
pub fn acos(x: f64) -> f64 {
    libm::acos(x)
}

/// The angle whose tangent is given, in radians, -pi/2 to pi/2.
#[must_use]
pub fn atan(x: f64) -> f64 {
    libm::atan(x)
}

/// e to the power of x.
#[must_use]
pub fn exp(x: f64) -> f64 {
    libm::exp(x)
}

/// Natural logarithm; NaN below 0, minus infinity at 0.
#[must_use]
pub fn ln(x: f64) -> f64 {
    libm::log(x)
}

/// Logarithm to base 2; NaN below 0, minus infinity at 0.
#[must_use]
pub fn log2(x: f64) -> f64 {
    libm::log2(x)
}

/// 2 to the power of x.
#[must_use]
pub fn exp2(x: f64) -> f64 {
    libm::exp2(x)
}

/// The direction of (`x`, `y`) in its quadrant, in radians from the x axis toward the y axis, -pi to pi.
#[must_use]
pub fn atan2(y: f64, x: f64) -> f64 {
    libm::atan2(y, x)
}

/// `base` to a real power; NaN for a negative base and a power that is not whole.
#[must_use]
pub fn pow(base: f64, power: f64) -> f64 {
    libm::pow(base, power)
}

/// Length of the vector (`x`, `y`) without overflow.
#[must_use]
pub fn hypot(x: f64, y: f64) -> f64 {
    libm::hypot(x, y)
}

/// The error function of the normal distribution, -1 to 1: `2/sqrt(pi)` times the integral of `exp(-t^2)` from 0 to `x`.
#[must_use]
pub fn erf(x: f64) -> f64 {
    libm::erf(x)
}

#[cfg(test)]
mod tests {
    use std::f64::consts::{E, FRAC_1_SQRT_2, FRAC_PI_2, FRAC_PI_3, FRAC_PI_4, FRAC_PI_6, LN_2, PI, SQRT_2};

    use super::*;

    #[track_caller]
    fn check(found: f64, expected: f64, tolerance: f64) {
        let error = (found - expected).abs();
        assert!(
            error <= tolerance,
            "expected {expected:?} within {tolerance:e}, found {found:?}, off by {error:e}"
        );
    }

    /// Closed forms.
    #[test]
    fn sine_cosine_and_tangent_of_known_angles() {
        check(sin(FRAC_PI_6), 0.5, 2e-16);
        check(sin(FRAC_PI_4), FRAC_1_SQRT_2, 2e-16);
        check(cos(FRAC_PI_3), 0.5, 2e-16);
        check(tan(FRAC_PI_4), 1.0, 2e-16);
        check(tan(FRAC_PI_3), 3_f64.sqrt(), 8e-16);
    }

    /// Closed forms.
    #[test]
    fn angles_of_known_ratios() {
        check(asin(0.5), FRAC_PI_6, 2e-16);
        check(acos(-1.0), PI, 0.0);
        check(atan(1.0), FRAC_PI_4, 0.0);
        check(atan2(-1.0, -1.0), -3.0 * FRAC_PI_4, 5e-16);
        check(atan2(1.0, 0.0), FRAC_PI_2, 0.0);
        assert!(asin(1.1).is_nan(), "no angle has a sine of 1.1");
    }

    /// Closed forms.
    #[test]
    fn powers_and_logarithms() {
        check(exp(1.0), E, 5e-16);
        check(ln(2.0), LN_2, 2e-16);
        check(log2(8.0), 3.0, 0.0);
        check(exp2(10.0), 1024.0, 0.0);
        check(exp2(0.5), SQRT_2, 3e-16);
        check(pow(2.0, 0.5), SQRT_2, 3e-16);
        check(pow(10.0, 3.0), 1000.0, 0.0);
        check(hypot(3.0, 4.0), 5.0, 0.0);
        check(hypot(3e300, 4e300), 5e300, 1e285);
    }

    /// The twelfth root of two and the step of the wire gauges, to the digits that are printed: 1.059463 (closed form)
    /// and 1.122932 (ASTM B258-02).
    #[test]
    fn the_two_ratios_that_the_trade_lives_by() {
        check(exp2(1.0 / 12.0), 1.059_463_094_359_295_3, 3e-16);
        check(pow(92.0, 1.0 / 39.0), 1.122_932, 5e-7);
    }

    /// Abramowitz and Stegun, Handbook of Mathematical Functions, table 7.1, ten places; from memory.
    #[test]
    fn the_error_function_as_tabulated() {
        check(erf(0.0), 0.0, 0.0);
        check(erf(0.5), 0.520_499_877_8, 6e-11);
        check(erf(1.0), 0.842_700_792_9, 6e-11);
        check(erf(-2.0), -0.995_322_265_0, 6e-11);
    }
}

//! How is a number written for other programs?

use units::{Angle, Length};

/// A length in millimetres.
pub(crate) fn mm(length: Length) -> f64 {
    tidy(length.as_mm())
}

/// An angle in degrees.
pub(crate) fn deg(angle: Angle) -> f64 {
    tidy(angle.as_degrees())
}

/// To nine decimals: what is beyond is rounding noise of our own. A negative zero becomes zero.
pub(crate) fn tidy(value: f64) -> f64 {
    (value * 1e9).round() / 1e9 + 0.0
}

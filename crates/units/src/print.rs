//! How is a quantity written back, so that a person reads it and the parser does too?
//!
//! Numbers are rounded to a stated place, trailing zeros go ("648 mm", not "648.00 mm"), and nothing is ever "-0".

use std::fmt;

use crate::{Angle, Force, Frequency, Length, LengthUnit, Stress};

/// How a length is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LengthForm {
    /// "16.31 mm": within 0.005 mm.
    Millimetres,
    /// "0.642 in": within 0.0005 in (0.0127 mm).
    DecimalInches,
    /// "25 1/2 in", or "5/8 in + 0.11 mm": the nearest 1/64 inch, then what the length has more (or less) than that;
    /// the sum is within 0.005 mm. No rest is shown where it is below that.
    Sixtyfourths,
}

/// A length on its way to paper; made by [`Length::written`].
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WrittenLength {
    length: Length,
    form: LengthForm,
}

impl Length {
    /// The length in the form asked for; it parses back within that form's error.
    ///
    /// ```
    /// use units::{Length, LengthForm};
    /// let tongue = Length::mm(15.985);
    /// assert_eq!(tongue.written(LengthForm::Sixtyfourths).to_string(), "5/8 in + 0.11 mm", "5/8 in is 15.875 mm");
    /// ```
    #[must_use]
    pub const fn written(self, form: LengthForm) -> WrittenLength {
        WrittenLength { length: self, form }
    }
}

impl fmt::Display for WrittenLength {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        let text = match self.form {
            LengthForm::Millimetres => format!("{} mm", rounded(self.length.as_mm(), 2)),
            LengthForm::DecimalInches => format!("{} in", rounded(self.length.as_inches(), 3)),
            LengthForm::Sixtyfourths => sixtyfourths(self.length),
        };
        aligned(formatter, &text)
    }
}

/// Millimetres to 0.01: "16.31 mm".
impl fmt::Display for Length {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.written(LengthForm::Millimetres).fmt(formatter)
    }
}

/// As a document names it: "mm" or "in".
impl fmt::Display for LengthUnit {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        aligned(formatter, self.symbol())
    }
}

/// Degrees to 0.1: "3 deg", "12.5 deg".
impl fmt::Display for Angle {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        aligned(formatter, &format!("{} deg", rounded(self.as_degrees(), 1)))
    }
}

/// Newtons to 0.1: "12.3 N".
impl fmt::Display for Force {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        aligned(formatter, &format!("{} N", rounded(self.as_newtons(), 1)))
    }
}

/// Hertz to 0.01: "97.99 Hz".
impl fmt::Display for Frequency {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        aligned(formatter, &format!("{} Hz", rounded(self.as_hertz(), 2)))
    }
}

/// Megapascals to 0.1: "33.5 MPa".
impl fmt::Display for Stress {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        aligned(formatter, &format!("{} MPa", rounded(self.as_megapascals(), 1)))
    }
}

/// Writes the text to the right of the width asked for, as columns of numbers are set.
fn aligned(formatter: &mut fmt::Formatter<'_>, text: &str) -> fmt::Result {
    let width = formatter.width().unwrap_or(0);
    write!(formatter, "{text:>width$}")
}

/// A number to so many decimals, at least one, without trailing zeros and without a sign before nothing.
fn rounded(value: f64, decimals: usize) -> String {
    let digits = format!("{value:.decimals$}");
    let trimmed = digits.trim_end_matches('0').trim_end_matches('.');
    if trimmed == "-0" { "0".to_owned() } else { trimmed.to_owned() }
}

/// Up to how many inches sixty-fourths are counted; beyond 1e13 an `f64` no longer tells them apart, and nothing that is
/// built comes near.
const LARGEST_COUNTED_IN: f64 = 1e12;

/// The nearest 1/64 inch and the rest.
fn sixtyfourths(length: Length) -> String {
    if length.as_inches().abs() > LARGEST_COUNTED_IN {
        return format!("{} in", rounded(length.as_inches(), 3));
    }
    let count = (length.as_inches() * 64.0).round();
    let rest = rounded(length.as_mm() - count / 64.0 * 25.4, 2);
    let sign = if count < 0.0 { "-" } else { "" };
    let whole = (count.abs() / 64.0).floor();
    let mut over = (count.abs() % 64.0) as u8;
    let mut under = 64;
    while over != 0 && over.is_multiple_of(2) {
        over /= 2;
        under /= 2;
    }
    let inches = match (whole, over) {
        (_, 0) => format!("{sign}{whole} in"),
        (0.0, _) => format!("{sign}{over}/{under} in"),
        _ => format!("{sign}{whole} {over}/{under} in"),
    };
    match rest.strip_prefix('-') {
        _ if rest == "0" => inches,
        Some(less) => format!("{inches} - {less} mm"),
        None => format!("{inches} + {rest} mm"),
    }
}

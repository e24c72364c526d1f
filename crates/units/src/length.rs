//! How long is it, and how do people write that down?

use crate::error::{QuantityError, shown};
use crate::rational::Rational;
use crate::written::{Kind, Source, Value};

/// A finite length, held in millimetres.
///
/// It prints in millimetres to 0.01; [`Length::written`] gives inches.
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

impl LengthUnit {
    /// Reads the name that a document gives the unit: "mm" or "in", and nothing else.
    pub fn parse(text: &str) -> Result<Self, QuantityError> {
        match text {
            "mm" => Ok(Self::Millimetre),
            "in" => Ok(Self::Inch),
            _ => Err(QuantityError::NotALengthUnit { found: shown(text) }),
        }
    }

    /// That name.
    #[must_use]
    pub const fn symbol(self) -> &'static str {
        match self {
            Self::Millimetre => "mm",
            Self::Inch => "in",
        }
    }
}

/// Lengths as the grammar sees them; the base unit is the millimetre.
static LENGTH: Kind = Kind {
    quantity: "a length",
    example: "25 1/2 in",
    decimal: "25.5 in",
    known: "\"in\", \"mm\", \"cm\" or \"m\"",
    units: &[
        (&["mm", "millimetre", "millimetres", "millimeter", "millimeters"], 1, 1),
        (&["in", "in.", "\"", "''", "inch", "inches"], 127, 5),
        (&["cm", "centimetre", "centimetres", "centimeter", "centimeters"], 10, 1),
        (&["m", "metre", "metres", "meter", "meters"], 1000, 1),
    ],
    is_length: true,
};

impl Length {
    /// A length from a literal number of millimetres; a number that is not finite is a bug of ours and panics.
    #[must_use]
    pub const fn mm(value: f64) -> Self {
        assert!(value.is_finite(), "a length is a finite number of millimetres");
        Self(value)
    }

    /// A length from a literal number of inches of 25.4 mm.
    ///
    /// - **Accuracy**: one rounding of the product, up to half a unit in the last place beside the exact length; a
    ///   written length ([`Length::parse`]) is exact.
    #[must_use]
    pub const fn inches(value: f64) -> Self {
        Self::mm(value * 25.4)
    }

    /// A length from a number that comes from outside; `None` where it is not finite.
    #[must_use]
    pub fn try_mm(value: f64) -> Option<Self> {
        value.is_finite().then_some(Self(value))
    }

    /// Reads a length as people write it; a number without a unit is in `bare`.
    ///
    /// - **Shape**: "648 mm", "64.8 cm", "0.648 m", "25.5 in", "25 1/2 in", "25-1/2\"", "25½ in", "3/8", "25,5 mm",
    ///   "-3 mm"; and the sum of two that carry their units, "5/8 in + 0.11 mm", as [`crate::LengthForm::Sixtyfourths`]
    ///   prints it.
    /// - **Accuracy**: the `f64` nearest to what is written.
    /// - **Errors**: feet, marks that may mean thousands ("1,000 mm"), fractions that do not add up ("25 5/4 in"), more
    ///   digits than 128 bits hold, and whatever is no length.
    ///
    /// A string from a document, whose bare numbers are inches:
    /// ```
    /// use units::{Length, LengthUnit};
    /// let scale_length = Length::parse("25 1/2", LengthUnit::Inch)?;
    /// assert_eq!(scale_length, Length::mm(647.7), "half an inch is 12.7 mm exactly");
    /// # Ok::<(), units::QuantityError>(())
    /// ```
    pub fn parse(text: &str, bare: LengthUnit) -> Result<Self, QuantityError> {
        let source = Source::new(&LENGTH, text);
        let plain = source.plain.as_str();
        let Some(place) = plain.find(" + ").or_else(|| plain.find(" - ")) else {
            return in_mm(&source, plain, bare);
        };
        let (first, second) = plain.split_at(place);
        let (sign, second) = second.trim_start().split_at(1);
        let (Value::InBaseUnit(first), Value::InBaseUnit(second)) =
            (source.term(first)?, source.term(second)?)
        else {
            return Err(source.unclear_fraction());
        };
        let second = if sign == "-" { second.negated() } else { second };
        let sum = first.plus(second).ok_or_else(|| source.too_many_digits())?;
        Ok(Self::mm(sum.to_nearest()))
    }

    /// Reads the digits of a bare number of a document, as they stand there: "25.5", "-3", "1e3".
    ///
    /// - **Shape**: sign, digits, point, digits, exponent; no unit, comma, fraction or space.
    /// - **Accuracy**: the millimetres nearest to the decimal as written; a number that went through an `f64` of inches
    ///   is rounded twice.
    /// - **Errors**: as [`Length::parse`]; "inf" and "nan" are no numbers.
    pub fn from_decimal(text: &str, unit: LengthUnit) -> Result<Self, QuantityError> {
        if !text.bytes().all(|byte| byte.is_ascii_digit() || b"+-.eE".contains(&byte)) {
            let Kind { quantity, example, .. } = LENGTH;
            return Err(QuantityError::NotANumber { quantity, found: shown(text), example });
        }
        let source = Source::new(&LENGTH, text);
        in_mm(&source, text, unit)
    }

    /// Millimetres: only where a number leaves the program, meets a formula with other units, and in tests.
    #[must_use]
    pub const fn as_mm(self) -> f64 {
        self.0
    }

    /// The number of metres, for formulas in SI units.
    #[must_use]
    pub const fn as_metres(self) -> f64 {
        self.0 / 1000.0
    }

    /// The number of inches of 25.4 mm.
    #[must_use]
    pub const fn as_inches(self) -> f64 {
        self.0 / 25.4
    }
}

/// One number with or without a unit, in millimetres.
fn in_mm(source: &Source<'_>, term: &str, bare: LengthUnit) -> Result<Length, QuantityError> {
    let mm = match source.term(term)? {
        Value::InBaseUnit(mm) => mm,
        Value::Bare(number) => match bare {
            LengthUnit::Millimetre => number,
            LengthUnit::Inch => Rational::new(127, 5)
                .and_then(|inch| number.times(inch))
                .ok_or_else(|| source.too_many_digits())?,
        },
    };
    Ok(Length::mm(mm.to_nearest()))
}

//! How is one value of a file of measurements read?

use std::ops::RangeInclusive;

use units::{Length, LengthUnit};

use super::Kind;
use crate::code::Code;
use crate::diagnostic::{Diagnostic, Place};
use crate::reading::measure::{self, Misreading};
use crate::reading::written::Written;

/// What is wrong with a value; boxed, because it is so much larger than one.
pub(super) type Fault = Box<Diagnostic>;

/// A value with its place.
#[derive(Clone, Debug)]
pub(super) struct Cell<'w> {
    pub(super) place: Place,
    pub(super) written: Written<'w>,
}

/// Errors lie between these, in millimetres or cents. A smaller one would silence all other readings; a larger one says nothing.
const ERRORS: RangeInclusive<f64> = 0.001..=100.0;

impl Cell<'_> {
    /// A value of a kind.
    pub(super) fn value(&self, kind: Kind, units: LengthUnit) -> Result<f64, Fault> {
        self.number(kind, &kind.limits(), units)
    }

    /// One standard deviation of a kind.
    pub(super) fn error(&self, kind: Kind, units: LengthUnit) -> Result<f64, Fault> {
        self.number(kind, &ERRORS, units)
    }

    fn number(&self, kind: Kind, limits: &RangeInclusive<f64>, units: LengthUnit) -> Result<f64, Fault> {
        let value = match kind {
            Kind::Tuner => cents(self.written),
            _ => measure::length(self.written, units).map(Length::as_mm),
        };
        let value = value.map_err(|misreading| self.fault(misreading))?;
        if limits.contains(&value) {
            return Ok(value);
        }
        let (least, most, unit) = (*limits.start(), *limits.end(), kind.unit());
        let nearest = value.clamp(least, most);
        let message = format!(
            "must lie between {least} {unit} and {most} {unit}, found {}",
            self.written.description()
        );
        Err(self.fault(
            Misreading::new(Code::OutOfRange, message)
                .hint(format!("the nearest value that works is {nearest} {unit}")),
        ))
    }

    /// The number of a thing of which there are `limits`.
    pub(super) fn count(&self, of: &str, limits: RangeInclusive<u8>) -> Result<u8, Fault> {
        let (least, most) = (*limits.start(), *limits.end());
        if least > most {
            let message =
                format!("expected no {of}, for there is none; found {}", self.written.description());
            return Err(self.fault(Misreading::new(Code::OutOfRange, message).hint("leave the reading out")));
        }
        let count = measure::count(self.written).map_err(|misreading| self.fault(misreading))?;
        match u8::try_from(count) {
            Ok(count) if limits.contains(&count) => Ok(count),
            _ => {
                let nearest = if count < u64::from(least) { least } else { most };
                let message = format!("expected a {of} between {least} and {most}, found {count}");
                Err(self.fault(
                    Misreading::new(Code::OutOfRange, message)
                        .hint(format!("the nearest that the instrument has is {nearest}")),
                ))
            }
        }
    }

    /// The fault of this cell.
    pub(super) fn fault(&self, misreading: Misreading) -> Fault {
        let named = if self.place.key.is_empty() { String::new() } else { format!("{}: ", self.place.key) };
        let fault =
            Diagnostic::error(misreading.code, self.place.clone(), format!("{named}{}", misreading.message));
        Box::new(misreading.hints.into_iter().fold(fault, |fault, (text, _)| fault.hint(text)))
    }
}

/// A number of cents: "-3", "+4.5", "4.5 cents".
fn cents(written: Written<'_>) -> Result<f64, Misreading> {
    let wrong = |found: String| {
        Misreading::new(Code::Unreadable, format!("expected a number of cents, found {found}"))
            .hint("write the number alone, as 4.5 or -3; positive is sharp")
    };
    let (Written::Text(text) | Written::Number(text) | Written::Loose(text)) = written else {
        return Err(wrong(written.description()));
    };
    let number = text.trim().trim_end_matches("cents").trim_end_matches("cent").trim();
    match number.parse::<f64>() {
        Ok(value) if value.is_finite() => Ok(value),
        _ => Err(wrong(written.description())),
    }
}

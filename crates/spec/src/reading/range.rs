//! What is told of a value beyond the limits of its key?

use std::ops::RangeInclusive;

use units::{Length, LengthUnit};

use super::measure::{self, Misreading, Reading};
use super::written::Written;
use crate::choice::Choice;
use crate::code::Code;
use crate::key::{KeyRange, Quantity};

/// The limits of a length.
pub(super) fn lengths(range: &RangeInclusive<Length>) -> KeyRange {
    KeyRange { least: Quantity::Length(*range.start()), most: Quantity::Length(*range.end()) }
}

/// The length, where it lies in the range.
pub(super) fn within(
    length: Length,
    range: &RangeInclusive<Length>,
    written: Written<'_>,
    units: LengthUnit,
) -> Reading<Length> {
    if range.contains(&length) {
        return Ok(length);
    }
    let limits = lengths(range);
    let nearest = if length < *range.start() { limits.least } else { limits.most };
    let fault = out_of_range(written, limits, nearest, units);
    let Written::Number(digits) = written else { return Err(fault) };
    // A bare number in the other unit is the commonest slip of all.
    let (read_as, other) = match units {
        LengthUnit::Millimetre => ("millimetres", LengthUnit::Inch),
        LengthUnit::Inch => ("inches", LengthUnit::Millimetre),
    };
    let is_slip = measure::length(written, other).is_ok_and(|length| range.contains(&length));
    if !is_slip {
        return Err(fault);
    }
    let value = format!("{digits} {}", other.word());
    Err(fault.offer_first(format!("a bare number is read as {read_as}; write \"{value}\""), value))
}

/// The limits of a whole number.
pub(super) fn counts(range: &RangeInclusive<u8>) -> KeyRange {
    KeyRange { least: Quantity::Count(*range.start()), most: Quantity::Count(*range.end()) }
}

/// The whole number that is written, where it lies in the range.
pub(super) fn count_within(written: Written<'_>, range: &RangeInclusive<u8>) -> Reading<u8> {
    let number = measure::count(written)?;
    let limits = counts(range);
    match u8::try_from(number) {
        Ok(number) if range.contains(&number) => Ok(number),
        _ => {
            let nearest = if number < u64::from(*range.start()) { limits.least } else { limits.most };
            Err(out_of_range(written, limits, nearest, LengthUnit::Millimetre))
        }
    }
}

/// A value beyond its limits, with the nearest that works.
pub(super) fn out_of_range(
    written: Written<'_>,
    range: KeyRange,
    nearest: Quantity,
    units: LengthUnit,
) -> Misreading {
    let found = match written {
        Written::Number(digits) => digits.to_owned(),
        other => other.description(),
    };
    let [least, most] = [range.least, range.most].map(|limit| limit.shown(units));
    Misreading::new(Code::OutOfRange, format!("must lie between {least} and {most}, found {found}"))
        .offer(format!("the nearest value that works is {}", nearest.shown(units)), nearest.to_string())
}

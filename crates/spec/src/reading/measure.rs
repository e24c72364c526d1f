//! How is one value read as what its key wants?
//!
//! Every function here takes a value as written and gives what it means, or why it cannot mean it. None of them knows
//! which key it reads.

use units::{Angle, Length, LengthUnit, Pitch, QuantityError, WireGauge};

use super::written::Written;
use crate::choice::Choice;
use crate::code::Code;
use crate::document::Value;
use crate::instrument::{BoardRadius, FretPattern};
use crate::limits;
use crate::nearest::{nearest, plain, quoted_list};
use crate::stock::{UnknownName, Wire, Wood, WrapMaterial};
use crate::stock_list::Price;

/// Why a value cannot be read.
#[derive(Debug)]
pub(crate) struct Misreading {
    pub(crate) code: Code,
    pub(crate) message: String,
    /// Proposals in words, some with a value that works.
    pub(crate) hints: Vec<(String, Option<String>)>,
}

/// What reading one value gives.
pub(crate) type Reading<T> = Result<T, Misreading>;

impl Misreading {
    pub(crate) fn new(code: Code, message: impl Into<String>) -> Self {
        Self { code, message: message.into(), hints: Vec::new() }
    }

    pub(crate) fn hint(mut self, text: impl Into<String>) -> Self {
        self.hints.push((text.into(), None));
        self
    }

    pub(crate) fn offer(mut self, text: impl Into<String>, value: impl Into<String>) -> Self {
        self.hints.push((text.into(), Some(value.into())));
        self
    }

    pub(crate) fn offer_first(mut self, text: impl Into<String>, value: impl Into<String>) -> Self {
        self.hints.insert(0, (text.into(), Some(value.into())));
        self
    }

    pub(super) fn wrong_kind(expected: &str, found: Written<'_>) -> Self {
        let fault = Self::new(Code::WrongKind, format!("expected {expected}, found {}", found.description()));
        match found {
            Written::Other(crate::document::Value::Date(_)) => {
                fault.hint("put the value in quotes: digits with hyphens are read as a date")
            }
            _ => fault,
        }
    }
}

/// A length; bare numbers are in `units`.
pub(crate) fn length(written: Written<'_>, units: LengthUnit) -> Reading<Length> {
    match written {
        Written::Number(digits) => {
            finite(digits)?;
            Length::from_decimal(digits, units).map_err(misread)
        }
        Written::Text(text) => {
            bounded(text)?;
            let length = Length::parse(text, units).map_err(misread)?;
            let has_unit = text
                .chars()
                .any(|letter| letter.is_alphabetic() || "\"'\u{2033}\u{2032}\u{201d}".contains(letter));
            if !has_unit && length != Length::ZERO {
                let text = text.trim();
                let with_unit = format!("{text} {}", units.word());
                return Err(Misreading::new(
                    Code::WrongUnit,
                    format!("expected a unit in the string, found \"{text}\""),
                )
                .offer(format!("write \"{with_unit}\""), with_unit));
            }
            Ok(length)
        }
        Written::Loose(text) => {
            bounded(text)?;
            finite(text.trim())?;
            Length::parse(text, units).map_err(misread)
        }
        Written::Other(_) => Err(Misreading::wrong_kind("a length, as \"3/4 in\" or \"19 mm\"", written)),
    }
}

/// An angle; bare numbers are degrees.
pub(crate) fn angle(written: Written<'_>) -> Reading<Angle> {
    match written {
        Written::Number(text) | Written::Text(text) | Written::Loose(text) => {
            bounded(text)?;
            finite(text.trim())?;
            Angle::parse(text).map_err(misread)
        }
        Written::Other(_) => Err(Misreading::wrong_kind("an angle, as \"3 deg\"", written)),
    }
}

/// A whole number that fits a byte; larger ones are told as they stand.
pub(crate) fn count(written: Written<'_>) -> Reading<u64> {
    let digits = match written {
        Written::Number(digits) | Written::Loose(digits) => digits,
        Written::Text(quoted) if quoted.trim().parse::<u8>().is_ok() => {
            let number = quoted.trim();
            return Err(Misreading::wrong_kind("a whole number without quotes", written)
                .offer(format!("write {number}"), number));
        }
        _ => return Err(Misreading::wrong_kind("a whole number, as 12", written)),
    };
    let digits = digits.trim();
    finite(digits)?;
    bounded(digits)?;
    let whole = digits.strip_suffix(".0").unwrap_or(digits);
    match whole.trim_start_matches('+').parse::<i64>() {
        // A negative number is below every range; zero tells so without another type.
        Ok(number) if number < 0 => {
            Err(Misreading::new(Code::OutOfRange, format!("expected a number of things, found {digits}")))
        }
        Ok(number) => Ok(number.unsigned_abs()),
        Err(_) => Err(Misreading::wrong_kind("a whole number, as 12", written)),
    }
}

/// A price to a hundredth.
pub(super) fn price(written: Written<'_>) -> Reading<Price> {
    let (Written::Number(text) | Written::Text(text) | Written::Loose(text)) = written else {
        return Err(Misreading::wrong_kind(A_PRICE, written));
    };
    bounded(text)?;
    finite(text.trim())?;
    let plain = text.trim().replace(',', ".");
    let (whole, part) = plain.split_once('.').unwrap_or((&plain, ""));
    let is_plain = |digits: &str| digits.bytes().all(|byte| byte.is_ascii_digit());
    if whole.is_empty() || !is_plain(whole) || !is_plain(part) {
        return Err(Misreading::wrong_kind(A_PRICE, written));
    }
    if part.len() > 2 && part[2..].bytes().any(|digit| digit != b'0') {
        let message = format!("expected a price to a hundredth, found {}", written.description());
        let value = format!("{whole}.{}", &part[..2]);
        return Err(Misreading::new(Code::Unreadable, message).offer(format!("write {value}"), value));
    }
    match whole.parse::<u64>() {
        Ok(whole) if whole < limits::PRICE => {
            let part: u64 = format!("{part:0<2}")[..2].parse().unwrap_or(0);
            Ok(Price::hundredths(whole * 100 + part))
        }
        _ => {
            let most = limits::PRICE - 1;
            let message = format!("must be a price of at most {most}, found {}", written.description());
            Err(Misreading::new(Code::OutOfRange, message)
                .offer(format!("the nearest value that works is {most}"), most.to_string()))
        }
    }
}

const A_PRICE: &str = "a price, as 14.50";

/// True or false.
pub(super) fn truth(written: Written<'_>) -> Reading<bool> {
    match written {
        Written::Other(Value::Truth(truth)) => Ok(*truth),
        Written::Loose(word) if matches!(plain(word).as_str(), "true" | "false") => Ok(plain(word) == "true"),
        Written::Text(word) if matches!(plain(word).as_str(), "true" | "false") => {
            let word = plain(word);
            Err(Misreading::wrong_kind("true or false without quotes", written)
                .offer(format!("write {word}"), word))
        }
        _ => Err(Misreading::wrong_kind("true or false", written)),
    }
}

/// A text.
pub(crate) fn text(written: Written<'_>) -> Reading<String> {
    match written {
        Written::Text(text) | Written::Loose(text) => Ok(text.trim().to_owned()),
        Written::Number(digits) => {
            let quoted: String = digits.chars().take(limits::VALUE_CHARACTERS).collect();
            Err(Misreading::wrong_kind("text in quotes", written)
                .offer(format!("write \"{quoted}\""), quoted))
        }
        Written::Other(_) => Err(Misreading::wrong_kind("text in quotes", written)),
    }
}

/// The instrument's name: its files' folder is called after it.
pub(crate) fn name(written: Written<'_>) -> Reading<String> {
    let name = text(written)?;
    let unusable = |message: String| Misreading::new(Code::UnusableName, message);
    let letters = name.chars().count();
    if letters > limits::NAME_CHARACTERS {
        let words = name.split_whitespace().scan(0, |length, word| {
            *length += word.chars().count() + 1;
            (*length <= 40).then_some(word)
        });
        let short = words.collect::<Vec<_>>().join(" ");
        let message =
            format!("expected a name of at most {} characters, found {letters}", limits::NAME_CHARACTERS);
        return Err(unusable(message).hint(format!("shorten it, for instance to \"{short}\"")));
    }
    if let Some(control) = name.chars().find(|letter| letter.is_control()) {
        return Err(unusable(format!(
            "expected a name on one line without control characters, found {control:?}"
        ))
        .hint("write the name in plain letters, as \"Porch three-string\""));
    }
    if !name.chars().any(char::is_alphanumeric) {
        return Err(unusable(format!("expected a name with at least one letter or digit, found \"{name}\""))
            .offer("write a name, as \"Porch three-string\"", "Porch three-string"));
    }
    Ok(name)
}

/// One of the words of a choice; case, spaces and hyphens do not count.
pub(crate) fn choice<C: Choice>(written: Written<'_>) -> Reading<C> {
    let words = || C::CHOICES.iter().map(|(word, _)| *word);
    let found = match written {
        Written::Text(text) | Written::Loose(text) => text,
        _ => return Err(Misreading::wrong_kind(&quoted_list(words()), written)),
    };
    bounded(found)?;
    let wanted = plain(found);
    if let Some((_, value)) = C::CHOICES.iter().find(|(word, _)| plain(word) == wanted) {
        return Ok(*value);
    }
    let message = format!("expected {}, found {}", quoted_list(words()), written.description());
    let fault = Misreading::new(Code::UnknownChoice, message);
    Err(match nearest(found, words(), 1).first() {
        Some(word) => fault.offer(format!("did you mean \"{word}\"?"), *word),
        None => fault,
    })
}

/// A wood of the table.
pub(crate) fn wood(written: Written<'_>) -> Reading<Wood> {
    let known = || Wood::all().map(Wood::name).collect::<Vec<_>>().join(", ");
    stock_name(written, "the name of a wood, as \"hard maple\"", Wood::named, known)
}

/// A wrap material of the table.
pub(crate) fn wrap(written: Written<'_>) -> Reading<WrapMaterial> {
    let known = || WrapMaterial::all().map(WrapMaterial::name).collect::<Vec<_>>().join(", ");
    stock_name(written, "the name of a wrap material, as \"phosphor bronze\"", WrapMaterial::named, known)
}

fn stock_name<T>(
    written: Written<'_>,
    expected: &str,
    named: fn(&str) -> Result<T, UnknownName>,
    known: fn() -> String,
) -> Reading<T> {
    let (Written::Text(text) | Written::Loose(text)) = written else {
        return Err(Misreading::wrong_kind(expected, written));
    };
    bounded(text)?;
    named(text).map_err(|unknown| {
        let fault = Misreading::new(Code::UnknownName, unknown.to_string());
        match (unknown.question(), unknown.nearest.first()) {
            (Some(question), Some(name)) => fault.offer(question, *name),
            _ => fault.hint(format!("the names that are known are {}", known())),
        }
    })
}

/// A note or a frequency.
pub(crate) fn pitch(written: Written<'_>) -> Reading<Pitch> {
    match written {
        Written::Text(text) | Written::Number(text) | Written::Loose(text) => {
            bounded(text)?;
            Pitch::parse(text).map_err(misread)
        }
        Written::Other(_) => {
            Err(Misreading::wrong_kind("a note, as \"G2\", or a frequency, as \"98 Hz\"", written))
        }
    }
}

/// A wire gauge or a diameter.
pub(crate) fn wire(written: Written<'_>, units: LengthUnit) -> Reading<Wire> {
    match written {
        Written::Text(text) | Written::Loose(text) if plain(text).contains("awg") => {
            bounded(text)?;
            WireGauge::parse(text).map(Wire::Gauge).map_err(misread)
        }
        Written::Other(_) => Err(Misreading::wrong_kind("a wire, as \"16 AWG\" or \"1.3 mm\"", written)),
        _ => length(written, units).map(Wire::Diameter),
    }
}

/// Two lengths.
pub(crate) fn length_pair(written: Written<'_>, units: LengthUnit) -> Reading<[Length; 2]> {
    let Some(items) = written.items() else {
        return Err(Misreading::wrong_kind("two lengths in a list, as [\"2 in\", \"1 1/2 in\"]", written));
    };
    match items.as_slice() {
        [first, second] => Ok([length(*first, units)?, length(*second, units)?]),
        _ => Err(Misreading::new(
            Code::ItemCount,
            format!("expected two lengths in the list, found {}", items.len()),
        )
        .hint("write both, as [\"2 in\", \"1 1/2 in\"]")),
    }
}

/// "flat" or a radius.
pub(crate) fn board_radius(written: Written<'_>, units: LengthUnit) -> Reading<BoardRadius> {
    match written {
        Written::Text(text) | Written::Loose(text) if plain(text) == "flat" => Ok(BoardRadius::Flat),
        Written::Other(_) => Err(Misreading::wrong_kind("\"flat\" or a radius, as \"12 in\"", written)),
        _ => length(written, units)
            .map(BoardRadius::Radius)
            .map_err(|fault| fault.hint("\"flat\" stands for no radius")),
    }
}

/// "chromatic", "diatonic" or a rising list of semitones.
pub(crate) fn fret_pattern(written: Written<'_>) -> Reading<FretPattern> {
    let words = ["chromatic", "diatonic"];
    if let Some(items) = written.items() {
        return semitones(&items);
    }
    let (Written::Text(text) | Written::Loose(text)) = written else {
        return Err(Misreading::wrong_kind(
            "\"chromatic\", \"diatonic\" or a list of semitones, as [2, 4, 5, 7]",
            written,
        ));
    };
    bounded(text)?;
    match plain(text).as_str() {
        "chromatic" => Ok(FretPattern::Chromatic),
        "diatonic" => Ok(FretPattern::Diatonic),
        _ => {
            let message = format!(
                "expected \"chromatic\", \"diatonic\" or a list of semitones, found {}",
                written.description()
            );
            let fault = Misreading::new(Code::UnknownChoice, message);
            Err(match nearest(text, words, 1).first() {
                Some(word) => fault.offer(format!("did you mean \"{word}\"?"), *word),
                None => fault.hint("a list is written as [2, 4, 5, 7, 9, 10, 12]"),
            })
        }
    }
}

/// A rising list of semitones.
fn semitones(items: &[Written<'_>]) -> Reading<FretPattern> {
    if items.is_empty() || items.len() > usize::from(limits::SEMITONES) {
        let message =
            format!("expected 1 to {} semitones in the list, found {}", limits::SEMITONES, items.len());
        return Err(Misreading::new(Code::ItemCount, message)
            .offer("for a fret at every semitone write \"chromatic\"", "chromatic"));
    }
    let mut semitones = Vec::with_capacity(items.len());
    for item in items {
        let semitone = count(*item)?;
        if !(1..=u64::from(limits::SEMITONES)).contains(&semitone) {
            let message = format!("expected semitones between 1 and {}, found {semitone}", limits::SEMITONES);
            return Err(Misreading::new(Code::OutOfRange, message).hint("12 is the octave"));
        }
        // The range above fits a byte.
        semitones.push(semitone as u8);
    }
    if let Some(pair) = semitones.windows(2).find(|pair| pair[0] >= pair[1]) {
        let mut rising = semitones.clone();
        rising.sort_unstable();
        rising.dedup();
        let list = format!("[{}]", rising.iter().map(u8::to_string).collect::<Vec<_>>().join(", "));
        let what = if pair[0] == pair[1] { "again" } else { "after it" };
        let message = format!("expected semitones that rise, found {} and {} {what}", pair[0], pair[1]);
        return Err(Misreading::new(Code::PatternOrder, message).offer(format!("write {list}"), list));
    }
    Ok(FretPattern::Semitones(semitones))
}

/// Refuses what is no number although it is written where one may stand.
fn finite(digits: &str) -> Reading<()> {
    let word = digits.trim_start_matches(['+', '-']).to_ascii_lowercase();
    if matches!(word.as_str(), "nan" | "inf" | "infinity") {
        return Err(Misreading::new(Code::NotFinite, format!("expected a finite number, found {digits}"))
            .hint("write a number, as 25.5"));
    }
    Ok(())
}

/// Refuses text longer than anything that can be understood, before it is looked at.
fn bounded(text: &str) -> Reading<()> {
    let letters = text.chars().count();
    if letters > limits::VALUE_CHARACTERS {
        let message =
            format!("expected a value of at most {} characters, found {letters}", limits::VALUE_CHARACTERS);
        return Err(Misreading::new(Code::TooLarge, message).hint("write a plain value, as \"25 1/2 in\""));
    }
    Ok(())
}

/// A fault of a quantity, by its code.
fn misread(error: QuantityError) -> Misreading {
    let message = error.to_string();
    match error {
        QuantityError::UnknownUnit { .. } | QuantityError::Feet { .. } => {
            Misreading::new(Code::WrongUnit, message)
        }
        QuantityError::BareFrequency { example, .. } => {
            Misreading::new(Code::WrongUnit, message).offer(format!("write \"{example}\""), example)
        }
        QuantityError::TooManyDigits { .. } => Misreading::new(Code::NotFinite, message),
        QuantityError::PitchOutOfRange { .. } => Misreading::new(Code::OutOfRange, message),
        QuantityError::MissingOctave { example, .. } => {
            Misreading::new(Code::Unreadable, message).offer(format!("write \"{example}\""), example)
        }
        QuantityError::UnclearComma { with_point, without, .. } => Misreading::new(Code::Unreadable, message)
            .offer(format!("write \"{without}\""), without)
            .offer(format!("or write \"{with_point}\""), with_point),
        QuantityError::GroupedDigits { plain, .. } => {
            Misreading::new(Code::Unreadable, message).offer(format!("write \"{plain}\""), plain)
        }
        _ => Misreading::new(Code::Unreadable, message),
    }
}

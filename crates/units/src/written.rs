//! How do people write a number with its unit?
//!
//! One grammar serves every quantity:
//!
//! ```text
//! quantity = [ "-" | "+" ] number [ unit ]
//! number   = decimal | fraction | whole fraction
//! decimal  = 25 | 25.5 | .5 | 25,5 | 1e3
//! fraction = 3/8 | ½
//! whole fraction = 25 1/2 | 25-1/2 | 25½
//! ```
//!
//! A dash between a whole number and a fraction parts them, one in front is a sign. A comma is a decimal mark where it
//! cannot be a thousands mark. Spaces of every width, primes, curly quotes, dashes and fraction slashes count as the
//! plain character they look like; capitals do not matter.

use crate::error::{QuantityError, shown};
use crate::rational::Rational;

/// A unit: its spellings in small letters, and how many of the base unit it is, as a fraction.
pub(crate) type Unit = (&'static [&'static str], i128, i128);

/// What the grammar must know of a kind of quantity.
pub(crate) struct Kind {
    /// With its article: "a length".
    pub(crate) quantity: &'static str,
    /// A form that parses.
    pub(crate) example: &'static str,
    /// A decimal that parses.
    pub(crate) decimal: &'static str,
    /// The units in words, for a message.
    pub(crate) known: &'static str,
    pub(crate) units: &'static [Unit],
    /// Whether feet may be meant.
    pub(crate) is_length: bool,
}

/// A text being read, as written and in plain characters.
pub(crate) struct Source<'a> {
    pub(crate) kind: &'static Kind,
    text: &'a str,
    pub(crate) plain: String,
}

/// A value in the base unit, or in no unit yet.
pub(crate) enum Value {
    InBaseUnit(Rational),
    Bare(Rational),
}

/// Reads one quantity; a bare number counts in the base unit.
pub(crate) fn parse(kind: &'static Kind, text: &str) -> Result<f64, QuantityError> {
    let source = Source::new(kind, text);
    match source.term(&source.plain)? {
        Value::InBaseUnit(value) | Value::Bare(value) => Ok(value.to_nearest()),
    }
}

impl<'a> Source<'a> {
    pub(crate) fn new(kind: &'static Kind, text: &'a str) -> Self {
        Self { kind, text, plain: plain(text) }
    }

    /// Reads a part of the plain text that is one signed number with or without a unit.
    pub(crate) fn term(&self, term: &str) -> Result<Value, QuantityError> {
        let term = term.trim();
        if term.is_empty() {
            let Kind { quantity, example, .. } = *self.kind;
            return Err(QuantityError::Empty { quantity, example });
        }
        let unsigned = term.strip_prefix(['-', '+']).map_or(term, str::trim_start);
        let (size, rest) = self.number(unsigned)?;
        let number = if term.starts_with('-') { size.negated() } else { size };
        let unit = rest.trim();
        if unit.is_empty() {
            return Ok(Value::Bare(number));
        }
        let (_, numerator, denominator) = self.unit(unit)?;
        let factor = Rational::new(numerator, denominator).ok_or_else(|| self.too_many_digits())?;
        number.times(factor).map(Value::InBaseUnit).ok_or_else(|| self.too_many_digits())
    }

    fn unit(&self, unit: &str) -> Result<Unit, QuantityError> {
        if unit.starts_with(|first: char| first.is_ascii_digit() || "-+/".contains(first)) {
            return Err(self.unclear_fraction());
        }
        if unit.starts_with(['.', ',']) {
            return Err(self.unclear_point());
        }
        let unit = unit.to_lowercase();
        if self.kind.is_length && is_feet(&unit) {
            return Err(QuantityError::Feet { found: shown(self.text), example: "15 in" });
        }
        if let Some(known) = self.kind.units.iter().find(|(spellings, ..)| spellings.contains(&unit.as_str()))
        {
            return Ok(*known);
        }
        let Kind { known, example, .. } = *self.kind;
        Err(QuantityError::UnknownUnit { unit: shown(&unit), known, found: shown(self.text), example })
    }

    /// Reads an unsigned number at the head of `text`; what follows it comes back.
    fn number<'t>(&self, text: &'t str) -> Result<(Rational, &'t str), QuantityError> {
        let (whole, after) = digits(text);
        if after.starts_with('/') && !whole.is_empty() {
            return self.fraction(text);
        }
        if after.starts_with(['.', ',']) || (!whole.is_empty() && exponent(after).is_some()) {
            return self.decimal(text);
        }
        if whole.is_empty() {
            return Err(self.not_a_number());
        }
        let value = Rational::decimal(whole, "", 0).ok_or_else(|| self.too_many_digits())?;
        let next = if after.starts_with(' ') { Some(after.trim_start()) } else { after.strip_prefix('-') };
        match next {
            Some(next) if next.starts_with(|first: char| first.is_ascii_digit()) => {
                let (part, rest) = self.fraction(next)?;
                if !part.is_below_one() {
                    return Err(self.unclear_fraction());
                }
                Ok((value.plus(part).ok_or_else(|| self.too_many_digits())?, rest))
            }
            _ => Ok((value, after)),
        }
    }

    /// Reads "3/8" at the head of `text`.
    fn fraction<'t>(&self, text: &'t str) -> Result<(Rational, &'t str), QuantityError> {
        let (over, after) = digits(text);
        let (under, rest) = digits(after.strip_prefix('/').ok_or_else(|| self.unclear_fraction())?);
        if under.is_empty() {
            return Err(self.unclear_fraction());
        }
        let (Ok(over), Ok(under)) = (over.parse(), under.parse()) else {
            return Err(self.too_many_digits());
        };
        if under == 0 {
            return Err(QuantityError::ZeroDenominator {
                found: shown(self.text),
                example: self.kind.example,
            });
        }
        let value = Rational::new(over, under).ok_or_else(|| self.too_many_digits())?;
        Ok((value, rest))
    }

    /// Reads "25.5", "25,5", ".5" or "1e3" at the head of `text`.
    fn decimal<'t>(&self, text: &'t str) -> Result<(Rational, &'t str), QuantityError> {
        let run =
            &text[..text.find(|c: char| !c.is_ascii_digit() && c != '.' && c != ',').unwrap_or(text.len())];
        let parts: Vec<&str> = run.split(['.', ',']).collect();
        let (whole, fraction) = match parts[..] {
            [whole] => (whole, ""),
            [whole, fraction] if !fraction.is_empty() => (whole, fraction),
            [first, .., last] => return Err(self.many_marks(run, &parts, first, last)),
            _ => return Err(self.unclear_point()),
        };
        if run.contains(',') && fraction.len() == 3 {
            let with_point = shown(&self.plain.replacen(run, &run.replace(',', "."), 1));
            let without = shown(&self.plain.replacen(run, &run.replace(',', ""), 1));
            return Err(QuantityError::UnclearComma { found: shown(self.text), with_point, without });
        }
        let after = &text[run.len()..];
        let (power, rest) = exponent(after).unwrap_or(("0", after));
        let power = power.parse().map_err(|_| self.too_many_digits())?;
        let value = Rational::decimal(whole, fraction, power).ok_or_else(|| self.too_many_digits())?;
        Ok((value, rest))
    }

    /// What is meant by a number with several points and commas, where it can be told.
    fn many_marks(&self, run: &str, parts: &[&str], first: &str, last: &str) -> QuantityError {
        let marks: Vec<char> = run.chars().filter(|c| !c.is_ascii_digit()).collect();
        let (thousands, decimal) = (marks[0], marks[marks.len() - 1]);
        let groups = if thousands == decimal { &parts[1..] } else { &parts[1..parts.len() - 1] };
        let is_grouped = parts.len() > 2
            && (1..=3).contains(&first.len())
            && groups.iter().all(|group| group.len() == 3)
            && marks[..marks.len() - 1].iter().all(|mark| *mark == thousands);
        if !is_grouped || last.is_empty() {
            return self.unclear_point();
        }
        let joined = run.replace(thousands, "").replace(decimal, ".");
        QuantityError::GroupedDigits {
            found: shown(self.text),
            plain: shown(&self.plain.replacen(run, &joined, 1)),
        }
    }

    fn not_a_number(&self) -> QuantityError {
        let Kind { quantity, example, .. } = *self.kind;
        QuantityError::NotANumber { quantity, found: shown(self.text), example }
    }

    fn unclear_point(&self) -> QuantityError {
        QuantityError::UnclearPoint { found: shown(self.text), example: self.kind.decimal }
    }

    pub(crate) fn unclear_fraction(&self) -> QuantityError {
        QuantityError::UnclearFraction { found: shown(self.text), example: self.kind.example }
    }

    pub(crate) fn too_many_digits(&self) -> QuantityError {
        QuantityError::TooManyDigits { found: shown(self.text), example: self.kind.decimal }
    }
}

/// Whether what follows a number begins with feet: "1'-3\"", "1 ft 3 in".
fn is_feet(unit: &str) -> bool {
    let word = unit.split(|c: char| !c.is_alphabetic()).next();
    (unit.starts_with('\'') && !unit.starts_with("''")) || matches!(word, Some("ft" | "foot" | "feet"))
}

/// The digits at the head of a text, and what follows them.
fn digits(text: &str) -> (&str, &str) {
    text.split_at(text.find(|c: char| !c.is_ascii_digit()).unwrap_or(text.len()))
}

/// The power in "e-3" at the head of a text, and what follows it.
fn exponent(text: &str) -> Option<(&str, &str)> {
    let power = text.strip_prefix(['e', 'E'])?;
    let (number, rest) = digits(power.strip_prefix(['-', '+']).unwrap_or(power));
    (!number.is_empty()).then(|| (&power[..power.len() - rest.len()], rest))
}

/// The text with every character that people use for a space, dash, quote, slash or small fraction made plain.
fn plain(text: &str) -> String {
    let mut plain = String::with_capacity(text.len());
    for character in text.trim().chars() {
        if let Some(fraction) = small_fraction(character) {
            // "25½" is "25 1/2"; after a dash, the dash parts them already.
            if !plain.ends_with('-') {
                plain.push(' ');
            }
            plain.push_str(fraction);
            continue;
        }
        plain.push(match character {
            '\u{2010}'..='\u{2014}' | '\u{2212}' => '-',
            '\u{2044}' | '\u{2215}' => '/',
            '\u{2033}' | '\u{201C}' | '\u{201D}' | '\u{02BA}' => '"',
            '\u{2032}' | '\u{2018}' | '\u{2019}' | '\u{02B9}' => '\'',
            space if space.is_whitespace() => ' ',
            other => other,
        });
    }
    plain
}

const fn small_fraction(character: char) -> Option<&'static str> {
    Some(match character {
        '¼' => "1/4",
        '½' => "1/2",
        '¾' => "3/4",
        '⅐' => "1/7",
        '⅑' => "1/9",
        '⅒' => "1/10",
        '⅓' => "1/3",
        '⅔' => "2/3",
        '⅕' => "1/5",
        '⅖' => "2/5",
        '⅗' => "3/5",
        '⅘' => "4/5",
        '⅙' => "1/6",
        '⅚' => "5/6",
        '⅛' => "1/8",
        '⅜' => "3/8",
        '⅝' => "5/8",
        '⅞' => "7/8",
        _ => return None,
    })
}

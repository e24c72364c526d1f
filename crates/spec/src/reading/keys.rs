//! One section and the keys that are asked of it.

use std::ops::RangeInclusive;

use units::{Angle, Length, LengthUnit, Pitch};

use super::measure::{self, Misreading, Reading};
use super::range::{count_within, counts, lengths, out_of_range, within};
use super::reader::Reader;
use super::written::Written;
use crate::choice::Choice;
use crate::code::Code;
use crate::diagnostic::Diagnostic;
use crate::document::{NodeOrigin, Table};
use crate::instrument::{BoardRadius, FretPattern};
use crate::key::{KeyInfo, KeyKind, KeyRange, Quantity};
use crate::nearest::nearest;
use crate::stock::{Wire, Wood, WrapMaterial};
use crate::stock_list::Price;

/// A length in millimetres, short enough for the columns of ranges.
pub(super) const fn mm(value: f64) -> Length {
    Length::mm(value)
}

/// A section being read.
pub(super) struct Keys<'k, 'd> {
    pub(super) reader: &'k mut Reader<'d>,
    pub(super) table: Option<&'d Table>,
    /// Where the section itself stands.
    pub(super) origin: NodeOrigin,
    pub(super) asked: Vec<&'static str>,
}

/// What is asked for: enough to record it.
pub(super) struct Asking<'a> {
    key: &'static str,
    kind: KeyKind,
    default: Option<&'a str>,
    /// Where the key must be given: how it may be written.
    required: Option<&'static str>,
    range: Option<KeyRange>,
    choices: &'a dyn Fn() -> Vec<&'static str>,
}

impl<'a> Asking<'a> {
    fn new(key: &'static str, kind: KeyKind, default: &'a str) -> Self {
        Self { key, kind, default: Some(default), required: None, range: None, choices: &Vec::new }
    }

    pub(super) fn optional(key: &'static str, kind: KeyKind) -> Self {
        Self { key, kind, default: None, required: None, range: None, choices: &Vec::new }
    }

    fn required(mut self, example: &'static str) -> Self {
        self.required = Some(example);
        self
    }

    pub(super) fn within(mut self, range: KeyRange) -> Self {
        self.range = Some(range);
        self
    }
}

impl<'k, 'd> Keys<'k, 'd> {
    /// The section in this table; none: all defaults.
    pub(super) fn new(reader: &'k mut Reader<'d>, table: Option<&'d Table>) -> Self {
        Self { reader, table, origin: NodeOrigin::Default, asked: Vec::new() }
    }

    /// The unit of bare numbers from here on.
    pub(super) fn set_units(&mut self, units: LengthUnit) {
        self.reader.units = units;
    }

    /// Whether the key stands in the document.
    pub(super) fn is_given(&self, key: &str) -> bool {
        self.table.is_some_and(|table| table.contains_key(key))
    }

    /// A length with a default.
    pub(super) fn length(
        &mut self,
        key: &'static str,
        default: &str,
        range: RangeInclusive<Length>,
    ) -> Length {
        let units = self.reader.units;
        let asking = Asking::new(key, KeyKind::Length, default).within(lengths(&range));
        self.value(&asking, |written| within(measure::length(written, units)?, &range, written, units))
            .unwrap_or(*range.start())
    }

    /// A length whose default depends on other keys by a rule in words.
    pub(super) fn length_by_rule(
        &mut self,
        key: &'static str,
        default: Length,
        rule: String,
        range: RangeInclusive<Length>,
    ) -> Length {
        let units = self.reader.units;
        let asking = Asking::optional(key, KeyKind::Length).within(lengths(&range));
        if self.reader.is_recording() {
            let info = self.info(&asking);
            let default = Some(Quantity::Length(default).to_string());
            self.reader.note(KeyInfo { default, default_rule: Some(rule), ..info });
        }
        self.given(&asking, |written| within(measure::length(written, units)?, &range, written, units))
            .unwrap_or(default)
    }

    /// A length that may be absent.
    pub(super) fn optional_length(
        &mut self,
        key: &'static str,
        range: RangeInclusive<Length>,
    ) -> Option<Length> {
        let units = self.reader.units;
        let asking = Asking::optional(key, KeyKind::Length).within(lengths(&range));
        self.value(&asking, |written| within(measure::length(written, units)?, &range, written, units))
    }

    /// A length that must be given; where it is not, the least of its range stands in beside the fault.
    pub(super) fn required_length(
        &mut self,
        key: &'static str,
        example: &'static str,
        range: RangeInclusive<Length>,
    ) -> Length {
        let units = self.reader.units;
        let asking = Asking::optional(key, KeyKind::Length).required(example).within(lengths(&range));
        self.value(&asking, |written| within(measure::length(written, units)?, &range, written, units))
            .unwrap_or(*range.start())
    }

    /// Two lengths with a default.
    pub(super) fn length_pair(
        &mut self,
        key: &'static str,
        default: &str,
        range: RangeInclusive<Length>,
    ) -> [Length; 2] {
        let asking = Asking::new(key, KeyKind::LengthPair, default).within(lengths(&range));
        self.pair(&asking, &range)
    }

    /// Two lengths that must be given.
    pub(super) fn required_length_pair(
        &mut self,
        key: &'static str,
        range: RangeInclusive<Length>,
    ) -> [Length; 2] {
        let asking = Asking::optional(key, KeyKind::LengthPair)
            .required("[\"2 in\", \"1 1/2 in\"]")
            .within(lengths(&range));
        self.pair(&asking, &range)
    }

    fn pair(&mut self, asking: &Asking<'_>, range: &RangeInclusive<Length>) -> [Length; 2] {
        let units = self.reader.units;
        self.value(asking, |written| {
            let pair = measure::length_pair(written, units)?;
            for length in pair {
                within(length, range, written, units)?;
            }
            Ok(pair)
        })
        .unwrap_or([*range.start(); 2])
    }

    /// An angle with a default.
    pub(super) fn angle(&mut self, key: &'static str, default: &str, range: RangeInclusive<Angle>) -> Angle {
        let (least, most) = (Quantity::Angle(*range.start()), Quantity::Angle(*range.end()));
        let asking = Asking::new(key, KeyKind::Angle, default).within(KeyRange { least, most });
        self.value(&asking, |written| {
            let angle = measure::angle(written)?;
            if range.contains(&angle) {
                return Ok(angle);
            }
            let nearest = if angle < *range.start() { least } else { most };
            Err(out_of_range(written, KeyRange { least, most }, nearest, LengthUnit::Millimetre))
        })
        .unwrap_or(*range.start())
    }

    /// A whole number with a default.
    pub(super) fn count(&mut self, key: &'static str, default: u8, range: RangeInclusive<u8>) -> u8 {
        self.whole_number(key, default, None, range)
    }

    /// A whole number that may be absent.
    pub(super) fn optional_count(&mut self, key: &'static str, range: RangeInclusive<u8>) -> Option<u8> {
        let asking = Asking::optional(key, KeyKind::Count).within(counts(&range));
        self.value(&asking, |written| count_within(written, &range))
    }

    /// A price that may be absent.
    pub(super) fn optional_price(&mut self, key: &'static str) -> Option<Price> {
        self.value(&Asking::optional(key, KeyKind::Price), measure::price)
    }

    /// Whether something is so.
    pub(super) fn truth(&mut self, key: &'static str, default: bool) -> bool {
        let word = if default { "true" } else { "false" };
        self.value(&Asking::new(key, KeyKind::Truth, word), measure::truth).unwrap_or(default)
    }

    /// A whole number whose default depends on other keys by a rule in words.
    pub(super) fn count_by_rule(
        &mut self,
        key: &'static str,
        default: u8,
        rule: &'static str,
        range: RangeInclusive<u8>,
    ) -> u8 {
        self.whole_number(key, default, Some(rule), range)
    }

    fn whole_number(
        &mut self,
        key: &'static str,
        default: u8,
        rule: Option<&'static str>,
        range: RangeInclusive<u8>,
    ) -> u8 {
        let asking = Asking::optional(key, KeyKind::Count).within(counts(&range));
        if self.reader.is_recording() {
            let info = self.info(&asking);
            let default_rule = rule.map(str::to_owned);
            self.reader.note(KeyInfo { default: Some(default.to_string()), default_rule, ..info });
        }
        self.given(&asking, |written| count_within(written, &range)).unwrap_or(default)
    }

    /// The instrument's name.
    pub(super) fn name(&mut self, key: &'static str, default: &str) -> String {
        self.value(&Asking::new(key, KeyKind::Text, default), measure::name)
            .unwrap_or_else(|| default.to_owned())
    }

    /// One word of several.
    pub(super) fn choice<C: Choice>(&mut self, key: &'static str, default: C) -> C {
        let choices = || C::CHOICES.iter().map(|(word, _)| *word).collect();
        let asking = Asking { choices: &choices, ..Asking::new(key, KeyKind::Choice, default.word()) };
        self.value(&asking, measure::choice).unwrap_or(default)
    }

    /// One word of several that may be absent.
    pub(super) fn optional_choice<C: Choice>(&mut self, key: &'static str) -> Option<C> {
        let choices = || C::CHOICES.iter().map(|(word, _)| *word).collect();
        let asking = Asking { choices: &choices, ..Asking::optional(key, KeyKind::Choice) };
        self.value(&asking, measure::choice)
    }

    /// A wood of the table.
    pub(super) fn wood(&mut self, key: &'static str, default: &'static str) -> Wood {
        let choices = || Wood::all().map(Wood::name).collect();
        let asking = Asking { choices: &choices, ..Asking::new(key, KeyKind::Wood, default) };
        self.value(&asking, measure::wood).unwrap_or_else(|| default_is_sound(Wood::named(default)))
    }

    /// A wood of the table that must be given; where it is not, the first stands in beside the fault.
    pub(super) fn required_wood(&mut self, key: &'static str) -> Wood {
        let choices = || Wood::all().map(Wood::name).collect();
        let asking = Asking::optional(key, KeyKind::Wood).required("\"hard maple\"");
        self.value(&Asking { choices: &choices, ..asking }, measure::wood)
            .unwrap_or_else(|| default_is_sound(Wood::named("hard maple")))
    }

    /// A wrap material that may be absent.
    pub(super) fn optional_wrap(&mut self, key: &'static str) -> Option<WrapMaterial> {
        let choices = || WrapMaterial::all().map(WrapMaterial::name).collect();
        let asking = Asking { choices: &choices, ..Asking::optional(key, KeyKind::WrapMaterial) };
        self.value(&asking, measure::wrap)
    }

    /// A note or a frequency that must be given; where it is not, G3 stands in beside the fault.
    pub(super) fn pitch(&mut self, key: &'static str) -> Pitch {
        let asking = Asking::optional(key, KeyKind::Pitch).required("\"G3\"");
        self.value(&asking, measure::pitch).unwrap_or_else(|| default_is_sound(Pitch::parse("G3")))
    }

    /// A wire gauge or a diameter.
    pub(super) fn wire(&mut self, key: &'static str, default: &str, range: RangeInclusive<Length>) -> Wire {
        let units = self.reader.units;
        let asking = Asking::new(key, KeyKind::Wire, default).within(lengths(&range));
        self.value(&asking, |written| {
            let wire = measure::wire(written, units)?;
            within(wire.diameter(), &range, written, units)?;
            Ok(wire)
        })
        .unwrap_or(Wire::Diameter(*range.start()))
    }

    /// "flat" or a radius; flat by default.
    pub(super) fn board_radius(&mut self, key: &'static str, range: RangeInclusive<Length>) -> BoardRadius {
        let units = self.reader.units;
        let choices = || vec!["flat"];
        let asking = Asking { choices: &choices, ..Asking::new(key, KeyKind::BoardRadius, "flat") };
        self.value(&asking.within(lengths(&range)), |written| {
            let radius = measure::board_radius(written, units)?;
            if let BoardRadius::Radius(length) = radius {
                within(length, &range, written, units)?;
            }
            Ok(radius)
        })
        .unwrap_or(BoardRadius::Flat)
    }

    /// A fret pattern; chromatic by default.
    pub(super) fn fret_pattern(&mut self, key: &'static str) -> FretPattern {
        let choices = || vec!["chromatic", "diatonic"];
        let asking = Asking { choices: &choices, ..Asking::new(key, KeyKind::FretPattern, "chromatic") };
        self.value(&asking, measure::fret_pattern).unwrap_or(FretPattern::Chromatic)
    }

    /// One value: recorded, read as written, or its default.
    pub(super) fn value<T>(
        &mut self,
        asking: &Asking<'_>,
        read: impl Fn(Written<'_>) -> Reading<T>,
    ) -> Option<T> {
        if self.reader.is_recording() {
            let info = self.info(asking);
            self.reader.note(info);
        }
        self.given(asking, &read).or_else(|| {
            let default = asking.default?;
            Some(default_is_sound(read(Written::Loose(default))))
        })
    }

    /// One value as written; nothing where it is absent or faulty.
    fn given<T>(&mut self, asking: &Asking<'_>, read: impl Fn(Written<'_>) -> Reading<T>) -> Option<T> {
        self.asked.push(asking.key);
        let table = self.table?;
        let Some((_, node)) = table.get(asking.key) else {
            if let Some(example) = asking.required {
                self.missing(asking.key, example, table);
            }
            return None;
        };
        match read(Written::at(node)) {
            Ok(value) => Some(value),
            Err(mut misreading) => {
                // Only what the key would accept is worth proposing.
                misreading.hints.retain(|(_, value)| {
                    value.as_ref().is_none_or(|value| read(Written::Loose(value)).is_ok())
                });
                self.misread(asking.key, &node.origin, misreading);
                None
            }
        }
    }

    fn misread(&mut self, key: &str, origin: &NodeOrigin, misreading: Misreading) {
        let dotted = self.reader.dotted(key);
        let place = self.reader.place(dotted.clone(), origin);
        let mut fault =
            Diagnostic::error(misreading.code, place, format!("{dotted}: {}", misreading.message));
        for (text, value) in misreading.hints {
            fault = match value {
                Some(value) => fault.hint_edit(text, dotted.clone(), value),
                None => fault.hint(text),
            };
        }
        self.reader.tell_misreading(fault);
    }

    fn missing(&mut self, key: &'static str, example: &'static str, table: &Table) {
        let dotted = self.reader.dotted(key);
        let place = self.reader.place(dotted.clone(), &self.origin);
        let mut fault =
            Diagnostic::error(Code::MissingKey, place, format!("{dotted}: expected this key, found none"))
                .hint(format!("write {key} = {example}"));
        let unknown = table.keys().map(|key| &**key).filter(|key| !self.asked.contains(key));
        if let Some(slip) = nearest(key, unknown, 1).first() {
            fault = fault.hint(format!("or is {slip} meant?"));
        }
        self.reader.tell_misreading(fault);
    }

    pub(super) fn info(&self, asking: &Asking<'_>) -> KeyInfo {
        KeyInfo {
            path: self.reader.dotted(asking.key),
            kind: asking.kind,
            default: asking.default.map(str::to_owned),
            default_rule: None,
            required: asking.required.is_some(),
            range: asking.range,
            choices: (asking.choices)(),
        }
    }
}

/// A default is ours: one that cannot be read is a bug, and a test reads them all.
fn default_is_sound<T, E: std::fmt::Debug>(default: Result<T, E>) -> T {
    default.expect("every default is read by its own reader; a test reads them all")
}

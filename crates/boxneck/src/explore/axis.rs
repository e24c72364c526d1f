//! Which values of a key are tried?

use spec::{Document, KeyInfo, KeyKind, Quantity, Spec, key_at};
use units::{Angle, Length, LengthUnit, Pitch};

use super::fault::ExploreFault;
use super::number::{NumberForm, nice_step};
use crate::instrument::Refusal;

/// The most values of one key; more would say nothing that a coarser step does not say.
pub const MOST_VALUES: usize = 10_000;

/// A key and the values that are tried of it, in their order.
#[derive(Clone, Debug, PartialEq)]
pub struct Axis {
    /// The dotted key.
    pub key: String,
    /// What is written there, as [`Document::with_override`] takes it.
    pub values: Vec<String>,
    /// What stands in the document, or the default that stands for it.
    pub from: String,
    /// Where that lies among the values, counted in values; nothing where the values have no order and it is none of them.
    pub here: Option<f64>,
    /// Whether neighbouring values are neighbours.
    pub is_ordered: bool,
    /// The values as numbers, in millimetres, degrees or whole numbers, where they are such.
    pub numbers: Option<Vec<f64>>,
}

/// The document that plans are varied from, read once.
#[derive(Clone, Debug)]
pub struct Base {
    pub(super) document: Document,
    pub(super) spec: Spec,
    complete: Document,
}

impl Base {
    /// A document that describes an instrument.
    ///
    /// # Errors
    ///
    /// [`Refusal`], with every fault of the document.
    pub fn of(document: &Document) -> Result<Self, Refusal> {
        let (spec, _) = document.read().into_result().map_err(Refusal::Document)?;
        let complete = Document::parse(spec.to_document_text().as_bytes());
        Ok(Self { document: document.clone(), spec, complete })
    }

    /// What stands at a key for people, or the default that stands for it; nothing where the key may be absent and is.
    pub(super) fn written_at(&self, key: &str) -> Option<String> {
        self.document.written_at(key).or_else(|| self.complete.written_at(key))
    }

    /// How numbers of a key are written when nobody says: as the document writes it.
    fn form(&self, info: &KeyInfo, key: &str) -> NumberForm {
        NumberForm::of(info, self.document.written_at(key).as_deref(), self.spec.units)
    }

    fn number_at(&self, info: &KeyInfo, key: &str) -> Option<f64> {
        read_number(info, &self.complete.written_at(key)?, LengthUnit::Millimetre).ok()
    }
}

impl Axis {
    /// Reads what is to be tried: "scale.length=25 in..26 in:1/8 in" from one value to another by steps, both ends within; without a
    /// step by the one in which people write such a key; "neck.wood=ash|red oak" one of several.
    ///
    /// # Errors
    ///
    /// [`ExploreFault::Key`], which names key, value and limit and a value that works.
    pub fn parse(base: &Base, text: &str) -> Result<Self, ExploreFault> {
        let fault = |why: String| ExploreFault::Key { text: text.to_owned(), why };
        let Some((key, values)) = text.split_once('=') else {
            return Err(fault(
                "expected a key, = and its values; \"scale.length=25 in..26 in:1/8 in\" works".into(),
            ));
        };
        let (key, values) = (key.trim(), values.trim());
        let info = key_of(base, key).map_err(fault)?;
        match values.split_once("..") {
            Some((from, rest)) if !values.contains('|') => {
                let (to, step) =
                    rest.split_once(':').map_or((rest, None), |(to, step)| (to, Some(step.trim())));
                Self::range(base, info, key, [from.trim(), to.trim()], step).map_err(fault)
            }
            _ => Self::list(base, info, key, values).map_err(fault),
        }
    }

    /// Values round what stands there, about as many as asked for: a fifth of it either way, or ten millimetres where that is more.
    /// Nothing for a key whose values have no order and no names, or that is absent.
    pub(super) fn around(base: &Base, key: &str, values: f64) -> Option<Self> {
        let info = key_at(key)?;
        if info.range.is_none() {
            let words = info.choices.join("|");
            return Self::list(base, info, key, &words).ok().filter(|axis| axis.values.len() > 1);
        }
        let (least, most) = ends(info)?;
        let here = base.number_at(info, key)?;
        let room = if info.kind == KeyKind::Length { 10.0 } else { 3.0 };
        let reach = (here.abs() / 5.0).max(f64::min(room, (most - least) / 2.0));
        let form = base.form(info, key);
        let step = nice_step(form, 2.0 * reach / values, fit::click(info, form == NumberForm::Inches)?);
        // What stands there is one of the values.
        let steps = |distance: f64| (distance / step + 1e-9).floor();
        let from = here - steps(reach.min(here - least)) * step;
        let to = here + steps(reach.min(most - here)) * step;
        let values = stepped(from, to, step);
        Self::of_numbers(base, info, key, values, form).ok()
    }

    fn range(
        base: &Base,
        info: &KeyInfo,
        key: &str,
        ends_written: [&str; 2],
        step: Option<&str>,
    ) -> Result<Self, String> {
        let [first, last] = ends_written;
        if info.kind == KeyKind::Pitch {
            return Self::pitches(base, info, key, ends_written, step);
        }
        let number =
            |text: &str| read_number(info, text, base.spec.units).map_err(|why| format!("{key}: {why}"));
        let (from, to) = (number(first)?, number(last)?);
        for (value, text) in [(from, first), (to, last)] {
            within(info, value, text).map_err(|why| format!("{key} {why}"))?;
        }
        if from > to {
            return Err(format!(
                "{key}: expected the smaller value first, found {first}..{last}; {last}..{first} works"
            ));
        }
        let form = NumberForm::of(info, Some(first), base.spec.units);
        let step = match step {
            Some(text) => number(text)?,
            None => fit::click(info, form == NumberForm::Inches).ok_or("expected values with | between")?,
        };
        if step <= 0.0 {
            return Err(format!("{key}: expected a step above 0, found {}", form.written(step)));
        }
        let count = ((to - from) / step + 1e-9).floor() + 1.0;
        if count > MOST_VALUES as f64 {
            let works = form.written(((to - from) / (MOST_VALUES as f64 - 1.0) / step).ceil() * step);
            return Err(format!(
                "{key}: expected at most {MOST_VALUES} values, found {count:.0}; a step of {works} works"
            ));
        }
        Self::of_numbers(base, info, key, stepped(from, to, step), form)
    }

    fn of_numbers(
        base: &Base,
        info: &KeyInfo,
        key: &str,
        numbers: Vec<f64>,
        form: NumberForm,
    ) -> Result<Self, String> {
        let values: Vec<String> = numbers.iter().map(|number| form.written(*number)).collect();
        let here = base.number_at(info, key).map(|now| place_among(&numbers, now));
        let from = base.written_at(key).unwrap_or_else(|| "nothing".to_owned());
        Ok(Self { key: key.to_owned(), values, from, here, is_ordered: true, numbers: Some(numbers) })
    }

    fn pitches(
        base: &Base,
        info: &KeyInfo,
        key: &str,
        [first, last]: [&str; 2],
        step: Option<&str>,
    ) -> Result<Self, String> {
        const MOST_SEMITONES: i32 = 48;
        let pitch = |text: &str| Pitch::parse(text).map_err(|fault| format!("{key}: {fault}"));
        let (from, to) = (pitch(first)?, pitch(last)?);
        let by = match step {
            None => 1,
            Some(text) => text.parse::<i32>().ok().filter(|by| *by > 0).ok_or_else(|| {
                format!("{key}: expected a step of whole semitones, found \"{text}\"; 1 works")
            })?,
        };
        let semitones = (0..=MOST_SEMITONES).step_by(by as usize);
        let hair = 1.0 + 1e-6;
        let top = to.frequency().as_hertz() * hair;
        let notes: Vec<Pitch> = semitones
            .map(|up| from.transposed(up))
            .take_while(|note| note.frequency().as_hertz() <= top)
            .collect();
        if notes.is_empty() {
            return Err(format!(
                "{key}: expected the lower note first, found {first}..{last}; {last}..{first} works"
            ));
        }
        let list: Vec<String> = notes.iter().map(ToString::to_string).collect();
        let axis = Self::list(base, info, key, &list.join("|"))?;
        Ok(Self { is_ordered: true, ..axis })
    }

    fn list(base: &Base, info: &KeyInfo, key: &str, values: &str) -> Result<Self, String> {
        let values: Vec<String> = values.split('|').map(|value| value.trim().to_owned()).collect();
        for (place, value) in values.iter().enumerate() {
            if values[..place].contains(value) {
                return Err(format!("{key}: expected each value once, found {value} again"));
            }
            let read = base.document.with_override(key, value).read();
            let misread =
                read.diagnostics().iter().find(|told| told.code.is_of_single_key() && told.place.key == key);
            if let Some(fault) = misread {
                let hint = fault.hints.first().map(|hint| format!("; {}", hint.text)).unwrap_or_default();
                return Err(format!("{}{hint}", fault.message));
            }
        }
        let from = base.written_at(key).unwrap_or_else(|| "nothing".to_owned());
        let units = base.spec.units;
        let numbers: Option<Vec<f64>> =
            values.iter().map(|value| read_number(info, value, units).ok()).collect::<Option<_>>();
        let numbers = numbers.filter(|numbers| numbers.is_sorted());
        let here = match (&numbers, base.number_at(info, key)) {
            (Some(numbers), Some(now)) => Some(place_among(numbers, now)),
            _ => values.iter().position(|value| *value == from).map(|place| place as f64),
        };
        let is_ordered = numbers.is_some();
        Ok(Self { key: key.to_owned(), values, from, here, is_ordered, numbers })
    }

    /// How far a value lies from what stands in the document, as a share of the way through all values; 1 for another word.
    #[must_use]
    pub fn change(&self, place: usize) -> f64 {
        match self.here {
            Some(here) if self.is_ordered => {
                (place as f64 - here).abs() / (self.values.len() - 1).max(1) as f64
            }
            Some(here) => f64::from(u8::from(place as f64 != here)),
            None => 1.0,
        }
    }

    /// The same as it would be asked for.
    #[must_use]
    pub fn asked(&self) -> String {
        match self.values.as_slice() {
            [first, second, .., last] if self.is_ordered && self.numbers.is_some() => {
                let step = self.numbers.as_ref().map_or(0.0, |numbers| numbers[1] - numbers[0]);
                let info = key_at(&self.key);
                let form = info.map(|info| NumberForm::of(info, Some(second), LengthUnit::Millimetre));
                format!(
                    "{}={first}..{last}:{}",
                    self.key,
                    form.map(|form| form.written(step)).unwrap_or_default()
                )
            }
            values => format!("{}={}", self.key, values.join("|")),
        }
    }
}

/// What the reader knows of a key that can be varied.
fn key_of(base: &Base, key: &str) -> Result<&'static KeyInfo, String> {
    let info = key_at(key);
    match info.filter(|info| !matches!(info.kind, KeyKind::Sections)) {
        Some(info) => Ok(info),
        None => {
            // The reader knows the nearest right key.
            let read = base.document.with_override(key, "1").read();
            let told = read.diagnostics().iter().find(|told| told.code.is_of_single_key());
            let hint = told.and_then(|told| told.hints.first()).map(|hint| format!("; {}", hint.text));
            Err(format!("there is no key \"{key}\" with a value{}", hint.unwrap_or_default()))
        }
    }
}

/// From one number to another by steps.
fn stepped(from: f64, to: f64, step: f64) -> Vec<f64> {
    let count = ((to - from) / step + 1e-9).floor() as usize;
    (0..=count).map(|place| from + place as f64 * step).collect()
}

/// Where a number lies among rising ones, counted in them.
fn place_among(numbers: &[f64], now: f64) -> f64 {
    let after = numbers.partition_point(|number| *number < now);
    match (after.checked_sub(1).map(|before| numbers[before]), numbers.get(after)) {
        (Some(below), Some(above)) => (after - 1) as f64 + (now - below) / (above - below),
        (None, Some(first)) => match numbers.get(1) {
            Some(second) => (now - first) / (second - first),
            None => 0.0,
        },
        (Some(last), None) => match numbers.len().checked_sub(2) {
            Some(before) => (after - 1) as f64 + (now - last) / (last - numbers[before]),
            None => 0.0,
        },
        (None, None) => 0.0,
    }
}

fn ends(info: &KeyInfo) -> Option<(f64, f64)> {
    let range = info.range?;
    Some((number_of(range.least), number_of(range.most)))
}

fn number_of(quantity: Quantity) -> f64 {
    match quantity {
        Quantity::Length(length) => length.as_mm(),
        Quantity::Angle(angle) => angle.as_degrees(),
        Quantity::Count(count) => count.into(),
    }
}

/// Whether a value lies within the limits of its key; otherwise what would.
fn within(info: &KeyInfo, value: f64, text: &str) -> Result<(), String> {
    let Some((range, (least, most))) = info.range.zip(ends(info)) else { return Ok(()) };
    if (least..=most).contains(&value) {
        return Ok(());
    }
    let nearest = if value < least { range.least } else { range.most };
    Err(format!("must lie between {} and {}, found {text}; {nearest} works", range.least, range.most))
}

/// A value of a key as a number: millimetres, degrees or a whole number.
fn read_number(info: &KeyInfo, text: &str, units: LengthUnit) -> Result<f64, String> {
    match info.kind {
        KeyKind::Length | KeyKind::Wire | KeyKind::BoardRadius => {
            Length::parse(text, units).map(Length::as_mm).map_err(|fault| fault.to_string())
        }
        KeyKind::Angle => Angle::parse(text).map(Angle::as_degrees).map_err(|fault| fault.to_string()),
        KeyKind::Count => text
            .parse::<u8>()
            .map(f64::from)
            .map_err(|_| format!("expected a whole number, found \"{text}\"; 15 works")),
        _ => {
            Err("its values are no numbers; write those to try with | between, as \"hard maple|ash\""
                .to_owned())
        }
    }
}

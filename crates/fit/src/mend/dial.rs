//! Which values can a key take, from the nearest to the farthest?
//!
//! A key is a dial with a click for every value that a person would write: tenths of a millimetre, or sixty-fourths of an
//! inch where the document speaks in inches. Click 0 is the value that stands there.

use spec::{Document, KeyInfo, KeyKind, Quantity, key_at};
use units::{Angle, Length, LengthForm, LengthUnit, Pitch};

/// A sixty-fourth of an inch: what an inch rule shows.
const SIXTYFOURTH: Length = Length::mm(25.4 / 64.0);

/// Keys whose largest value is below this are set in hundredths of a millimetre: wires, clearances, scatter.
const FINE: Length = Length::mm(6.0);

/// Semitones by which a string is retuned at most; more wants another string.
const RETUNED: i64 = 5;

/// The values of one key of one document.
#[derive(Clone, Debug)]
pub(super) struct Dial {
    /// The dotted key.
    pub(super) key: String,
    /// What stands there now, for people.
    pub(super) from: String,
    scale: Scale,
}

#[derive(Clone, Debug)]
enum Scale {
    /// Numbers on a grid.
    Grid { now: f64, step: f64, least: f64, most: f64, written: Written },
    /// The first or the second of two lengths, the other kept.
    HalfOfPair { grid: Box<Scale>, kept: String, is_first: bool },
    /// Semitones up and down.
    Pitch(Pitch),
    /// Words in no order; click 1 is the first that does not stand there now.
    Words(Vec<&'static str>),
}

/// How a number of a grid is written.
#[derive(Clone, Copy, Debug)]
enum Written {
    Millimetres,
    Inches,
    Degrees,
    Count,
}

/// The dials of a key: two for a pair of lengths, none for a key that cannot be turned.
pub(super) fn dials(document: &Document, key: &str) -> Vec<Dial> {
    let Some(info) = key_at(key) else { return Vec::new() };
    let Some((spec, _)) = document.read().into_result().ok() else { return Vec::new() };
    let complete = Document::parse(spec.to_document_text().as_bytes());
    let Some(now) = complete.written_at(key) else { return Vec::new() };
    let as_written = document.written_at(key);
    let in_inches = match as_written.as_deref() {
        Some(text) if text.parse::<f64>().is_ok() => spec.units == LengthUnit::Inch,
        Some(text) => text.contains("in") || text.contains('"'),
        None => spec.units == LengthUnit::Inch,
    };
    let dial = |scale| Dial { key: key.to_owned(), from: told(&now, info, in_inches), scale };
    match info.kind {
        KeyKind::Pitch => Pitch::parse(&now).map(Scale::Pitch).map(dial).into_iter().collect(),
        KeyKind::Choice | KeyKind::Wood | KeyKind::WrapMaterial => {
            vec![dial(Scale::Words(info.choices.iter().copied().filter(|word| *word != now).collect()))]
        }
        KeyKind::LengthPair => {
            let Some((first, second)) = now.split_once(", ") else { return Vec::new() };
            [(first, second, true), (second, first, false)]
                .into_iter()
                .filter_map(|(turned, kept, is_first)| {
                    let grid = Box::new(grid(turned, info, in_inches)?);
                    Some(dial(Scale::HalfOfPair { grid, kept: kept.to_owned(), is_first }))
                })
                .collect()
        }
        _ => grid(&now, info, in_inches).map(dial).into_iter().collect(),
    }
}

/// A value of the complete document for people: lengths as the document writes them.
fn told(now: &str, info: &KeyInfo, in_inches: bool) -> String {
    let single = |now: &str| match (info.kind, Length::parse(now, LengthUnit::Millimetre)) {
        (KeyKind::Length | KeyKind::LengthPair, Ok(length)) if in_inches => {
            length.written(LengthForm::Sixtyfourths).to_string()
        }
        (KeyKind::Length | KeyKind::LengthPair, Ok(length)) => length.to_string(),
        _ => now.to_owned(),
    };
    now.split(", ").map(single).collect::<Vec<_>>().join(", ")
}

/// The difference between neighbouring values of a key, in millimetres, in degrees or in whole numbers: what a person would
/// write, in a document that speaks in inches or in one that does not. Nothing for a key whose values are not numbers.
#[must_use]
pub fn click(key: &KeyInfo, in_inches: bool) -> Option<f64> {
    Some(match key.range?.most {
        Quantity::Length(most) if most < FINE => 0.01,
        Quantity::Length(_) if in_inches => SIXTYFOURTH.as_mm(),
        Quantity::Length(_) | Quantity::Angle(_) => 0.1,
        Quantity::Count(_) => 1.0,
    })
}

fn grid(now: &str, info: &KeyInfo, in_inches: bool) -> Option<Scale> {
    let (range, step) = (info.range?, click(info, in_inches)?);
    Some(match (range.least, range.most) {
        (Quantity::Length(least), Quantity::Length(most)) => {
            let written = if in_inches && most >= FINE { Written::Inches } else { Written::Millimetres };
            let now = Length::parse(now, LengthUnit::Millimetre).ok()?.as_mm();
            Scale::Grid { now, step, least: least.as_mm(), most: most.as_mm(), written }
        }
        (Quantity::Angle(least), Quantity::Angle(most)) => Scale::Grid {
            now: Angle::parse(now).ok()?.as_degrees(),
            step,
            least: least.as_degrees(),
            most: most.as_degrees(),
            written: Written::Degrees,
        },
        (Quantity::Count(least), Quantity::Count(most)) => Scale::Grid {
            now: now.parse().ok()?,
            step,
            least: least.into(),
            most: most.into(),
            written: Written::Count,
        },
        _ => return None,
    })
}

impl Dial {
    /// Clicks from 0 down and up to the ends of the key's range.
    pub(super) fn ends(&self) -> [i64; 2] {
        self.scale.ends()
    }

    /// Whether neighbouring clicks are neighbouring values, so that one can look between two.
    pub(super) const fn is_ordered(&self) -> bool {
        !matches!(self.scale, Scale::Words(_))
    }

    /// What is written at a click.
    pub(super) fn at(&self, click: i64) -> String {
        self.scale.at(click)
    }
}

impl Scale {
    fn ends(&self) -> [i64; 2] {
        match self {
            Self::Grid { now, step, least, most, .. } => {
                // A hair more than a whole number of steps is that number.
                let steps = |distance: f64| (distance / step + 1e-6).floor().max(0.0) as i64;
                let (below, above) = (steps_below(*now, *step), steps_above(*now, *step));
                [-steps(below * step + step - least), steps(most - (above * step - step))]
            }
            Self::HalfOfPair { grid, .. } => grid.ends(),
            Self::Pitch(_) => [-RETUNED, RETUNED],
            Self::Words(words) => [0, words.len() as i64],
        }
    }

    fn at(&self, click: i64) -> String {
        match self {
            Self::Grid { now, step, written, .. } => {
                let steps = match click {
                    ..0 => steps_below(*now, *step) + 1.0 + click as f64,
                    _ => steps_above(*now, *step) - 1.0 + click as f64,
                };
                let value = steps * step;
                match written {
                    Written::Millimetres => Length::mm(value).to_string(),
                    Written::Inches => Length::mm(value).written(LengthForm::Sixtyfourths).to_string(),
                    Written::Degrees => Angle::degrees(value).to_string(),
                    Written::Count => format!("{value:.0}"),
                }
            }
            Self::HalfOfPair { grid, kept, is_first: true } => format!("{}, {kept}", grid.at(click)),
            Self::HalfOfPair { grid, kept, is_first: false } => format!("{kept}, {}", grid.at(click)),
            Self::Pitch(pitch) => pitch.transposed(click as i32).to_string(),
            Self::Words(words) => {
                let word = usize::try_from(click - 1).ok().and_then(|index| words.get(index));
                word.copied().unwrap_or_default().to_owned()
            }
        }
    }
}

/// The largest whole number of steps below a value: a value on the grid is not below itself.
fn steps_below(value: f64, step: f64) -> f64 {
    (value / step - 1e-6).ceil() - 1.0
}

/// The smallest whole number of steps above a value.
fn steps_above(value: f64, step: f64) -> f64 {
    (value / step + 1e-6).floor() + 1.0
}

#[cfg(test)]
mod tests {
    use super::*;

    const PLAN: &str = "units = \"mm\"\n[tail]\nhole_height = 4\n[neck]\nthickness = \"3/4 in\"\nback_angle = \"1 deg\"\n[scale]\nfrets = 12\n";

    #[track_caller]
    fn check(key: &str, clicks: &[i64], expected: &[&str]) {
        let dials = dials(&Document::parse(PLAN.as_bytes()), key);
        let dial = dials.first().unwrap_or_else(|| panic!("{key} is a dial"));
        let found: Vec<String> = clicks.iter().map(|click| dial.at(*click)).collect();
        assert_eq!(found, expected, "{key} at {clicks:?}");
    }

    #[test]
    fn lengths_click_as_the_document_writes_them() {
        check("tail.hole_height", &[-1, 1, 12], &["3.9 mm", "4.1 mm", "5.2 mm"]);
        check("neck.thickness", &[-1, 1, 16], &["47/64 in", "49/64 in", "1 in"]);
        check("frets.height_scatter", &[-1, 1], &["0.07 mm", "0.09 mm"]);
    }

    #[test]
    fn a_value_between_two_clicks_goes_to_its_neighbours() {
        // The default overhang of half an inch, in a document of millimetres.
        check("neck.tail_overhang", &[-1, 1], &["12.6 mm", "12.8 mm"]);
    }

    #[test]
    fn angles_counts_words_and_notes_have_clicks_too() {
        check("neck.back_angle", &[-1, 2], &["0.9 deg", "1.2 deg"]);
        check("scale.frets", &[-1, 1], &["11", "13"]);
        check("frets.past_heel", &[1], &["seated"]);
        check("strings.3.pitch", &[-2, 1], &["F3", "G#3"]);
        check("box.holes.1.at", &[1], &["50.9 mm, 38.1 mm"]);
    }

    #[test]
    fn the_ends_are_those_of_the_key() {
        for key in
            ["tail.hole_height", "neck.thickness", "neck.back_angle", "scale.frets", "frets.height_scatter"]
        {
            let document = Document::parse(PLAN.as_bytes());
            let dial = &dials(&document, key)[0];
            let is_refused = |click: i64| {
                let read = document.with_override(key, &dial.at(click)).read().into_result();
                read.is_err_and(|faults| {
                    faults.iter().any(|fault| fault.message.contains("must lie between"))
                })
            };
            let [down, up] = dial.ends();
            assert!(
                !is_refused(down) && !is_refused(up),
                "{key}: {} and {} are within",
                dial.at(down),
                dial.at(up)
            );
            assert!(is_refused(down - 1), "{key}: {} is below", dial.at(down - 1));
            assert!(is_refused(up + 1), "{key}: {} is beyond", dial.at(up + 1));
        }
    }

    #[test]
    fn what_cannot_be_turned_has_no_dial() {
        let document = Document::parse(PLAN.as_bytes());
        for key in ["name", "strings", "strings.3.core", "neck.wobble"] {
            assert_eq!(dials(&document, key).len(), 0, "{key}");
        }
    }
}

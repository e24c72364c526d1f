//! By what can plans be judged?
//!
//! A measure has a name for conditions and for `--best`, the unit, which way is better, and how it is got from an instrument.

use fit::{Finding, Subject, checks};
use units::{Angle, Length, LengthUnit};

/// Which values are better.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Better {
    /// The larger ones.
    Higher,
    /// The smaller ones.
    Lower,
}

/// What a measure is counted in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unit {
    /// Whole things.
    Count,
    /// Millimetres; a limit may be written in inches.
    Millimetres,
    /// Cents of a semitone.
    Cents,
    /// Degrees.
    Degrees,
    /// Newtons.
    Newtons,
    /// Hundredths of a whole.
    Percent,
    /// Cubic centimetres.
    CubicCentimetres,
}

impl Unit {
    /// The word behind a number: "mm"; nothing for a count.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Count => "",
            Self::Millimetres => "mm",
            Self::Cents => "cents",
            Self::Degrees => "deg",
            Self::Newtons => "N",
            Self::Percent => "%",
            Self::CubicCentimetres => "cm3",
        }
    }

    /// A value as people read it, with its unit.
    #[must_use]
    pub fn written(self, value: f64) -> String {
        format!("{} {}", self.number(value), self.word()).trim_end().to_owned()
    }

    /// The number alone, to as many places as are worth reading.
    #[must_use]
    pub fn number(self, value: f64) -> String {
        let places = match self {
            Self::Count => 0,
            Self::Percent | Self::Newtons | Self::CubicCentimetres => 1,
            Self::Millimetres | Self::Cents | Self::Degrees => 2,
        };
        let text = format!("{value:.places$}");
        let text = if places > 0 { text.trim_end_matches('0').trim_end_matches('.') } else { &text };
        if text == "-0" { "0".to_owned() } else { text.to_owned() }
    }

    /// Reads a value with or without its unit.
    pub(super) fn parse(self, text: &str) -> Option<f64> {
        let text = text.trim();
        let bare = text.strip_suffix(self.word()).unwrap_or(text).trim();
        match self {
            Self::Millimetres => Length::parse(text, LengthUnit::Millimetre).ok().map(Length::as_mm),
            Self::Degrees => bare.parse().ok().or_else(|| Angle::parse(text).ok().map(Angle::as_degrees)),
            _ => bare.parse().ok(),
        }
        .filter(|value: &f64| value.is_finite())
    }
}

/// One thing by which plans are judged.
#[derive(Debug)]
pub struct PlanMeasure {
    /// Its name in conditions: lower-case words joined by dashes.
    pub name: &'static str,
    /// What it is, for people.
    pub words: &'static str,
    /// What it is counted in.
    pub unit: Unit,
    /// Which values are better.
    pub better: Better,
    /// A difference that a builder notices, so that different measures can be weighed against each other. Common practice, no
    /// source.
    pub grain: f64,
    /// Whether it looks at parts, or at instruments drawn by lot, which takes many times as long.
    pub is_deep: bool,
    /// The checks that look at the same thing, by their ids: their cures are the keys that move it.
    pub checks: &'static [&'static str],
    pub(super) value: Value,
}

/// From an instrument and what its checks have found.
pub(super) type Value = fn(&Subject, &[Finding]) -> Option<f64>;

impl PlanMeasure {
    /// The value for an instrument of which the checks have found this; nothing where the instrument has no such thing.
    #[must_use]
    pub fn of(&self, subject: &Subject, findings: &[Finding]) -> Option<f64> {
        (self.value)(subject, findings).filter(|value| value.is_finite())
    }

    /// The keys that move it, the one that a builder would rather change first; without those of one item of a list.
    #[must_use]
    pub fn keys(&self) -> Vec<&'static str> {
        let mut keys: Vec<&'static str> = Vec::new();
        for id in self.checks {
            for key in checks().filter(|check| check.id == *id).flat_map(|check| check.cures) {
                if !keys.contains(key) && !key.contains(".N.") {
                    keys.push(key);
                }
            }
        }
        keys
    }

    /// How much worse a value is than another, in grains; negative where it is better.
    pub(super) fn worse_by(&self, value: f64, than: f64) -> f64 {
        let difference = (value - than) / self.grain;
        match self.better {
            Better::Higher => -difference,
            Better::Lower => difference,
        }
    }
}

impl PartialEq for PlanMeasure {
    /// There is one measure a name.
    fn eq(&self, other: &Self) -> bool {
        self.name == other.name
    }
}

//! Which keys can a document have, of what kind, within what limits?
//!
//! The answer is recorded by the reader itself: it is run without a document and notes what it asks for, so that the list
//! and the reader cannot disagree.

use std::sync::LazyLock;

use units::{Angle, Length, LengthForm, LengthUnit};

/// A quantity that a search can vary.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub enum Quantity {
    /// A length.
    Length(Length),
    /// An angle.
    Angle(Angle),
    /// A whole number.
    Count(u8),
}

/// As [`Document::with_override`](crate::Document::with_override) takes it; lengths exact, angles to 1e-6 degrees.
impl std::fmt::Display for Quantity {
    fn fmt(&self, formatter: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Length(length) => write!(formatter, "{} mm", length.as_mm()),
            Self::Angle(angle) => write!(formatter, "{} deg", (angle.as_degrees() * 1e6).round() / 1e6),
            Self::Count(count) => write!(formatter, "{count}"),
        }
    }
}

impl Quantity {
    /// For a message in a document of these units: "6 mm", with inches beside it where the document counts in them.
    pub(crate) fn shown(self, units: LengthUnit) -> String {
        match (self, units) {
            (Self::Length(length), LengthUnit::Inch) if length != Length::ZERO => {
                format!("{self} ({})", length.written(LengthForm::DecimalInches))
            }
            _ => self.to_string(),
        }
    }
}

/// From one value to another, both allowed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct KeyRange {
    /// The smallest value.
    pub least: Quantity,
    /// The largest value.
    pub most: Quantity,
}

/// What kind of value a key has.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum KeyKind {
    /// Free text.
    Text,
    /// A length; the range is for each number of it.
    Length,
    /// Two lengths.
    LengthPair,
    /// An angle.
    Angle,
    /// A whole number.
    Count,
    /// One of the choices.
    Choice,
    /// A note or a frequency.
    Pitch,
    /// A wire gauge or a diameter.
    Wire,
    /// A wood of the table.
    Wood,
    /// A wrap material of the table.
    WrapMaterial,
    /// "chromatic", "diatonic" or a rising list of semitones.
    FretPattern,
    /// "flat" or a radius.
    BoardRadius,
    /// A price to a hundredth.
    Price,
    /// `true` or `false`.
    Truth,
    /// The name of a DXF file that holds an outline.
    OutlineFile,
    /// A list of sections; the range is for the number of its items.
    Sections,
}

/// What the reader knows of one key.
#[derive(Clone, Debug, PartialEq)]
pub struct KeyInfo {
    /// Dotted path; N stands for the number of a list's item: "strings.N.pitch".
    pub path: String,
    /// What kind of value it has.
    pub kind: KeyKind,
    /// The default as [`Document::with_override`](crate::Document::with_override) takes it; `None` where the key may be
    /// absent or must be given.
    pub default: Option<String>,
    /// How the default depends on other keys, where it does.
    pub default_rule: Option<String>,
    /// Whether its section means nothing without it.
    pub required: bool,
    /// The limits, where the kind has an order.
    pub range: Option<KeyRange>,
    /// The words to choose from, or the names in the table.
    pub choices: Vec<&'static str>,
}

impl KeyInfo {
    /// The last part of the path: "pitch".
    #[must_use]
    pub fn name(&self) -> &str {
        self.path.rsplit('.').next().unwrap_or(&self.path)
    }

    /// Whether this is the key of a dotted path as people write it: "strings.2.pitch".
    #[must_use]
    pub fn is_at(&self, path: &str) -> bool {
        let (mut ours, mut theirs) = (self.path.split('.'), path.split('.'));
        loop {
            match (ours.next(), theirs.next()) {
                (None, None) => return true,
                (Some("N"), Some(item)) if item.parse::<usize>().is_ok_and(|item| item > 0) => {}
                (Some(our), Some(their)) if our == their => {}
                _ => return false,
            }
        }
    }
}

/// Every key, in reading order.
#[must_use]
pub fn keys() -> &'static [KeyInfo] {
    // Recorded once: the list is the same for every document.
    static KEYS: LazyLock<Vec<KeyInfo>> = LazyLock::new(crate::reading::record);
    &KEYS
}

/// The dotted paths nearest to one that does not exist, the likeliest first, at most `most`: keys whose name it has in
/// another section, then keys that are written nearly like it. Numbers of items stay as they are.
///
/// ```
/// assert_eq!(spec::keys_near("neck.thicknes", 1), ["neck.thickness"], "a letter is missing");
/// assert_eq!(spec::keys_near("strings.2.pich", 1), ["strings.2.pitch"], "in a list too");
/// assert!(spec::keys_near("thickness", 9).contains(&"neck.thickness".to_owned()), "its section is missing");
/// ```
#[must_use]
pub fn keys_near(path: &str, most: usize) -> Vec<String> {
    let is_number = |step: &&str| step.bytes().all(|byte| byte.is_ascii_digit());
    let mut numbers = path.split('.').filter(is_number).filter(|step| !step.is_empty()).collect::<Vec<_>>();
    numbers.push("1");
    let written = |key: &KeyInfo| {
        let mut numbers = numbers.iter();
        let step = |step| if step == "N" { numbers.next().copied().unwrap_or("1") } else { step };
        key.path.split('.').map(step).collect::<Vec<_>>().join(".")
    };
    let paths: Vec<String> = keys().iter().map(written).collect();
    let name = path.rsplit('.').next().unwrap_or(path);
    let elsewhere = keys().iter().zip(&paths).filter(|(key, _)| key.name() == name).map(|(_, path)| path);
    let alike = crate::nearest::nearest(path, paths.iter().map(String::as_str), most);
    let mut near: Vec<String> = Vec::new();
    for path in elsewhere.cloned().chain(alike.into_iter().map(str::to_owned)) {
        if !near.contains(&path) {
            near.push(path);
        }
    }
    near.truncate(most);
    near
}

/// The key at a dotted path as people write it: "strings.2.pitch".
#[must_use]
pub fn key_at(path: &str) -> Option<&'static KeyInfo> {
    keys().iter().find(|key| key.is_at(path))
}

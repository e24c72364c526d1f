//! What does a check say?

use std::fmt;

use layout::{BoxHole, StringNumber};
use parts::Thing;
use serde::{Deserialize, Serialize};
use spec::{BoxFace, Choice, HolePurpose};
use units::{Angle, Length, Pitch};

/// How bad it is; in records by its [word](Self::word).
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Severity {
    /// It holds.
    Pass,
    /// Worth knowing.
    Note,
    /// It can be made, and will not please.
    Warn,
    /// It cannot be made, or will not play.
    Fail,
}

impl Severity {
    /// The word for it: "pass", "note", "warn" or "fail".
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Pass => "pass",
            Self::Note => "note",
            Self::Warn => "warn",
            Self::Fail => "fail",
        }
    }
}

/// What a check measures.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub enum Measure {
    /// A length.
    Length(Length),
    /// An angle.
    Angle(Angle),
    /// How many.
    Count(u32),
    /// A difference of pitch, in cents.
    Cents(f64),
    /// A share of a whole, from 0 to 1 and beyond.
    Share(f64),
}

impl fmt::Display for Measure {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Length(length) => write!(formatter, "{length}"),
            Self::Angle(angle) => write!(formatter, "{angle}"),
            Self::Count(count) => write!(formatter, "{count}"),
            Self::Cents(cents) => write!(formatter, "{} cents", (cents * 10.0).round() / 10.0),
            Self::Share(share) => write!(formatter, "{} %", (share * 100.0).round()),
        }
    }
}

/// On which side of the limit the value must lie.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Bound {
    /// The limit or more.
    AtLeast,
    /// The limit or less.
    AtMost,
}

/// Where a limit comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Source {
    /// The document asks for it.
    Document,
    /// The geometry leaves no choice.
    Geometry,
    /// The trade's habit; nobody published it.
    CommonPractice,
    /// A publication, in words: which, where in it, and how far it was read.
    Published(&'static str),
}

impl Source {
    /// The words for it.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Document => "the document",
            Self::Geometry => "geometry",
            Self::CommonPractice => "common practice, no source",
            Self::Published(words) => words,
        }
    }
}

/// What a finding is about.
#[derive(Clone, Debug, PartialEq)]
pub enum Concern {
    /// The instrument as a whole.
    Instrument,
    /// One string.
    String {
        /// Its number, from the treble edge.
        number: StringNumber,
        /// Its open note.
        pitch: Pitch,
    },
    /// The tuner of one string.
    Tuner(StringNumber),
    /// One fret.
    Fret {
        /// Its number: 1 for the first from the zero fret.
        number: u8,
    },
    /// One opening of the box.
    Opening {
        /// Its number in the document, as in `box.holes.2`.
        number: usize,
        /// What it is for.
        purpose: HolePurpose,
        /// The face that it is in.
        face: BoxFace,
    },
    /// One part.
    Part(&'static str),
    /// Two solids that meet, or should not.
    Pair([Thing; 2]),
    /// One drawing.
    Drawing(String),
}

impl fmt::Display for Concern {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Instrument => write!(formatter, "instrument"),
            Self::String { number, pitch } => write!(formatter, "string {} ({pitch})", number.0),
            Self::Tuner(number) => write!(formatter, "tuner of string {}", number.0),
            Self::Fret { number } => write!(formatter, "fret {number}"),
            Self::Opening { number, purpose, face } => {
                write!(formatter, "opening {number} ({}, {})", purpose.word(), face.word())
            }
            Self::Part(name) => write!(formatter, "{name}"),
            Self::Pair([one, other]) => write!(formatter, "{one} and {other}"),
            Self::Drawing(name) => write!(formatter, "drawing {name}"),
        }
    }
}

/// A check: its name in every output, and what it measures.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Check {
    /// Lower-case words joined by dashes; never changed once published.
    pub id: &'static str,
    /// What is measured, for people.
    pub measures: &'static str,
    /// The document's keys that can cure it, the one that a builder would rather change first; N stands for the number of the
    /// string or the opening that the finding is about.
    pub cures: &'static [&'static str],
}

/// What one check found about one thing.
#[derive(Clone, Debug, PartialEq)]
pub struct Finding {
    /// The check.
    pub check: Check,
    /// How bad it is.
    pub severity: Severity,
    /// What it is about.
    pub concern: Concern,
    /// The value.
    pub found: Measure,
    /// On which side of the limit it must lie.
    pub bound: Bound,
    /// The limit: the one that is broken, or the first that would be.
    pub limit: Measure,
    /// Where the limit comes from.
    pub source: Source,
    /// More to say, where the numbers do not say it.
    pub detail: Option<String>,
}

impl fmt::Display for Finding {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self { check, concern, found, limit, source, .. } = self;
        let bound = match self.bound {
            Bound::AtLeast => "at least",
            Bound::AtMost => "at most",
        };
        write!(formatter, "{concern}: {} is {found}, {bound} {limit} ({})", check.measures, source.words())?;
        self.detail.iter().try_for_each(|detail| write!(formatter, "; {detail}"))
    }
}

impl Finding {
    /// The same, no worse than `severity`: for what can be lived with however far it goes.
    pub(crate) fn at_worst(self, severity: Severity) -> Self {
        Self { severity: self.severity.min(severity), ..self }
    }

    /// The same with more to say.
    pub(crate) fn with_detail(self, words: String) -> Self {
        Self { detail: Some(words), ..self }
    }
}

/// A pair of limits: beyond the one a warning, beyond the other a failure.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Limits {
    pub(crate) bound: Bound,
    pub(crate) warn: Measure,
    pub(crate) fail: Measure,
    pub(crate) source: Source,
}

impl Limits {
    /// The finding for one measured value.
    pub(crate) fn judge(&self, check: Check, concern: Concern, found: Measure) -> Finding {
        let broken = |limit: Measure| match self.bound {
            Bound::AtLeast => found < limit,
            Bound::AtMost => found > limit,
        };
        let (severity, limit) = if broken(self.fail) {
            (Severity::Fail, self.fail)
        } else if broken(self.warn) {
            (Severity::Warn, self.warn)
        } else {
            (Severity::Pass, self.warn)
        };
        Finding {
            check,
            severity,
            concern,
            found,
            bound: self.bound,
            limit,
            source: self.source,
            detail: None,
        }
    }
}

/// The finding for a value that must lie between two pairs of limits: the worse of the two, the first of equals.
pub(crate) fn judge_between(
    limits: [&Limits; 2],
    check: Check,
    concern: &Concern,
    found: Measure,
) -> Finding {
    let [first, second] = limits.map(|limits| limits.judge(check, concern.clone(), found));
    if second.severity > first.severity { second } else { first }
}

/// The concern of one opening, by its place in the document's list, from 0.
pub(crate) fn about_opening(index: usize, hole: &BoxHole) -> Concern {
    Concern::Opening { number: index + 1, purpose: hole.purpose, face: hole.face }
}

/// The concern of one string.
pub(crate) fn about_string(string: &layout::StringPath) -> Concern {
    Concern::String { number: string.number, pitch: string.pitch }
}

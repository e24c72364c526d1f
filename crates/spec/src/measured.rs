//! What was measured on an instrument that is built and strung, and what is wrong with how that is written down?
//!
//! A file of measurements is TOML with a section a kind, or CSV with a row a reading; everything in it is optional. Faults are told
//! as those of a document: all in one go, each with its place, its limit and a value that works.

mod cell;
mod kind;
mod rows;
mod sections;

pub use kind::Kind;

use units::LengthUnit;

use crate::diagnostic::{Checked, Diagnostic, Place};
use crate::document::Document;
use crate::instrument::Spec;

/// What was measured, in the order in which it is written.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Measured {
    /// The readings.
    pub readings: Vec<Reading>,
}

/// One reading.
#[derive(Clone, Debug, PartialEq)]
pub struct Reading {
    /// Of what.
    pub of: ReadingOf,
    /// What was read, in the unit of its [`Kind`].
    pub value: f64,
    /// One standard deviation of it, in the same unit.
    pub error: f64,
    /// Where it is written.
    pub place: Place,
}

/// What a reading is of. Strings and frets are counted as players do: string 1 at the treble edge, fret 0 the zero fret.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ReadingOf {
    /// The height of a fret's crown over the playing surface, on the centre line.
    FretHeight {
        /// Which fret, from 1.
        fret: u8,
    },
    /// The gap between a straightedge along the centre line, which lies anyhow, and a crown, with the strings on.
    StraightedgeGap {
        /// Which fret, from 0.
        fret: u8,
    },
    /// The height of the zero fret's crown over the playing surface.
    ZeroFretHeight,
    /// From a crown to the underside of an open string.
    StringHeight {
        /// Which string.
        string: u8,
        /// Which fret, from 1.
        fret: u8,
    },
    /// From the lid to the saddle's crest under a string, square to the lid.
    SaddleHeight {
        /// Which string.
        string: u8,
    },
    /// From the zero fret's crown to the saddle's crest under a string, along the neck.
    SaddlePlace {
        /// Which string.
        string: u8,
    },
    /// From the lid to the middle of the string holes.
    TailHeight,
    /// From the middle of the saddle's foot to the string holes, along the lid.
    TailDistance,
    /// From a string, or a straightedge, that lies on the zero fret and on the last fret, down to the crown between, strings on.
    Relief {
        /// Which fret, from 1 to the last but one.
        fret: u8,
    },
    /// What a tuner says of a note, in cents from what the note should be; positive sharp.
    Tuner {
        /// Which string.
        string: u8,
        /// Which fret; 0 for the open string.
        fret: u8,
    },
    /// A buzz that was heard.
    Buzz {
        /// Which string.
        string: u8,
        /// Pressed to which fret; 0 for the open string.
        fret: u8,
        /// On which later fret, where that is known.
        over: Option<u8>,
    },
}

impl ReadingOf {
    /// Its kind.
    #[must_use]
    pub const fn kind(self) -> Kind {
        match self {
            Self::FretHeight { .. } => Kind::FretHeight,
            Self::StraightedgeGap { .. } => Kind::StraightedgeGap,
            Self::ZeroFretHeight => Kind::ZeroFretHeight,
            Self::StringHeight { .. } => Kind::StringHeight,
            Self::SaddleHeight { .. } => Kind::SaddleHeight,
            Self::SaddlePlace { .. } => Kind::SaddlePlace,
            Self::TailHeight => Kind::TailHeight,
            Self::TailDistance => Kind::TailDistance,
            Self::Relief { .. } => Kind::Relief,
            Self::Tuner { .. } => Kind::Tuner,
            Self::Buzz { .. } => Kind::Buzz,
        }
    }
}

/// What a builder calls it: "the height of string 2 over fret 12".
impl std::fmt::Display for ReadingOf {
    fn fmt(&self, formatter: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::FretHeight { fret } => write!(formatter, "the height of fret {fret}"),
            Self::StraightedgeGap { fret: 0 } => write!(formatter, "the gap over the zero fret"),
            Self::StraightedgeGap { fret } => write!(formatter, "the gap over fret {fret}"),
            Self::ZeroFretHeight => write!(formatter, "the height of the zero fret"),
            Self::StringHeight { string, fret } => {
                write!(formatter, "the height of string {string} over fret {fret}")
            }
            Self::SaddleHeight { string } => write!(formatter, "the saddle's height under string {string}"),
            Self::SaddlePlace { string } => write!(formatter, "the saddle's place under string {string}"),
            Self::TailHeight => write!(formatter, "the height of the string holes"),
            Self::TailDistance => write!(formatter, "the distance of the string holes"),
            Self::Relief { fret } => write!(formatter, "the relief over fret {fret}"),
            Self::Tuner { string, fret: 0 } => write!(formatter, "the open note of string {string}"),
            Self::Tuner { string, fret } => write!(formatter, "the note of string {string} at fret {fret}"),
            Self::Buzz { string, fret: 0, .. } => write!(formatter, "the buzz of open string {string}"),
            Self::Buzz { string, fret, .. } => {
                write!(formatter, "the buzz of string {string} at fret {fret}")
            }
        }
    }
}

/// What there is to measure on an instrument.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Extent {
    units: LengthUnit,
    strings: u8,
    frets: u8,
}

impl Measured {
    /// Reads a TOML file of measurements; `frets` is how many frets the instrument has.
    ///
    /// A bare number is in the unit of the instrument's document, or in that of the file's own key `units`.
    #[must_use]
    pub fn of_toml(file: &Document, spec: &Spec, frets: u8) -> Checked<Self> {
        sections::read(file, Extent::of(spec, frets))
    }

    /// Reads a CSV file of measurements: a head line with `what`, `string`, `fret`, `over`, `value` and `error` in any order, `what` and
    /// whatever the rows need, and a row a reading.
    #[must_use]
    pub fn of_csv(file: &Document, spec: &Spec, frets: u8) -> Checked<Self> {
        rows::read(file, Extent::of(spec, frets))
    }
}

impl Extent {
    fn of(spec: &Spec, frets: u8) -> Self {
        // A document has at most six strings.
        Self { units: spec.units, strings: spec.strings.len() as u8, frets }
    }
}

/// What reading gathers: readings, and what is wrong.
#[derive(Debug)]
struct Gathered {
    extent: Extent,
    readings: Vec<Reading>,
    faults: Vec<Diagnostic>,
}

impl Gathered {
    const fn new(extent: Extent) -> Self {
        Self { extent, readings: Vec::new(), faults: Vec::new() }
    }

    /// The value, or its fault kept.
    fn kept<T>(&mut self, read: Result<T, cell::Fault>) -> Option<T> {
        read.map_err(|fault| self.faults.push(*fault)).ok()
    }

    fn finish(mut self) -> Checked<Measured> {
        self.faults.sort_by_key(|fault| fault.place.span().map_or(0, |span| span.start));
        self.faults.truncate(crate::limits::FAULTS_TOLD);
        self.readings.sort_by_key(|reading| reading.place.span().map_or(0, |span| span.start));
        Checked::new(Measured { readings: self.readings }, self.faults)
    }
}

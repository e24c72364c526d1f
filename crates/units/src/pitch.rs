//! Which note is a string tuned to?
//!
//! Twelve-tone equal temperament over A4 = 440 Hz (ISO 16:1975). Octaves are numbered as pianos are: C4 is middle C, the
//! number changes at C, and a sharp or flat keeps the number of its letter (Cb4 is B3).

use std::fmt;

use crate::error::{QuantityError, shown};
use crate::{Frequency, math};

/// A note ("G2", "F#3", "Bb3") or a plain frequency ("98 Hz").
///
/// Two pitches are equal when they are written alike: F#3 and Gb3 sound the same and differ; compare frequencies for the
/// sound.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pitch(Written);

#[derive(Clone, Copy, Debug, PartialEq)]
enum Written {
    Note { letter: Letter, accidental: Accidental, octave: i32 },
    Frequency(Frequency),
}

#[derive(Clone, Copy, Debug, PartialEq)]
enum Letter {
    C,
    D,
    E,
    F,
    G,
    A,
    B,
}

#[derive(Clone, Copy, Debug, PartialEq)]
enum Accidental {
    Flat,
    Natural,
    Sharp,
}

/// Frequency of A4 in hertz: ISO 16:1975.
const A4_HZ: f64 = 440.0;
/// A4 counted in semitones from C0.
const A4_SEMITONE: i32 = 57;
/// The lowest frequency that is read, in hertz; below it (and below octave 0) there is a beat and no note.
const LOWEST_HZ: f64 = 10.0;
/// The highest frequency that is read, in hertz; above it (and above octave 9) nobody hears.
const HIGHEST_HZ: f64 = 20_000.0;
/// How far a transposed note may lie from C0, in semitones; a larger span overflows the frequency, and none is heard.
const FARTHEST_SEMITONE: i32 = 9600;

impl Pitch {
    /// A pitch known by its frequency alone.
    ///
    /// - **Errors**: [`QuantityError::PitchOutOfRange`] outside 10 Hz to 20 kHz.
    pub fn from_frequency(frequency: Frequency) -> Result<Self, QuantityError> {
        if !(LOWEST_HZ..=HIGHEST_HZ).contains(&frequency.as_hertz()) {
            return Err(out_of_range(&format!("{} Hz", frequency.as_hertz())));
        }
        Ok(Self(Written::Frequency(frequency)))
    }

    /// Reads a note ("G2", "f#3", "Bb3", "B♭3") or a frequency with its unit ("98 Hz", "98.5 Hz").
    ///
    /// - **Errors**: a note without its octave, a number without its unit, and pitches outside octaves 0 to 9 or 10 Hz
    ///   to 20 kHz are refused, each with a form that works.
    ///
    /// ```
    /// let string = units::Pitch::parse("A2")?;
    /// assert_eq!(string.frequency().as_hertz(), 110.0, "two octaves below 440 Hz");
    /// # Ok::<(), units::QuantityError>(())
    /// ```
    pub fn parse(text: &str) -> Result<Self, QuantityError> {
        let trimmed = text.trim();
        let mut rest = trimmed.chars();
        let Some(letter) = rest.next().and_then(letter_of) else {
            return parse_frequency(text);
        };
        let after_letter = rest.as_str();
        let accidental = match rest.next() {
            Some('#' | '♯') => Accidental::Sharp,
            Some('b' | '♭') => Accidental::Flat,
            _ => {
                rest = after_letter.chars();
                Accidental::Natural
            }
        };
        let number = rest.as_str();
        if number.is_empty() {
            return Err(QuantityError::MissingOctave { found: shown(text), example: format!("{trimmed}3") });
        }
        let digits = number.strip_prefix('-').unwrap_or(number);
        if digits.is_empty() || !digits.bytes().all(|byte| byte.is_ascii_digit()) {
            return Err(QuantityError::NotAPitch { found: shown(text) });
        }
        let octave = number.parse().ok().filter(|octave| (0..=9).contains(octave));
        let octave = octave.ok_or_else(|| out_of_range(text))?;
        Ok(Self(Written::Note { letter, accidental, octave }))
    }

    /// How often the open string swings a second, `440 Hz * 2^(n / 12)` for a note n semitones above A4.
    ///
    /// - **Accuracy**: closed form; within 1e-12 of itself.
    /// - **Source**: ISO 16:1975 for A4; equal temperament by definition.
    #[must_use]
    pub fn frequency(self) -> Frequency {
        match self.0 {
            Written::Note { letter, accidental, octave } => {
                let from_a4 = semitone(letter, accidental, octave) - A4_SEMITONE;
                Frequency::hertz(A4_HZ * math::exp2(f64::from(from_a4) / 12.0))
            }
            Written::Frequency(frequency) => frequency,
        }
    }

    /// The pitch so many semitones higher (lower where negative): a fret's note from its string's.
    ///
    /// A flat stays in flats, any other note is written with sharps; no semitones leave the pitch as it was written. The
    /// result stops 800 octaves from C0, so that its frequency stays a number.
    ///
    /// ```
    /// let string = units::Pitch::parse("G2")?;
    /// assert_eq!(string.transposed(4).to_string(), "B2", "a major third is four semitones");
    /// # Ok::<(), units::QuantityError>(())
    /// ```
    #[must_use]
    pub fn transposed(self, semitones: i32) -> Self {
        if semitones == 0 {
            return self;
        }
        Self(match self.0 {
            Written::Note { letter, accidental, octave } => {
                let moved = semitone(letter, accidental, octave).saturating_add(semitones);
                note_at(moved.clamp(-FARTHEST_SEMITONE, FARTHEST_SEMITONE), accidental == Accidental::Flat)
            }
            Written::Frequency(frequency) => {
                let octaves = f64::from(semitones.clamp(-FARTHEST_SEMITONE, FARTHEST_SEMITONE)) / 12.0;
                let hertz = frequency.as_hertz() * math::exp2(octaves);
                Written::Frequency(Frequency::hertz(hertz.clamp(f64::MIN_POSITIVE, f64::MAX)))
            }
        })
    }
}

/// As it is typed: "F#3", "Bb3", "98.5 Hz".
impl fmt::Display for Pitch {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.0 {
            Written::Note { letter, accidental, octave } => {
                let sign = match accidental {
                    Accidental::Flat => "b",
                    Accidental::Natural => "",
                    Accidental::Sharp => "#",
                };
                write!(formatter, "{letter:?}{sign}{octave}")
            }
            Written::Frequency(frequency) => write!(formatter, "{} Hz", frequency.as_hertz()),
        }
    }
}

fn parse_frequency(text: &str) -> Result<Pitch, QuantityError> {
    let trimmed = text.trim();
    if trimmed.parse::<f64>().is_ok_and(f64::is_finite) {
        return Err(QuantityError::BareFrequency {
            found: shown(text),
            example: shown(&format!("{trimmed} Hz")),
        });
    }
    if !trimmed.starts_with(|first: char| first.is_ascii_digit() || "+-.,".contains(first)) {
        return Err(QuantityError::NotAPitch { found: shown(text) });
    }
    let frequency = Frequency::parse(text)?;
    Pitch::from_frequency(frequency).map_err(|_| out_of_range(text))
}

fn out_of_range(text: &str) -> QuantityError {
    QuantityError::PitchOutOfRange { found: shown(text), lowest: LOWEST_HZ, highest: HIGHEST_HZ }
}

const fn letter_of(character: char) -> Option<Letter> {
    Some(match character.to_ascii_uppercase() {
        'C' => Letter::C,
        'D' => Letter::D,
        'E' => Letter::E,
        'F' => Letter::F,
        'G' => Letter::G,
        'A' => Letter::A,
        'B' => Letter::B,
        _ => return None,
    })
}

/// Semitones above C0.
const fn semitone(letter: Letter, accidental: Accidental, octave: i32) -> i32 {
    let above_c = match letter {
        Letter::C => 0,
        Letter::D => 2,
        Letter::E => 4,
        Letter::F => 5,
        Letter::G => 7,
        Letter::A => 9,
        Letter::B => 11,
    };
    let shift = match accidental {
        Accidental::Flat => -1,
        Accidental::Natural => 0,
        Accidental::Sharp => 1,
    };
    octave * 12 + above_c + shift
}

/// The note so many semitones above C0, with its black keys written as flats or as sharps.
fn note_at(semitone: i32, in_flats: bool) -> Written {
    use Accidental::{Flat, Natural, Sharp};
    use Letter::{A, B, C, D, E, F, G};
    let black = |sharpened, flattened| if in_flats { (flattened, Flat) } else { (sharpened, Sharp) };
    let (letter, accidental) = match semitone.rem_euclid(12) {
        0 => (C, Natural),
        1 => black(C, D),
        2 => (D, Natural),
        3 => black(D, E),
        4 => (E, Natural),
        5 => (F, Natural),
        6 => black(F, G),
        7 => (G, Natural),
        8 => black(G, A),
        9 => (A, Natural),
        10 => black(A, B),
        _ => (B, Natural),
    };
    Written::Note { letter, accidental, octave: semitone.div_euclid(12) }
}

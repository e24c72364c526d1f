//! Which kinds of readings are there, within what limits, and how well is each usually made?

use std::ops::RangeInclusive;

/// A kind of reading.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kind {
    /// Heights of crowns.
    FretHeight,
    /// Gaps under a straightedge.
    StraightedgeGap,
    /// The zero fret's height.
    ZeroFretHeight,
    /// Heights of strings over frets.
    StringHeight,
    /// Heights of the saddle.
    SaddleHeight,
    /// Places of the saddle.
    SaddlePlace,
    /// The height of the string holes.
    TailHeight,
    /// The distance of the string holes.
    TailDistance,
    /// The neck's relief.
    Relief,
    /// A tuner's cents.
    Tuner,
    /// Buzz that was heard.
    Buzz,
}

/// How a kind is written, what it may be and how well it is made.
struct Row {
    kind: Kind,
    /// In the column `what`.
    word: &'static str,
    /// Under `[errors]`.
    key: &'static str,
    limits: RangeInclusive<f64>,
    /// One standard deviation, where nobody says otherwise. Common practice, no source.
    error: f64,
}

const fn row(
    kind: Kind,
    word: &'static str,
    key: &'static str,
    limits: RangeInclusive<f64>,
    error: f64,
) -> Row {
    Row { kind, word, key, limits, error }
}

/// In the order of [`Kind`]; millimetres, and cents for a tuner. A buzz has no value: its error is that of the room in which it is
/// heard, for no two plucks are alike.
static ROWS: [Row; 11] = [
    row(Kind::FretHeight, "fret height", "fret_heights", 0.0..=10.0, 0.03),
    row(Kind::StraightedgeGap, "straightedge gap", "straightedge_gaps", 0.0..=5.0, 0.03),
    row(Kind::ZeroFretHeight, "zero fret height", "zero_fret_height", 0.0..=10.0, 0.03),
    row(Kind::StringHeight, "string height", "string_heights", 0.0..=20.0, 0.05),
    row(Kind::SaddleHeight, "saddle height", "saddle_heights", 0.0..=80.0, 0.1),
    row(Kind::SaddlePlace, "saddle place", "saddle_places", 100.0..=1400.0, 0.5),
    row(Kind::TailHeight, "tail height", "tail_height", -150.0..=80.0, 0.3),
    row(Kind::TailDistance, "tail distance", "tail_distance", 1.0..=300.0, 0.5),
    row(Kind::Relief, "relief", "relief", -3.0..=5.0, 0.04),
    row(Kind::Tuner, "tuner", "tuner", -200.0..=200.0, 1.5),
    row(Kind::Buzz, "buzz", "buzz", 0.0..=0.0, 0.1),
];

impl Kind {
    /// All of them.
    pub fn all() -> impl Iterator<Item = Self> {
        ROWS.iter().map(|row| row.kind)
    }

    fn row(self) -> &'static Row {
        &ROWS[self as usize]
    }

    /// What a table calls it: "string height".
    #[must_use]
    pub fn word(self) -> &'static str {
        self.row().word
    }

    /// The key under which a file gives its error.
    #[must_use]
    pub fn key(self) -> &'static str {
        self.row().key
    }

    /// The unit of its readings: "mm" or "cents".
    #[must_use]
    pub const fn unit(self) -> &'static str {
        match self {
            Self::Tuner => "cents",
            _ => "mm",
        }
    }

    /// What can be read at all.
    #[must_use]
    pub fn limits(self) -> RangeInclusive<f64> {
        self.row().limits.clone()
    }

    /// One standard deviation of a reading, where nobody says otherwise.
    #[must_use]
    pub fn usual_error(self) -> f64 {
        self.row().error
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_kind_stands_in_its_row() {
        for (index, kind) in Kind::all().enumerate() {
            assert_eq!(kind as usize, index, "{} stands in another row", kind.word());
            assert!(kind.usual_error() > 0.0, "{} is read with some error", kind.word());
        }
    }
}

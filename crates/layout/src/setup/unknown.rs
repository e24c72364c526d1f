//! What is unknown of an instrument that is measured, and what is expected of it beforehand?

use spec::measured::{Kind, Reading};
use units::Length;

use crate::built::Deviations;
use crate::instrument::Layout;
use crate::tolerances::{Dimension, as_planned};

/// Something unknown.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unknown {
    /// How far one number of a dimension lies from the plan, in millimetres.
    Part {
        /// The dimension.
        dimension: Dimension,
        /// Which of its numbers: frets from the first, strings and ends of the saddle from the bass.
        number: usize,
    },
    /// How much deeper than planned the neck is bowed, in millimetres.
    Bow,
    /// How high the straightedge lay, in millimetres.
    Straightedge {
        /// Over the last fret; over the zero fret otherwise.
        at_last_fret: bool,
    },
    /// How far an open string was from its pitch when its notes were read, in cents.
    OpenPitch {
        /// Which string, from the bass.
        string: usize,
    },
}

/// How far a neck's wood gives beyond what is reckoned: one standard deviation. Common practice, no source.
const BOW_GIVES: Length = Length::mm(0.1);

/// How far a string is from its pitch that somebody has tuned, in cents: one standard deviation. Common practice, no source.
const TUNED_TO_CENTS: f64 = 3.0;

/// How high a straightedge may lie: far more than it ever does, so that nothing is concluded from it.
const STRAIGHTEDGE: Length = Length::mm(10.0);

/// Everything unknown, with one standard deviation of what is expected of it: first what the instrument is, then what was true only
/// when it was read.
#[derive(Clone, Debug)]
pub(super) struct Unknowns {
    pub(super) expected: Vec<(Unknown, f64)>,
    of_instrument: usize,
}

/// An instrument and how it stood when it was read.
#[derive(Clone, Debug)]
pub(super) struct State {
    pub(super) deviations: Deviations,
    /// Heights of the straightedge over the playing plane at the zero fret and at the last fret, in mm.
    pub(super) straightedge_mm: [f64; 2],
    /// How sharp each open string was.
    pub(super) open_cents: Vec<f64>,
}

impl Unknowns {
    /// Frets may stray so many times as far as the document says.
    pub(super) fn of(layout: &Layout, readings: &[Reading], strays: f64) -> Self {
        let parts = Dimension::ALL.into_iter().flat_map(|dimension| {
            let times = match dimension {
                Dimension::FretHeights | Dimension::FretPlaces => strays,
                _ => 1.0,
            };
            let held_to = dimension.held_to(layout.spec()).as_mm() * times;
            (0..dimension.numbers(layout)).map(move |number| (Unknown::Part { dimension, number }, held_to))
        });
        let mut expected: Vec<(Unknown, f64)> = parts.chain([(Unknown::Bow, BOW_GIVES.as_mm())]).collect();
        let of_instrument = expected.len();
        let is_read = |kind| readings.iter().any(|reading| reading.of.kind() == kind);
        if is_read(Kind::StraightedgeGap) {
            let end = |at_last_fret| (Unknown::Straightedge { at_last_fret }, STRAIGHTEDGE.as_mm());
            expected.extend([end(false), end(true)]);
        }
        if is_read(Kind::Tuner) {
            let open = |string| (Unknown::OpenPitch { string }, TUNED_TO_CENTS);
            expected.extend((0..layout.strings().len()).map(open));
        }
        Self { expected, of_instrument }
    }

    /// How many of them the instrument itself has; they come first.
    pub(super) fn of_instrument(&self) -> usize {
        self.of_instrument
    }

    /// The instrument with these values, in millimetres and cents.
    pub(super) fn state(&self, layout: &Layout, values: impl Iterator<Item = f64>) -> State {
        let mut state = State {
            deviations: as_planned(layout),
            straightedge_mm: [0.0; 2],
            open_cents: vec![0.0; layout.strings().len()],
        };
        for ((unknown, _), value) in self.expected.iter().zip(values) {
            match *unknown {
                Unknown::Straightedge { at_last_fret } => {
                    state.straightedge_mm[usize::from(at_last_fret)] = value;
                }
                Unknown::OpenPitch { string } => state.open_cents[string] = value,
                Unknown::Part { .. } | Unknown::Bow => unknown.move_by(&mut state.deviations, value),
            }
        }
        state
    }
}

impl Unknown {
    /// Moves what the instrument is by so many millimetres; what it was only when it was read moves nothing.
    pub(super) fn move_by(self, deviations: &mut Deviations, mm: f64) {
        // A fit may try any finite number.
        let Some(by) = Length::try_mm(mm) else { return };
        match self {
            Self::Part { dimension, number } => dimension.move_by(deviations, number, by),
            Self::Bow => deviations.bow = deviations.bow + by,
            Self::Straightedge { .. } | Self::OpenPitch { .. } => {}
        }
    }
}

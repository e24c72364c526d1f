//! By which numbers are two instruments of one plan compared?

use mechanics::intonation::root_mean_square;
use units::Length;

use crate::built::{Built, BuiltString};

/// One number that says how an instrument turned out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Outcome {
    /// Mean action of the strings where the document measures it, in mm.
    Action,
    /// The fretted note that is farthest out of tune, in cents without sign.
    WorstCents,
    /// Root mean square error over all strings and frets, in cents.
    RmsCents,
    /// The largest drift of any open string, in cents without sign for each mm that the saddle is slid.
    WorstDrift,
    /// The least room of any string over any fret, in mm; negative where it buzzes.
    BuzzRoom,
}

impl Outcome {
    /// All of them.
    pub const ALL: [Self; 5] =
        [Self::Action, Self::WorstCents, Self::RmsCents, Self::WorstDrift, Self::BuzzRoom];

    /// What it is, for people.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Action => "action",
            Self::WorstCents => "worst error",
            Self::RmsCents => "rms error",
            Self::WorstDrift => "worst drift",
            Self::BuzzRoom => "room before buzz",
        }
    }

    /// A name that does not change, for programs; it ends in its unit.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::Action => "action_mm",
            Self::WorstCents => "worst_cents",
            Self::RmsCents => "rms_cents",
            Self::WorstDrift => "worst_drift_cents_per_mm",
            Self::BuzzRoom => "buzz_room_mm",
        }
    }

    /// Its unit in words.
    #[must_use]
    pub const fn unit(self) -> &'static str {
        match self {
            Self::Action | Self::BuzzRoom => "mm",
            Self::WorstCents | Self::RmsCents => "cents",
            Self::WorstDrift => "cents per mm",
        }
    }
}

/// How one instrument turned out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Outcomes([f64; Outcome::ALL.len()]);

impl Outcomes {
    /// Those of an instrument as it was made.
    #[must_use]
    pub fn of(built: &Built) -> Self {
        let strings = &built.strings;
        let action = strings.iter().map(|string| string.action).sum::<Length>() / strings.len() as f64;
        let cents: Vec<f64> = strings.iter().flat_map(|string| string.cents.iter().copied()).collect();
        let rooms = strings.iter().filter_map(BuiltString::room);
        // The first drift that is not a number makes the worst one none as well.
        let worst_drift = strings
            .iter()
            .map(|string| string.drift_cents_per_mm.abs())
            .fold(0.0, |worst: f64, drift| if worst >= drift { worst } else { drift });
        let told = |is_there: bool, value: f64| if is_there { value } else { f64::NAN };
        Self(Outcome::ALL.map(|outcome| match outcome {
            Outcome::Action => action.as_mm(),
            Outcome::WorstCents => {
                told(!cents.is_empty(), cents.iter().fold(0.0, |worst, error| worst.max(error.abs())))
            }
            Outcome::RmsCents => told(!cents.is_empty(), root_mean_square(&cents)),
            Outcome::WorstDrift => worst_drift,
            Outcome::BuzzRoom => rooms.clone().reduce(Length::min).map_or(f64::NAN, Length::as_mm),
        }))
    }

    /// One of them, in its unit; not a number where the instrument has no such thing.
    #[must_use]
    pub fn get(&self, outcome: Outcome) -> f64 {
        // The variants are numbered from 0 in the order of ALL.
        self.0[outcome as usize]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn outcomes_are_numbered_in_their_order() {
        for (index, outcome) in Outcome::ALL.into_iter().enumerate() {
            assert_eq!(outcome as usize, index, "{outcome:?} stands elsewhere in ALL");
        }
    }
}

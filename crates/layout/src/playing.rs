//! How will it play?
//!
//! [`playing`] asks the mechanics about a [`Layout`]: tuning, drift of the open strings when the saddle is slid, forces
//! on saddle and lid, buzz. What it assumes of the player stands in [`Player`].

mod buzz;
mod drift;
mod pull;
mod saddle_push;
mod tuning;

pub use buzz::BuzzReport;
pub use drift::{DriftReport, StringDrift, TailAdvice};
pub use pull::{NeckLoad, StringPull};
pub use saddle_push::SaddlePush;
pub use tuning::StringTuning;

use mechanics::buzz_free::NEARLY_ALL;
use mechanics::pluck::Pluck;
use units::{Force, Length};

use crate::instrument::Layout;

/// What is assumed of the player and the builder.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Player {
    /// How the strings are plucked.
    pub pluck: Pluck,
    /// The share of instruments of one plan that are to be free of buzz, above 0 to 1.
    pub free_of_buzz: f64,
    /// How many instruments are drawn to find that share.
    pub trials: u32,
    /// The seed of the draw.
    pub seed: u64,
}

impl Default for Player {
    /// A finger 100 mm from the saddle at 2 N, a third of the swing toward the neck (2 to 4 N is read in Zollner, Physics of
    /// the Electric Guitar, section 1.5.1; the rest is common practice, no source); 95 % of 1000 instruments.
    fn default() -> Self {
        Self {
            pluck: Pluck {
                force: Force::newtons(2.0),
                from_saddle: Length::mm(100.0),
                normal_share: 1.0 / 3.0,
            },
            free_of_buzz: NEARLY_ALL,
            trials: 1000,
            seed: 1,
        }
    }
}

/// How an instrument will play.
#[derive(Clone, Debug, PartialEq)]
pub struct Playing {
    /// What was assumed.
    pub player: Player,
    /// How hard each string pulls, bass to treble.
    pub pulls: Vec<StringPull>,
    /// What all of them do to the neck.
    pub neck: NeckLoad,
    /// How well each string is in tune, bass to treble.
    pub tuning: Vec<StringTuning>,
    /// What happens to the open strings when the saddle is slid.
    pub drift: DriftReport,
    /// How the strings press on the saddle and the lid.
    pub saddle: SaddlePush,
    /// Whether it buzzes; nothing without frets.
    pub buzz: Option<BuzzReport>,
}

/// How an instrument will play in the hands of a player.
///
/// - **Units**: in the types; cents and shares are plain numbers.
/// - **Accuracy**: of the mechanics that it asks; estimates for a hobby instrument, with their assumptions in [`Player`].
#[must_use]
pub fn playing(layout: &Layout, player: &Player) -> Playing {
    Playing {
        player: *player,
        pulls: pull::pulls(layout),
        neck: pull::neck_load(layout),
        tuning: tuning::tuning(layout),
        drift: drift::drift(layout),
        saddle: saddle_push::saddle_push(layout),
        buzz: buzz::buzz(layout, player),
    }
}

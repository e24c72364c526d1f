//! How will it play?
//!
//! [`Playing`] asks the mechanics about a [`Layout`]: tuning, drift of the open strings when the saddle is slid, forces
//! on saddle and lid, buzz. What it assumes of the player stands in [`Player`].

mod buzz;
mod drift;
mod pull;
mod saddle_push;
mod tuning;

pub use buzz::BuzzReport;
pub use drift::{DriftAtHeight, DriftReport, StringDrift, TailAdvice};
pub(crate) use drift::{advice, path_over_lid};
pub use pull::{NeckLoad, StringPull};
pub use saddle_push::SaddlePush;
pub use tuning::StringTuning;

use std::sync::{Arc, OnceLock};

use mechanics::buzz_free::{NEARLY_ALL, Strays};
use mechanics::plate::Edges;
use mechanics::pluck::Pluck;
use mechanics::standing::Standing;
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

/// How an instrument will play in the hands of a player.
///
/// Each report is worked out when it is first asked for and kept: who wants to know about drift alone does not wait for a
/// thousand instruments to be drawn for buzz.
///
/// - **Units**: in the types; cents and shares are plain numbers.
/// - **Accuracy**: of the mechanics that it asks; estimates for a hobby instrument, with their assumptions in [`Player`].
#[derive(Clone, Debug)]
pub struct Playing {
    layout: Layout,
    player: Player,
    pulls: OnceLock<Vec<StringPull>>,
    neck: OnceLock<NeckLoad>,
    tuning: OnceLock<Vec<StringTuning>>,
    string_drifts: OnceLock<Vec<StringDrift>>,
    drift: OnceLock<DriftReport>,
    standing: OnceLock<Option<Standing>>,
    lid_sink: OnceLock<Option<Length>>,
    saddle: OnceLock<SaddlePush>,
    buzz: OnceLock<Option<BuzzReport>>,
    strays: OnceLock<Arc<Strays>>,
}

impl Playing {
    /// An instrument and who plays it.
    #[must_use]
    pub const fn new(layout: Layout, player: Player) -> Self {
        Self {
            layout,
            player,
            pulls: OnceLock::new(),
            neck: OnceLock::new(),
            tuning: OnceLock::new(),
            string_drifts: OnceLock::new(),
            drift: OnceLock::new(),
            standing: OnceLock::new(),
            lid_sink: OnceLock::new(),
            saddle: OnceLock::new(),
            buzz: OnceLock::new(),
            strays: OnceLock::new(),
        }
    }

    /// Another instrument in the same hands; the chance that was drawn for this one serves it too where it has as many frets.
    #[must_use]
    pub fn changed_to(&self, layout: Layout) -> Self {
        let mut strays = self.strays.clone();
        if strays.get().is_some_and(|strays| strays.frets() != layout.frets().frets.len()) {
            strays.take();
        }
        Self { strays, ..Self::new(layout, self.player) }
    }

    /// The same of an instrument that is called otherwise; what was worked out stays.
    #[must_use]
    pub fn renamed(mut self, name: String) -> Self {
        self.layout = self.layout.renamed(name);
        self
    }

    /// Where everything goes.
    #[must_use]
    pub const fn layout(&self) -> &Layout {
        &self.layout
    }

    /// What is assumed of player and builder.
    #[must_use]
    pub const fn player(&self) -> &Player {
        &self.player
    }

    /// How hard each string pulls, bass to treble.
    #[must_use]
    pub fn pulls(&self) -> &[StringPull] {
        self.pulls.get_or_init(|| pull::pulls(&self.layout))
    }

    /// What all of them do to the neck.
    #[must_use]
    pub fn neck(&self) -> &NeckLoad {
        self.neck.get_or_init(|| pull::neck_load(&self.layout))
    }

    /// How well each string is in tune, bass to treble.
    #[must_use]
    pub fn tuning(&self) -> &[StringTuning] {
        self.tuning.get_or_init(|| tuning::tuning(&self.layout))
    }

    /// What happens to the open strings when the saddle is slid, bass to treble.
    #[must_use]
    pub fn string_drifts(&self) -> &[StringDrift] {
        self.string_drifts.get_or_init(|| drift::strings(&self.layout))
    }

    /// The same, and which tail height would cure it, which takes longer.
    #[must_use]
    pub fn drift(&self) -> &DriftReport {
        self.drift.get_or_init(|| DriftReport {
            strings: self.string_drifts().to_vec(),
            advice: drift::tail_advice(&self.layout),
        })
    }

    /// How a floating saddle stands; nothing for one that is let in.
    #[must_use]
    pub fn standing(&self) -> Option<&Standing> {
        self.standing.get_or_init(|| saddle_push::stand(&self.layout)).as_ref()
    }

    /// How far the lid sinks under the saddle with its edges held down; nothing where the saddle stands off the lid.
    #[must_use]
    pub fn lid_sink(&self) -> Option<Length> {
        *self.lid_sink.get_or_init(|| saddle_push::sink(&self.layout, Edges::Supported))
    }

    /// All about how the strings press on the saddle and the lid.
    #[must_use]
    pub fn saddle(&self) -> &SaddlePush {
        self.saddle.get_or_init(|| saddle_push::saddle_push(&self.layout, self.lid_sink()))
    }

    /// Whether somebody has asked for buzz, which takes longer than all the rest.
    #[must_use]
    pub fn is_buzz_known(&self) -> bool {
        self.buzz.get().is_some()
    }

    /// Whether it buzzes; nothing without frets.
    #[must_use]
    pub fn buzz(&self) -> Option<&BuzzReport> {
        let strays = || self.strays.get_or_init(|| Arc::new(buzz::strays(&self.layout, &self.player)));
        self.buzz.get_or_init(|| buzz::buzz(&self.layout, &self.player, strays())).as_ref()
    }
}

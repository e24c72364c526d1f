//! How hard do the strings pull, how near are they to breaking, and what do they do to the neck?

use mechanics::core_estimate::Estimate;
use mechanics::load::share_of_breaking_load;
use units::{Force, Length, Stress};

use crate::instrument::Layout;
use crate::weak_place::WeakPlace;

/// How hard one string pulls.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StringPull {
    /// Its tension at pitch.
    pub tension: Estimate<Force>,
    /// The diameter of its core, or of the string where it is plain.
    pub core: Estimate<Length>,
    /// Whether the core is a guess, so that all that follows from it is a range.
    pub core_is_estimated: bool,
    /// How many times the tension grows for a stretch of one in one.
    pub stretch_ratio: f64,
    /// Its tension as a share of what breaks the core; nothing outside the table of wire strengths.
    pub share_of_breaking_load: Option<Estimate<f64>>,
}

/// What the strings do to the neck.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NeckLoad {
    /// What all strings pull together.
    pub tension: Force,
    /// How far the zero fret rises against the box.
    pub droop: Length,
    /// The neck's bow under the strings: the most that a fret lies below the line from zero fret to saddle.
    pub relief: Length,
    /// Where it bears most; nothing where some section has nothing left to bear with.
    pub weakest: Option<WeakPlace>,
    /// The stress there as a share of the wood's strength; 0 where there is no such place.
    pub share_of_strength: f64,
    /// Whether the bow settled when strings and neck were worked out in turn.
    pub settled: bool,
}

impl NeckLoad {
    /// The largest stress anywhere along the neck; none where no place could be reckoned.
    #[must_use]
    pub fn stress(&self) -> Stress {
        self.weakest.map_or(Stress::ZERO, |weakest| weakest.stress)
    }
}

pub(super) fn pulls(layout: &Layout) -> Vec<StringPull> {
    layout
        .tuned()
        .iter()
        .map(|string| StringPull {
            tension: string.tension(),
            core: string.model.map(|model| model.body().core_diameter()),
            core_is_estimated: string.core_is_estimated,
            stretch_ratio: string.model.nominal.stretch_ratio(),
            share_of_breaking_load: string.model.try_map(|model| share_of_breaking_load(&model)).ok(),
        })
        .collect()
}

pub(super) fn neck_load(layout: &Layout) -> NeckLoad {
    let bow = layout.bow();
    let relief = layout.frets().frets.iter().map(|fret| bow.at(fret.x)).fold(Length::ZERO, Length::max);
    NeckLoad {
        tension: bow.tension(),
        droop: bow.droop(),
        relief,
        weakest: layout.weakest(),
        share_of_strength: layout
            .weakest()
            .map_or(0.0, |weakest| weakest.stress / layout.spec().neck.wood.strength()),
        settled: bow.settled(),
    }
}

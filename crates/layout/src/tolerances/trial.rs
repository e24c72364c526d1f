//! How does one instrument turn out that chance has made?

use mechanics::random::Random;

use super::dimension::{Dimension, as_planned};
use super::outcome::Outcomes;
use crate::built::{BuiltFault, Deviations, built};
use crate::instrument::Layout;
use crate::playing::Player;

/// One instrument by lot.
#[derive(Clone, Debug, PartialEq)]
pub struct Trial {
    /// How it turned out.
    pub outcomes: Outcomes,
    /// How it turns out with one dimension drawn anew and all else the same, in the order of [`Dimension::ALL`].
    pub with_one_drawn_anew: [Outcomes; Dimension::ALL.len()],
}

/// The instrument of an index under a seed.
///
/// - **Shape**: the plan, the player, seed and index in; one trial out, the same whenever it is asked for.
/// - **Units**: in [`Outcome`](super::Outcome).
/// - **Accuracy**: that of [`built`](crate::built::built()); errors are normal and independent.
/// - **Errors**: [`BuiltFault::CannotBeStrung`] where tolerances are so wide that frets change places.
/// - **Source**: SplitMix64 and the polar method, as told by [`Random`].
pub fn trial(layout: &Layout, player: &Player, seed: u64, index: u64) -> Result<Trial, BuiltFault> {
    let mut random = Random::stream(seed, index);
    let mut draw = || Dimension::ALL.map(|dimension| Draw::of(layout, dimension, &mut random));
    let (drawn, anew) = (draw(), draw());
    let outcomes = turned_out(layout, player, drawn.iter())?;
    let mut with_one_drawn_anew = [outcomes; Dimension::ALL.len()];
    for (replaced, found) in with_one_drawn_anew.iter_mut().enumerate() {
        let one_anew =
            (0..drawn.len()).map(|index| if index == replaced { &anew[index] } else { &drawn[index] });
        *found = turned_out(layout, player, one_anew)?;
    }
    Ok(Trial { outcomes, with_one_drawn_anew })
}

/// What chance says of one dimension.
struct Draw {
    dimension: Dimension,
    /// One standard normal number for each of its numbers.
    normals: Vec<f64>,
}

impl Draw {
    fn of(layout: &Layout, dimension: Dimension, random: &mut Random) -> Self {
        let normals = (0..dimension.numbers(layout)).map(|_| random.normal()).collect();
        Self { dimension, normals }
    }

    fn put_into(&self, layout: &Layout, deviations: &mut Deviations) {
        let held_to = self.dimension.held_to(layout.spec());
        for (number, normal) in self.normals.iter().enumerate() {
            self.dimension.move_by(deviations, number, held_to * *normal);
        }
    }
}

fn turned_out<'d>(
    layout: &Layout,
    player: &Player,
    draws: impl Iterator<Item = &'d Draw>,
) -> Result<Outcomes, BuiltFault> {
    let mut deviations = as_planned(layout);
    draws.for_each(|draw| draw.put_into(layout, &mut deviations));
    Ok(Outcomes::of(&built(layout, player, &deviations)?))
}

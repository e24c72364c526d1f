//! What do many instruments of one plan say together?

use mechanics::spread::{mean, quantile, share_of_variance, standard_deviation};
use units::Length;

use super::dimension::{Dimension, as_planned};
use super::outcome::{Outcome, Outcomes};
use super::trial::Trial;
use crate::built::{BuiltFault, built};
use crate::instrument::Layout;
use crate::playing::Player;

/// How instruments of one plan differ.
#[derive(Clone, Debug, PartialEq)]
pub struct ToleranceReport {
    /// How many instruments it was counted on.
    pub instruments: usize,
    /// The spread of each outcome that every instrument has, in the order of [`Outcome::ALL`].
    pub spreads: Vec<Spread>,
    /// The share of the instruments that are free of buzz; nothing without frets.
    pub free_of_buzz: Option<f64>,
    /// Every dimension, the one that deserves the most care first.
    pub care: Vec<Care>,
}

/// How one outcome spreads, in its unit.
#[derive(Clone, Debug, PartialEq)]
pub struct Spread {
    /// The outcome.
    pub outcome: Outcome,
    /// What it is on an instrument made exactly to plan.
    pub planned: f64,
    /// Its mean.
    pub mean: f64,
    /// Its standard deviation.
    pub deviation: f64,
    /// What 5 % of the instruments lie below.
    pub low: f64,
    /// What 95 % of the instruments lie below.
    pub high: f64,
    /// The standard deviation that small errors would make, by the slopes at the plan.
    pub first_order_deviation: f64,
    /// What makes it spread, the largest share first.
    pub causes: Vec<Cause>,
}

/// What one dimension does to one outcome.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cause {
    /// The dimension.
    pub dimension: Dimension,
    /// The share of the outcome's variance that goes when this dimension is held perfectly. What dimensions do together
    /// counts for each of them, so that shares may add up to more than one.
    pub share: f64,
    /// Its share of the variance that small errors would make; these add up to one.
    pub first_order_share: f64,
}

/// How much care a dimension deserves.
#[derive(Clone, Debug, PartialEq)]
pub struct Care {
    /// The dimension.
    pub dimension: Dimension,
    /// How well the document holds it.
    pub held_to: Length,
    /// The mean of its shares in all outcomes.
    pub mean_share: f64,
    /// Its share in each outcome, the largest first.
    pub shares: Vec<(Outcome, f64)>,
}

/// The step by which slopes are found, as a share of how well a dimension is held. Larger bends into the next order; smaller
/// loses digits.
const STEP: f64 = 0.01;

/// Sums up trials of a plan.
///
/// - **Shape**: the plan, the player and the trials in the order of their indices in; one report out.
/// - **Units**: those of [`Outcome`].
/// - **Accuracy**: sampling: a mean strays by a deviation over the root of the number of trials; shares by about the root of two
///   over it. The first order is by central differences.
/// - **Errors**: [`BuiltFault::CannotBeStrung`].
/// - **Source**: [`share_of_variance`]; propagation of independent errors.
pub fn report(layout: &Layout, player: &Player, trials: &[Trial]) -> Result<ToleranceReport, BuiltFault> {
    let planned = Outcomes::of(&built(layout, player, &as_planned(layout))?);
    let variances = Dimension::ALL
        .map(|dimension| first_order_variances(layout, player, dimension))
        .into_iter()
        .collect::<Result<Vec<_>, _>>()?;
    let spreads: Vec<Spread> = Outcome::ALL
        .into_iter()
        .filter_map(|outcome| {
            let first_order = variances.iter().map(|of_dimension| of_dimension[outcome as usize]).collect();
            spread(outcome, planned.get(outcome), first_order, trials)
        })
        .collect();
    let free = |trial: &&Trial| trial.outcomes.get(Outcome::BuzzRoom) >= 0.0;
    let free_of_buzz = spreads
        .iter()
        .any(|spread| spread.outcome == Outcome::BuzzRoom)
        .then(|| trials.iter().filter(free).count() as f64 / trials.len() as f64);
    let care = care(layout, &spreads);
    Ok(ToleranceReport { instruments: trials.len(), spreads, free_of_buzz, care })
}

/// The spread of an outcome; nothing where an instrument lacks it.
fn spread(outcome: Outcome, planned: f64, first_order: Vec<f64>, trials: &[Trial]) -> Option<Spread> {
    let sample: Vec<f64> = trials.iter().map(|trial| trial.outcomes.get(outcome)).collect();
    if sample.is_empty() || !planned.is_finite() || !sample.iter().all(|number| number.is_finite()) {
        return None;
    }
    let first_order_variance: f64 = first_order.iter().sum();
    let mut causes: Vec<Cause> = Dimension::ALL
        .into_iter()
        .zip(first_order)
        .enumerate()
        .map(|(index, (dimension, variance))| {
            let anew: Vec<f64> =
                trials.iter().map(|trial| trial.with_one_drawn_anew[index].get(outcome)).collect();
            let first_order_share =
                if first_order_variance > 0.0 { variance / first_order_variance } else { 0.0 };
            Cause { dimension, share: share_of_variance(&sample, &anew), first_order_share }
        })
        .collect();
    causes.sort_by(|a, b| b.share.total_cmp(&a.share));
    Some(Spread {
        outcome,
        planned,
        mean: mean(&sample),
        deviation: standard_deviation(&sample),
        low: quantile(&sample, 0.05),
        high: quantile(&sample, 0.95),
        first_order_deviation: first_order_variance.sqrt(),
        causes,
    })
}

/// The variance of each outcome that small errors of one dimension would make: the sum of (slope times deviation) squared.
fn first_order_variances(
    layout: &Layout,
    player: &Player,
    dimension: Dimension,
) -> Result<[f64; Outcome::ALL.len()], BuiltFault> {
    let mut variances = [0.0; Outcome::ALL.len()];
    let step = dimension.held_to(layout.spec()) * STEP;
    if step == Length::ZERO {
        return Ok(variances);
    }
    for number in 0..dimension.numbers(layout) {
        let moved = |by: Length| {
            let mut deviations = as_planned(layout);
            dimension.move_by(&mut deviations, number, by);
            Ok::<_, BuiltFault>(Outcomes::of(&built(layout, player, &deviations)?))
        };
        let (less, more) = (moved(-step)?, moved(step)?);
        for (variance, outcome) in variances.iter_mut().zip(Outcome::ALL) {
            let for_one_deviation = (more.get(outcome) - less.get(outcome)) / (2.0 * STEP);
            *variance += for_one_deviation * for_one_deviation;
        }
    }
    Ok(variances)
}

fn care(layout: &Layout, spreads: &[Spread]) -> Vec<Care> {
    let mut care: Vec<Care> = Dimension::ALL
        .into_iter()
        .map(|dimension| {
            let mut shares: Vec<(Outcome, f64)> = spreads
                .iter()
                .flat_map(|spread| spread.causes.iter().map(|cause| (spread.outcome, cause)))
                .filter(|(_, cause)| cause.dimension == dimension)
                .map(|(outcome, cause)| (outcome, cause.share))
                .collect();
            let all: Vec<f64> = shares.iter().map(|(_, share)| *share).collect();
            shares.sort_by(|(_, a), (_, b)| b.total_cmp(a));
            Care { dimension, held_to: dimension.held_to(layout.spec()), mean_share: mean(&all), shares }
        })
        .collect();
    care.sort_by(|a, b| b.mean_share.total_cmp(&a.mean_share));
    care
}

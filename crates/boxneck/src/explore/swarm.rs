//! Where are the best plans, when there are too many to work out each?
//!
//! A swarm of particles flies over the places of all axes, drawn to the best that each and all have found; from the best of all, every
//! axis is then turned by shrinking steps until no neighbour is better. All in sums and products, from one seed: the same plans on every
//! machine, whatever its threads. What is found is the best of what was looked at, and not proven to be the best there is.

use std::sync::{Mutex, PoisonError};

use argmin::core::{CostFunction, Error, PopulationState, Problem, Solver, State, SyncAlias};
use argmin::solver::particleswarm::{Particle, ParticleSwarm};
use rand_xoshiro::Xoshiro256PlusPlus;
use rand_xoshiro::rand_core::SeedableRng;

use super::evaluated::Evaluated;
use super::plan::{Judge, Plan};

/// Particles of one swarm. More look wider, each round costs as many plans.
const PARTICLES: usize = 64;

/// A swarm that has found nothing better for so many rounds has settled.
const PATIENCE: usize = 40;

/// How much of its way a particle keeps, and how hard it is drawn to its own best and to the best of all: the constriction of Clerc and
/// Kennedy (2002), from memory.
const INERTIA: f64 = 0.7298;
const DRAWN: f64 = 1.49618;

/// Works out at most `budget` plans, where the best are likely.
pub(super) fn swarm(judge: &Judge<'_>, budget: usize, seed: u64) -> Evaluated {
    let mut found = Evaluated::default();
    let aims = aims(judge.best.len());
    let share = budget / aims.len();
    for (index, weights) in aims.iter().enumerate() {
        let rounds_until = (index + 1) * share;
        found = fly(judge, weights, found, rounds_until, seed.wrapping_add(index as u64));
    }
    turn_each_axis(judge, &mut found, budget);
    found
}

/// What the swarms are after: each measure alone, and where there are several all in equal parts.
fn aims(measures: usize) -> Vec<Vec<f64>> {
    let alone = |chosen: usize| (0..measures).map(|place| f64::from(u8::from(place == chosen))).collect();
    match measures {
        0 => vec![Vec::new()],
        1 => vec![vec![1.0]],
        _ => (0..measures).map(alone).chain([vec![1.0 / measures as f64; measures]]).collect(),
    }
}

/// What a swarm sees of the plans.
struct Landscape<'j> {
    judge: &'j Judge<'j>,
    weights: &'j [f64],
    found: Mutex<Evaluated>,
}

impl Landscape<'_> {
    /// Plans that miss something by what they miss, above all that hold; those by what they leave to be wished.
    fn cost_of(&self, plan: &Plan) -> f64 {
        if plan.missed > 0.0 {
            return 1.0 + plan.missed;
        }
        let wished = self.judge.best.iter().zip(self.weights);
        let wished: f64 = if self.weights.is_empty() {
            f64::from(plan.warns) + plan.change / self.judge.axes.len() as f64
        } else {
            wished
                .filter(|(_, weight)| **weight > 0.0)
                .map(|(measure, weight)| self.judge.wished(plan, measure) * weight)
                .sum()
        };
        // Rises all the way from 0 to 1.
        if wished.is_finite() { 0.5 + 0.5 * wished / (1.0 + wished.abs()) } else { 1.0 }
    }

    /// The places nearest to a position.
    fn places(&self, position: &[f64]) -> Vec<u16> {
        let nearest = |(axis, at): (&super::axis::Axis, &f64)| {
            at.round().clamp(0.0, (axis.values.len() - 1) as f64) as u16
        };
        self.judge.axes.iter().zip(position).map(nearest).collect()
    }
}

impl CostFunction for Landscape<'_> {
    type Param = Vec<f64>;
    type Output = f64;

    fn cost(&self, position: &Vec<f64>) -> Result<f64, Error> {
        Ok(self.bulk_cost(std::slice::from_ref(position))?[0])
    }

    fn bulk_cost<P: std::borrow::Borrow<Vec<f64>> + SyncAlias>(
        &self,
        positions: &[P],
    ) -> Result<Vec<f64>, Error> {
        let wanted: Vec<Vec<u16>> = positions.iter().map(|position| self.places(position.borrow())).collect();
        // A panic elsewhere leaves only whole plans behind.
        let mut found = self.found.lock().unwrap_or_else(PoisonError::into_inner);
        found.work_out(self.judge, &wanted);
        Ok(wanted
            .iter()
            .map(|places| found.at(places).map_or(f64::INFINITY, |plan| self.cost_of(plan)))
            .collect())
    }
}

/// One swarm, until it settles or as many plans as allowed have been worked out.
fn fly(judge: &Judge<'_>, weights: &[f64], found: Evaluated, until: usize, seed: u64) -> Evaluated {
    let particles = PARTICLES.min(until.saturating_sub(found.count()));
    if particles == 0 {
        return found;
    }
    let lowest = vec![-0.5; judge.axes.len()];
    let highest = judge.axes.iter().map(|axis| axis.values.len() as f64 - 0.5).collect();
    let swarm = ParticleSwarm::<Vec<f64>, f64, _>::new((lowest, highest), particles)
        .with_rng_generator(Xoshiro256PlusPlus::seed_from_u64(seed))
        .with_inertia_factor(INERTIA)
        .and_then(|swarm| swarm.with_cognitive_factor(DRAWN)?.with_social_factor(DRAWN));
    let mut swarm = swarm.expect("the factors are above nothing");
    let mut problem = Problem::new(Landscape { judge, weights, found: Mutex::new(found) });
    let mut state: PopulationState<Particle<Vec<f64>, f64>, f64> = PopulationState::new();
    let mut best = f64::INFINITY;
    let mut quiet = 0;
    let mut round = 0;
    while quiet < PATIENCE {
        let next =
            if round == 0 { swarm.init(&mut problem, state) } else { swarm.next_iter(&mut problem, state) };
        // Costs are numbers without faults, and a state always has its swarm.
        state = next.expect("a swarm flies on").0;
        let cost = state.get_cost();
        quiet = if cost < best { 0 } else { quiet + 1 };
        best = best.min(cost);
        round += 1;
        let count = |landscape: &Landscape<'_>| {
            landscape.found.lock().unwrap_or_else(PoisonError::into_inner).count()
        };
        if problem.problem.as_ref().map_or(0, count) + particles > until {
            break;
        }
    }
    let landscape = problem.take_problem().expect("nobody else has taken it");
    landscape.found.into_inner().unwrap_or_else(PoisonError::into_inner)
}

/// From the best plan, and from the document's own, turns each axis up and down by steps that halve where no turn is better.
fn turn_each_axis(judge: &Judge<'_>, found: &mut Evaluated, budget: usize) {
    let own: Vec<u16> = judge
        .axes
        .iter()
        .map(|axis| axis.here.unwrap_or(0.0).round().clamp(0.0, (axis.values.len() - 1) as f64) as u16)
        .collect();
    if found.count() < budget {
        found.work_out(judge, std::slice::from_ref(&own));
    }
    let Some(best) = found.best(judge).map(|plan| plan.places.clone()) else { return };
    for start in [best, own] {
        let mut at = start;
        let widest = judge.axes.iter().map(|axis| axis.values.len()).max().unwrap_or(1) / 8;
        let mut step = widest.next_power_of_two().max(1) as u16;
        while step > 0 && found.count() + 2 * judge.axes.len() <= budget {
            let turns = neighbours(judge, &at, step);
            found.work_out(judge, &turns);
            let here = found.at(&at).map(|plan| judge.rank(plan));
            let ranked =
                turns.iter().filter_map(|turn| found.at(turn)).map(|plan| (judge.rank(plan), &plan.places));
            let better = ranked.min_by(|(one, _), (other, _)| one.compare(other));
            match (better, here) {
                (Some((rank, places)), Some(here)) if rank.compare(&here).is_lt() => at = places.clone(),
                _ => step /= 2,
            }
        }
    }
}

/// The places that lie one step up or down on one axis.
fn neighbours(judge: &Judge<'_>, at: &[u16], step: u16) -> Vec<Vec<u16>> {
    let mut turns = Vec::new();
    for (index, axis) in judge.axes.iter().enumerate() {
        for to in [at[index].checked_sub(step), at[index].checked_add(step)].into_iter().flatten() {
            if usize::from(to) < axis.values.len() {
                let mut turned = at.to_vec();
                turned[index] = to;
                turns.push(turned);
            }
        }
    }
    turns
}

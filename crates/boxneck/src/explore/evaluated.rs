//! Which plans have been worked out?
//!
//! Plans are worked out on all cores and kept by their places, each once: neither the number of threads nor the order of asking shows
//! in what is kept.

use std::collections::BTreeMap;

use rayon::prelude::*;

use super::plan::{Judge, Plan};

/// Every plan that was worked out, by its places.
#[derive(Debug, Default)]
pub(super) struct Evaluated {
    plans: BTreeMap<Vec<u16>, Plan>,
}

impl Evaluated {
    /// Every combination of the values of all axes.
    pub(super) fn grid(judge: &Judge<'_>) -> Self {
        let counts: Vec<usize> = judge.axes.iter().map(|axis| axis.values.len()).collect();
        let total: usize = counts.iter().product();
        let plans: Vec<Plan> =
            (0..total).into_par_iter().map(|index| judge.plan(&places_of(index, &counts))).collect();
        Self { plans: plans.into_iter().map(|plan| (plan.places.clone(), plan)).collect() }
    }

    /// The plan at these places, if it has been worked out.
    pub(super) fn at(&self, places: &[u16]) -> Option<&Plan> {
        self.plans.get(places)
    }

    /// Works out those of some plans that are missing.
    pub(super) fn work_out(&mut self, judge: &Judge<'_>, wanted: &[Vec<u16>]) {
        let mut missing: Vec<&Vec<u16>> =
            wanted.iter().filter(|places| !self.plans.contains_key(*places)).collect();
        missing.sort_unstable();
        missing.dedup();
        let found: Vec<Plan> = missing.par_iter().map(|places| judge.plan(places)).collect();
        self.plans.extend(found.into_iter().map(|plan| (plan.places.clone(), plan)));
    }

    /// How many there are.
    pub(super) fn count(&self) -> usize {
        self.plans.len()
    }

    /// All of them, in the order of their places.
    pub(super) fn plans(&self) -> Vec<Plan> {
        self.plans.values().cloned().collect()
    }

    /// The best of them.
    pub(super) fn best(&self, judge: &Judge<'_>) -> Option<&Plan> {
        let ranked = self.plans.values().map(|plan| (judge.rank(plan), plan));
        ranked.min_by(|(one, _), (other, _)| one.compare(other)).map(|(_, plan)| plan)
    }
}

/// The places of a plan by its index: the last axis turns fastest.
fn places_of(index: usize, counts: &[usize]) -> Vec<u16> {
    let mut left = index;
    let mut places = vec![0; counts.len()];
    for (place, count) in places.iter_mut().zip(counts).rev() {
        // No axis has more values than an index of 16 bits counts.
        *place = (left % count) as u16;
        left /= count;
    }
    places
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_combination_has_one_index() {
        let counts = [2, 3, 4];
        let mut all: Vec<Vec<u16>> = (0..24).map(|index| places_of(index, &counts)).collect();
        assert_eq!(all[5], [0, 1, 1], "the last axis turns fastest");
        all.dedup();
        assert_eq!(all.len(), 24, "each once");
        assert!(all.is_sorted(), "in the order of places");
    }
}

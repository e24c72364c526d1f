//! Is there anything better?
//!
//! The longest piece that is still wanted must come from some bar: every kind of bar and every full set of pieces beside it
//! is tried, the fullest first, as long as the worths of the bound leave hope. After so many steps it stops with the best
//! that it found.

use std::collections::BTreeMap;

use super::greedy::tidied;
use super::problem::{Cut, Problem};
use super::relaxed::{Bound, whole};

/// How many bars are tried. Larger takes time; smaller leaves more plans without a proof.
const STEPS: usize = 60_000;
/// How many ways of cutting one bar are tried at one place.
const WAYS: usize = 400;

struct Search<'p> {
    problem: &'p Problem,
    bound: &'p Bound,
    best: Vec<Cut>,
    best_total: i64,
    done: Vec<Cut>,
    /// The least that was paid for the same pieces and bars being left.
    seen: BTreeMap<(Vec<usize>, Vec<usize>), i64>,
    steps: usize,
    /// Whether it left anything untried for lack of steps.
    is_cut_short: bool,
}

/// What a search found.
pub(super) struct Found {
    pub cuts: Vec<Cut>,
    /// Whether there was nothing that it did not try.
    pub is_all: bool,
}

/// The best cuts that a bounded search finds, beginning from some.
pub(super) fn searched(problem: &Problem, bound: &Bound, best: Vec<Cut>) -> Found {
    let best_total = problem.total(&best);
    let (done, seen) = (Vec::new(), BTreeMap::new());
    let mut search = Search { problem, bound, best, best_total, done, seen, steps: 0, is_cut_short: false };
    search.cut(&mut problem.demand.clone(), &mut problem.counts.clone(), 0);
    Found { cuts: tidied(problem, search.best), is_all: !search.is_cut_short }
}

impl Search<'_> {
    fn cut(&mut self, demand: &mut Vec<usize>, counts: &mut Vec<usize>, paid: i64) {
        self.steps += 1;
        let Some(longest) = demand.iter().position(|wanted| *wanted > 0) else {
            if paid < self.best_total {
                (self.best, self.best_total) = (self.done.clone(), paid);
            }
            return;
        };
        if self.steps >= STEPS {
            self.is_cut_short = true;
            return;
        }
        if self.best_total <= self.bound.least || paid + self.least(demand, counts) >= self.best_total {
            return;
        }
        let state = (demand.clone(), counts.clone());
        if self.seen.get(&state).is_some_and(|before| *before <= paid) {
            return;
        }
        self.seen.insert(state, paid);
        let kinds: Vec<usize> = self
            .problem
            .kinds()
            .filter(|&kind| counts[kind] > 0 && self.problem.capacity[kind] >= self.problem.sizes[longest])
            .collect();
        for kind in kinds {
            for sizes in self.ways(longest, kind, demand) {
                sizes.iter().for_each(|size| demand[*size] -= 1);
                counts[kind] -= 1;
                self.done.push(Cut { kind, sizes: sizes.clone() });
                self.cut(demand, counts, paid + self.problem.cost[kind]);
                self.done.pop();
                counts[kind] += 1;
                sizes.iter().for_each(|size| demand[*size] += 1);
            }
        }
        // It may also be left over.
        demand[longest] -= 1;
        self.cut(demand, counts, paid + self.problem.penalty);
        demand[longest] += 1;
    }

    /// What is at least still to be paid: worths that are sound for all pieces are sound for some.
    fn least(&self, demand: &[usize], counts: &[usize]) -> i64 {
        let sum = |worths: &[f64], numbers: &[usize]| -> f64 {
            worths.iter().zip(numbers).map(|(worth, number)| worth * *number as f64).sum()
        };
        whole(sum(&self.bound.worth, demand) + sum(&self.bound.saving, counts))
    }

    /// Sets of pieces with one of the longest that leave no room for another piece, the fullest first.
    fn ways(&mut self, longest: usize, kind: usize, demand: &[usize]) -> Vec<Vec<usize>> {
        let mut left = demand.to_vec();
        left[longest] -= 1;
        let room = self.problem.capacity[kind] - self.problem.sizes[longest];
        let mut ways = Vec::new();
        self.extend(&mut vec![longest], longest, room, &mut left, &mut ways);
        self.is_cut_short |= ways.len() >= WAYS;
        ways.sort_by_key(|(room, _)| *room);
        ways.into_iter().map(|(_, sizes)| sizes).collect()
    }

    fn extend(
        &self,
        sizes: &mut Vec<usize>,
        from: usize,
        room: i64,
        left: &mut [usize],
        ways: &mut Vec<(i64, Vec<usize>)>,
    ) {
        if ways.len() >= WAYS {
            return;
        }
        let fits = |size: &usize| left[*size] > 0 && self.problem.sizes[*size] <= room;
        let next: Vec<usize> = (from..left.len()).filter(fits).collect();
        if next.is_empty() {
            let is_full = !(0..from).any(|size| fits(&size));
            if is_full {
                ways.push((room, sizes.clone()));
            }
            return;
        }
        for size in next {
            left[size] -= 1;
            sizes.push(size);
            self.extend(sizes, size, room - self.problem.sizes[size], left, ways);
            sizes.pop();
            left[size] += 1;
        }
    }
}

//! What is asked, in whole micrometres.

use std::collections::{BTreeMap, VecDeque};

use units::Length;

use super::{Bar, CutBar, CuttingPlan, Saw};
use crate::least_cost::{Stock, least_cost};

/// One bar and the pieces cut from it, by the numbers of their sizes; sorted, the longest first.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Cut {
    pub kind: usize,
    pub sizes: Vec<usize>,
}

/// Pieces by size and kinds of bars. Each piece carries one kerf, and so does each bar.
pub(super) struct Problem {
    /// The sizes, the longest first.
    pub sizes: Vec<i64>,
    /// How many pieces of each size are wanted.
    pub demand: Vec<usize>,
    /// What each kind of bar holds.
    pub capacity: Vec<i64>,
    /// How many bars of each kind there are; no more than pieces, which are enough.
    pub counts: Vec<usize>,
    /// What a bar of each kind costs, in the unit of costs.
    pub cost: Vec<i64>,
    /// What a piece that is left over counts for: more than all bars together.
    pub penalty: i64,
    /// The largest number that goes into every cost.
    unit_of_cost: u64,
    kerf: i64,
    /// The pieces of each size, in their order.
    pieces: Vec<Vec<usize>>,
    /// Pieces that no bar holds.
    hopeless: Vec<usize>,
}

/// The nearest whole number of micrometres.
fn micrometres(length: Length) -> i64 {
    // The cast saturates.
    (length.as_mm() * 1000.0).round() as i64
}

impl Problem {
    pub fn of(pieces: &[Length], bars: &[Bar], saw: Saw) -> Self {
        let kerf = micrometres(saw.kerf);
        let capacity: Vec<i64> =
            bars.iter().map(|bar| micrometres(bar.length) - 2 * micrometres(saw.trim) + kerf).collect();
        let usable = |index: usize| bars[index].count != Some(0);
        let most = (0..bars.len()).filter(|&index| usable(index)).map(|index| capacity[index]).max();
        let mut by_size: BTreeMap<std::cmp::Reverse<i64>, Vec<usize>> = BTreeMap::new();
        let mut hopeless = Vec::new();
        for (index, piece) in pieces.iter().enumerate() {
            let size = micrometres(*piece) + kerf;
            if size > 0 && most.is_some_and(|most| size <= most) {
                by_size.entry(std::cmp::Reverse(size)).or_default().push(index);
            } else {
                hopeless.push(index);
            }
        }
        let wanted: usize = by_size.values().map(Vec::len).sum();
        let counts: Vec<usize> =
            bars.iter().map(|bar| bar.count.map_or(wanted, |count| count.min(wanted))).collect();
        let unit_of_cost = bars.iter().fold(0, |unit, bar| common_divisor(unit, bar.cost)).max(1);
        // Costs beyond this would not be told apart by the linear program.
        let cost: Vec<i64> = bars.iter().map(|bar| (bar.cost / unit_of_cost).min(1 << 40) as i64).collect();
        let dearest = cost.iter().copied().max().unwrap_or(0);
        let penalty = dearest.saturating_mul(wanted as i64).saturating_add(1);
        Self {
            sizes: by_size.keys().map(|size| size.0).collect(),
            demand: by_size.values().map(Vec::len).collect(),
            capacity,
            counts,
            cost,
            penalty,
            unit_of_cost,
            kerf,
            pieces: by_size.into_values().collect(),
            hopeless,
        }
    }

    /// The kinds of bars of which there are any.
    pub fn kinds(&self) -> impl Iterator<Item = usize> {
        (0..self.capacity.len()).filter(|&kind| self.counts[kind] > 0)
    }

    /// What the pieces of a bar take up.
    pub fn taken(&self, cut: &Cut) -> i64 {
        cut.sizes.iter().map(|&size| self.sizes[size]).sum()
    }

    /// What bars and missing pieces count for.
    pub fn total(&self, cuts: &[Cut]) -> i64 {
        let placed: usize = cuts.iter().map(|cut| cut.sizes.len()).sum();
        let missing = self.demand.iter().sum::<usize>() - placed;
        let cost: i64 = cuts.iter().map(|cut| self.cost[cut.kind]).sum();
        cost + self.penalty * missing as i64
    }

    /// Of two lists of cuts the one that counts for less, then the one from shorter bars, then the first.
    pub fn better(&self, one: Vec<Cut>, other: Vec<Cut>) -> Vec<Cut> {
        let worth = |cuts: &[Cut]| {
            (self.total(cuts), cuts.iter().map(|cut| self.capacity[cut.kind]).sum::<i64>(), cuts.len())
        };
        if worth(&other) < worth(&one) { other } else { one }
    }

    /// What bars must cost at least that together are long enough for all pieces.
    pub fn least_by_length(&self) -> i64 {
        let lengths = self.sizes.iter().zip(&self.demand).map(|(size, demand)| size * *demand as i64);
        let stock = |kind: usize| Stock {
            holds: self.capacity[kind].into(),
            count: self.counts[kind],
            cost: self.cost[kind].into(),
        };
        least_cost(lengths.sum::<i64>().into(), self.kinds().map(stock).collect()) as i64
    }

    /// The cuts with the pieces' own numbers, and the bound on what they count for.
    pub fn plan(&self, mut cuts: Vec<Cut>, least: i64) -> CuttingPlan {
        let total = self.total(&cuts);
        cuts.sort_by(|one, other| one.kind.cmp(&other.kind).then(one.sizes.cmp(&other.sizes)));
        let mut pieces: Vec<VecDeque<usize>> =
            self.pieces.iter().map(|pieces| pieces.iter().copied().collect()).collect();
        let cost: i64 = cuts.iter().map(|cut| self.cost[cut.kind]).sum();
        let cuts = cuts.iter().map(|cut| {
            let rest = (self.capacity[cut.kind] - self.taken(cut) - self.kerf).max(0);
            CutBar {
                bar: cut.kind,
                pieces: cut.sizes.iter().filter_map(|&size| pieces[size].pop_front()).collect(),
                rest: Length::mm(rest as f64 / 1000.0),
            }
        });
        let cuts = cuts.collect();
        let mut left_over: Vec<usize> = pieces.into_iter().flatten().chain(self.hopeless.clone()).collect();
        left_over.sort_unstable();
        let missed = total - cost;
        let whole = |cost: i64| cost.max(0) as u64 * self.unit_of_cost;
        CuttingPlan { cuts, left_over, cost: whole(cost), least_cost: whole((least - missed).min(cost)) }
    }
}

fn common_divisor(a: u64, b: u64) -> u64 {
    if b == 0 { a } else { common_divisor(b, a % b) }
}

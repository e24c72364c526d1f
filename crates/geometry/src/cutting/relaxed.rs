//! What would it cost if parts of bars could be bought, and which ways of cutting are used then?
//!
//! The revised simplex method with an explicit inverse: as many rows as there are sizes and kinds of bars, and columns
//! made by the knapsack.

use super::greedy::{completed, tidied};
use super::knapsack::filled;
use super::problem::{Cut, Problem};

/// How many sizes are too many. Larger takes seconds; smaller leaves a large class to the quick plans.
const MOST_SIZES: usize = 60;
/// How many exchanges of columns are made at most, against going round in circles.
const EXCHANGES: usize = 4000;
/// How near to nothing a gain is none. Costs are whole numbers.
const NO_GAIN: f64 = 1e-9;

/// The solution in parts of bars.
pub(super) struct Bound {
    /// What every plan counts for at least, in whole units.
    pub least: i64,
    /// What a piece of each size is worth.
    pub worth: Vec<f64>,
    /// What one more bar of each kind would save.
    pub saving: Vec<f64>,
    /// Ways of cutting and how many bars of each, not whole.
    columns: Vec<(usize, Vec<usize>, f64)>,
}

/// A column of the basis.
#[derive(Clone)]
enum Column {
    /// A way of cutting a bar of a kind.
    Pattern(usize, Vec<usize>),
    /// A piece of a size that is left over.
    Missing(usize),
    /// A piece of a size too many.
    Surplus(usize),
    /// A bar of a kind that is not used.
    Unused(usize),
}

struct Simplex<'p> {
    problem: &'p Problem,
    demand: &'p [usize],
    basis: Vec<Column>,
    inverse: Vec<Vec<f64>>,
    values: Vec<f64>,
}

/// The bound for what is wanted and the bars that there are; `None` where there are too many sizes, or where the
/// numbers do not settle.
pub(super) fn solved(problem: &Problem, demand: &[usize], counts: &[usize]) -> Option<Bound> {
    if demand.len() > MOST_SIZES {
        return None;
    }
    let rows = demand.len() + counts.len();
    let unit = |row: usize| (0..rows).map(move |column| f64::from(u8::from(row == column))).collect();
    let mut simplex = Simplex {
        problem,
        demand,
        basis: (0..demand.len()).map(Column::Missing).chain((0..counts.len()).map(Column::Unused)).collect(),
        inverse: (0..rows).map(unit).collect(),
        values: demand.iter().chain(counts).map(|count| *count as f64).collect(),
    };
    for _ in 0..EXCHANGES {
        let duals = simplex.duals();
        match simplex.entering(&duals)? {
            Some(column) => simplex.exchange(column)?,
            None => return Some(simplex.bound(&duals)),
        }
    }
    None
}

impl Simplex<'_> {
    fn cost(&self, column: &Column) -> f64 {
        match column {
            Column::Pattern(kind, _) => self.problem.cost[*kind] as f64,
            Column::Missing(_) => self.problem.penalty as f64,
            Column::Surplus(_) | Column::Unused(_) => 0.0,
        }
    }

    /// The column's entries that are not zero.
    fn entries(&self, column: &Column) -> Vec<(usize, f64)> {
        let sizes = self.demand.len();
        match column {
            Column::Pattern(kind, pattern) => {
                let used = pattern.iter().enumerate().filter(|(_, count)| **count > 0);
                used.map(|(size, count)| (size, *count as f64)).chain([(sizes + kind, 1.0)]).collect()
            }
            Column::Missing(size) => vec![(*size, 1.0)],
            Column::Surplus(size) => vec![(*size, -1.0)],
            Column::Unused(kind) => vec![(sizes + kind, 1.0)],
        }
    }

    /// What one more of each row would cost.
    fn duals(&self) -> Vec<f64> {
        let mut duals = vec![0.0; self.values.len()];
        for (row, column) in self.basis.iter().enumerate() {
            let cost = self.cost(column);
            if cost != 0.0 {
                duals.iter_mut().zip(&self.inverse[row]).for_each(|(dual, entry)| *dual += cost * entry);
            }
        }
        duals
    }

    /// The column that saves most, `Some(None)` where none saves anything, `None` where that is not certain.
    fn entering(&self, duals: &[f64]) -> Option<Option<Column>> {
        let (worth, of_bars) = duals.split_at(self.demand.len());
        let mut best: (f64, Option<Column>) = (-NO_GAIN * self.problem.penalty as f64, None);
        let mut offer = |gain: f64, column: Column| {
            if gain < best.0 {
                best = (gain, Some(column));
            }
        };
        for (size, worth) in worth.iter().enumerate() {
            offer(*worth, Column::Surplus(size));
            offer(self.problem.penalty as f64 - worth, Column::Missing(size));
        }
        for (kind, dual) in of_bars.iter().enumerate() {
            offer(-dual, Column::Unused(kind));
        }
        for kind in self.problem.kinds() {
            let fill = filled(self.problem, kind, worth, self.demand);
            if !fill.is_best {
                return None;
            }
            let gain = self.problem.cost[kind] as f64 - fill.worth - of_bars[kind];
            offer(gain, Column::Pattern(kind, fill.pattern));
        }
        Some(best.1)
    }

    /// Takes a column into the basis for the one that is used up first.
    fn exchange(&mut self, column: Column) -> Option<()> {
        let entries = self.entries(&column);
        let direction: Vec<f64> = self
            .inverse
            .iter()
            .map(|row| entries.iter().map(|(place, entry)| row[*place] * entry).sum())
            .collect();
        let leaving = (0..direction.len()).filter(|&row| direction[row] > 1e-9).min_by(|&one, &other| {
            let ratio = |row: usize| self.values[row].max(0.0) / direction[row];
            ratio(one).total_cmp(&ratio(other)).then(direction[other].total_cmp(&direction[one]))
        })?;
        let pivot = direction[leaving];
        self.inverse[leaving].iter_mut().for_each(|entry| *entry /= pivot);
        self.values[leaving] = self.values[leaving].max(0.0) / pivot;
        let (pivoted, value) = (self.inverse[leaving].clone(), self.values[leaving]);
        for row in (0..direction.len()).filter(|&row| row != leaving && direction[row] != 0.0) {
            let factor = direction[row];
            self.inverse[row].iter_mut().zip(&pivoted).for_each(|(entry, other)| *entry -= factor * other);
            self.values[row] -= factor * value;
        }
        self.basis[leaving] = column;
        Some(())
    }

    fn bound(&self, duals: &[f64]) -> Bound {
        let (worth, saving) = duals.split_at(self.demand.len());
        let total: f64 =
            self.basis.iter().zip(&self.values).map(|(column, value)| self.cost(column) * value).sum();
        let used = self.basis.iter().zip(&self.values).filter_map(|(column, value)| match column {
            Column::Pattern(kind, pattern) if *value > 1e-9 => Some((*kind, pattern.clone(), *value)),
            _ => None,
        });
        Bound { least: whole(total), worth: worth.to_vec(), saving: saving.to_vec(), columns: used.collect() }
    }
}

/// The least whole number that is not below a sum, but for its rounding.
pub(super) fn whole(total: f64) -> i64 {
    (total - 1e-6 * total.abs().max(1.0)).ceil() as i64
}

/// Whole bars: those of the bound that are whole already, then one of what is left that is used most, and so on; the rest
/// by the quick plans at every step, of which the best counts.
pub(super) fn dived(problem: &Problem, bound: &Bound) -> Vec<Cut> {
    let (mut demand, mut counts) = (problem.demand.clone(), problem.counts.clone());
    let mut done: Vec<Cut> = Vec::new();
    let mut columns = bound.columns.clone();
    let mut best = completed(problem, Vec::new(), &demand, &counts);
    loop {
        let before = done.len();
        columns.sort_by(|one, other| other.2.total_cmp(&one.2).then(one.1.cmp(&other.1)));
        for (kind, pattern, times) in &columns {
            for _ in 0..(times + 1e-9).floor() as usize {
                take(&mut done, &mut demand, &mut counts, *kind, pattern);
            }
        }
        if done.len() == before {
            let Some((kind, pattern, _)) = columns.first() else { break };
            take(&mut done, &mut demand, &mut counts, *kind, pattern);
        }
        if done.len() == before {
            break;
        }
        best = problem.better(best, completed(problem, done.clone(), &demand, &counts));
        if demand.iter().all(|wanted| *wanted == 0) || problem.total(&best) <= bound.least {
            break;
        }
        let Some(next) = solved(problem, &demand, &counts) else { break };
        columns = next.columns;
    }
    tidied(problem, best)
}

/// Cuts one more bar, with no more pieces than are still wanted.
fn take(done: &mut Vec<Cut>, demand: &mut [usize], counts: &mut [usize], kind: usize, pattern: &[usize]) {
    let mut sizes = Vec::new();
    for (size, count) in pattern.iter().enumerate() {
        let count = (*count).min(demand[size]);
        sizes.extend(std::iter::repeat_n(size, count));
        demand[size] -= count;
    }
    if !sizes.is_empty() && counts[kind] > 0 {
        counts[kind] -= 1;
        done.push(Cut { kind, sizes });
    } else {
        sizes.into_iter().for_each(|size| demand[size] += 1);
    }
}

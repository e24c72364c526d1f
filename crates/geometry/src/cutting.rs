//! From which bars are pieces cut, so that as little as possible is paid for?
//!
//! The *cutting stock problem* in one dimension, with bars of several lengths, prices and numbers. Pieces of one length
//! are one row of a linear program whose columns are the ways to cut one bar; columns are made when they are wanted, by
//! a knapsack (P. C. Gilmore and R. E. Gomory, *A Linear Programming Approach to the Cutting-Stock Problem*, 1961; from
//! memory). The program's value is a bound that no plan goes below. Whole bars come from rounding it step by step and from
//! first-fit-decreasing; where the bound is not reached, a bounded search goes on.
//!
//! | module | what it answers |
//! | --- | --- |
//! | `problem` | what is asked, in whole micrometres |
//! | `greedy` | which plan comes quickly, and how is a plan tidied |
//! | `knapsack` | what is the best way to cut one bar, when every piece has a worth |
//! | `relaxed` | what would it cost if parts of bars could be bought, and which ways of cutting are used then |
//! | `search` | is there anything better |

mod greedy;
mod knapsack;
mod problem;
mod relaxed;
mod search;

use units::Length;

use problem::Problem;

/// A kind of bar.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bar {
    /// How long.
    pub length: Length,
    /// How many there are; without end where nothing is said.
    pub count: Option<usize>,
    /// What one costs, in whole units of the caller's choice; what is to be used up first costs nothing.
    pub cost: u64,
}

/// What the saw does.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Saw {
    /// The width of a cut.
    pub kerf: Length,
    /// What is taken off each end of a bar, with the kerf of that cut.
    pub trim: Length,
}

/// One bar and what is cut from it.
#[derive(Clone, Debug, PartialEq)]
pub struct CutBar {
    /// Of which kind it is.
    pub bar: usize,
    /// The pieces in cutting order, the longest first.
    pub pieces: Vec<usize>,
    /// What is left of it behind the last cut, without the far end's trim.
    pub rest: Length,
}

/// How pieces are cut from bars.
#[derive(Clone, Debug, PartialEq)]
pub struct CuttingPlan {
    /// Bar by bar, those of one kind together.
    pub cuts: Vec<CutBar>,
    /// Pieces that no bar holds, or for which the bars do not suffice.
    pub left_over: Vec<usize>,
    /// What the bars cost.
    pub cost: u64,
    /// No plan that leaves as few pieces over costs less.
    pub least_cost: u64,
}

impl CuttingPlan {
    /// Whether it is proven that no plan costs less.
    #[must_use]
    pub const fn is_optimal(&self) -> bool {
        self.cost == self.least_cost
    }
}

/// A plan that leaves as few pieces over as it can, then costs as little as it can.
///
/// - **Shape**: one length a piece; what comes back names pieces and bars by their places in the lists.
/// - **Units**: millimetres, rounded to micrometres. Between two pieces of a bar one kerf is lost.
/// - **Accuracy**: [`CuttingPlan::is_optimal`] says whether the plan is proven to be the best; up to some sixty pieces it
///   nearly always is. Beyond sixty different lengths plans come from first-fit-decreasing alone.
/// - The same lists give the same plan.
///
/// ```
/// use boxneck_geometry::{Bar, Saw, cut_bars};
/// use units::Length;
///
/// let pieces = [900.0, 900.0, 600.0, 600.0].map(Length::mm);
/// let bars = [Bar { length: Length::mm(1520.0), count: None, cost: 1 }];
/// let saw = Saw { kerf: Length::mm(3.0), trim: Length::mm(5.0) };
/// let plan = cut_bars(&pieces, &bars, saw);
/// assert_eq!(plan.cuts.len(), 2, "a long and a short piece, 1503 mm, are cut from each bar's 1510 mm");
/// assert!(plan.is_optimal(), "one bar is not long enough for all");
/// ```
#[must_use]
pub fn cut_bars(pieces: &[Length], bars: &[Bar], saw: Saw) -> CuttingPlan {
    let problem = Problem::of(pieces, bars, saw);
    let mut best = greedy::best(&problem);
    let mut least = problem.least_by_length();
    if let Some(bound) = relaxed::solved(&problem, &problem.demand, &problem.counts) {
        least = least.max(bound.least);
        best = problem.better(best, relaxed::dived(&problem, &bound));
        if problem.total(&best) > least {
            let found = search::searched(&problem, &bound, best);
            best = found.cuts;
            if found.is_all {
                least = problem.total(&best);
            }
        }
    }
    problem.plan(best, least)
}

#[cfg(test)]
mod tests;

//! What is the best way to cut one bar, when every piece has a worth?

use super::problem::Problem;

/// How many steps one question may take. Larger takes time where many lengths fit many times into one bar; smaller
/// gives up proofs.
const STEPS: usize = 200_000;

/// The dearest set of pieces that a bar holds.
pub(super) struct Fill {
    /// How many pieces of each size.
    pub pattern: Vec<usize>,
    /// What they are worth.
    pub worth: f64,
    /// Whether it is certain that none is worth more.
    pub is_best: bool,
}

struct Knapsack<'p> {
    problem: &'p Problem,
    worth: &'p [f64],
    demand: &'p [usize],
    /// Sizes that are worth something, the dearest by length first.
    order: Vec<usize>,
    pattern: Vec<usize>,
    best: (f64, Vec<usize>),
    steps: usize,
}

/// The dearest set of at most the pieces wanted for a bar of a kind.
pub(super) fn filled(problem: &Problem, kind: usize, worth: &[f64], demand: &[usize]) -> Fill {
    let capacity = problem.capacity[kind];
    let mut order: Vec<usize> = (0..worth.len())
        .filter(|&size| worth[size] > 0.0 && demand[size] > 0 && problem.sizes[size] <= capacity)
        .collect();
    let rate = |size: usize| worth[size] / problem.sizes[size] as f64;
    order.sort_by(|&one, &other| rate(other).total_cmp(&rate(one)).then(one.cmp(&other)));
    let empty = vec![0; worth.len()];
    let mut knapsack =
        Knapsack { problem, worth, demand, order, pattern: empty.clone(), best: (0.0, empty), steps: 0 };
    knapsack.fill(0, capacity, 0.0);
    let is_best = knapsack.steps < STEPS;
    Fill { pattern: knapsack.best.1, worth: knapsack.best.0, is_best }
}

impl Knapsack<'_> {
    /// Tries every number of the pieces from a place of the order on, the largest first.
    fn fill(&mut self, place: usize, room: i64, worth: f64) {
        self.steps += 1;
        if worth > self.best.0 {
            self.best = (worth, self.pattern.clone());
        }
        let Some(&size) = self.order.get(place) else { return };
        let length = self.problem.sizes[size];
        // If all the room were filled at this rate, the best of those that are left.
        let hoped = worth + self.worth[size] * (room as f64 / length as f64);
        if hoped <= self.best.0 * (1.0 + 1e-12) || self.steps >= STEPS {
            return;
        }
        let most = self.demand[size].min((room / length) as usize);
        for count in (0..=most).rev() {
            self.pattern[size] = count;
            self.fill(place + 1, room - length * count as i64, worth + self.worth[size] * count as f64);
        }
        self.pattern[size] = 0;
    }
}

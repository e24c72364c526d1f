//! Which amounts, none below nothing, meet a list of conditions at the least cost?

use crate::MechanicsError;

/// A condition: the sum of coefficients times amounts is at least a bound.
#[derive(Clone, Debug, PartialEq)]
pub struct AtLeast {
    /// One coefficient an amount.
    pub coefficients: Vec<f64>,
    /// What their sum must reach.
    pub bound: f64,
}

/// How far a condition may be missed by rounding. Larger accepts what is broken; smaller goes on without end.
const ROUNDING: f64 = 1e-11;

/// The least coefficient that is divided by. Smaller makes large numbers of rounding.
const LEAST_PIVOT: f64 = 1e-9;

/// After so many steps the careful rule takes over, which never goes round in circles.
const QUICK_STEPS: usize = 2_000;

/// Steps after which a problem is given up: far more than the careful rule takes on any that comes up here.
const MOST_STEPS: usize = 100_000;

/// The amounts of least cost.
///
/// - **Shape**: a cost for each amount, none below zero, and the conditions in; the amounts out.
/// - **Accuracy**: a corner of what the conditions allow, to rounding; of several of the same cost, one.
/// - **Errors**: [`MechanicsError::Impossible`] where no amounts meet all conditions.
/// - **Source**: C. Lemke's dual simplex method (1954) on a dense tableau; R. Bland's rule (1977) against circles; from memory.
pub fn least_cost(costs: &[f64], conditions: &[AtLeast]) -> Result<Vec<f64>, MechanicsError> {
    let mut tableau = Tableau::new(costs, conditions);
    for step in 0..MOST_STEPS {
        let is_careful = step >= QUICK_STEPS;
        let Some(row) = tableau.broken(is_careful) else { return Ok(tableau.amounts(costs.len())) };
        let column = tableau.cheapest(row).ok_or(MechanicsError::Impossible)?;
        tableau.exchange(row, column);
    }
    Err(MechanicsError::Impossible)
}

/// Every quantity, amounts first and then what each condition is met by beyond its bound, is either free at zero or follows from
/// those that are.
struct Tableau {
    /// The quantity of each column: free, at zero.
    free: Vec<usize>,
    /// What one of each free quantity costs.
    costs: Vec<f64>,
    /// The quantity of each row, its value, and how it follows from the free ones.
    rows: Vec<Row>,
}

struct Row {
    quantity: usize,
    value: f64,
    follows: Vec<f64>,
}

impl Tableau {
    fn new(costs: &[f64], conditions: &[AtLeast]) -> Self {
        let rows = conditions.iter().enumerate().map(|(index, condition)| Row {
            quantity: costs.len() + index,
            value: -condition.bound,
            follows: condition.coefficients.clone(),
        });
        Self { free: (0..costs.len()).collect(), costs: costs.to_vec(), rows: rows.collect() }
    }

    /// A row whose quantity is below nothing: the farthest, or by the careful rule the first.
    fn broken(&self, is_careful: bool) -> Option<usize> {
        let broken = self.rows.iter().enumerate().filter(|(_, row)| row.value < -ROUNDING);
        let chosen = if is_careful {
            broken.min_by_key(|(_, row)| row.quantity)
        } else {
            broken.min_by(|(_, a), (_, b)| a.value.total_cmp(&b.value))
        };
        chosen.map(|(index, _)| index)
    }

    /// The free quantity that mends a row at the least cost; of several the first.
    fn cheapest(&self, row: usize) -> Option<usize> {
        let follows = &self.rows[row].follows;
        let mending = (0..self.free.len()).filter(|column| follows[*column] > LEAST_PIVOT);
        let price = |column: usize| self.costs[column] / follows[column];
        mending.min_by(|a, b| price(*a).total_cmp(&price(*b)).then(self.free[*a].cmp(&self.free[*b])))
    }

    /// Lets the row's quantity be the free one at zero, and the column's follow.
    fn exchange(&mut self, row: usize, column: usize) {
        let pivot = self.rows[row].follows[column];
        let leaving = self.rows[row].quantity;
        let value = -self.rows[row].value / pivot;
        let follows: Vec<f64> = self.rows[row]
            .follows
            .iter()
            .enumerate()
            .map(|(index, entry)| if index == column { 1.0 / pivot } else { -entry / pivot })
            .collect();
        let put_in = |entries: &mut [f64]| {
            let times = entries[column];
            if times != 0.0 {
                entries[column] = 0.0;
                entries.iter_mut().zip(&follows).for_each(|(entry, follows)| *entry += times * follows);
            }
            times
        };
        for other in self.rows.iter_mut().enumerate().filter(|(index, _)| *index != row).map(|(_, row)| row) {
            other.value += put_in(&mut other.follows) * value;
        }
        put_in(&mut self.costs);
        self.rows[row] = Row { quantity: self.free[column], value, follows };
        self.free[column] = leaving;
    }

    fn amounts(&self, count: usize) -> Vec<f64> {
        let mut amounts = vec![0.0; count];
        for row in self.rows.iter().filter(|row| row.quantity < count) {
            amounts[row.quantity] = row.value.max(0.0);
        }
        amounts
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at_least(coefficients: &[f64], bound: f64) -> AtLeast {
        AtLeast { coefficients: coefficients.to_vec(), bound }
    }

    #[track_caller]
    fn check(costs: &[f64], conditions: &[AtLeast], expected: &[f64]) {
        let found = least_cost(costs, conditions).expect("it can be met");
        for (found, expected) in found.iter().zip(expected) {
            assert!((found - expected).abs() < 1e-9, "found {found}, expected {expected}");
        }
    }

    #[test]
    fn nothing_asked_costs_nothing() {
        check(&[1.0, 2.0], &[at_least(&[1.0, 1.0], -3.0)], &[0.0, 0.0]);
    }
    #[test]
    fn the_cheaper_of_two_ways_is_taken() {
        check(&[3.0, 2.0], &[at_least(&[2.0, 1.0], 4.0)], &[2.0, 0.0]);
    }
    #[test]
    fn an_upper_bound_sends_the_rest_to_the_dearer() {
        check(&[3.0, 2.0], &[at_least(&[2.0, 1.0], 4.0), at_least(&[-1.0, 0.0], -1.0)], &[1.0, 2.0]);
    }
    #[test]
    fn a_diet_worked_by_hand() {
        // Two corners meet at 2 x + y = 8, x + 2 y = 7: x = 3, y = 2.
        check(&[1.0, 1.0], &[at_least(&[2.0, 1.0], 8.0), at_least(&[1.0, 2.0], 7.0)], &[3.0, 2.0]);
    }
    #[test]
    fn what_cannot_be_met_is_said() {
        let found = least_cost(&[1.0], &[at_least(&[1.0], 2.0), at_least(&[-1.0], -1.0)]);
        assert_eq!(found, Err(MechanicsError::Impossible), "at least 2 and at most 1");
    }
    #[test]
    fn amounts_that_cost_nothing_still_meet_every_condition() {
        // Ties everywhere: every amount is free, and conditions lie on one another.
        let rows = [[1.0, 1.0, 0.0], [0.0, 1.0, 1.0], [1.0, 0.0, 1.0], [1.0, 1.0, 1.0], [2.0, 2.0, 0.0]];
        let conditions: Vec<AtLeast> =
            rows.iter().zip([1.0, 1.0, 1.0, 1.5, 2.0]).map(|(row, bound)| at_least(row, bound)).collect();
        let found = least_cost(&[0.0; 3], &conditions).expect("it can be met");
        for condition in &conditions {
            let sum: f64 = condition.coefficients.iter().zip(&found).map(|(a, b)| a * b).sum();
            assert!(sum >= condition.bound - 1e-9, "{condition:?} is met by {found:?}");
        }
    }
}

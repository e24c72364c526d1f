//! When two answers depend on each other, where do they come to rest?
//!
//! The strings bend the neck, which changes the action, which changes the strings' place: such circles are gone round until
//! nothing changes any more. What is gone round belongs to the caller.

/// When to stop going round.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Patience {
    /// Largest change of any value between two rounds that counts as none, in the values' own units. Larger stops short of the
    /// resting place; smaller waits for rounding.
    pub settled: f64,
    /// The most rounds. Fewer give up on circles that settle slowly; more only delay the verdict on those that never do.
    pub rounds: u32,
}

/// Where the going round ended.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Rest<const COUNT: usize> {
    /// The values changed by no more than was asked.
    Settled {
        /// Where they rest.
        values: [f64; COUNT],
        /// How many rounds it took.
        rounds: u32,
    },
    /// The values still moved, or were no numbers any more, after the last round.
    Restless {
        /// Where they were last.
        values: [f64; COUNT],
        /// Largest change of the last round.
        change: f64,
    },
}

impl<const COUNT: usize> Rest<COUNT> {
    /// The values, if they settled.
    #[must_use]
    pub const fn settled(&self) -> Option<[f64; COUNT]> {
        match self {
            Self::Settled { values, .. } => Some(*values),
            Self::Restless { .. } => None,
        }
    }
}

/// Goes round from a start until the values come to rest.
///
/// - **Shape**: start, patience and one round in; a verdict out.
/// - **Accuracy**: where one round shrinks distances by a factor q below 1, the resting place lies within q/(1 - q) times the
///   last change.
/// - **Source**: Banach's fixed-point theorem.
pub fn rest<const COUNT: usize>(
    start: [f64; COUNT],
    patience: Patience,
    mut round: impl FnMut([f64; COUNT]) -> [f64; COUNT],
) -> Rest<COUNT> {
    let (mut values, mut change) = (start, f64::INFINITY);
    for rounds in 1..=patience.rounds {
        let next = round(values);
        change = 0.0;
        for (next, value) in next.iter().zip(values) {
            let moved = (next - value).abs();
            // A value that is no number never rests.
            change = if moved.is_nan() { f64::INFINITY } else { f64::max(change, moved) };
            if change == f64::INFINITY {
                break;
            }
        }
        values = next;
        if change <= patience.settled {
            return Rest::Settled { values, rounds };
        }
    }
    Rest::Restless { values, change }
}

#[cfg(test)]
mod tests {
    use units::math;

    use super::*;

    const PATIENCE: Patience = Patience { settled: 1e-12, rounds: 100 };

    #[test]
    fn the_cosine_comes_to_rest() {
        // Known constant 0.739085133215160641655... (Dottie number): from memory.
        let [found] = rest([1.0], PATIENCE, |[x]| [math::cos(x)]).settled().expect("it contracts");
        assert!((found - 0.739_085_133_215_160_6).abs() < 1e-11, "found {found}");
    }

    #[test]
    fn two_that_depend_on_each_other() {
        // Closed form: x = 1 + y/4, y = 2 - x/2 rests at x = 4/3, y = 4/3.
        let found = rest([0.0, 0.0], PATIENCE, |[x, y]| [1.0 + y / 4.0, 2.0 - x / 2.0]).settled();
        let [x, y] = found.expect("it contracts");
        assert!((x - 4.0 / 3.0).abs() < 1e-11 && (y - 4.0 / 3.0).abs() < 1e-11, "found {x}, {y}");
    }

    #[test]
    fn what_runs_away_is_said_to() {
        let found = rest([1.0], PATIENCE, |[x]| [2.0 * x]);
        assert!(found.settled().is_none(), "found {found:?}");
    }

    #[test]
    fn what_is_no_number_never_rests() {
        let found = rest([1.0, f64::NAN], PATIENCE, |values| values);
        assert!(found.settled().is_none(), "found {found:?}");
    }
}

//! Which unknowns explain a set of readings best, and how surely?
//!
//! Every unknown is measured in standard deviations of what is expected of it beforehand: it is expected at nothing, give or
//! take one. That makes any number of readings enough, none included, and keeps what nobody has read at its expectation.

mod cholesky;

use cholesky::Cholesky;

/// What somebody read.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Observed {
    /// The value.
    pub value: f64,
    /// One standard deviation of it, above zero; an infinite one sets the reading aside.
    pub error: f64,
    /// What it says of the true value.
    pub says: Says,
}

/// What a reading says of the true value.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Says {
    /// The true value is this, give or take the error.
    Equal,
    /// The true value is no larger than this, give or take the error; how much smaller nobody knows.
    AtMost,
}

/// What the readings say of the unknowns.
#[derive(Clone, Debug, PartialEq)]
pub struct Fit {
    /// The likeliest unknowns, in standard deviations of what was expected of them.
    pub unknowns: Vec<f64>,
    /// Their covariance, in the same measure.
    pub covariance: Vec<Vec<f64>>,
    /// Each reading, in the order given.
    pub readings: Vec<Fitted>,
    /// Sum of the squares of all residuals in their errors, and of all unknowns: chi-square with as many degrees of freedom as
    /// there are readings.
    pub misfit: f64,
    /// Whether nothing moved any more when it stopped.
    pub settled: bool,
}

/// One reading beside what all of them together say.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fitted {
    /// What the unknowns make of it.
    pub value: f64,
    /// How far it was read from that, in standard deviations of such a residual; nothing for a limit that holds. Beyond about 3 it
    /// contradicts the others.
    pub normalised: f64,
    /// What the expectations and the other readings say that it should be.
    pub others: f64,
    /// One standard deviation of that.
    pub others_error: f64,
}

/// When to stop, and how to differentiate.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Effort {
    /// Largest move of any unknown that counts as none, in standard deviations.
    pub settled: f64,
    /// Most rounds.
    pub rounds: u32,
    /// The step of finite differences, in standard deviations. Larger errs where the model bends; smaller drowns in rounding.
    pub difference: f64,
}

/// Estimates unknowns from readings of what a model makes of them.
///
/// - **Shape**: how many unknowns, the readings, and a model from unknowns to one value a reading in; unknowns with their covariance out.
/// - **Units**: readings in their own, unknowns in standard deviations.
/// - **Accuracy**: that of the model's straight line at the answer for the covariance; the answer itself is the nearest least square.
/// - **Errors**: the model's own, at the start and beside an answer; where it fails farther out, a shorter step is tried.
/// - **Source**: weighted least squares by Gauss and Newton, damped as by K. Levenberg (1944) and D. Marquardt (1963); residuals as
///   by W. Baarda (1968); all from memory.
pub fn fit<E>(
    unknowns: usize,
    observed: &[Observed],
    effort: Effort,
    model: impl Fn(&[f64]) -> Result<Vec<f64>, E>,
) -> Result<Fit, E> {
    let mut at = vec![0.0; unknowns];
    let mut values = model(&at)?;
    let (mut damping, mut settled) = (0.0, false);
    let mut slopes = slopes(&at, &values, effort.difference, &model)?;
    for _ in 0..effort.rounds {
        let residuals = residuals(observed, &values);
        let normal = normal(unknowns, observed, &residuals, &slopes, damping);
        let mut downhill: Vec<f64> = at.iter().map(|unknown| -unknown).collect();
        for ((slope, reading), residual) in slopes.iter().zip(observed).zip(&residuals) {
            let Some(residual) = residual else { continue };
            let weighted = residual / (reading.error * reading.error);
            downhill.iter_mut().zip(slope).for_each(|(downhill, slope)| *downhill += slope * weighted);
        }
        let step = normal.solve(&downhill);
        let there: Vec<f64> = at.iter().zip(&step).map(|(at, step)| at + step).collect();
        let before = misfit(observed, &values, &at);
        let found = model(&there).ok().filter(|found| misfit(observed, found, &there) <= before);
        let moved = step.iter().fold(0.0_f64, |most, step| most.max(step.abs()));
        match found {
            Some(found) => {
                (at, values, damping) = (there, found, damping / 10.0);
                slopes = self::slopes(&at, &values, effort.difference, &model)?;
                settled = moved <= effort.settled;
            }
            // Uphill by rounding alone is the bottom.
            None => {
                settled = moved <= effort.settled;
                damping = f64::max(damping * 10.0, 1.0);
            }
        }
        if settled {
            break;
        }
    }
    let residuals = residuals(observed, &values);
    let normal = normal(unknowns, observed, &residuals, &slopes, 0.0);
    let covariance = normal.inverse();
    let readings = observed
        .iter()
        .enumerate()
        .map(|(index, reading)| fitted(reading, values[index], residuals[index], &slopes[index], &covariance))
        .collect();
    let misfit = misfit(observed, &values, &at);
    Ok(Fit { unknowns: at, covariance, readings, misfit, settled })
}

/// Slopes of a function of several values by forward differences: one row a result, one column an argument.
///
/// - **Errors**: the function's own.
pub fn slopes<E>(
    at: &[f64],
    values: &[f64],
    difference: f64,
    function: impl Fn(&[f64]) -> Result<Vec<f64>, E>,
) -> Result<Vec<Vec<f64>>, E> {
    let mut slopes = vec![vec![0.0; at.len()]; values.len()];
    let mut beside = at.to_vec();
    for column in 0..at.len() {
        beside[column] = at[column] + difference;
        let found = function(&beside)?;
        beside[column] = at[column];
        for (row, (found, value)) in slopes.iter_mut().zip(found.iter().zip(values)) {
            row[column] = (found - value) / difference;
        }
    }
    Ok(slopes)
}

/// The variance of a straight-line function of unknowns.
///
/// - **Shape**: its slopes and the unknowns' covariance in; slope times covariance times slope out.
#[must_use]
pub fn variance(slope: &[f64], covariance: &[Vec<f64>]) -> f64 {
    let row = |row: &Vec<f64>| row.iter().zip(slope).map(|(entry, slope)| entry * slope).sum::<f64>();
    covariance
        .iter()
        .zip(slope)
        .filter(|(_, slope)| **slope != 0.0)
        .map(|(entries, slope)| slope * row(entries))
        .sum()
}

/// How far each reading lies from what the model makes of it; nothing for a limit that holds.
fn residuals(observed: &[Observed], values: &[f64]) -> Vec<Option<f64>> {
    let residual = |(reading, value): (&Observed, &f64)| {
        let residual = reading.value - value;
        (reading.says == Says::Equal || residual < 0.0).then_some(residual)
    };
    observed.iter().zip(values).map(residual).collect()
}

fn misfit(observed: &[Observed], values: &[f64], unknowns: &[f64]) -> f64 {
    let residuals = residuals(observed, values);
    let of_readings: f64 = residuals
        .iter()
        .zip(observed)
        .filter_map(|(residual, reading)| residual.map(|residual| residual / reading.error))
        .map(|residual| residual * residual)
        .sum();
    of_readings + unknowns.iter().map(|unknown| unknown * unknown).sum::<f64>()
}

/// What the readings and the expectations know of each pair of unknowns.
fn normal(
    unknowns: usize,
    observed: &[Observed],
    residuals: &[Option<f64>],
    slopes: &[Vec<f64>],
    damping: f64,
) -> Cholesky {
    let mut normal = vec![vec![0.0; unknowns]; unknowns];
    for (index, row) in normal.iter_mut().enumerate() {
        row[index] = 1.0 + damping;
    }
    for ((slope, reading), _) in
        slopes.iter().zip(observed).zip(residuals).filter(|(_, residual)| residual.is_some())
    {
        let weight = 1.0 / (reading.error * reading.error);
        for (row, of_row) in slope.iter().enumerate().filter(|(_, slope)| **slope != 0.0) {
            for (entry, of_column) in normal[row][..=row].iter_mut().zip(slope) {
                *entry += of_row * of_column * weight;
            }
        }
    }
    Cholesky::of(normal)
}

fn fitted(
    reading: &Observed,
    value: f64,
    residual: Option<f64>,
    slope: &[f64],
    covariance: &[Vec<f64>],
) -> Fitted {
    let known = variance(slope, covariance);
    let Some(residual) = residual else {
        return Fitted { value, normalised: 0.0, others: value, others_error: known.sqrt() };
    };
    let own = reading.error * reading.error;
    // What is left to the others: a reading that alone says something has nothing to be held against.
    let left = f64::max(1.0 - known / own, 1e-9);
    Fitted {
        value,
        normalised: residual / (own * left).sqrt(),
        others: reading.value - residual / left,
        others_error: (known / left).sqrt(),
    }
}

#[cfg(test)]
mod tests {
    use std::convert::Infallible;

    use units::math;

    use super::*;

    const EFFORT: Effort = Effort { settled: 1e-10, rounds: 50, difference: 1e-6 };

    fn equal(value: f64, error: f64) -> Observed {
        Observed { value, error, says: Says::Equal }
    }

    #[track_caller]
    fn fitted_to(unknowns: usize, observed: &[Observed], model: impl Fn(&[f64]) -> Vec<f64>) -> Fit {
        let found = fit(unknowns, observed, EFFORT, |at| Ok::<_, Infallible>(model(at)));
        found.expect("the model never fails")
    }

    #[test]
    fn one_reading_against_an_expectation_is_their_weighted_mean() {
        // Closed form: 1/(1/e^2 + 1) of variance, value over e^2 times that.
        let found = fitted_to(1, &[equal(2.0, 0.5)], |at| vec![at[0]]);
        assert!((found.unknowns[0] - 1.6).abs() < 1e-9, "2 x 4/5: {found:?}");
        assert!((found.covariance[0][0] - 0.2).abs() < 1e-9, "1/5: {found:?}");
        // The one other opinion is the expectation: 0, give or take 1.
        let reading = found.readings[0];
        assert!(reading.others.abs() < 1e-6 && (reading.others_error - 1.0).abs() < 1e-6, "{reading:?}");
        assert!(
            (reading.normalised - 2.0 / 1.25_f64.sqrt()).abs() < 1e-6,
            "2 over root of 1 + 1/4: {reading:?}"
        );
        assert!((found.misfit - 4.0 / 1.25).abs() < 1e-6, "and its square: {found:?}");
    }

    #[test]
    fn a_bent_model_is_followed() {
        let found = fitted_to(1, &[equal(math::exp(1.5), 1e-6)], |at| vec![math::exp(at[0])]);
        assert!(found.settled && (found.unknowns[0] - 1.5).abs() < 1e-6, "{found:?}");
    }

    #[test]
    fn a_limit_counts_only_where_it_is_broken() {
        let limit = |value| Observed { value, error: 0.1, says: Says::AtMost };
        let held = fitted_to(1, &[limit(1.0)], |at| vec![at[0]]);
        assert_eq!((held.unknowns[0], held.readings[0].normalised), (0.0, 0.0), "nothing to say: {held:?}");
        let broken = fitted_to(1, &[limit(-1.0)], |at| vec![at[0]]);
        assert!((broken.unknowns[0] + 1.0 / 1.01).abs() < 1e-9, "pulled down: {broken:?}");
    }

    #[test]
    fn what_contradicts_the_others_is_told_and_what_it_should_be() {
        let observed = [equal(0.1, 0.1), equal(-0.1, 0.1), equal(0.0, 0.1), equal(1.5, 0.1)];
        let found = fitted_to(1, &observed, |at| vec![at[0]; 4]);
        let worst = found.readings[3];
        assert!(worst.normalised > 8.0, "{worst:?}");
        assert!(worst.others.abs() < 0.01 && worst.others_error < 0.06, "the mean of the others: {worst:?}");
    }

    #[test]
    fn a_model_that_fails_far_out_is_approached_in_shorter_steps() {
        // The straight line at nothing overshoots into where the root is none.
        let model = |at: &[f64]| if at[0] > -1.0 { Ok(vec![(1.0 + at[0]).sqrt()]) } else { Err("slack") };
        let found = fit(1, &[equal(0.1, 0.01)], EFFORT, model).expect("it stands at the start");
        assert!(found.settled && (found.readings[0].value - 0.1).abs() < 0.01, "{found:?}");
    }

    #[test]
    fn a_variance_runs_over_all_pairs() {
        let covariance = [vec![4.0, 1.0], vec![1.0, 9.0]];
        assert_eq!(variance(&[1.0, 2.0], &covariance), 4.0 + 4.0 + 36.0, "a a + 2 a b + b b");
    }
}

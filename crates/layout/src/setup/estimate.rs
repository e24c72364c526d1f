//! What is the instrument that was measured, and which readings do not go with the others?

use mechanics::least_squares::{Effort, Fit, Observed, Says, fit};
use mechanics::random::{normal_limit, squares_limit};
use spec::measured::{Kind, Measured, Reading, ReadingOf};

use super::SetupFault;
use super::unknown::{Unknown, Unknowns};
use super::what_is_read::what_is_read;
use crate::built::{BuiltFault, Deviations, built};
use crate::instrument::Layout;
use crate::playing::Player;

/// The instrument that explains the readings best.
#[derive(Clone, Debug, PartialEq)]
pub struct Estimate {
    /// How far it lies from the plan.
    pub deviations: Deviations,
    /// Everything unknown: first what the instrument is, then what was true only when it was read.
    pub unknowns: Vec<Estimated>,
    /// Covariance of what the instrument is, in square millimetres, in that order.
    pub covariance: Vec<Vec<f64>>,
    /// Each reading, in the order given.
    pub readings: Vec<Judged>,
    /// How many times as far as the document says the frets must stray for the readings to go together; 1 where it is right.
    pub frets_stray: f64,
    /// Chi-square of readings and expectations together, without those set aside.
    pub misfit: f64,
    /// What it stays below in 99 of 100 instruments that are made as well as the document says, and measured as well as is said.
    pub misfit_limit: f64,
}

/// One thing unknown, in millimetres or cents.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Estimated {
    /// What.
    pub unknown: Unknown,
    /// What it is most likely.
    pub value: f64,
    /// One standard deviation of that.
    pub error: f64,
    /// One standard deviation of what was expected beforehand, around the plan.
    pub expected_error: f64,
}

/// A reading beside all others.
#[derive(Clone, Debug, PartialEq)]
pub struct Judged {
    /// The reading.
    pub reading: Reading,
    /// What the estimated instrument would give.
    pub fitted: f64,
    /// What the others and the plan say that it should be.
    pub others: f64,
    /// One standard deviation of that.
    pub others_error: f64,
    /// How far it lies from there, in standard deviations of the difference.
    pub normalised: f64,
    /// Whether it contradicts the others, and was set aside.
    pub is_set_aside: bool,
}

/// How often a sound set of readings may be blamed: one in so many.
const BLAMED_WRONGLY: f64 = 0.01;

/// The share of readings that may be set aside; where more contradict one another, nobody knows which are right.
const MOST_SET_ASIDE: f64 = 0.25;

/// How many times as far as the document says frets may stray, tried in this order until the readings go together.
const STRAYS: [f64; 3] = [1.0, 2.0, 4.0];

const EFFORT: Effort = Effort { settled: 1e-4, rounds: 20, difference: 1e-3 };

impl Estimate {
    /// The readings that contradict the others, the worst first.
    #[must_use]
    pub fn contradictions(&self) -> Vec<&Judged> {
        let mut found: Vec<&Judged> = self.readings.iter().filter(|judged| judged.is_set_aside).collect();
        found.sort_by(|a, b| b.normalised.abs().total_cmp(&a.normalised.abs()));
        found
    }

    /// Whether what is left of the readings goes together, and with the plan's tolerances.
    #[must_use]
    pub fn goes_together(&self) -> bool {
        self.misfit <= self.misfit_limit
    }

    /// One standard deviation of one of the instrument's unknowns, in millimetres; nothing of what is no unknown of it.
    pub(super) fn error_of(&self, unknown: Unknown) -> f64 {
        self.unknowns.iter().find(|estimated| estimated.unknown == unknown).map_or(0.0, |found| found.error)
    }
}

/// The instrument of a plan that explains readings best.
///
/// Where a reading lies too far from what all others say, the frets are first allowed to stray farther than the document says: uneven wires
/// are what is looked for. A reading that still contradicts the others is set aside, the worst first, until none does; it is told with what
/// they make of it.
///
/// - **Shape**: the plan, the player whose buzz was heard, and the readings in; the instrument with its uncertainty out.
/// - **Units**: millimetres and cents.
/// - **Accuracy**: errors are taken as normal and independent; the uncertainty is that of the model's straight line at the answer.
/// - **Errors**: [`SetupFault::CannotBeStrung`] where the plan or the answer cannot be strung.
/// - **Source**: weighted least squares with the document's tolerances as expectations, as told by [`fit`].
pub fn estimate(layout: &Layout, player: &Player, measured: &Measured) -> Result<Estimate, SetupFault> {
    let readings = &measured.readings;
    let mut observed: Vec<Observed> = readings
        .iter()
        .map(|reading| Observed {
            value: reading.value,
            error: reading.error,
            says: if reading.of.kind() == Kind::Buzz { Says::AtMost } else { Says::Equal },
        })
        .collect();
    let of: Vec<ReadingOf> = readings.iter().map(|reading| reading.of).collect();
    let limit = normal_limit(1.0 - BLAMED_WRONGLY / 2.0 / readings.len().max(1) as f64);
    let mut is_set_aside = vec![false; readings.len()];
    let mut may_go = (readings.len() as f64 * MOST_SET_ASIDE).ceil() as usize;
    let mut strays = STRAYS.into_iter();
    let mut times = 1.0;
    let (unknowns, found) = loop {
        times = strays.next().unwrap_or(times);
        let unknowns = Unknowns::of(layout, readings, times);
        let found = fitted(layout, player, &unknowns, &observed, &of)?;
        let sizes = found.readings.iter().map(|fitted| fitted.normalised.abs());
        let worst =
            sizes.enumerate().max_by(|(_, a), (_, b)| a.total_cmp(b)).filter(|(_, size)| *size > limit);
        match worst {
            // A wire that lies higher than anybody planned is what a builder looks for, and no slip of the pen.
            Some(_) if strays.len() > 0 => {}
            Some((index, _)) if may_go > 0 => {
                is_set_aside[index] = true;
                observed[index].error = f64::INFINITY;
                may_go -= 1;
                strays = STRAYS.into_iter();
            }
            _ => break (unknowns, found),
        }
    };
    let judged = readings.iter().zip(&found.readings).zip(&is_set_aside).map(|((reading, fitted), aside)| {
        let apart = (reading.value - fitted.others)
            / (reading.error * reading.error + fitted.others_error * fitted.others_error).sqrt();
        Judged {
            reading: reading.clone(),
            fitted: fitted.value,
            others: fitted.others,
            others_error: fitted.others_error,
            normalised: if *aside { apart } else { fitted.normalised },
            is_set_aside: *aside,
        }
    });
    let scales: Vec<f64> = unknowns.expected.iter().map(|(_, scale)| *scale).collect();
    let values: Vec<f64> = found.unknowns.iter().zip(&scales).map(|(value, scale)| value * scale).collect();
    let count = unknowns.of_instrument();
    let covariance = (0..count).map(|row| {
        (0..count).map(|column| found.covariance[row][column] * scales[row] * scales[column]).collect()
    });
    let estimated =
        unknowns.expected.iter().enumerate().map(|(index, (unknown, expected_error))| Estimated {
            unknown: *unknown,
            value: values[index],
            error: found.covariance[index][index].sqrt() * expected_error,
            expected_error: *expected_error,
        });
    let kept = is_set_aside.iter().filter(|aside| !**aside).count();
    Ok(Estimate {
        deviations: unknowns.state(layout, values.iter().copied()).deviations,
        unknowns: estimated.collect(),
        covariance: covariance.collect(),
        readings: judged.collect(),
        frets_stray: times,
        misfit: found.misfit,
        misfit_limit: if kept == 0 { 0.0 } else { squares_limit(kept, 1.0 - BLAMED_WRONGLY) },
    })
}

fn fitted(
    layout: &Layout,
    player: &Player,
    unknowns: &Unknowns,
    observed: &[Observed],
    of: &[ReadingOf],
) -> Result<Fit, BuiltFault> {
    fit(unknowns.expected.len(), observed, EFFORT, |at| {
        let values = at.iter().zip(&unknowns.expected).map(|(at, (_, scale))| at * scale);
        let state = unknowns.state(layout, values);
        let built = built(layout, player, &state.deviations)?;
        Ok(of.iter().map(|of| what_is_read(layout, &state, &built, *of)).collect())
    })
}

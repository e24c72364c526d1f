//! How does what an instrument does answer to what it is?

use mechanics::least_squares::{slopes, variance};

use super::SetupFault;
use super::estimate::Estimate;
use super::unknown::Unknown;
use crate::built::{Built, BuiltFault, Deviations, built};
use crate::instrument::Layout;
use crate::playing::Player;

/// The step of finite differences, in millimetres: what [`built()`] bends over it is far below any reading.
const DIFFERENCE_MM: f64 = 1e-3;

/// Slopes of everything that is foretold, at the estimated instrument.
///
/// What is foretold of each string comes in a row: action, drift, the error of each note, the room over each later fret.
#[derive(Clone, Debug)]
pub(super) struct Sensitivity {
    unknowns: Vec<Unknown>,
    slopes: Vec<Vec<f64>>,
    /// Of each result, from not knowing the instrument better.
    variances: Vec<f64>,
}

/// Variances that work adds, in square millimetres, by unknown.
#[derive(Clone, Debug, Default)]
pub(super) struct Worked(pub(super) Vec<(Unknown, f64)>);

impl Sensitivity {
    pub(super) fn of(layout: &Layout, player: &Player, estimate: &Estimate) -> Result<Self, SetupFault> {
        let count = estimate.covariance.len();
        let unknowns: Vec<Unknown> =
            estimate.unknowns[..count].iter().map(|estimated| estimated.unknown).collect();
        let values = results(&built(layout, player, &estimate.deviations)?);
        let beside = |at: &[f64]| -> Result<Vec<f64>, BuiltFault> {
            let mut deviations: Deviations = estimate.deviations.clone();
            let moved = unknowns.iter().zip(at).filter(|(_, by)| **by != 0.0);
            moved.for_each(|(unknown, by)| unknown.move_by(&mut deviations, *by));
            Ok(results(&built(layout, player, &deviations)?))
        };
        let slopes = slopes(&vec![0.0; count], &values, DIFFERENCE_MM, beside)?;
        let variances = slopes.iter().map(|slope| variance(slope, &estimate.covariance)).collect();
        Ok(Self { unknowns, slopes, variances })
    }

    /// One standard deviation of each result, after work.
    pub(super) fn errors(&self, worked: &Worked) -> Vec<f64> {
        let columns: Vec<(usize, f64)> = worked
            .0
            .iter()
            .filter_map(|(unknown, added)| {
                Some((self.unknowns.iter().position(|known| known == unknown)?, *added))
            })
            .collect();
        let added = |slope: &Vec<f64>| -> f64 {
            columns.iter().map(|(column, added)| slope[*column] * slope[*column] * added).sum()
        };
        self.variances
            .iter()
            .zip(&self.slopes)
            .map(|(variance, slope)| (variance + added(slope)).max(0.0).sqrt())
            .collect()
    }
}

/// Everything that is foretold, in the order of [`Sensitivity`].
fn results(built: &Built) -> Vec<f64> {
    let mut results = Vec::new();
    for string in &built.strings {
        results.extend([string.action.as_mm(), string.drift_cents_per_mm]);
        results.extend(&string.cents);
        results.extend(string.margins.iter().map(|margin| margin.room().as_mm()));
    }
    results
}

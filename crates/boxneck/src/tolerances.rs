//! How far do instruments of one plan differ, when every core of the machine draws its share of them?

use layout::built::BuiltFault;
use layout::tolerances::{ToleranceReport, Trial, report, trial};
use rayon::prelude::*;

use crate::instrument::Instrument;

/// How instruments of a plan differ that are made as well as the document says.
///
/// Each is drawn from the player's seed and its own index, and all are summed up in that order: the number of threads changes
/// nothing.
///
/// - **Shape**: an instrument and how many to draw in; one report out.
/// - **Accuracy**: that of [`report()`]; 2000 instruments leave 2 % of a deviation in each mean.
///
/// # Errors
///
/// [`BuiltFault`] when tolerances are so wide that some instrument could not be strung; of several, that of the first.
pub fn tolerances(instrument: &Instrument, instruments: u32) -> Result<ToleranceReport, BuiltFault> {
    let (layout, player) = (instrument.layout(), instrument.playing().player());
    let drawn: Vec<Result<Trial, BuiltFault>> = (0..instruments)
        .into_par_iter()
        .map(|index| trial(layout, player, player.seed, u64::from(index)))
        .collect();
    let trials: Vec<Trial> = drawn.into_iter().collect::<Result<_, _>>()?;
    report(layout, player, &trials)
}

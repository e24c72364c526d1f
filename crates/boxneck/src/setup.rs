//! What is to be done to an instrument that is built, strung and measured?

use layout::setup::{Estimate, SetupFault, WorkOrder, estimate, work_order};
use spec::measured::Measured;
use spec::{Checked, Document};

use crate::instrument::Instrument;

/// What an instrument really is, and what makes it play as it was meant to.
#[derive(Clone, Debug, PartialEq)]
pub struct Setup {
    /// The instrument that explains the readings best.
    pub estimate: Estimate,
    /// What is to be done to it.
    pub order: WorkOrder,
}

/// In which of two ways readings are written down.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MeasuredFormat {
    /// TOML, a section a kind.
    Toml,
    /// CSV, a row a reading.
    Csv,
}

impl Setup {
    /// Whether readings go together and, once the work is done, every string is as low as wanted, free of buzz and in tune.
    #[must_use]
    pub fn holds(&self) -> bool {
        self.estimate.contradictions().is_empty()
            && self.order.is_low_enough()
            && self.order.is_free()
            && self.order.is_in_tune()
    }
}

/// The readings of a file on an instrument, with all its faults in one go.
#[must_use]
pub fn measured(instrument: &Instrument, file: &Document, format: MeasuredFormat) -> Checked<Measured> {
    // A plan has at most 48 frets.
    let frets = instrument.layout().frets().frets.len() as u8;
    match format {
        MeasuredFormat::Toml => Measured::of_toml(file, instrument.spec(), frets),
        MeasuredFormat::Csv => Measured::of_csv(file, instrument.spec(), frets),
    }
}

/// Estimates what a measured instrument is, and works out what is to be done to it.
///
/// - **Shape**: the instrument as planned and its readings in; estimate and work order out.
/// - **Accuracy**: that of [`estimate`] and [`work_order`].
///
/// # Errors
///
/// [`SetupFault`] where the instrument that the readings describe cannot be strung, or nothing frees its strings.
pub fn setup(instrument: &Instrument, measured: &Measured) -> Result<Setup, SetupFault> {
    let (layout, player) = (instrument.layout(), instrument.playing().player());
    let estimate = estimate(layout, player, measured)?;
    let order = work_order(layout, player, &estimate)?;
    Ok(Setup { estimate, order })
}

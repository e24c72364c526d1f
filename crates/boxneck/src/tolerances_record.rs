//! How does another program read how instruments of one plan differ?

use layout::tolerances::{Care, Spread, ToleranceReport};
use serde_json::{Value, json};
use spec::Choice;

use crate::instrument::Instrument;
use crate::record_number::{mm, tidy};

/// The object under the key `tolerances`: outcomes in the units that their names end in, dimensions by the keys of the document.
#[must_use]
pub fn tolerances_record(instrument: &Instrument, report: &ToleranceReport) -> Value {
    json!({
        "instruments": report.instruments,
        "seed": instrument.playing().player().seed,
        "made_with": instrument.spec().tolerances.made_with.word(),
        "free_of_buzz_share": report.free_of_buzz,
        "outcomes": report.spreads.iter().map(spread).collect::<Vec<_>>(),
        "care": report.care.iter().map(care).collect::<Vec<_>>(),
    })
}

fn spread(spread: &Spread) -> Value {
    json!({
        "outcome": spread.outcome.id(),
        "planned": tidy(spread.planned),
        "mean": tidy(spread.mean),
        "standard_deviation": tidy(spread.deviation),
        "quantile_5_percent": tidy(spread.low),
        "quantile_95_percent": tidy(spread.high),
        "first_order_deviation": tidy(spread.first_order_deviation),
        "causes": spread.causes.iter().map(|cause| json!({
            "dimension": cause.dimension.key(),
            "share_of_variance": tidy(cause.share),
            "first_order_share": tidy(cause.first_order_share),
        })).collect::<Vec<_>>(),
    })
}

fn care(care: &Care) -> Value {
    json!({
        "dimension": care.dimension.key(),
        "held_to_mm": mm(care.held_to),
        "mean_share": tidy(care.mean_share),
    })
}

//! What does the bench page say about how instruments of one plan differ?

use layout::tolerances::{Care, Outcome, ToleranceReport};
use spec::Choice;

use super::line;
use crate::instrument::Instrument;

/// The least share of one outcome's spread that is worth a word beside a dimension.
const WORTH_SAYING: f64 = 0.1;

/// How many outcomes are named beside a dimension: as many as a line holds.
const OUTCOMES_NAMED: usize = 3;

/// The section on how well each dimension is held: how the outcomes spread, and what to take most care with.
#[must_use]
pub fn tolerances_page(instrument: &Instrument, report: &ToleranceReport) -> String {
    let mut page = String::new();
    spreads(&mut page, instrument, report);
    care(&mut page, report);
    page
}

fn spreads(page: &mut String, instrument: &Instrument, report: &ToleranceReport) {
    let spec = instrument.spec();
    line!(page);
    line!(
        page,
        "TOLERANCES  {} instruments of this plan made with {}, before anything is adjusted (seed {})",
        report.instruments,
        spec.tolerances.made_with.word(),
        instrument.playing().player().seed,
    );
    line!(
        page,
        "  {:<26} {:>9} {:>9} {:>14} {:>20}",
        "",
        "on plan",
        "mean",
        "one deviation",
        "nine of ten between"
    );
    for spread in &report.spreads {
        let what = match spread.outcome {
            Outcome::Action => format!("action at fret {}", spec.action.fret),
            outcome => outcome.words().to_owned(),
        };
        line!(
            page,
            "  {:<26} {:>9.2} {:>9.2} {:>14.2} {:>20}",
            format!("{what}, {}", spread.outcome.unit()),
            spread.planned,
            spread.mean,
            spread.deviation,
            format!("{:.2} and {:.2}", spread.low, spread.high),
        );
    }
    if let Some(share) = report.free_of_buzz {
        line!(page, "  {:.0} % of them are free of buzz", share * 100.0);
    }
}

fn care(page: &mut String, report: &ToleranceReport) {
    line!(
        page,
        "  take most care with (shares of a spread, its variance, that would go if that alone were perfect)"
    );
    for (place, care) in report.care.iter().enumerate() {
        // To a micrometre: a string's diameter is held to a few of them.
        let held_to_mm = (care.held_to.as_mm() * 1e3).round() / 1e3;
        line!(page, "  {:>3}  {}, held to {held_to_mm} mm", place + 1, care.dimension.words());
        line!(page, "       {}", shares(care));
    }
}

/// "64 % of the spread in action, 30 % in worst error".
fn shares(care: &Care) -> String {
    let worth_saying = care.shares.iter().filter(|(_, share)| *share >= WORTH_SAYING).take(OUTCOMES_NAMED);
    let said: Vec<String> = worth_saying
        .enumerate()
        .map(|(place, (outcome, share))| {
            let of = if place == 0 { "of the spread in" } else { "in" };
            format!("{:.0} % {of} {}", share.min(1.0) * 100.0, outcome.words())
        })
        .collect();
    if said.is_empty() {
        return format!("less than {:.0} % of any spread", WORTH_SAYING * 100.0);
    }
    said.join(", ")
}

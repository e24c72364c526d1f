//! How does another program read what a measured instrument is, and what is to be done to it?

use layout::setup::{Contact, Estimated, Judged, Outlook, Step, StringOutlook, Uncertain, Unknown, Work};
use serde_json::{Value, json};

use crate::instrument::Instrument;
use crate::record_number::{deg, mm, tidy};
use crate::setup::Setup;

/// The object under the key `setup`: what was read, what the instrument is, how it plays, and the steps with what to expect after each.
/// Strings and frets are counted as players do, string 1 at the treble edge; lists of strings run from bass to treble.
#[must_use]
pub fn setup_record(instrument: &Instrument, setup: &Setup) -> Value {
    let (estimate, order) = (&setup.estimate, &setup.order);
    json!({
        "holds": setup.holds(),
        "readings": estimate.readings.iter().map(reading).collect::<Vec<_>>(),
        "misfit": { "chi_square": tidy(estimate.misfit), "limit": tidy(estimate.misfit_limit) },
        "frets_stray_times": tidy(estimate.frets_stray),
        "estimate": estimate.unknowns.iter().map(estimated).collect::<Vec<_>>(),
        "now": outlook(&order.now),
        "steps": order.steps.iter().map(step).collect::<Vec<_>>(),
        "done": outlook(order.done()),
        "wanted_action_mm": mm(instrument.spec().action.height),
        "above_wanted_mm": mm(order.above_wanted),
        "unmeasured_frets": order.unmeasured,
        "accepted_probability": tidy(order.accepted_probability),
        "is_free_of_buzz": order.is_free(),
        "is_in_tune": order.is_in_tune(),
    })
}

fn reading(judged: &Judged) -> Value {
    json!({
        "what": judged.reading.of.kind().word(),
        "of": judged.reading.of.to_string(),
        "unit": judged.reading.of.kind().unit(),
        "read": tidy(judged.reading.value),
        "error": tidy(judged.reading.error),
        "fitted": tidy(judged.fitted),
        "others_say": tidy(judged.others),
        "others_error": tidy(judged.others_error),
        "normalised_residual": tidy(judged.normalised),
        "set_aside": judged.is_set_aside,
    })
}

fn estimated(estimated: &Estimated) -> Value {
    let (what, number) = match estimated.unknown {
        Unknown::Part { dimension, number } => (dimension.key(), number),
        Unknown::Bow => ("bow", 0),
        Unknown::Straightedge { at_last_fret } => ("straightedge", usize::from(at_last_fret)),
        Unknown::OpenPitch { string } => ("open_pitch", string),
    };
    json!({
        "unknown": what,
        "number": number,
        "value": tidy(estimated.value),
        "standard_deviation": tidy(estimated.error),
        "expected_standard_deviation": tidy(estimated.expected_error),
    })
}

fn outlook(outlook: &Outlook) -> Value {
    let contact = |contact: &Contact| {
        json!({
            "fretted": contact.fretted,
            "over": contact.over,
            "room_mm": uncertain(contact.room),
            "probability": tidy(contact.probability),
        })
    };
    let string = |string: &StringOutlook| {
        json!({
            "string": string.number.0,
            "action_mm": uncertain(string.action),
            "drift_cents_per_mm": uncertain(string.drift),
            "rms_cents": tidy(string.rms_cents()),
            "cents": string.cents.iter().copied().map(uncertain).collect::<Vec<_>>(),
            "tightest": string.contacts.iter().map(contact).collect::<Vec<_>>(),
        })
    };
    outlook.strings.iter().map(string).collect()
}

fn uncertain(number: Uncertain) -> Value {
    let told = |value: f64| value.is_finite().then(|| tidy(value));
    json!({ "value": told(number.value), "standard_deviation": told(number.error) })
}

fn step(step: &Step) -> Value {
    let work = match &step.work {
        Work::ChangeString { number, from, to } => {
            json!({ "kind": "change string", "string": number.0, "from_mm": mm(*from), "to_mm": mm(*to) })
        }
        Work::MoveTail { up } => json!({ "kind": "move tail", "up_mm": mm(*up) }),
        Work::LowerNut { by } => json!({ "kind": "lower nut", "by_mm": mm(*by) }),
        Work::TapWires { taps } => json!({
            "kind": "tap wires",
            "taps": taps.iter().map(|(fret, tap)| json!({ "fret": fret, "down_mm": mm(*tap) })).collect::<Vec<_>>(),
        }),
        Work::SetSaddleHeight { bass, treble } => {
            json!({ "kind": "set saddle height", "bass_up_mm": mm(*bass), "treble_up_mm": mm(*treble) })
        }
        Work::SlideSaddle { bass, treble, turned } => json!({
            "kind": "slide saddle",
            "bass_toward_tail_mm": mm(*bass),
            "treble_toward_tail_mm": mm(*treble),
            "turned_deg": deg(*turned),
        }),
    };
    json!({ "work": work, "after": outlook(&step.after) })
}

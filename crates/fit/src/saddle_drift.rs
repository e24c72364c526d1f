//! saddle-drift: can the saddle be slid for intonation without the open string running away?
//!
//! A string that breaks steeply over the saddle is pulled longer when the saddle moves back, and goes sharp; then the
//! saddle would have to go back farther still, and the intonation is never reached.

use layout::playing::StringDrift;

use crate::finding::{Bound, Check, Finding, Limits, Measure, Severity, Source, about_string};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "saddle-drift",
    measures: "what the open string drifts when the saddle is slid by 1 mm, whichever way",
    cures: &["tail.hole_height", "tail.distance", "neck.back_angle"],
};

/// About 3 cents flat is what lengthening alone does; above the warning a builder chases the pitch, above the failure the
/// setback that intonation needs moves the open string by more than a quarter tone.
const LIMITS: Limits = Limits {
    bound: Bound::AtMost,
    warn: Measure::Cents(6.0),
    fail: Measure::Cents(40.0),
    source: Source::CommonPractice,
};

pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    subject
        .layout()
        .strings()
        .iter()
        .zip(subject.playing().string_drifts())
        .filter(|(_, drift)| drift.cents_per_mm.is_finite())
        .map(|(string, drift)| {
            let finding = LIMITS.judge(CHECK, about_string(string), Measure::Cents(drift.cents_per_mm.abs()));
            // A cure is sought only for what ails.
            let ails = finding.severity > Severity::Pass;
            let advice = ails.then(|| subject.playing().drift().advice.as_ref()).flatten();
            let cure = advice.map(|advice| {
                format!(
                    "holes at {} above the lid instead of {} leave {:.1} cents at the worst string",
                    advice.hole_height,
                    subject.layout().spec().tail.hole_height,
                    advice.worst_cents
                )
            });
            let words = [Some(way(drift)), cure].into_iter().flatten().collect::<Vec<_>>().join("; ");
            Finding { detail: Some(words), ..finding }
        })
        .collect()
}

fn way(drift: &StringDrift) -> String {
    let pitch = if drift.cents_per_mm > 0.0 { "sharp" } else { "flat" };
    let dragged = drift.dragged_cents;
    format!("moving the saddle back makes it {pitch}; with friction {dragged:+.1} cents")
}

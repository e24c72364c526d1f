//! button-reach: do the tuners' buttons stand out far enough beside the headstock to be turned?

use units::Length;

use crate::finding::{Bound, Check, Concern, Finding, Limits, Measure, Source};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "button-reach",
    measures: "how far the tuner's button stands out beside the headstock",
    cures: &["neck.width_at_nut", "headstock.tuner_rows", "headstock.tuner_bore"],
};

/// Below the one there is no room for a finger behind it, below the other it hides under the headstock.
const LIMITS: Limits = Limits {
    bound: Bound::AtLeast,
    warn: Measure::Length(Length::mm(8.0)),
    fail: Measure::Length(Length::ZERO),
    source: Source::CommonPractice,
};

/// Each stands out at the side of the headstock that is nearer to its post; one beside the headstock hides nowhere.
pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let layout = subject.layout();
    let [reach, _] = layout.spec().headstock.tuner_button;
    layout
        .strings()
        .iter()
        .zip(layout.tuners())
        .map(|(string, tuner)| {
            let beside = |side| layout.headstock().beside(tuner.bore, side);
            let [one, other] = [1.0, -1.0].map(|side| beside(side).unwrap_or(Length::ZERO));
            let out = reach - one.min(other);
            LIMITS.judge(CHECK, Concern::Tuner(string.number), Measure::Length(out))
        })
        .collect()
}

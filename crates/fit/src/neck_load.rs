//! neck-load: does the neck carry the strings, and stay straight enough?

use units::Length;

use crate::finding::{Bound, Check, Concern, Finding, Limits, Measure, Source};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "neck-load",
    measures: "how far the strings lift the zero fret against the box",
    cures: &["neck.thickness", "neck.width_at_box", "heel.reach", "neck.wood"],
};

/// Above the one the action wanders with the weather and creeps, above the other the neck folds up.
const LIMITS: Limits = Limits {
    bound: Bound::AtMost,
    warn: Measure::Length(Length::mm(4.0)),
    fail: Measure::Length(Length::mm(12.0)),
    source: Source::CommonPractice,
};

pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let load = subject.playing().neck();
    let finding = LIMITS.judge(CHECK, Concern::Part("neck"), Measure::Length(load.droop));
    let settled = if load.settled { "" } else { "; strings and neck do not come to rest: the neck buckles" };
    let words = format!("the strings pull {} together{settled}", load.tension);
    let severity = if load.settled { finding.severity } else { crate::finding::Severity::Fail };
    vec![Finding { severity, detail: Some(words), ..finding }]
}

//! neck-relief: does the neck stay straight enough to be played on?

use units::Length;

use crate::finding::{Bound, Check, Concern, Finding, Limits, Measure, Source};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "neck-relief",
    measures: "how far the strings bow the neck between zero fret and saddle",
    cures: &["neck.thickness", "neck.width_at_box", "neck.width_at_nut", "heel.reach", "neck.wood"],
};

/// Above the one the middle frets play higher than the plan says when the weather changes, above the other the action over
/// them is twice what a player expects.
const LIMITS: Limits = Limits {
    bound: Bound::AtMost,
    warn: Measure::Length(Length::mm(1.0)),
    fail: Measure::Length(Length::mm(3.0)),
    source: Source::CommonPractice,
};

/// Without frets there is nothing to be bowed; a neck that does not come to rest is told by its load.
pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let load = subject.playing().neck();
    if subject.layout().frets().frets.is_empty() || !load.settled {
        return Vec::new();
    }
    vec![LIMITS.judge(CHECK, Concern::Part("neck"), Measure::Length(load.relief))]
}

//! ball-held: is the string's bore narrow enough to hold a ball end?

use units::Length;

use crate::finding::{Bound, Check, Concern, Finding, Limits, Measure, Source};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "ball-held",
    measures: "the diameter of the strings' bores, against which the ball ends pull",
    cures: &["tail.hole_bore"],
};

/// Ball ends are about 4 mm across. Above the one they sink into the wood, above the other they slip through.
const LIMITS: Limits = Limits {
    bound: Bound::AtMost,
    warn: Measure::Length(Length::mm(2.6)),
    fail: Measure::Length(Length::mm(3.6)),
    source: Source::CommonPractice,
};

pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let bore = subject.layout().spec().tail.hole_bore;
    vec![LIMITS.judge(CHECK, Concern::Part("tail"), Measure::Length(bore))]
}

//! heel-reach: does the heel leave the hand some neck?

use units::Length;

use crate::finding::{Bound, Check, Concern, Finding, Limits, Measure, Source};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "heel-reach",
    measures: "the free neck between the zero fret and the heel",
    cures: &["heel.reach", "scale.length", "box.length"],
};

/// Below the one there is no room for a hand, below the other the heel stands under the nut and not under the neck.
const LIMITS: Limits = Limits {
    bound: Bound::AtLeast,
    warn: Measure::Length(Length::mm(80.0)),
    fail: Measure::Length(Length::ZERO),
    source: Source::CommonPractice,
};

pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let Some(heel) = subject.layout().heel() else { return Vec::new() };
    vec![LIMITS.judge(CHECK, Concern::Part("heel-block"), Measure::Length(heel.front_x))]
}

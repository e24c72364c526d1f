//! heel-in-box: does the heel end above the underside of the box?

use units::Length;

use crate::finding::{Bound, Check, Concern, Finding, Limits, Measure, Source};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "heel-in-box",
    measures: "how far above the underside of the box the heel ends",
    cures: &["heel.depth", "box.depth"],
};

/// Below the one the heel has no wall to stand against and is knocked off, below the other it is mostly that.
const LIMITS: Limits = Limits {
    bound: Bound::AtLeast,
    warn: Measure::Length(Length::ZERO),
    fail: Measure::Length(Length::mm(-10.0)),
    source: Source::CommonPractice,
};

pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let layout = subject.layout();
    let Some(heel) = layout.heel() else { return Vec::new() };
    let above = layout.frame().above_at(heel.bottom_z, Length::ZERO) + layout.spec().body.depth;
    vec![LIMITS.judge(CHECK, Concern::Part("heel-block"), Measure::Length(above))]
}

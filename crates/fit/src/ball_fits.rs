//! ball-fits: does a ball end go into its counterbore?

use units::Length;

use crate::finding::{Bound, Check, Concern, Finding, Limits, Measure, Source};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "ball-fits",
    measures: "the diameter of the counterbores for the ball ends",
    cures: &["tail.ball_bore", "tail.ball_depth"],
};

/// Ball ends are about 4 mm across. Below the one they must be pressed in, below the other they stay outside.
const LIMITS: Limits = Limits {
    bound: Bound::AtLeast,
    warn: Measure::Length(Length::mm(4.2)),
    fail: Measure::Length(Length::mm(3.8)),
    source: Source::CommonPractice,
};

pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let tail = &subject.layout().spec().tail;
    if tail.ball_depth == Length::ZERO {
        return Vec::new();
    }
    vec![LIMITS.judge(CHECK, Concern::Part("tail"), Measure::Length(tail.ball_bore))]
}

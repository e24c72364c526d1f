//! saddle-slender: does a saddle that is let in stand too tall for its pocket?
//!
//! How a floating saddle stands is `saddle_stands`'s to say: where the push lands says more than a ratio.

use units::Length;

use crate::finding::{Bound, Check, Concern, Finding, Limits, Measure, Source};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "saddle-slender",
    measures: "the height of the saddle over the lid as a share of its thickness",
    cures: &["saddle.thickness", "neck.face_above_lid", "neck.back_angle", "action.height"],
};

/// Above the one a push that leans by 8 deg, as it does while a string is tuned, passes beside the foot; above the other one that
/// leans by 4 deg does, and levers the pocket's edge out of the lid.
const LIMITS: Limits = Limits {
    bound: Bound::AtMost,
    warn: Measure::Share(3.5),
    fail: Measure::Share(7.0),
    source: Source::CommonPractice,
};

pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let saddle = subject.layout().saddle();
    if saddle.let_in == Length::ZERO {
        return Vec::new();
    }
    let height = saddle.crests.iter().map(|crest| crest.above).fold(Length::ZERO, Length::max);
    vec![LIMITS.judge(CHECK, Concern::Part("saddle"), Measure::Share(height / saddle.thickness))]
}

//! plank-width: is the plank in hand wide enough for the stick?

use crate::finding::{Bound, Check, Concern, Finding, Limits, Measure, Source};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "plank-width",
    measures: "the width of the plank in hand",
    cures: &["neck.width_at_box", "neck.width_at_nut"],
};

/// A plank that nobody measured is not judged.
pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let Some(plank) = subject.layout().spec().plank.width else { return Vec::new() };
    let stick = Measure::Length(subject.layout().stick_width());
    let limits = Limits { bound: Bound::AtLeast, warn: stick, fail: stick, source: Source::Geometry };
    vec![limits.judge(CHECK, Concern::Part("neck"), Measure::Length(plank))]
}

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
    let (neck, plank) = (subject.layout().neck(), &subject.layout().spec().plank);
    let Some(plank) = plank.width else { return Vec::new() };
    let stick = Measure::Length(neck.width_at_nut.max(neck.width_at_box));
    let limits = Limits { bound: Bound::AtLeast, warn: stick, fail: stick, source: Source::Geometry };
    vec![limits.judge(CHECK, Concern::Part("neck"), Measure::Length(plank))]
}

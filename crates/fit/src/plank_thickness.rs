//! plank-thickness: is the plank in hand thick enough for the stick?

use crate::finding::{Bound, Check, Concern, Finding, Limits, Measure, Source};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "plank-thickness",
    measures: "the thickness of the plank in hand",
    cures: &["neck.thickness"],
};

/// A plank that nobody measured is not judged.
pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let (neck, plank) = (subject.layout().neck(), &subject.layout().spec().plank);
    let Some(plank) = plank.thickness else { return Vec::new() };
    let stick = Measure::Length(neck.top_z - neck.bottom_z);
    let limits = Limits { bound: Bound::AtLeast, warn: stick, fail: stick, source: Source::Geometry };
    vec![limits.judge(CHECK, Concern::Part("neck"), Measure::Length(plank))]
}

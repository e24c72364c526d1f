//! plank-length: is the plank in hand long enough for the stick?

use crate::finding::{Bound, Check, Concern, Finding, Limits, Measure, Source};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "plank-length",
    measures: "the length of the plank in hand",
    cures: &["headstock.length", "neck.tail_overhang", "scale.length"],
};

/// A plank that nobody measured is not judged.
pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let (neck, plank) = (subject.layout().neck(), &subject.layout().spec().plank);
    let Some(plank) = plank.length else { return Vec::new() };
    let stick = Measure::Length(neck.length());
    let limits = Limits { bound: Bound::AtLeast, warn: stick, fail: stick, source: Source::Geometry };
    vec![limits.judge(CHECK, Concern::Part("neck"), Measure::Length(plank))]
}

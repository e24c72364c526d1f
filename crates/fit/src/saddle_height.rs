//! saddle-height: is the saddle tall enough for its own crest?

use units::Length;

use crate::finding::{Bound, Check, Concern, Finding, Limits, Measure, Source};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "saddle-height",
    measures: "the height of the lowest crest over the lid",
    cures: &["action.height", "neck.face_above_lid", "neck.back_angle", "saddle.thickness"],
};

pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let crests = subject.layout().saddle().crests.iter().map(|crest| crest.above);
    // What the flanks fall from the crest, and a side to hold the saddle by.
    let least = Measure::Length(parts::least_crest_height(subject.layout()));
    let limits = Limits { bound: Bound::AtLeast, warn: least, fail: least, source: Source::Geometry };
    crests
        .reduce(Length::min)
        .map(|lowest| limits.judge(CHECK, Concern::Part("saddle"), Measure::Length(lowest)))
        .into_iter()
        .collect()
}

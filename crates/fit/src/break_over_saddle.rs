//! break-over-saddle: does the string press on the saddle, and not too hard?

use units::Angle;

use crate::finding::{Bound, Check, Finding, Limits, Measure, Source, about_string, judge_between};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "break-over-saddle",
    measures: "the angle through which the string breaks over the saddle",
    cures: &["tail.hole_height", "tail.distance", "neck.back_angle"],
};

/// Below these the string buzzes on the saddle or leaves its place.
const SHALLOW: Limits = Limits {
    bound: Bound::AtLeast,
    warn: Measure::Angle(Angle::degrees(4.0)),
    fail: Measure::Angle(Angle::degrees(1.0)),
    source: Source::CommonPractice,
};

/// Above these friction and wear are large, and the open string runs sharp when the saddle is moved back.
const STEEP: Limits = Limits {
    bound: Bound::AtMost,
    warn: Measure::Angle(Angle::degrees(25.0)),
    fail: Measure::Angle(Angle::degrees(60.0)),
    source: Source::CommonPractice,
};

pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    subject
        .layout()
        .strings()
        .iter()
        .map(|string| {
            // A string that rises from the saddle to the tail does not press on it at all.
            let falls =
                string.front_angle(subject.layout().frame()) + string.tail_angle(subject.layout().frame());
            let found = Measure::Angle(string.break_at_saddle().min(falls));
            judge_between([&SHALLOW, &STEEP], CHECK, &about_string(string), found)
        })
        .collect()
}

//! break-over-nut: does the string press on the zero fret, and not too hard?

use units::Angle;

use crate::finding::{Bound, Check, Finding, Limits, Measure, Source, about_string, judge_between};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "break-over-nut",
    measures: "the angle through which the string falls from the zero fret to its post",
    cures: &["headstock.post_height", "headstock.thickness", "zero_fret.crown_height"],
};

/// Below these the string rattles on the zero fret.
const SHALLOW: Limits = Limits {
    bound: Bound::AtLeast,
    warn: Measure::Angle(Angle::degrees(3.0)),
    fail: Measure::Angle(Angle::degrees(0.5)),
    source: Source::CommonPractice,
};

/// Above these it binds when it is tuned.
const STEEP: Limits = Limits {
    bound: Bound::AtMost,
    warn: Measure::Angle(Angle::degrees(20.0)),
    fail: Measure::Angle(Angle::degrees(45.0)),
    source: Source::CommonPractice,
};

pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    subject
        .layout()
        .strings()
        .iter()
        .map(|string| {
            let fall = Measure::Angle(string.fall_behind_zero_fret());
            judge_between([&SHALLOW, &STEEP], CHECK, &about_string(string), fall)
        })
        .collect()
}

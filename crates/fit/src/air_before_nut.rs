//! air-before-nut: does a string clear the end of the neck on its way down to the nut?

use units::Length;

use crate::finding::{Bound, Check, Finding, Limits, Measure, Source, about_string};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "air-before-nut",
    measures: "the air between the string and the neck's end just before the nut",
    cures: &["zero_fret.crown_height", "headstock.post_height", "headstock.thickness"],
};

/// Below the one it buzzes on the neck's end behind the zero fret, below the other it lies on it and leaves the slot.
const LIMITS: Limits = Limits {
    bound: Bound::AtLeast,
    warn: Measure::Length(Length::mm(0.2)),
    fail: Measure::Length(Length::ZERO),
    source: Source::CommonPractice,
};

/// The zero fret's crown stands on the same surface that ends at the nut; a round board's fall between the two is left out.
pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let crown = subject.layout().spec().zero_fret.crown_height;
    subject
        .layout()
        .strings()
        .iter()
        .map(|string| {
            let fall = string.zero_fret.z - string.nut.z;
            LIMITS.judge(CHECK, about_string(string), Measure::Length(crown - fall))
        })
        .collect()
}

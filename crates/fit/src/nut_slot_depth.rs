//! nut-slot-depth: does a string lie too deep in the nut?

use units::Length;

use crate::finding::{Bound, Check, Finding, Limits, Measure, Source, about_string};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "nut-slot-depth",
    measures: "how much deeper than the string is thick its slot in the nut is",
    cures: &["fretboard.radius", "strings.N.diameter"],
};

/// The nut's top is level over the thickest string and over the middle of a round board. Above the one the thin and the outer
/// strings hide between walls that must be filed down, above the other a file does not reach the floor.
const LIMITS: Limits = Limits {
    bound: Bound::AtMost,
    warn: Measure::Length(Length::mm(2.0)),
    fail: Measure::Length(Length::mm(6.0)),
    source: Source::CommonPractice,
};

pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let nut = subject.layout().nut();
    subject
        .layout()
        .strings()
        .iter()
        .zip(&nut.slots)
        .map(|(string, slot)| {
            let beyond = nut.top_z - slot.front.z - string.diameter;
            LIMITS.judge(CHECK, about_string(string), Measure::Length(beyond))
        })
        .collect()
}

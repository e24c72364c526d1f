//! string-gap-at-saddle: is there room for a finger between neighbouring strings where they are plucked?

use units::Length;

use crate::finding::{Bound, Check, Finding, Limits, Measure, Source};
use crate::string_gap::gaps;
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "string-gap-at-saddle",
    measures: "the distance at the saddle to the next string toward bass, edge to edge",
    cures: &["saddle.spread", "nut.spacing"],
};

/// Below the one a finger plucks two at once, below the other they strike one another.
const LIMITS: Limits = Limits {
    bound: Bound::AtLeast,
    warn: Measure::Length(Length::mm(6.0)),
    fail: Measure::Length(Length::mm(1.0)),
    source: Source::CommonPractice,
};

pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    gaps(subject, CHECK, &LIMITS, |string| string.saddle)
}

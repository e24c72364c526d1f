//! string-gap: is there room for a finger between neighbouring strings?

use layout::{Place, StringPath};
use units::Length;

use crate::finding::{Bound, Check, Finding, Limits, Measure, Source, about_string};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "string-gap",
    measures: "the distance at the nut to the next string toward bass, edge to edge",
    cures: &["neck.width_at_nut", "nut.edge_margin"],
};

/// Below the one a finger mutes the neighbour, below the other the strings strike one another.
const LIMITS: Limits = Limits {
    bound: Bound::AtLeast,
    warn: Measure::Length(Length::mm(5.0)),
    fail: Measure::Length(Length::mm(1.0)),
    source: Source::CommonPractice,
};

pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    gaps(subject, CHECK, &LIMITS, |string| string.nut)
}

/// Judges the air between neighbouring strings at a place of each.
pub(crate) fn gaps(
    subject: &Subject,
    check: Check,
    limits: &Limits,
    at: fn(&StringPath) -> Place,
) -> Vec<Finding> {
    let pairs = subject.layout().strings().windows(2);
    let gap = |pair: &[StringPath]| {
        let centres = (at(&pair[1]).y - at(&pair[0]).y).abs();
        Measure::Length(centres - (pair[0].diameter + pair[1].diameter) / 2.0)
    };
    pairs.map(|pair| limits.judge(check, about_string(&pair[1]), gap(pair))).collect()
}

//! tuner-gap: is there wood between the bores of the tuners?

use units::{Length, math};

use crate::finding::{Bound, Check, Concern, Finding, Limits, Measure, Source};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "tuner-gap",
    measures: "the wood between the tuner's bore and the nearest other",
    cures: &["headstock.length", "headstock.tuner_bore", "headstock.tuner_rows", "neck.width_at_nut"],
};

/// Below the one it splits, below the other the bores run into one another.
const LIMITS: Limits = Limits {
    bound: Bound::AtLeast,
    warn: Measure::Length(Length::mm(3.0)),
    fail: Measure::Length(Length::ZERO),
    source: Source::CommonPractice,
};

pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let (strings, tuners) = (subject.layout().strings(), subject.layout().tuners());
    strings
        .iter()
        .zip(tuners.iter().enumerate())
        .filter_map(|(string, (own, tuner))| {
            let others = tuners.iter().enumerate().filter(|(index, _)| *index != own);
            let nearest = others
                .map(|(_, other)| {
                    let (along, across) = (other.bore.x - tuner.bore.x, other.bore.y - tuner.bore.y);
                    Length::mm(math::hypot(along.as_mm(), across.as_mm()))
                })
                .reduce(Length::min)?;
            Some(LIMITS.judge(
                CHECK,
                Concern::Tuner(string.number),
                Measure::Length(nearest - tuner.diameter),
            ))
        })
        .collect()
}

//! string-edge: do the outer strings stay on the neck?

use layout::StringPath;
use units::Length;

use crate::finding::{Bound, Check, Finding, Limits, Measure, Source, about_string};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "string-edge",
    measures: "the least distance from the string to the neck's edge",
    cures: &["nut.edge_margin", "saddle.spread", "neck.width_at_nut", "neck.width_at_box"],
};

/// Below the one a finger pulls the string off the neck, below the other there is no neck under it.
const LIMITS: Limits = Limits {
    bound: Bound::AtLeast,
    warn: Measure::Length(Length::mm(2.0)),
    fail: Measure::Length(Length::ZERO),
    source: Source::CommonPractice,
};

pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let strings = subject.layout().strings();
    let outer = strings.first().into_iter().chain(strings.last().filter(|_| strings.len() > 1));
    outer
        .map(|string| LIMITS.judge(CHECK, about_string(string), Measure::Length(least(subject, string))))
        .collect()
}

/// Both the string and the neck's edge are straight, so the least distance is at one end of the frets.
fn least(subject: &Subject, string: &StringPath) -> Length {
    let neck = subject.layout().neck();
    let last_fret = subject.layout().frets().frets.last().map_or(Length::ZERO, |fret| fret.x);
    [neck.nut_front_x, Length::ZERO, last_fret]
        .map(|x| neck.width(x) / 2.0 - string.underside(x).y.abs() - string.diameter / 2.0)
        .into_iter()
        .fold(neck.width_at_nut.max(neck.width_at_box), Length::min)
}

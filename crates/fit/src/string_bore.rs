//! string-bore: does the string go through its bore in the tail?

use units::Length;

use crate::finding::{Bound, Check, Finding, Limits, Measure, Source, about_string};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "string-bore",
    measures: "the air round the string in its bore, in diameter",
    cures: &["tail.hole_bore", "strings.N.diameter"],
};

/// Below the one a bore that comes out small, as printed ones do, must be drilled again; below the other any must.
const LIMITS: Limits = Limits {
    bound: Bound::AtLeast,
    warn: Measure::Length(Length::mm(0.2)),
    fail: Measure::Length(Length::ZERO),
    source: Source::CommonPractice,
};

pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let (layout, tail) = (subject.layout(), subject.layout().tail());
    layout
        .strings()
        .iter()
        .zip(&tail.bores)
        .map(|(string, bore)| {
            LIMITS.judge(CHECK, about_string(string), Measure::Length(bore.diameter - string.diameter))
        })
        .collect()
}

//! tail-bore-gap: is there wood left between neighbouring bores in the tail?

use units::Length;

use crate::finding::{Bound, Check, Finding, Limits, Measure, Source, about_string};
use crate::subject::Subject;
use crate::tail_bore::widest;

pub(crate) const CHECK: Check = Check {
    id: "tail-bore-gap",
    measures: "the wood in the tail between the bores of the string and of the next one toward bass",
    cures: &["saddle.spread", "tail.ball_bore"],
};

/// Below the one it splits, below the other the bores run into one another.
const LIMITS: Limits = Limits {
    bound: Bound::AtLeast,
    warn: Measure::Length(Length::mm(1.5)),
    fail: Measure::Length(Length::ZERO),
    source: Source::CommonPractice,
};

pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let (layout, tail) = (subject.layout(), subject.layout().tail());
    layout
        .strings()
        .iter()
        .skip(1)
        .zip(tail.bores.windows(2))
        .map(|(string, pair)| {
            let wood = (pair[1].across - pair[0].across).abs() - widest(tail, &pair[1]);
            LIMITS.judge(CHECK, about_string(string), Measure::Length(wood))
        })
        .collect()
}

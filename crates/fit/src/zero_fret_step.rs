//! zero-fret-step: does the zero fret stand as high over the first fret as it should?

use spec::FretKind;
use units::Length;

use crate::finding::{Bound, Check, Concern, Finding, Limits, Measure, Source, judge_between};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "zero-fret-step",
    measures: "how much higher the zero fret's crown is than the next",
    cures: &["zero_fret.crown_height", "frets.seat_depth"],
};

/// Below the one the open string buzzes on the first fret where the crowns are not quite level, below the other always. As
/// high as the other frets, to a tenth of a millimetre higher, is what builders aim at.
const LOW: Limits = Limits {
    bound: Bound::AtLeast,
    warn: Measure::Length(Length::mm(-0.02)),
    fail: Measure::Length(Length::mm(-0.3)),
    source: Source::CommonPractice,
};

/// Above the one the first frets play sharp, above the other they cannot be pressed in tune.
const HIGH: Limits = Limits {
    bound: Bound::AtMost,
    warn: Measure::Length(Length::mm(0.25)),
    fail: Measure::Length(Length::mm(1.0)),
    source: Source::CommonPractice,
};

/// Frets of the zero fret's own wire are level with it.
pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let layout = subject.layout();
    let Some(first) = layout.frets().frets.first().filter(|fret| fret.kind != FretKind::FretWire) else {
        return Vec::new();
    };
    let zero_fret = layout.spec().zero_fret.crown_height;
    let step = Measure::Length(zero_fret - first.crown);
    let finding = judge_between([&LOW, &HIGH], CHECK, &Concern::Fret { number: first.number }, step);
    vec![finding.with_detail(format!("the crowns stand {zero_fret} and {} high", first.crown))]
}

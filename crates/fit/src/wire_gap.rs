//! wire-gap: is there room between neighbouring frets for a fingertip?

use layout::{Fret, Layout};
use spec::FretKind;
use units::Length;

use crate::finding::{Bound, Check, Concern, Finding, Limits, Measure, Severity, Source};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "wire-gap",
    measures: "the least air between a fret and the one before it",
    cures: &["scale.frets", "scale.length", "frets.wire", "zero_fret.crown_width"],
};

/// Below this neither a fingertip nor the nose of a pair of pliers goes between two wires. Frets that all but touch are not
/// made at all, so that it is never a reason not to cut.
const LEAST: Measure = Measure::Length(Length::mm(6.0));

pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let layout = subject.layout();
    let limits = Limits { bound: Bound::AtLeast, warn: LEAST, fail: LEAST, source: Source::CommonPractice };
    let frets = &layout.frets().frets;
    let gaps = frets.windows(2).map(|pair| {
        (pair[1].number, pair[1].x - pair[0].x - (width(layout, &pair[0]) + width(layout, &pair[1])) / 2.0)
    });
    let Some((number, gap)) = gaps.min_by(|one, other| one.1.as_mm().total_cmp(&other.1.as_mm())) else {
        return Vec::new();
    };
    let finding = limits.judge(CHECK, Concern::Fret { number }, Measure::Length(gap));
    vec![finding.at_worst(Severity::Warn)]
}

/// What a fret takes along the strings.
fn width(layout: &Layout, fret: &Fret) -> Length {
    match fret.kind {
        FretKind::FretWire => layout.spec().zero_fret.crown_width,
        FretKind::WrappedWire | FretKind::SeatedWire => layout.spec().frets.wire.diameter(),
    }
}

//! tuner-edge: is there wood between a tuner's bore and the edge of the headstock?

use units::Length;

use crate::finding::{Bound, Check, Concern, Finding, Limits, Measure, Source};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "tuner-edge",
    measures: "the wood between the tuner's bore and the nearest edge of the headstock",
    cures: &["headstock.length", "headstock.tuner_bore", "neck.width_at_nut", "headstock.tuner_rows"],
};

/// Below the one it splits when the bushing is pressed in, below the other the bore breaks out.
const LIMITS: Limits = Limits {
    bound: Bound::AtLeast,
    warn: Measure::Length(Length::mm(2.0)),
    fail: Measure::Length(Length::ZERO),
    source: Source::CommonPractice,
};

pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let layout = subject.layout();
    layout
        .strings()
        .iter()
        .zip(layout.tuners())
        .map(|(string, tuner)| {
            let wood = layout.headstock().inside(tuner.bore) - tuner.diameter / 2.0;
            LIMITS.judge(CHECK, Concern::Tuner(string.number), Measure::Length(wood))
        })
        .collect()
}

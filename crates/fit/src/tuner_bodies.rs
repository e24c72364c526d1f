//! tuner-bodies: do the tuners' bodies fit beside one another under the headstock?

use layout::Tuner;
use units::Length;

use crate::face::Patch;
use crate::finding::{Bound, Check, Concern, Finding, Limits, Measure, Source};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "tuner-bodies",
    measures: "the air between the tuner's body and the nearest other",
    cures: &["headstock.length", "neck.width_at_nut", "headstock.tuner_rows", "headstock.tuner_bore"],
};

/// Below the one they rub as they are screwed on, below the other they do not fit.
const LIMITS: Limits = Limits {
    bound: Bound::AtLeast,
    warn: Measure::Length(Length::mm(0.5)),
    fail: Measure::Length(Length::ZERO),
    source: Source::CommonPractice,
};

/// A body is a rectangle about its post, as `headstock.tuner_body` says.
pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let (layout, tuners) = (subject.layout(), subject.layout().tuners());
    let [length, width] = layout.spec().headstock.tuner_body;
    let span = |middle: Length, size: Length| [middle - size / 2.0, middle + size / 2.0];
    let body = |tuner: &Tuner| Patch::between(span(tuner.bore.x, length), span(tuner.bore.y, width));
    layout
        .strings()
        .iter()
        .zip(tuners.iter().enumerate())
        .filter_map(|(string, (own, tuner))| {
            let others = tuners.iter().enumerate().filter(|(index, _)| *index != own);
            let air = others.map(|(_, other)| body(tuner).gap(&body(other))).reduce(Length::min)?;
            Some(LIMITS.judge(CHECK, Concern::Tuner(string.number), Measure::Length(air)))
        })
        .collect()
}

//! tuner-buttons: is there room to turn a button beside the next one of its row?

use units::Length;

use crate::finding::{Bound, Check, Concern, Finding, Limits, Measure, Source};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "tuner-buttons",
    measures: "the air between the tuner's button and the next button of its row",
    cures: &["headstock.length", "headstock.tuner_rows"],
};

/// Below the one there is no room for two fingers, below the other the buttons meet.
const LIMITS: Limits = Limits {
    bound: Bound::AtLeast,
    warn: Measure::Length(Length::mm(4.0)),
    fail: Measure::Length(Length::ZERO),
    source: Source::CommonPractice,
};

/// The buttons of a row all stand to the same side: out from the two rows of a headstock, one way from a single row.
pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let (layout, tuners) = (subject.layout(), subject.layout().tuners());
    let [_, width] = layout.spec().headstock.tuner_button;
    layout
        .strings()
        .iter()
        .zip(tuners.iter().enumerate())
        .filter_map(|(string, (own, tuner))| {
            let row = tuners
                .iter()
                .enumerate()
                .filter(|(index, other)| *index != own && other.bore.y == tuner.bore.y);
            let apart = row.map(|(_, other)| (other.bore.x - tuner.bore.x).abs()).reduce(Length::min)?;
            Some(LIMITS.judge(CHECK, Concern::Tuner(string.number), Measure::Length(apart - width)))
        })
        .collect()
}

//! post-distance: is there room to wind the string between the nut and its post?

use units::{Length, math};

use crate::finding::{Bound, Check, Finding, Limits, Measure, Severity, Source, about_string};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "post-distance",
    measures: "the distance from the rear of the nut to the string's post, seen from above",
    cures: &["headstock.length", "headstock.tuner_rows"],
};

/// Below this fingers do not get at the windings.
const LIMITS: Limits = Limits {
    bound: Bound::AtLeast,
    warn: Measure::Length(Length::mm(20.0)),
    fail: Measure::Length(Length::mm(20.0)),
    source: Source::CommonPractice,
};

pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let layout = subject.layout();
    layout
        .strings()
        .iter()
        .zip(layout.nut().slots.iter().zip(layout.tuners()))
        .map(|(string, (slot, tuner))| {
            let (along, across) = (slot.rear.x - tuner.post.x, slot.rear.y - tuner.post.y);
            let distance = Length::mm(math::hypot(along.as_mm(), across.as_mm()));
            LIMITS.judge(CHECK, about_string(string), Measure::Length(distance)).at_worst(Severity::Warn)
        })
        .collect()
}

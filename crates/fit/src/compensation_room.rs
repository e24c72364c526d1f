//! compensation-room: can every crest stand where intonation wants it?

use units::Length;

use crate::finding::{Bound, Check, Finding, Limits, Measure, Source, about_string};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "compensation-room",
    measures: "how far the crest that intonation wants lies from where the saddle's middle can stand",
    cures: &["saddle.adjust", "saddle.thickness", "action.height"],
};

/// A crest nearer to the saddle's edge than this breaks out. Common practice, no source.
const EDGE: Length = Length::mm(0.5);

pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let saddle = subject.layout().saddle();
    let room = Measure::Length(saddle.thickness / 2.0 - EDGE);
    let limits = Limits { bound: Bound::AtMost, warn: room, fail: room, source: Source::Document };
    subject
        .layout()
        .strings()
        .iter()
        .zip(&saddle.crests)
        .map(|(string, crest)| {
            let finding = limits.judge(CHECK, about_string(string), Measure::Length(crest.offset.abs()));
            let setback = crest.offset + saddle.shift;
            let words = format!(
                "it belongs {setback} behind the saddle line; the saddle may be slid {} and is {} thick",
                subject.layout().spec().saddle.adjust,
                saddle.thickness
            );
            Finding { detail: Some(words), ..finding }
        })
        .collect()
}

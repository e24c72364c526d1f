//! bushing-reach: is the wall thin enough for the thread of a jack or a pot?

use spec::{BoxFace, HolePurpose};
use units::Length;

use crate::finding::{Bound, Check, Finding, Limits, Measure, Source, about_opening};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "bushing-reach",
    measures: "the thickness of the wood that the thread must reach through",
    cures: &["box.wall", "box.lid"],
};

/// Above the one the nut finds too few turns of the thread, above the other none; a recess bored from inside helps.
const LIMITS: Limits = Limits {
    bound: Bound::AtMost,
    warn: Measure::Length(Length::mm(6.5)),
    fail: Measure::Length(Length::mm(9.0)),
    source: Source::CommonPractice,
};

/// Sound holes and pickups have no thread.
pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let layout = subject.layout();
    let body = &layout.spec().body;
    let has_thread = |hole: &layout::BoxHole| matches!(hole.purpose, HolePurpose::Jack | HolePurpose::Pot);
    let judge = |(index, hole): (usize, &layout::BoxHole)| {
        let thickness = if hole.face == BoxFace::Lid { body.lid } else { body.wall };
        LIMITS.judge(CHECK, about_opening(index, hole), Measure::Length(thickness))
    };
    layout.holes().iter().enumerate().filter(|(_, hole)| has_thread(hole)).map(judge).collect()
}

//! opening-edge: does every opening keep clear of the edges of its face and of the walls behind it?

use units::Length;

use crate::face::{Patch, hollow};
use crate::finding::{Bound, Check, Finding, Limits, Measure, Source, about_opening};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "opening-edge",
    measures: "the least distance from the opening to the wall, the lid or the bottom behind its face",
    cures: &["box.holes.N.at", "box.holes.N.diameter", "box.holes.N.length", "box.holes.N.width"],
};

/// Below the one the rim splits or a nut finds no room, below the other the opening is cut into the wall behind it.
const LIMITS: Limits = Limits {
    bound: Bound::AtLeast,
    warn: Measure::Length(Length::mm(3.0)),
    fail: Measure::Length(Length::ZERO),
    source: Source::CommonPractice,
};

pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let layout = subject.layout();
    let judge = |(index, hole): (usize, &layout::BoxHole)| {
        let room = Patch::of(hole).inside(&hollow(layout, hole.face));
        LIMITS.judge(CHECK, about_opening(index, hole), Measure::Length(room))
    };
    layout.holes().iter().enumerate().map(judge).collect()
}

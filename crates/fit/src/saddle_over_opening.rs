//! saddle-over-opening: does the saddle stand, or slide, over an opening of the lid?

use spec::BoxFace;
use units::Length;

use crate::face::Patch;
use crate::finding::{Bound, Check, Finding, Limits, Measure, Source, about_opening};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "saddle-over-opening",
    measures: "the lid between the opening and the saddle, slid as far as it goes",
    cures: &[
        "box.holes.N.at",
        "box.holes.N.diameter",
        "box.holes.N.length",
        "saddle.adjust",
        "saddle.from_tail_end",
        "saddle.thickness",
    ],
};

/// Below the one the lid's edge gives way under the strings, below the other the foot hangs over the opening.
const LIMITS: Limits = Limits {
    bound: Bound::AtLeast,
    warn: Measure::Length(Length::mm(3.0)),
    fail: Measure::Length(Length::ZERO),
    source: Source::CommonPractice,
};

pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let saddle = subject.layout().saddle();
    let half = saddle.thickness / 2.0;
    let foot = Patch::between([saddle.slide[0] - half, saddle.slide[1] + half], saddle.ends);
    let holes = subject.layout().holes().iter().enumerate();
    holes
        .filter(|(_, hole)| hole.face == BoxFace::Lid)
        .map(|(index, hole)| {
            LIMITS.judge(CHECK, about_opening(index, hole), Measure::Length(foot.gap(&Patch::of(hole))))
        })
        .collect()
}

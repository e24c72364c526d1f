//! tail-on-box: does the tail stand where it can be fastened?

use layout::TailKind;
use units::Length;

use crate::finding::{Bound, Check, Concern, Finding, Limits, Measure, Source};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "tail-on-box",
    measures: "the distance from the string holes or the block to the edge that they must stay inside",
    cures: &["tail.distance", "saddle.from_tail_end", "tail.ball_depth", "neck.tail_overhang"],
};

const LIMITS: Limits = Limits {
    bound: Bound::AtLeast,
    warn: Measure::Length(Length::ZERO),
    fail: Measure::Length(Length::ZERO),
    source: Source::Geometry,
};

pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let (layout, tail) = (subject.layout(), subject.layout().tail());
    let body = &layout.spec().body;
    let bore = tail.bores.first().map_or(Length::ZERO, |bore| bore.along);
    let ball_radius = tail.bores.first().map_or(Length::ZERO, |bore| bore.ball_diameter / 2.0);
    let found = match tail.kind {
        // The block ends on the lid.
        TailKind::BlockOnLid => body.length - tail.along[1],
        // The holes lie behind the wall.
        TailKind::BlockOnEnd => bore - ball_radius - tail.along[0],
        // The holes lie within the overhang.
        TailKind::StringThrough => {
            (bore - ball_radius - tail.along[0]).min(tail.along[1] - bore - ball_radius)
        }
    };
    vec![LIMITS.judge(CHECK, Concern::Part("tail"), Measure::Length(found))]
}

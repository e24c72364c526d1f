//! tail-on-box: does the tail block stand on the box with all of its foot?

use layout::TailKind;

use crate::finding::{Bound, Check, Concern, Finding, Limits, Measure, Source};
use crate::subject::Subject;
use units::Length;

pub(crate) const CHECK: Check = Check {
    id: "tail-on-box",
    measures: "the distance from the tail block to the edge of the lid or of the wall that it stands on",
    cures: &[
        "tail.distance",
        "saddle.from_tail_end",
        "tail.hole_height",
        "tail.ball_depth",
        "saddle.spread",
        "box.width",
    ],
};

const LIMITS: Limits = Limits {
    bound: Bound::AtLeast,
    warn: Measure::Length(Length::ZERO),
    fail: Measure::Length(Length::ZERO),
    source: Source::Geometry,
};

/// Strings that go through the neck's end have no block.
pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let (body, tail) = (&subject.layout().spec().body, subject.layout().tail());
    let lengthwise = match tail.kind {
        TailKind::BlockOnLid => body.length - tail.along[1],
        TailKind::BlockOnEnd => body.depth + tail.above[0],
        TailKind::StringThrough => return Vec::new(),
    };
    let sideways = body.width / 2.0 - tail.across[0].abs().max(tail.across[1].abs());
    vec![LIMITS.judge(CHECK, Concern::Part("tail"), Measure::Length(lengthwise.min(sideways)))]
}

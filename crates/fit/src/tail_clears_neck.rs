//! tail-clears-neck: does a block on the tail end meet the end of a through neck that stands out there?

use layout::TailKind;
use spec::Joint;
use units::Length;

use crate::finding::{Bound, Check, Concern, Finding, Limits, Measure, Source};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "tail-clears-neck",
    measures: "the room between the tail block on the end of the box and the neck's overhang",
    cures: &["neck.tail_overhang", "tail.hole_height"],
};

const LIMITS: Limits = Limits {
    bound: Bound::AtLeast,
    warn: Measure::Length(Length::ZERO),
    fail: Measure::Length(Length::ZERO),
    source: Source::Geometry,
};

/// The block must stand clear over the overhang, or the overhang must end before it.
pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let (tail, spec) = (subject.layout().tail(), subject.layout().spec());
    if tail.kind != TailKind::BlockOnEnd || spec.neck.joint != Joint::Through {
        return Vec::new();
    }
    let over = tail.above[0] + spec.body.lid + spec.neck.tongue_recess;
    let found = over.max(-spec.neck.tail_overhang);
    vec![LIMITS.judge(CHECK, Concern::Part("tail"), Measure::Length(found))]
}

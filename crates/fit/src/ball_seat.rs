//! ball-seat: is there wood for the ball ends to pull against, where the strings go through the neck's end?
//!
//! A block is made long enough for its counterbores; the neck's end is as thick as the plank leaves it.

use layout::TailKind;
use units::Length;

use crate::finding::{Bound, Check, Concern, Finding, Limits, Measure, Source};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "ball-seat",
    measures: "the wood between the counterbores for the ball ends and the top of the neck's end",
    cures: &["tail.ball_depth", "tail.hole_height", "neck.thickness"],
};

/// Below the one the balls sink into the wood, below the other they are pulled through it.
const LIMITS: Limits = Limits {
    bound: Bound::AtLeast,
    warn: Measure::Length(Length::mm(5.0)),
    fail: Measure::Length(Length::mm(2.0)),
    source: Source::CommonPractice,
};

pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let (layout, tail) = (subject.layout(), subject.layout().tail());
    if tail.kind != TailKind::StringThrough {
        return Vec::new();
    }
    let top = layout.strings().iter().map(|string| string.tail.z).fold(layout.neck().top_z, Length::min);
    let found = top - layout.neck().bottom_z - tail.ball_depth;
    vec![LIMITS.judge(CHECK, Concern::Part("neck"), Measure::Length(found))]
}

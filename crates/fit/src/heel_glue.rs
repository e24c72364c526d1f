//! heel-glue: is the heel glued to enough of the wall?

use units::Length;

use crate::finding::{Bound, Check, Concern, Finding, Limits, Measure, Source};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "heel-glue",
    measures: "the height over which the heel is glued to the box",
    cures: &["heel.depth", "box.depth", "neck.face_above_lid"],
};

/// Below the one the joint opens when the instrument falls, below the other it does not hold the clamp.
const LIMITS: Limits = Limits {
    bound: Bound::AtLeast,
    warn: Measure::Length(Length::mm(8.0)),
    fail: Measure::Length(Length::mm(3.0)),
    source: Source::CommonPractice,
};

pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let layout = subject.layout();
    let Some(heel) = layout.heel() else { return Vec::new() };
    let above = |z: Length| layout.frame().above_at(z, Length::ZERO);
    // The neck's end of the box goes from the lid's top down to its underside.
    let top = above(heel.top_z).min(Length::ZERO);
    let bottom = above(heel.bottom_z).max(-layout.spec().body.depth);
    vec![LIMITS.judge(CHECK, Concern::Part("heel-block"), Measure::Length(top - bottom))]
}

//! tongue-above-bottom: does a through neck stay clear of the bottom of the box?

use spec::Joint;
use units::Length;

use crate::face::bottom;
use crate::finding::{Bound, Check, Concern, Finding, Limits, Measure, Source};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "tongue-above-bottom",
    measures: "the air between the tongue and the bottom of the box",
    cures: &["box.depth", "neck.back_angle", "neck.thickness", "neck.face_above_lid"],
};

/// Below the one hardly any wall is left under the notch, below the other the stick cuts through the bottom.
const LIMITS: Limits = Limits {
    bound: Bound::AtLeast,
    warn: Measure::Length(Length::mm(3.0)),
    fail: Measure::Length(Length::ZERO),
    source: Source::CommonPractice,
};

/// A butted neck has no tongue.
pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let layout = subject.layout();
    let (neck, body) = (layout.neck(), &layout.spec().body);
    if neck.joint != Joint::Through {
        return Vec::new();
    }
    let [at_neck, at_tail] =
        [Length::ZERO, body.length].map(|along| layout.frame().above_at(neck.bottom_z, along));
    let thickness = bottom(layout);
    let air = Measure::Length(at_neck.min(at_tail) + body.depth - thickness);
    let words = format!("the bottom is taken to be {thickness} thick, as the lid is");
    vec![LIMITS.judge(CHECK, Concern::Part("neck"), air).with_detail(words)]
}

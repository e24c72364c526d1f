//! tongue-thickness: is there enough of a through neck left under the lid?

use layout::{Layout, TailKind};
use spec::Joint;
use units::Length;

use crate::finding::{Bound, Check, Concern, Finding, Limits, Measure, Source};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "tongue-thickness",
    measures: "the thickness of the tongue where it is thinnest",
    cures: &["neck.tongue_recess", "neck.thickness", "neck.back_angle", "tail.hole_height"],
};

/// Below the one it bends where it leaves the wall, below the other it does not carry the strings.
const LIMITS: Limits = Limits {
    bound: Bound::AtLeast,
    warn: Measure::Length(Length::mm(8.0)),
    fail: Measure::Length(Length::mm(6.0)),
    source: Source::CommonPractice,
};

/// A butted neck has no tongue.
pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let layout = subject.layout();
    if layout.neck().joint != Joint::Through {
        return Vec::new();
    }
    let found = Measure::Length(thinnest(layout));
    let recess = layout.spec().neck.tongue_recess;
    let words = format!("{recess} is taken off under the lid");
    vec![LIMITS.judge(CHECK, Concern::Part("neck"), found).with_detail(words)]
}

/// Its top is parallel to the lid and its underside is the stick's, so that it is thinnest at the tail; where strings go down
/// through the overhang, that may be lower still.
fn thinnest(layout: &Layout) -> Length {
    let (neck, spec) = (layout.neck(), layout.spec());
    let tongue_top = layout.frame().level_z(-spec.body.lid - spec.neck.tongue_recess, neck.tail_end_x);
    let through = layout.tail().kind == TailKind::StringThrough;
    let entries = layout.strings().iter().filter(|_| through).map(|string| string.tail.z);
    entries.fold(tongue_top, Length::min) - neck.bottom_z
}

//! sound-hole-open: does the tongue of a through neck leave the sound holes open?

use spec::{BoxFace, HolePurpose, Joint};
use units::Length;

use crate::face::Patch;
use crate::finding::{Bound, Check, Finding, Limits, Measure, Severity, Source, about_opening};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "sound-hole-open",
    measures: "the share of the sound hole's width that has no tongue under it",
    cures: &["box.holes.N.at", "neck.width_at_box"],
};

/// Below a half the hole is more a recess than an opening; it is never a reason not to cut.
const HALF: Measure = Measure::Share(0.5);

pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let layout = subject.layout();
    if layout.neck().joint != Joint::Through {
        return Vec::new();
    }
    let limits = Limits { bound: Bound::AtLeast, warn: HALF, fail: HALF, source: Source::CommonPractice };
    let half = layout.neck().width_at_box / 2.0;
    let is_over = |hole: &layout::BoxHole| hole.face == BoxFace::Lid && hole.purpose == HolePurpose::Sound;
    let judge = |(index, hole): (usize, &layout::BoxHole)| {
        let [from, to] = Patch::of(hole).ends(1);
        let covered = (to.min(half) - from.max(-half)).max(Length::ZERO);
        let open = Measure::Share(1.0 - covered / (to - from));
        limits.judge(CHECK, about_opening(index, hole), open).at_worst(Severity::Warn)
    };
    layout.holes().iter().enumerate().filter(|(_, hole)| is_over(hole)).map(judge).collect()
}

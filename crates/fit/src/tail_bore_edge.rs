//! tail-bore-edge: is there wood left round every string's bore in the tail?

use layout::TailKind;
use units::Length;

use crate::face::Patch;
use crate::finding::{Bound, Check, Finding, Limits, Measure, Source, about_string};
use crate::subject::Subject;
use crate::tail_bore::widest;

pub(crate) const CHECK: Check = Check {
    id: "tail-bore-edge",
    measures: "the wood between the string's bore, at its widest, and the nearest side of what it is in",
    cures: &["tail.hole_height", "tail.distance", "tail.ball_bore", "neck.tail_overhang", "saddle.spread"],
};

/// Below the one it splits, below the other the bore breaks out.
const LIMITS: Limits = Limits {
    bound: Bound::AtLeast,
    warn: Measure::Length(Length::mm(1.5)),
    fail: Measure::Length(Length::ZERO),
    source: Source::CommonPractice,
};

pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let tail = subject.layout().tail();
    subject
        .layout()
        .strings()
        .iter()
        .zip(&tail.bores)
        .map(|(string, bore)| {
            let (height, ends) = match tail.kind {
                TailKind::BlockOnLid => (bore.above, tail.above),
                TailKind::BlockOnEnd | TailKind::StringThrough => (bore.along, tail.along),
            };
            let axis = Patch::between([bore.across; 2], [height; 2]);
            let wood = axis.inside(&Patch::between(tail.across, ends)) - widest(tail, bore) / 2.0;
            LIMITS.judge(CHECK, about_string(string), Measure::Length(wood))
        })
        .collect()
}

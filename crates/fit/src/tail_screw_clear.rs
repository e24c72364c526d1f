//! tail-screw-clear: does a screw of the tail block meet a string's bore?

use layout::{StringBore, TailKind, TailPlan};
use units::Length;

use crate::face::Patch;
use crate::finding::{Bound, Check, Finding, Limits, Measure, Source, about_string};
use crate::subject::Subject;
use crate::tail_bore::widest;

pub(crate) const CHECK: Check = Check {
    id: "tail-screw-clear",
    measures: "the wood between the string's bore and the nearest screw of the tail block",
    cures: &["tail.screws", "tail.screw", "tail.ball_bore", "saddle.spread"],
};

/// Below the one the screw splits the wall, below the other it bares the string.
const LIMITS: Limits = Limits {
    bound: Bound::AtLeast,
    warn: Measure::Length(Length::mm(1.0)),
    fail: Measure::Length(Length::ZERO),
    source: Source::CommonPractice,
};

/// Bores and screws cross at right angles. Seen along the screws, a screw is a circle and a bore two rectangles. Countersinks
/// are shallower than what is left over the bores.
pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let tail = subject.layout().tail();
    subject
        .layout()
        .strings()
        .iter()
        .zip(&tail.bores)
        .filter_map(|(string, bore)| {
            let nearest = tail.screws.iter().map(|placed| {
                let axis = Patch::between([placed.across; 2], [middle(lengthwise(tail)); 2]);
                let air = rectangles(tail, bore).map(|part| part.gap(&axis));
                air[0].min(air[1]) - placed.screw.clearance / 2.0
            });
            let wood = nearest.reduce(Length::min)?;
            Some(LIMITS.judge(CHECK, about_string(string), Measure::Length(wood)))
        })
        .collect()
}

/// The block's two ends in the bores' direction; the counterbores come from the rear of one on the lid, and from below into one
/// on the end.
fn lengthwise(tail: &TailPlan) -> [Length; 2] {
    match tail.kind {
        TailKind::BlockOnLid => tail.along,
        TailKind::BlockOnEnd | TailKind::StringThrough => tail.above,
    }
}

fn middle(ends: [Length; 2]) -> Length {
    (ends[0] + ends[1]) / 2.0
}

/// The string's bore and its counterbore, across and in the bore's direction.
fn rectangles(tail: &TailPlan, bore: &StringBore) -> [Patch; 2] {
    let ends = lengthwise(tail);
    let counterbore = match tail.kind {
        TailKind::BlockOnLid => [ends[1] - tail.ball_depth, ends[1]],
        TailKind::BlockOnEnd | TailKind::StringThrough => [ends[0], ends[0] + tail.ball_depth],
    };
    let part = |diameter: Length, lengthwise| {
        Patch::between([bore.across - diameter / 2.0, bore.across + diameter / 2.0], lengthwise)
    };
    [part(bore.diameter, ends), part(widest(tail, bore), counterbore)]
}

//! tail-screws-in-wall: do the screws of a block on the tail end go into the wall?

use layout::{Layout, TailKind, TailScrew};
use spec::Joint;
use units::Length;

use crate::finding::{Bound, Check, Concern, Finding, Limits, Measure, Source};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "tail-screws-in-wall",
    measures: "the distance from the middle of a screw of the tail block to the nearest edge of the wall that it goes into",
    cures: &["tail.hole_height", "tail.ball_depth", "box.depth", "saddle.spread"],
};

pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let (layout, tail) = (subject.layout(), subject.layout().tail());
    if tail.kind != TailKind::BlockOnEnd {
        return Vec::new();
    }
    tail.screws
        .iter()
        .map(|placed| (inside(layout, placed), placed.screw.diameter))
        .reduce(|one, other| if other.0 < one.0 { other } else { one })
        .map(|(found, diameter)| {
            let limits = Limits {
                bound: Bound::AtLeast,
                // Nearer to an edge than a screw is thick, wood splits.
                warn: Measure::Length(diameter),
                // There it goes past the wall.
                fail: Measure::Length(Length::ZERO),
                source: Source::CommonPractice,
            };
            limits.judge(CHECK, Concern::Part("tail"), Measure::Length(found))
        })
        .into_iter()
        .collect()
}

/// The wall reaches from the lid's underside to the bottom of the box, less the notch of a through neck.
fn inside(layout: &Layout, placed: &TailScrew) -> Length {
    let (spec, tail) = (layout.spec(), layout.tail());
    let height = (tail.above[0] + tail.above[1]) / 2.0;
    let across = placed.across.abs();
    let wall = (-spec.body.lid - height).min(height + spec.body.depth).min(spec.body.width / 2.0 - across);
    if spec.neck.joint != Joint::Through {
        return wall;
    }
    let beside = across - spec.neck.width_at_box / 2.0 - spec.print.clearance;
    let below =
        layout.frame().above_at(layout.neck().bottom_z, spec.body.length) - spec.print.clearance - height;
    wall.min(beside.max(below))
}

//! hardware-clear: is there room in the box for what sits in its openings?

use layout::{BoxHole, Layout};
use spec::{BoxFace, Joint};
use units::Length;

use crate::face::{Patch, bottom};
use crate::finding::{Bound, Check, Finding, Limits, Measure, Source, about_opening};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "hardware-clear",
    measures: "the air between what sits in the opening and what lies behind it",
    cures: &["box.holes.N.at", "neck.tongue_recess", "box.depth", "box.holes.N.depth"],
};

/// Below the one it rattles against the wood, below the other it does not go in.
const LIMITS: Limits = Limits {
    bound: Bound::AtLeast,
    warn: Measure::Length(Length::mm(1.0)),
    fail: Measure::Length(Length::ZERO),
    source: Source::CommonPractice,
};

/// An opening that nothing sits in is not judged.
pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let layout = subject.layout();
    let judge = |(index, hole): (usize, &BoxHole)| {
        let mut nearest = ("the far wall", through_the_box(layout, hole.face) - hole.depth);
        if let Some(air) = beside_tongue(layout, hole)
            && air < nearest.1
        {
            nearest = ("the tongue", air);
        }
        let (name, air) = nearest;
        let finding = LIMITS.judge(CHECK, about_opening(index, hole), Measure::Length(air));
        finding.with_detail(format!("it reaches {} below the face; nearest is {name}", hole.depth))
    };
    let holes = layout.holes().iter().enumerate();
    holes.filter(|(_, hole)| hole.depth > Length::ZERO).map(judge).collect()
}

/// From the outside of a face to the inside of what is opposite.
fn through_the_box(layout: &Layout, face: BoxFace) -> Length {
    let body = &layout.spec().body;
    match face {
        BoxFace::Lid => body.depth - bottom(layout),
        BoxFace::TailEnd | BoxFace::NeckEnd => body.length - body.wall,
        BoxFace::BassSide | BoxFace::TrebleSide => body.width - body.wall,
    }
}

/// The air between the hardware and the tongue: in the plane of the face or below it, whichever keeps them apart. At the ends
/// the tongue goes through the face itself.
fn beside_tongue(layout: &Layout, hole: &BoxHole) -> Option<Length> {
    let (neck, frame, body) = (layout.neck(), layout.frame(), &layout.spec().body);
    if neck.joint != Joint::Through {
        return None;
    }
    let half = neck.width_at_box / 2.0;
    let recess = body.lid + layout.spec().neck.tongue_recess;
    let along = [Length::ZERO, body.length];
    let (tongue, below) = match hole.face {
        BoxFace::Lid => (Patch::between(along, [-half, half]), recess),
        BoxFace::BassSide | BoxFace::TrebleSide => {
            let underside = -frame.above_at(neck.bottom_z, hole.first);
            (Patch::between(along, [recess, underside]), body.width / 2.0 - half)
        }
        BoxFace::TailEnd | BoxFace::NeckEnd => return None,
    };
    Some(Patch::of(hole).gap(&tongue).max(below - hole.depth))
}

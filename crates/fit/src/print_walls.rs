//! print-walls: are the walls of the printed parts thick enough for the nozzle?

use layout::{Layout, NutPlan, TailKind};
use units::{Length, math};

use crate::finding::{Bound, Check, Concern, Finding, Limits, Measure, Source};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "print-walls",
    measures: "the thinnest wall of the printed part",
    cures: &[
        "nut.edge_margin",
        "neck.width_at_nut",
        "tail.hole_height",
        "tail.ball_bore",
        "tail.screws",
        "saddle.spread",
        "tail.distance",
        "saddle.thickness",
        "print.nozzle",
    ],
};

/// A wall of two lines holds, one of less than one line is left out by the slicer. Common practice, no source.
pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let layout = subject.layout();
    let nozzle = layout.spec().print.nozzle;
    let limits = Limits {
        bound: Bound::AtLeast,
        warn: Measure::Length(nozzle * 2.0),
        fail: Measure::Length(nozzle),
        source: Source::CommonPractice,
    };
    let judge = |name, (place, wall): (&str, Length)| {
        let finding = limits.judge(CHECK, Concern::Part(name), Measure::Length(wall));
        finding.with_detail(format!("{place}; two lines of the nozzle hold"))
    };
    let nut = judge("nut", nut_wall(layout.nut()));
    let saddle = judge("saddle", ("across its foot", layout.saddle().thickness));
    let tail = tail_wall(layout).map(|wall| judge("tail-block", wall));
    [nut, saddle].into_iter().chain(tail).collect()
}

/// Where it is, and how thick.
type Wall = (&'static str, Length);

fn thinnest(walls: impl IntoIterator<Item = Wall>) -> Option<Wall> {
    walls.into_iter().min_by(|one, other| one.1.as_mm().total_cmp(&other.1.as_mm()))
}

/// Between neighbouring slots and beside the outer ones, at both faces.
fn nut_wall(nut: &NutPlan) -> Wall {
    let between = nut.slots.windows(2).flat_map(|pair| {
        let air = (pair[0].width_across() + pair[1].width_across()) / 2.0;
        [pair[0].front.y - pair[1].front.y, pair[0].rear.y - pair[1].rear.y]
            .map(|apart| ("between two slots", apart.abs() - air))
    });
    let beside = nut.slots.iter().flat_map(|slot| {
        [slot.front.y, slot.rear.y]
            .map(|y| ("between a slot and its end", nut.length / 2.0 - y.abs() - slot.width_across() / 2.0))
    });
    thinnest(between.chain(beside)).unwrap_or(("from end to end", nut.length))
}

/// Round the balls' counterbores and the strings' bores; what stays the same whatever the document says is left out.
fn tail_wall(layout: &Layout) -> Option<Wall> {
    let tail = layout.tail();
    let length = match tail.kind {
        TailKind::StringThrough => return None,
        TailKind::BlockOnLid => tail.along[1] - tail.along[0],
        TailKind::BlockOnEnd => tail.above[1] - tail.above[0],
    };
    let between = tail.bores.windows(2).map(|pair| {
        let apart = (pair[1].across - pair[0].across).abs();
        ("between two ball ends", apart - (pair[0].ball_diameter + pair[1].ball_diameter) / 2.0)
    });
    let under = tail.bores.iter().map(|bore| match tail.kind {
        TailKind::BlockOnLid => ("under a ball end", bore.above - bore.ball_diameter / 2.0 - tail.above[0]),
        TailKind::BlockOnEnd | TailKind::StringThrough => {
            ("between a ball end and the box", bore.along - bore.ball_diameter / 2.0 - tail.along[0])
        }
    });
    // The screws cross the block half way along the bores: the counterbores end in front of them, or beside them.
    let before_screws = (length / 2.0 - tail.ball_depth).max(Length::ZERO);
    let beside_screws = tail.screws.iter().flat_map(|screw| {
        let radius = screw.screw.clearance / 2.0;
        tail.bores.iter().flat_map(move |bore| {
            let apart = (bore.across - screw.across).abs();
            let beside_ball = (apart - bore.ball_diameter / 2.0).max(Length::ZERO);
            let from_ball = Length::mm(math::hypot(beside_ball.as_mm(), before_screws.as_mm()));
            [
                ("between a string and a screw", apart - bore.diameter / 2.0 - radius),
                ("between a ball end and a screw", from_ball - radius),
            ]
        })
    });
    thinnest(between.chain(under).chain(beside_screws))
}

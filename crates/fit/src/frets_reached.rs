//! frets-reached: are all wanted frets there, and what stops the next one?

use layout::{Obstacle, Shortfall};

use crate::finding::{Bound, Check, Concern, Finding, Measure, Severity, Source};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "frets-reached",
    measures: "the number of frets there is room for",
    cures: &[
        "heel.reach",
        "frets.past_heel",
        "saddle.from_tail_end",
        "box.length",
        "scale.length",
        "scale.frets",
    ],
};

pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let plan = subject.layout().frets();
    let (found, wanted) = (plan.frets.len() as u32, u32::from(plan.reach.wanted));
    vec![Finding {
        check: CHECK,
        severity: if found < wanted { Severity::Fail } else { Severity::Pass },
        concern: Concern::Instrument,
        found: Measure::Count(found),
        bound: Bound::AtLeast,
        limit: Measure::Count(wanted),
        source: Source::Document,
        detail: plan.reach.stop.map(|stop| stopped(&stop)),
    }]
}

fn stopped(stop: &Shortfall) -> String {
    let obstacle = match stop.obstacle {
        Obstacle::Heel => "the heel",
        Obstacle::Box => "the box",
        Obstacle::Neighbour => "its neighbour",
    };
    format!("fret {} at {} is stopped by {obstacle} and lacks {}", stop.number, stop.x, stop.lacks)
}

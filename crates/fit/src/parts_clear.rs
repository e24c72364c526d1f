//! parts-clear: does everything keep clear of what it is not meant to touch?

use crate::assembly::{HAIR, Relation};
use crate::finding::{Bound, Check, Concern, Finding, Limits, Measure, Source};
use crate::parts_touch::told;
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "parts-clear",
    measures: "the air between two parts, where it is negative their overlap",
    cures: &[
        "tail.hole_height",
        "tail.distance",
        "action.height",
        "neck.tail_overhang",
        "saddle.from_tail_end",
        "nut.edge_margin",
    ],
};

/// Every pair that does not keep clear; where all do, the one that is nearest to not doing so.
pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    told(subject.assembly().clearances())
        .into_iter()
        .filter_map(|meeting| {
            let Relation::Clear { least } = meeting.relation else { return None };
            // A hair less than asked for is as good as nothing less.
            let limit = Measure::Length(least - HAIR);
            let limits = Limits { bound: Bound::AtLeast, warn: limit, fail: limit, source: Source::Geometry };
            Some(limits.judge(CHECK, Concern::Pair(meeting.pair), Measure::Length(meeting.air)))
        })
        .collect()
}

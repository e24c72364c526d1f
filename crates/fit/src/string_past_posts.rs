//! string-past-posts: does a string rub on the post of another on its way to its own?

use layout::POST_DIAMETER;
use units::Length;

use crate::at_post::{end, from_way};
use crate::finding::{Bound, Check, Finding, Limits, Measure, Source, about_string};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "string-past-posts",
    measures: "the air between the string and the nearest post of another string, seen from above",
    cures: &["nut.edge_margin", "neck.width_at_nut", "headstock.tuner_rows", "headstock.tuner_bore"],
};

/// Below the one the windings on the post touch the string, below the other the post bends it out of its way.
const LIMITS: Limits = Limits {
    bound: Bound::AtLeast,
    warn: Measure::Length(Length::mm(0.2)),
    fail: Measure::Length(Length::mm(-1.0)),
    source: Source::CommonPractice,
};

/// Posts are taken to be as tall as any string passes.
pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let (strings, tuners) = (subject.layout().strings(), subject.layout().tuners());
    strings
        .iter()
        .enumerate()
        .filter_map(|(own, string)| {
            let way = [[string.nut.x, string.nut.y], end(string, tuners.get(own)?)];
            let others = tuners.iter().enumerate().filter(|(index, _)| *index != own);
            let nearest =
                others.map(|(_, other)| from_way([other.post.x, other.post.y], way)).reduce(Length::min)?;
            let air = nearest - (POST_DIAMETER + string.diameter) / 2.0;
            Some(LIMITS.judge(CHECK, about_string(string), Measure::Length(air)))
        })
        .collect()
}

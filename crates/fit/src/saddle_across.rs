//! saddle-across: does the saddle end before the sides of the box?

use units::Length;

use crate::finding::{Bound, Check, Concern, Finding, Limits, Measure, Source};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "saddle-across",
    measures: "the distance from the saddle's end to the inside of the box's side",
    cures: &["saddle.spread", "box.width", "box.wall"],
};

/// Nearer to a side than this the lid does not move under the outer strings. Common practice, no source.
const FREE_LID: Length = Length::mm(5.0);

pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let (saddle, body) = (subject.layout().saddle(), &subject.layout().spec().body);
    let farthest = saddle.ends[0].abs().max(saddle.ends[1].abs());
    let limits = Limits {
        bound: Bound::AtLeast,
        warn: Measure::Length(FREE_LID),
        // There it stands out over the side.
        fail: Measure::Length(-body.wall),
        source: Source::CommonPractice,
    };
    let found = body.width / 2.0 - body.wall - farthest;
    vec![limits.judge(CHECK, Concern::Part("saddle"), Measure::Length(found))]
}

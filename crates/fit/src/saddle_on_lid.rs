//! saddle-on-lid: does the saddle stand on the free part of the lid, however far it is slid?

use units::Length;

use crate::finding::{Bound, Check, Concern, Finding, Limits, Measure, Source};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "saddle-on-lid",
    measures: "the distance from the saddle, slid as far as it goes, to the inside of the wall at the end of the box",
    cures: &["saddle.from_tail_end", "saddle.adjust", "saddle.thickness", "box.wall"],
};

/// Nearer to a wall than this the lid does not move under it. Common practice, no source.
const FREE_LID: Length = Length::mm(5.0);

pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let (saddle, body) = (subject.layout().saddle(), &subject.layout().spec().body);
    let half = saddle.thickness / 2.0;
    let toward_neck = saddle.slide[0] - half - body.wall;
    let toward_tail = body.length - body.wall - (saddle.slide[1] + half);
    let limits = Limits {
        bound: Bound::AtLeast,
        warn: Measure::Length(FREE_LID),
        // There the foot hangs over the end of the box.
        fail: Measure::Length(-body.wall),
        source: Source::CommonPractice,
    };
    let finding = limits.judge(CHECK, Concern::Part("saddle"), Measure::Length(toward_neck.min(toward_tail)));
    let end = if toward_neck < toward_tail { "neck" } else { "tail" };
    vec![finding.with_detail(format!("at the {end} end"))]
}

//! saddle-before-tail: is there room to slide the saddle in front of the tail block?

use layout::TailKind;
use units::Length;

use crate::finding::{Bound, Check, Concern, Finding, Limits, Measure, Source};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "saddle-before-tail",
    measures: "the room between the tail block and the saddle, slid back as far as it goes",
    cures: &["tail.distance", "saddle.adjust", "saddle.thickness"],
};

pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let (saddle, tail) = (subject.layout().saddle(), subject.layout().tail());
    if tail.kind != TailKind::BlockOnLid {
        return Vec::new();
    }
    let limits = Limits {
        bound: Bound::AtLeast,
        warn: Measure::Length(Length::ZERO),
        // There the two meet where the saddle is to stand, before it is slid at all.
        fail: Measure::Length(saddle.center_along() - saddle.slide[1]),
        source: Source::Geometry,
    };
    let found = tail.along[0] - (saddle.slide[1] + saddle.thickness / 2.0);
    vec![limits.judge(CHECK, Concern::Part("saddle"), Measure::Length(found))]
}

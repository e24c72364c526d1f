//! nut-foot: is enough of the nut left under its deepest slot?

use parts::LEAST_NUT_FOOT;
use units::Length;

use crate::finding::{Bound, Check, Concern, Finding, Limits, Measure, Source};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "nut-foot",
    measures: "what is left of the nut under its deepest slot",
    cures: &["headstock.thickness", "zero_fret.crown_height", "nut.thickness"],
};

/// Below the one it splits when it is filed, below the other it cannot be made.
const LIMITS: Limits = Limits {
    bound: Bound::AtLeast,
    warn: Measure::Length(Length::mm(2.0)),
    fail: Measure::Length(LEAST_NUT_FOOT),
    source: Source::CommonPractice,
};

pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let nut = subject.layout().nut();
    let deepest = nut.slots.iter().map(|slot| slot.rear.z).fold(nut.top_z, Length::min);
    vec![LIMITS.judge(CHECK, Concern::Part("nut"), Measure::Length(deepest - nut.base_z))]
}

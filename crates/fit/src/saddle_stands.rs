//! saddle-stands: does a floating saddle keep its place under the strings?

use mechanics::standing::Tipping;
use units::Length;

use crate::finding::{Bound, Check, Concern, Finding, Limits, Measure, Source};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "saddle-stands",
    measures: "how far inside the foot of the saddle the strings' push lands",
    cures: &["saddle.thickness", "tail.hole_height", "tail.distance"],
};

/// Below the one it rocks when the strings are bent, below the other it falls over.
const LIMITS: Limits = Limits {
    bound: Bound::AtLeast,
    warn: Measure::Length(Length::mm(0.5)),
    fail: Measure::Length(Length::ZERO),
    source: Source::Geometry,
};

pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let Some(standing) = subject.playing().standing() else { return Vec::new() };
    let finding = LIMITS.judge(CHECK, Concern::Part("saddle"), Measure::Length(standing.margin));
    let words = match standing.tips {
        Some(Tipping::Forward) => "it tips toward the neck".to_owned(),
        Some(Tipping::Backward) => "it tips toward the tail".to_owned(),
        Some(Tipping::Lifted) => "the strings lift it".to_owned(),
        None => format!("it keeps its place where friction is at least {:.2}", standing.friction_needed),
    };
    vec![Finding { detail: Some(words), ..finding }]
}

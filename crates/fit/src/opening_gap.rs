//! opening-gap: is there wood left between two openings of one face?

use units::Length;

use crate::face::Patch;
use crate::finding::{Bound, Check, Finding, Limits, Measure, Source, about_opening};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "opening-gap",
    measures: "the wood between the opening and the nearest earlier one in its face",
    cures: &["box.holes.N.at", "box.holes.N.diameter", "box.holes.N.length", "box.holes.N.width"],
};

/// Below the one the bridge between them cracks, below the other it breaks while it is cut.
const LIMITS: Limits = Limits {
    bound: Bound::AtLeast,
    warn: Measure::Length(Length::mm(4.0)),
    fail: Measure::Length(Length::mm(1.0)),
    source: Source::CommonPractice,
};

/// The first opening of a face has no earlier one, and is told of with the others.
pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let holes = subject.layout().holes();
    let judge = |(index, hole): (usize, &layout::BoxHole)| {
        let earlier = holes[..index].iter().enumerate().filter(|(_, other)| other.face == hole.face);
        let (other, gap) = earlier
            .map(|(other, earlier)| (other, Patch::of(hole).gap(&Patch::of(earlier))))
            .min_by(|one, other| one.1.as_mm().total_cmp(&other.1.as_mm()))?;
        let finding = LIMITS.judge(CHECK, about_opening(index, hole), Measure::Length(gap));
        Some(finding.with_detail(format!("beside {}", about_opening(other, &holes[other]))))
    };
    holes.iter().enumerate().filter_map(judge).collect()
}

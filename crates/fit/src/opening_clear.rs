//! opening-clear: do the openings keep clear of the neck, the heel and the tail block?

use units::Length;

use crate::face::{Patch, fittings};
use crate::finding::{Bound, Check, Finding, Limits, Measure, Source, about_opening};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "opening-clear",
    measures: "the wood between the opening and the neck, the heel or the tail block at its face",
    cures: &["box.holes.N.at", "box.holes.N.diameter", "box.holes.N.length", "box.holes.N.width"],
};

/// Below the one the wood beside the joint cracks, below the other the opening runs into it.
const LIMITS: Limits = Limits {
    bound: Bound::AtLeast,
    warn: Measure::Length(Length::mm(4.0)),
    fail: Measure::Length(Length::ZERO),
    source: Source::CommonPractice,
};

pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let layout = subject.layout();
    let judge = |(index, hole): (usize, &layout::BoxHole)| {
        let (name, gap) = fittings(layout, hole.face)
            .into_iter()
            .map(|(name, patch)| (name, Patch::of(hole).gap(&patch)))
            .min_by(|one, other| one.1.as_mm().total_cmp(&other.1.as_mm()))?;
        let finding = LIMITS.judge(CHECK, about_opening(index, hole), Measure::Length(gap));
        Some(finding.with_detail(format!("beside {name}")))
    };
    layout.holes().iter().enumerate().filter_map(judge).collect()
}

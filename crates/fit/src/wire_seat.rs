//! wire-seat: does a seated wire lie in its groove as deep as holds it, and no deeper?

use layout::Fret;
use spec::FretKind;

use crate::finding::{Bound, Check, Concern, Finding, Limits, Measure, Source};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "wire-seat",
    measures: "the share of the wire's thickness that lies in its groove",
    cures: &["frets.seat_depth", "frets.wire"],
};

/// Half of the wire is the most that a groove holds better for; above the other limit no crown is left to press a string on.
const LIMITS: Limits = Limits {
    bound: Bound::AtMost,
    warn: Measure::Share(0.5),
    fail: Measure::Share(0.8),
    source: Source::CommonPractice,
};

/// Fret wire has a tang, and a wire that lies on the surface has no groove.
pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let layout = subject.layout();
    let frets = &layout.spec().frets;
    let share = frets.seat_depth / frets.wire.diameter();
    let is_seated = |fret: &Fret| fret.kind != FretKind::FretWire && share > 0.0;
    let Some(first) = layout.frets().frets.iter().find(|fret| is_seated(fret)) else { return Vec::new() };
    let finding = LIMITS.judge(CHECK, Concern::Fret { number: first.number }, Measure::Share(share));
    vec![finding.with_detail(format!(
        "{} of {} on this fret and all like it",
        frets.seat_depth,
        frets.wire.diameter()
    ))]
}

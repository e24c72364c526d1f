//! tongue-under-lid: can the lid move without meeting the tongue?

use spec::Joint;
use units::Length;

use crate::finding::{Bound, Check, Concern, Finding, Limits, Measure, Severity, Source};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "tongue-under-lid",
    measures: "the air that is left over the tongue when the lid has sunk under the saddle",
    cures: &["neck.tongue_recess", "box.lid", "tail.hole_height"],
};

/// Below this a lid that creeps comes to lie on the tongue, rattles and is dumb; it is never a reason not to cut.
const LEAST: Measure = Measure::Length(Length::mm(0.5));

/// Nothing where there is no tongue, or where the saddle stands off the lid.
pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let layout = subject.layout();
    let Some(sunk) = subject.playing().lid_sink() else { return Vec::new() };
    if layout.neck().joint != Joint::Through {
        return Vec::new();
    }
    let limits = Limits { bound: Bound::AtLeast, warn: LEAST, fail: LEAST, source: Source::CommonPractice };
    let recess = layout.spec().neck.tongue_recess;
    let air = Measure::Length(recess - sunk);
    let finding = limits.judge(CHECK, Concern::Part("neck"), air).at_worst(Severity::Warn);
    vec![finding.with_detail(format!("of {recess} the lid takes {sunk} with its edges held down"))]
}

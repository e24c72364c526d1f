//! part-made: can every part be made at all?

use crate::finding::{Bound, Check, Concern, Finding, Measure, Severity, Source};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "part-made",
    measures: "the number of parts that cannot be made",
    cures: &[
        "headstock.thickness",
        "headstock.post_height",
        "saddle.thickness",
        "saddle.adjust",
        "neck.face_above_lid",
        "action.height",
        "neck.thickness",
        "neck.tongue_recess",
        "neck.back_angle",
        "fretboard.thickness",
        "zero_fret.slot_depth",
        "heel.reach",
        "heel.depth",
        "tail.distance",
        "saddle.from_tail_end",
        "router.bit",
    ],
};

pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let faults = &subject.parts().faults;
    let finding = |severity, found, detail| Finding {
        check: CHECK,
        severity,
        concern: Concern::Instrument,
        found: Measure::Count(found),
        bound: Bound::AtMost,
        limit: Measure::Count(0),
        source: Source::Geometry,
        detail,
    };
    if faults.is_empty() {
        return vec![finding(Severity::Pass, 0, None)];
    }
    faults.iter().map(|fault| finding(Severity::Fail, 1, Some(fault.to_string()))).collect()
}

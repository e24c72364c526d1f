//! drawing-clean: would a machine read every drawing as it is meant?

use crate::finding::{Bound, Check, Concern, Finding, Measure, Severity, Source};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "drawing-clean",
    measures: "the number of lines that cross, repeat, or run outside the part",
    cures: &["tail.screws", "tail.distance", "headstock.length", "box.holes.N.at"],
};

pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let drawings = subject.parts().parts.iter().flat_map(|part| &part.drawings);
    drawings
        .map(|drawing| {
            let faults = drawing.faults(&geometry::Preflight::default());
            Finding {
                check: CHECK,
                severity: if faults.is_empty() { Severity::Pass } else { Severity::Fail },
                concern: Concern::Drawing(drawing.name.clone()),
                found: Measure::Count(faults.len() as u32),
                bound: Bound::AtMost,
                limit: Measure::Count(0),
                source: Source::Geometry,
                detail: faults.first().map(ToString::to_string),
            }
        })
        .collect()
}

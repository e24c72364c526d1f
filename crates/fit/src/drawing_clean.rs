//! drawing-clean: would a machine read every drawing as it is meant?

use std::collections::BTreeSet;

use crate::drawing_words::told;
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
            let words: BTreeSet<String> =
                faults.iter().map(|fault| told(subject.layout(), drawing, fault)).collect();
            Finding {
                check: CHECK,
                severity: if faults.is_empty() { Severity::Pass } else { Severity::Fail },
                concern: Concern::Drawing(drawing.name.clone()),
                found: Measure::Count(faults.len() as u32),
                bound: Bound::AtMost,
                limit: Measure::Count(0),
                source: Source::Geometry,
                detail: (!words.is_empty()).then(|| words.into_iter().collect::<Vec<_>>().join("; ")),
            }
        })
        .collect()
}

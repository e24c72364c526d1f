//! print-layer: are the printed parts as high as they are drawn?

use units::Length;

use crate::finding::{Bound, Check, Concern, Finding, Limits, Measure, Severity, Source};
use crate::printed::printed;
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "print-layer",
    measures: "how far the height of a printed part is from a whole number of layers",
    cures: &["print.layer"],
};

/// Above this a rule shows it. A part is filed to its height, so that it is worth knowing and no more.
const MOST: Measure = Measure::Length(Length::mm(0.06));

/// One finding for all parts: the farthest off, and what each of them comes to.
pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let layer = subject.layout().spec().print.layer;
    let limits = Limits { bound: Bound::AtMost, warn: MOST, fail: MOST, source: Source::Document };
    let parts: Vec<_> = printed(subject.layout())
        .into_iter()
        .map(|part| (part, layer * (part.height / layer).round()))
        .collect();
    let farthest = parts.iter().map(|(part, printed)| (part.height - *printed).abs());
    let found = Measure::Length(farthest.fold(Length::ZERO, Length::max));
    let words: Vec<String> = parts
        .iter()
        .map(|(part, printed)| format!("the {} comes out {printed} high for {}", part.name, part.height))
        .collect();
    let finding = limits.judge(CHECK, Concern::Instrument, found).at_worst(Severity::Note);
    vec![finding.with_detail(words.join(", "))]
}

//! print-overhang: are there bores that are printed lying, and too wide for that?

use layout::TailKind;
use units::Length;

use crate::finding::{Bound, Check, Concern, Finding, Limits, Measure, Severity, Source};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "print-overhang",
    measures: "the width of the widest bore that is printed lying",
    cures: &["tail.ball_bore", "tail.screw"],
};

/// Above this the roof of the bore sags and wants support, or a drill afterwards; it is never a reason not to print. A
/// countersink's roof rises at 45 degrees and prints.
const MOST: Measure = Measure::Length(Length::mm(6.0));

/// The tail block alone has lying bores: those of the strings where it stands on the lid, those of the screws on the end.
pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let tail = subject.layout().tail();
    let widths: Vec<Length> = match tail.kind {
        TailKind::StringThrough => return Vec::new(),
        TailKind::BlockOnLid => tail.bores.iter().map(|bore| bore.ball_diameter).collect(),
        TailKind::BlockOnEnd => tail.screws.iter().map(|placed| placed.screw.clearance).collect(),
    };
    let limits = Limits { bound: Bound::AtMost, warn: MOST, fail: MOST, source: Source::CommonPractice };
    let widest = widths.into_iter().reduce(Length::max);
    let finding = |width| limits.judge(CHECK, Concern::Part("tail-block"), Measure::Length(width));
    widest.map(|width| finding(width).at_worst(Severity::Warn)).into_iter().collect()
}

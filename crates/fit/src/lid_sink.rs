//! lid-sink: how much action does the lid take when the strings press on it?

use units::Length;

use crate::finding::{Bound, Check, Concern, Finding, Limits, Measure, Severity, Source};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "lid-sink",
    measures: "how far the lid sinks under the saddle with its edges held down",
    cures: &["box.lid", "tail.hole_height", "box.lid_wood"],
};

/// Above the one the action is no longer what was planned, above the other a thin lid gives way.
const LIMITS: Limits = Limits {
    bound: Bound::AtMost,
    warn: Measure::Length(Length::mm(1.0)),
    fail: Measure::Length(Length::mm(5.0)),
    source: Source::CommonPractice,
};

pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let Some(supported) = subject.playing().lid_sink() else { return Vec::new() };
    let finding = LIMITS.judge(CHECK, Concern::Part("lid"), Measure::Length(supported));
    if finding.severity == Severity::Pass {
        return vec![finding];
    }
    let push = subject.playing().saddle();
    let detail = push.sink.zip(push.action_lost).map(|([_, clamped], lost)| {
        format!("{clamped} with clamped edges; the larger costs {lost} of action")
    });
    vec![Finding { detail, ..finding }]
}

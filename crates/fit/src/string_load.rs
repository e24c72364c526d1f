//! string-load: does a string come near its breaking load?

use crate::finding::{Bound, Check, Finding, Limits, Measure, Source, about_string};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "string-load",
    measures: "the string's tension as a share of what breaks its core",
    cures: &["strings.N.pitch", "scale.length", "strings.N.core"],
};

/// Above the one strings break soon, above the other while they are tuned.
const LIMITS: Limits = Limits {
    bound: Bound::AtMost,
    warn: Measure::Share(0.75),
    fail: Measure::Share(1.0),
    source: Source::CommonPractice,
};

/// A string whose core lies outside the table of wire strengths is not judged.
pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    subject
        .layout()
        .strings()
        .iter()
        .zip(subject.playing().pulls())
        .filter_map(|(string, pull)| {
            let share = pull.share_of_breaking_load?;
            // A core that is a guess counts at its worse end.
            let worst = share.low.max(share.nominal).max(share.high);
            Some(LIMITS.judge(CHECK, about_string(string), Measure::Share(worst)))
        })
        .collect()
}

//! free-of-buzz: how many instruments of this plan, with their uneven frets, are free of buzz?

use crate::finding::{Bound, Check, Concern, Finding, Limits, Measure, Source};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "free-of-buzz",
    measures: "the share of instruments of this plan that are free of buzz",
    cures: &["frets.height_scatter", "action.height"],
};

/// Below a half the instrument that is built is likelier to buzz than not.
const HALF: Measure = Measure::Share(0.5);

pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let playing = subject.playing();
    let Some(buzz) = playing.buzz() else { return Vec::new() };
    let limits = Limits {
        bound: Bound::AtLeast,
        warn: Measure::Share(playing.player().free_of_buzz),
        // Buzz can be cured after stringing; it is never a reason not to cut.
        fail: Measure::Share(0.0),
        source: Source::CommonPractice,
    };
    let finding = limits.judge(CHECK, Concern::Instrument, Measure::Share(buzz.share_free));
    let likely = if finding.found < HALF { "more likely than not to buzz; " } else { "" };
    let words = format!(
        "{likely}{:.0} % are free at an action of {}, and with level frets all at {}",
        playing.player().free_of_buzz * 100.0,
        buzz.lowest_action,
        buzz.lowest_action_level
    );
    vec![Finding { detail: Some(words), ..finding }]
}

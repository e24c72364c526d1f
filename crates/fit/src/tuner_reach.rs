//! tuner-reach: are the tuners' posts long enough for the headstock?

use units::Length;

use crate::finding::{Bound, Check, Concern, Finding, Limits, Measure, Source};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "tuner-reach",
    measures: "how much longer a tuner's post is, up to the string's hole, than headstock and post height together",
    cures: &["headstock.post_height", "headstock.thickness", "headstock.tuner_reach"],
};

/// The string is wound down from its hole to the post height. Below the one there is no room for two turns, below the other
/// the hole lies lower than the string should.
const LIMITS: Limits = Limits {
    bound: Bound::AtLeast,
    warn: Measure::Length(Length::mm(1.0)),
    fail: Measure::Length(Length::ZERO),
    source: Source::CommonPractice,
};

pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let headstock = &subject.layout().spec().headstock;
    let found = headstock.tuner_reach - headstock.thickness - headstock.post_height;
    vec![LIMITS.judge(CHECK, Concern::Part("headstock"), Measure::Length(found))]
}

//! turn-at-nut: how sharply does the nut turn a string aside toward its post?

use units::Angle;

use crate::at_post;
use crate::finding::{Bound, Check, Finding, Limits, Measure, Source, about_string};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "turn-at-nut",
    measures: "the angle through which the nut turns the string aside toward its post",
    cures: &["headstock.tuner_rows", "headstock.tuner_bore", "nut.edge_margin", "neck.width_at_nut"],
};

/// Above the one the string hangs in its slot when it is tuned, above the other it leaves the slot over its wall.
const LIMITS: Limits = Limits {
    bound: Bound::AtMost,
    warn: Measure::Angle(Angle::degrees(15.0)),
    fail: Measure::Angle(Angle::degrees(35.0)),
    source: Source::CommonPractice,
};

pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    subject
        .layout()
        .strings()
        .iter()
        .zip(subject.layout().tuners())
        .map(|(string, tuner)| {
            let [post_x, post_y] = at_post::end(string, tuner);
            let before =
                Angle::of_slope(string.zero_fret.y - string.nut.y, string.zero_fret.x - string.nut.x);
            let after = Angle::of_slope(string.nut.y - post_y, string.nut.x - post_x);
            LIMITS.judge(CHECK, about_string(string), Measure::Angle((after - before).abs()))
        })
        .collect()
}

//! zero-fret-press: where the nut carries the string, does it still turn down over the zero fret?

use units::Angle;

use crate::finding::{Bound, Check, Finding, Limits, Measure, Source, about_string};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "zero-fret-press",
    measures: "the angle through which the string turns down over the zero fret to its slot in the nut",
    cures: &["nut.gap_behind_zero_fret", "action.height"],
};

/// Below the one the string rattles on the zero fret when it is plucked hard, below the other the nut ends it.
const LIMITS: Limits = Limits {
    bound: Bound::AtLeast,
    warn: Measure::Angle(Angle::degrees(2.0)),
    fail: Measure::Angle(Angle::degrees(1.0)),
    source: Source::CommonPractice,
};

/// Less of a turn than this at the nut is a rounding.
const STRAIGHT_ON: Angle = Angle::degrees(1e-6);

/// A string that passes its slot without touching the floor is judged by its fall to the post alone, in `break_over_nut`.
pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    subject
        .layout()
        .strings()
        .iter()
        .filter_map(|string| {
            let rise =
                Angle::of_slope(string.saddle.z - string.zero_fret.z, string.saddle.x - string.zero_fret.x);
            let fall = Angle::of_slope(string.zero_fret.z - string.nut.z, string.zero_fret.x - string.nut.x);
            let turn = rise + fall;
            (string.fall_behind_zero_fret() - turn > STRAIGHT_ON)
                .then(|| LIMITS.judge(CHECK, about_string(string), Measure::Angle(turn)))
        })
        .collect()
}

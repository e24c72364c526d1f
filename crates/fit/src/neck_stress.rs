//! neck-stress: does the weakest place of the neck bear the strings?

use layout::NeckPlace;

use crate::finding::{Bound, Check, Concern, Finding, Limits, Measure, Source};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "neck-stress",
    measures: "the share of the wood's strength that the strings take where the neck is weakest",
    cures: &[
        "zero_fret.slot_depth",
        "headstock.thickness",
        "neck.tongue_recess",
        "neck.thickness",
        "neck.width_at_nut",
        "neck.width_at_box",
        "neck.wood",
    ],
};

/// A quarter leaves four times the load for knocks, knots and slanting grain; 2.3 is what clear hardwood's strength in bending
/// is divided by for a lasting load.
const LIMITS: Limits = Limits {
    bound: Bound::AtMost,
    warn: Measure::Share(1.0 / 4.0),
    fail: Measure::Share(1.0 / 2.3),
    source: Source::Published(
        "strength from the table of woods; a safety factor of 4 is common practice, 2.3 is ASTM D245's, from memory",
    ),
};

/// A neck that cannot be reckoned at all is left to the checks of its load and its tongue.
pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let load = subject.playing().neck();
    let Some(weakest) = load.weakest else { return Vec::new() };
    let finding = LIMITS.judge(CHECK, Concern::Part("neck"), Measure::Share(load.share_of_strength));
    let place = match weakest.place {
        NeckPlace::Headstock => "where the headstock is cut down".to_owned(),
        NeckPlace::ZeroFret => "at the zero fret's slot".to_owned(),
        NeckPlace::Fret(number) => format!("at the cut for fret {number}"),
        NeckPlace::BeforeHeel => "where the heel begins".to_owned(),
        NeckPlace::Box => "at the box".to_owned(),
        NeckPlace::Tongue => "in the tongue".to_owned(),
    };
    vec![finding.with_detail(format!("the weakest place is {place}, with {} of wood", weakest.depth))]
}

//! slot-floor: is there wood left under the slots?

use layout::Layout;
use spec::BoardRadius;
use units::{Length, math};

use crate::finding::{Bound, Check, Concern, Finding, Limits, Measure, Source};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "slot-floor",
    measures: "the wood under the deepest slot",
    cures: &["zero_fret.slot_depth", "frets.seat_depth", "fretboard.thickness", "neck.thickness"],
};

/// Below the one a board breaks at a slot when it is bent, below the other when it is sawn.
const BOARD: Limits = Limits {
    bound: Bound::AtLeast,
    warn: Measure::Length(Length::mm(1.5)),
    fail: Measure::Length(Length::mm(0.8)),
    source: Source::CommonPractice,
};

/// Below the one the stick gives way at a slot, below the other it is no stick any more.
const STICK: Limits = Limits {
    bound: Bound::AtLeast,
    warn: Measure::Length(Length::mm(8.0)),
    fail: Measure::Length(Length::mm(4.0)),
    source: Source::CommonPractice,
};

pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let layout = subject.layout();
    let Some(deepest) = layout.grooves().iter().map(|groove| groove.depth).reduce(Length::max) else {
        return Vec::new();
    };
    let board = layout.spec().fretboard.thickness;
    let (limits, part, left) = if board > Length::ZERO {
        (BOARD, "fretboard", board - lower_at_edge(layout) - deepest)
    } else {
        (STICK, "neck", layout.spec().neck.thickness - deepest)
    };
    let finding = limits.judge(CHECK, Concern::Part(part), Measure::Length(left));
    vec![finding.with_detail(format!("the deepest is {deepest} deep"))]
}

/// How much lower a crowned board is at its widest edge than on the centre line; the slot's floor follows the crown.
fn lower_at_edge(layout: &Layout) -> Length {
    match layout.spec().fretboard.radius {
        BoardRadius::Flat => Length::ZERO,
        BoardRadius::Radius(radius) => {
            let neck = layout.neck();
            let half = neck.width_at_nut.max(neck.width_at_box) / 2.0;
            radius * (1.0 - math::cos(math::asin((half / radius).min(1.0))))
        }
    }
}

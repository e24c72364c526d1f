//! bed-room: does every printed part lie on the printer's bed?

use parts::{Part, Process};
use units::{ChordTolerance, Length};

use crate::finding::{Bound, Check, Concern, Finding, Limits, Measure, Source};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "bed-room",
    measures: "the side, as the part lies on the bed, that needs the most room",
    cures: &["print.bed", "saddle.spread", "neck.width_at_nut"],
};

/// Larger lets a part pass that is larger than the bed; smaller takes time to no avail.
const CHORD: ChordTolerance = ChordTolerance::new(Length::mm(0.02));

pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let bed = sorted(subject.layout().spec().print.bed);
    subject.parts().parts.iter().filter_map(|part| judge(part, bed)).collect()
}

/// What is to be said of a printed part on a bed whose longer side comes first.
///
/// A rectangle lies on another along its sides if the longer one fits the longer one and the shorter one the shorter one.
fn judge(part: &Part, bed: [Length; 2]) -> Option<Finding> {
    let solid = part.solid.as_ref().filter(|solid| solid.process == Process::Printed)?;
    // That a body has no mesh, part-made tells.
    let [across, up, _] = solid.lying(CHORD).ok()?.size;
    let size = sorted([across, up]);
    let lack = |side: usize| size[side] - bed[side];
    let side = if lack(1) > lack(0) { 1 } else { 0 };
    let limits = Limits {
        bound: Bound::AtMost,
        warn: Measure::Length(bed[side]),
        // It can be printed elsewhere, or cut by hand: never a reason not to make the rest.
        fail: Measure::Length(Length::mm(f64::MAX)),
        source: Source::Document,
    };
    let finding = limits.judge(CHECK, Concern::Part(part.name), Measure::Length(size[side]));
    let too_large = lack(side) > Length::ZERO;
    let words = || {
        let [long, short] = size.map(|side| side.as_mm().ceil());
        format!(
            "it is left off the plate; a print.bed of \"{long} mm\", \"{short} mm\" or more would hold it"
        )
    };
    Some(Finding { detail: too_large.then(words), ..finding })
}

fn sorted([one, other]: [Length; 2]) -> [Length; 2] {
    [one.max(other), one.min(other)]
}

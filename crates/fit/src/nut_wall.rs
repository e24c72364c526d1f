//! nut-wall: is there wood left beside every slot of the nut?

use layout::{NutSlot, Place};
use spec::Handed;
use units::Length;

use crate::finding::{Bound, Check, Finding, Limits, Measure, Source, about_string};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "nut-wall",
    measures: "the least wood beside the string's slot: to the next slot toward bass, or to the end of the nut",
    cures: &["nut.edge_margin", "neck.width_at_nut", "nut.slot_clearance"],
};

/// Below the one a wall breaks out under the file, below the other two slots run into one another.
const LIMITS: Limits = Limits {
    bound: Bound::AtLeast,
    warn: Measure::Length(Length::mm(0.8)),
    fail: Measure::Length(Length::ZERO),
    source: Source::CommonPractice,
};

/// A slot is straight, so the least wood is at the front or at the rear face.
pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let (layout, nut) = (subject.layout(), subject.layout().nut());
    let toward_treble = match layout.spec().handed {
        Handed::Right => 1.0,
        Handed::Left => -1.0,
    };
    let last = nut.slots.len().saturating_sub(1);
    layout
        .strings()
        .iter()
        .zip(nut.slots.iter().enumerate())
        .map(|(string, (index, slot))| {
            let walls = [|slot: &NutSlot| slot.front, |slot: &NutSlot| slot.rear].map(|face| {
                let side = |slot: &NutSlot| face_y(slot, face, toward_treble);
                let toward_bass = match index.checked_sub(1).and_then(|before| nut.slots.get(before)) {
                    Some(before) => {
                        side(slot) - side(before) - (slot.width_across() + before.width_across()) / 2.0
                    }
                    None => side(slot) - slot.width_across() / 2.0 + nut.length / 2.0,
                };
                let toward_end = nut.length / 2.0 - side(slot) - slot.width_across() / 2.0;
                if index == last { toward_bass.min(toward_end) } else { toward_bass }
            });
            LIMITS.judge(CHECK, about_string(string), Measure::Length(walls[0].min(walls[1])))
        })
        .collect()
}

/// Where a slot lies across one face of the nut, counted toward treble.
fn face_y(slot: &NutSlot, face: fn(&NutSlot) -> Place, toward_treble: f64) -> Length {
    face(slot).y * toward_treble
}

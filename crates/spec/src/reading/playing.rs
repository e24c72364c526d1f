//! What is played: scale, strings, frets, the nut, the action.

use super::keys::{Keys, mm};
use crate::instrument::{
    Action, FretKind, FretPattern, Frets, Nut, PastHeel, Scale, Spacing, StringSpec, ZeroFret,
};
use crate::stock::WrapMaterial;

pub(super) fn scale(keys: &mut Keys<'_, '_>) -> Scale {
    let length = keys.length("length", "25 in", mm(200.0)..=mm(1200.0));
    let pattern = keys.fret_pattern("pattern");
    let frets = keys.count_by_rule(
        "frets",
        frets_of(&pattern),
        "18 of a chromatic pattern, 10 of a diatonic one, all of a list",
        1..=36,
    );
    Scale { length, frets, pattern }
}

/// How many frets a pattern has when nobody says: those within 18 semitones, or all of a list.
fn frets_of(pattern: &FretPattern) -> u8 {
    match pattern {
        FretPattern::Chromatic => 18,
        FretPattern::Diatonic => 10,
        // A list has at most as many items as there are semitones.
        FretPattern::Semitones(semitones) => semitones.len().min(36) as u8,
    }
}

pub(super) fn string(keys: &mut Keys<'_, '_>) -> StringSpec {
    let pitch = keys.pitch("pitch");
    let diameter = keys.required_length("diameter", "\"0.017 in\"", mm(0.1)..=mm(4.0));
    let core = keys.optional_length("core", mm(0.1)..=mm(2.5));
    // A core without a wrap makes no string; what is assumed is told as a note.
    let wrap = keys.optional_wrap("wrap").or_else(|| core.map(|_| WrapMaterial::usual()));
    StringSpec { pitch, diameter, core, wrap }
}

pub(super) fn frets(keys: &mut Keys<'_, '_>) -> Frets {
    Frets {
        kind: keys.choice("kind", FretKind::WrappedWire),
        wire: keys.wire("wire", "16 AWG", mm(0.4)..=mm(4.0)),
        seat_depth: keys.length("seat_depth", "0 mm", mm(0.0)..=mm(3.0)),
        height_scatter: keys.length("height_scatter", "0.08 mm", mm(0.0)..=mm(1.0)),
        past_heel: keys.choice("past_heel", PastHeel::Stop),
    }
}

pub(super) fn zero_fret(keys: &mut Keys<'_, '_>) -> ZeroFret {
    ZeroFret {
        crown_height: keys.length("crown_height", "1.4 mm", mm(0.3)..=mm(5.0)),
        crown_width: keys.length("crown_width", "2.8 mm", mm(0.5)..=mm(6.0)),
        slot_width: keys.length("slot_width", "0.6 mm", mm(0.2)..=mm(3.0)),
        slot_depth: keys.length("slot_depth", "1.6 mm", mm(0.3)..=mm(10.0)),
    }
}

pub(super) fn nut(keys: &mut Keys<'_, '_>) -> Nut {
    Nut {
        thickness: keys.length("thickness", "6 mm", mm(2.0)..=mm(20.0)),
        spacing: keys.choice("spacing", Spacing::EqualGaps),
        edge_margin: keys.length("edge_margin", "4 mm", mm(1.0)..=mm(30.0)),
        slot_clearance: keys.length("slot_clearance", "0.05 mm", mm(0.0)..=mm(1.0)),
        gap_behind_zero_fret: keys.length("gap_behind_zero_fret", "4 mm", mm(1.0)..=mm(30.0)),
    }
}

pub(super) fn action(keys: &mut Keys<'_, '_>) -> Action {
    Action {
        fret: keys.count("fret", 12, 1..=36),
        height: keys.length("height", "2.8 mm", mm(0.3)..=mm(15.0)),
    }
}

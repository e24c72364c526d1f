//! Strings, frets, nut.

use units::Length;

use super::{Relation, Side, require};
use crate::code::Code;
use crate::diagnostic::{Diagnostic, Severity};
use crate::instrument::{BoardRadius, FretKind, FretPattern, Spec};
use crate::reading::Reader;

pub(super) fn check(spec: &Spec, reader: &mut Reader<'_>) {
    frets_in_pattern(spec, reader);
    for (index, string) in spec.strings.iter().enumerate() {
        let [diameter, core, wrap] =
            ["diameter", "core", "wrap"].map(|key| format!("strings.{}.{key}", index + 1));
        if let Some(found) = string.core {
            let relation = Relation {
                code: Code::CoreNotInside,
                key: &core,
                found,
                side: Side::Below,
                limit: string.diameter,
                because: "the string's diameter",
                others: &[&diameter],
            };
            require(reader, &relation);
        }
        if reader.is_given(&core) && !reader.is_given(&wrap) {
            let message = format!(
                "{wrap}: expected what is wound round the core, found nothing; phosphor bronze is taken"
            );
            let note = Diagnostic::error(Code::AssumedWrap, reader.place_of(&core), message)
                .severity(Severity::Note)
                .hint_edit("write wrap = \"phosphor bronze\"", wrap, "phosphor bronze".to_owned());
            reader.tell(note);
        }
    }
    if spec.frets.kind != FretKind::FretWire {
        let relation = Relation {
            code: Code::WireUnderSurface,
            key: "frets.seat_depth",
            found: spec.frets.seat_depth,
            side: Side::Below,
            limit: spec.frets.wire.diameter(),
            because: "the diameter of frets.wire",
            others: &["frets.wire"],
        };
        require(reader, &relation);
    }
    let relation = Relation {
        code: Code::SlotThroughNeck,
        key: "zero_fret.slot_depth",
        found: spec.zero_fret.slot_depth,
        side: Side::Below,
        limit: spec.neck.thickness + spec.fretboard.thickness,
        because: "neck.thickness and fretboard.thickness together",
        others: &["neck.thickness", "fretboard.thickness"],
    };
    require(reader, &relation);
    if let BoardRadius::Radius(radius) = spec.fretboard.radius {
        let relation = Relation {
            code: Code::BoardTooRound,
            key: "fretboard.radius",
            found: radius,
            side: Side::Above,
            limit: spec.neck.width_at_nut.max(spec.neck.width_at_box) * 0.5,
            because: "half the width of the neck",
            others: &["neck.width_at_nut", "neck.width_at_box"],
        };
        require(reader, &relation);
    }
    room_at_nut(spec, reader);
}

/// A list of semitones has as many frets as it has items, and no more.
fn frets_in_pattern(spec: &Spec, reader: &mut Reader<'_>) {
    let FretPattern::Semitones(semitones) = &spec.scale.pattern else { return };
    let most = semitones.len();
    if usize::from(spec.scale.frets) <= most
        || !reader.is_sound("scale.frets")
        || !reader.is_sound("scale.pattern")
    {
        return;
    }
    let message = format!(
        "scale.frets: expected at most {most}, the semitones in scale.pattern, found {}",
        spec.scale.frets
    );
    let fault = Diagnostic::error(Code::TooManyFrets, reader.place_of("scale.frets"), message)
        .label(reader.place_of("scale.pattern"), "which has no more")
        .hint_edit(format!("write frets = {most}"), "scale.frets".to_owned(), most.to_string())
        .hint("or add semitones to scale.pattern");
    reader.tell(fault);
}

/// Strings and margins share the width at the nut.
fn room_at_nut(spec: &Spec, reader: &mut Reader<'_>) {
    let diameters: Length = spec.strings.iter().map(|string| string.diameter).sum();
    let strings_are_sound =
        (1..=spec.strings.len()).all(|string| reader.is_sound(&format!("strings.{string}.diameter")));
    if !strings_are_sound {
        return;
    }
    let relation = Relation {
        code: Code::NoRoomAtNut,
        key: "nut.edge_margin",
        found: spec.nut.edge_margin,
        side: Side::Below,
        limit: (spec.neck.width_at_nut - diameters) * 0.5,
        because: "half of what the strings leave of neck.width_at_nut",
        others: &["neck.width_at_nut", "strings"],
    };
    require(reader, &relation);
}

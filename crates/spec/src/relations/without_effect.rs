//! Keys that were written and change nothing, because another key says so.

use units::Length;

use crate::code::Code;
use crate::diagnostic::{Diagnostic, Severity};
use crate::instrument::{FretKind, Joint, NeckSection, Spec, TailKind};
use crate::reading::Reader;

pub(super) fn check(spec: &Spec, reader: &mut Reader<'_>) {
    let rectangle = spec.headstock.outline.is_none();
    let eased = spec.neck.section == NeckSection::Eased;
    let through = spec.neck.joint == Joint::Through;
    let wrapped = spec.frets.kind == FretKind::WrappedWire;
    let wire = spec.frets.kind != FretKind::FretWire;
    let block = spec.tail.kind == TailKind::Block;
    let board = spec.fretboard.thickness > Length::ZERO;
    let heel = spec.heel.reach > Length::ZERO;
    for (has_effect, key, other) in [
        (rectangle, "headstock.length", "headstock.outline"),
        (!rectangle, "headstock.outline_units", "headstock.outline"),
        (eased, "neck.edge_radius", "neck.section"),
        (through, "neck.tongue_recess", "neck.joint"),
        (through, "neck.tail_overhang", "neck.joint"),
        (wrapped, "frets.past_heel", "frets.kind"),
        (wire, "frets.wire", "frets.kind"),
        (wire, "frets.seat_depth", "frets.kind"),
        (block, "tail.screw", "tail.kind"),
        (block, "tail.screws", "tail.kind"),
        (board, "fretboard.radius", "fretboard.thickness"),
        (heel, "heel.depth", "heel.reach"),
    ] {
        // A document with everything filled in is no reason to warn: only a value that differs from the default is.
        if has_effect || !reader.is_given(key) || reader.is_default(key) {
            continue;
        }
        if !reader.is_sound(key) || !reader.is_sound(other) {
            continue;
        }
        let message = format!("{key}: expected to be left out, because {other} makes it without effect");
        let warning = Diagnostic::error(Code::NoEffect, reader.place_of(key), message)
            .severity(Severity::Warning)
            .label(reader.place_of(other), "because of this")
            .hint(format!("remove {key}, or change {other}"));
        reader.tell(warning);
    }
}

//! The box and what stands on it.

use super::keys::{Keys, mm};
use crate::code::Code;
use crate::instrument::{
    BoxFace, BoxSpec, Hole, HolePurpose, Opening, Saddle, SaddleKind, ScrewGauge, Tail, TailKind,
};

pub(super) fn saddle(keys: &mut Keys<'_, '_>) -> Saddle {
    Saddle {
        kind: keys.choice("kind", SaddleKind::Floating),
        thickness: keys.length("thickness", "8 mm", mm(2.0)..=mm(40.0)),
        spread: keys.length("spread", "33 mm", mm(0.0)..=mm(150.0)),
        from_tail_end: keys.length("from_tail_end", "2 1/2 in", mm(5.0)..=mm(400.0)),
        adjust: keys.length("adjust", "8 mm", mm(0.0)..=mm(20.0)),
    }
}

pub(super) fn tail(keys: &mut Keys<'_, '_>) -> Tail {
    Tail {
        kind: keys.choice("kind", TailKind::Block),
        hole_height: keys.length("hole_height", "4 mm", mm(-60.0)..=mm(40.0)),
        distance: keys.length("distance", "30 mm", mm(5.0)..=mm(400.0)),
        hole_bore: keys.length("hole_bore", "1.6 mm", mm(0.5)..=mm(6.0)),
        ball_bore: keys.length("ball_bore", "4.5 mm", mm(1.0)..=mm(12.0)),
        ball_depth: keys.length("ball_depth", "4 mm", mm(0.0)..=mm(30.0)),
        screw: keys.choice("screw", ScrewGauge::No6),
        screws: keys.count("screws", 2, 1..=8),
    }
}

pub(super) fn body(keys: &mut Keys<'_, '_>) -> BoxSpec {
    BoxSpec {
        length: keys.length("length", "10 in", mm(80.0)..=mm(800.0)),
        width: keys.length("width", "7 in", mm(50.0)..=mm(600.0)),
        depth: keys.length("depth", "2 in", mm(15.0)..=mm(200.0)),
        wall: keys.length("wall", "1/4 in", mm(1.5)..=mm(30.0)),
        lid: keys.length("lid", "1/8 in", mm(1.0)..=mm(15.0)),
        lid_wood: keys.wood("lid_wood", "birch plywood"),
        holes: keys.sections("holes", 0, crate::limits::HOLES, hole),
    }
}

fn hole(keys: &mut Keys<'_, '_>) -> Hole {
    let purpose = keys.choice("purpose", HolePurpose::Sound);
    let face = keys.choice("face", BoxFace::Lid);
    let at = keys.required_length_pair("at", mm(-400.0)..=mm(800.0));
    let diameter = keys.optional_length("diameter", mm(1.0)..=mm(300.0));
    let length = keys.optional_length("length", mm(1.0)..=mm(400.0));
    let width = keys.optional_length("width", mm(1.0)..=mm(400.0));
    let outline_units = keys.outline_units();
    let outline = keys.opening_outline(outline_units);
    let given = ["outline", "diameter", "length", "width"].map(|key| keys.is_given(key));
    match given {
        [true, false, false, false] | [false, true, false, false] | [false, false, true, true] => {}
        [true, ..] | [false, true, ..] => keys.fault_of_section(
            Code::HoleSize,
            "expected one size, found more than one of outline, diameter, and length with width",
            "keep diameter for a round hole, length and width for a rectangle, or outline for what is drawn in a file",
        ),
        [false, false, ..] => keys.fault_of_section(
            Code::HoleSize,
            "expected a diameter, a length and a width, or an outline, found none whole",
            "for a round hole write diameter = \"1 in\"; for a rectangle write length = \"70 mm\" and width = \"40 mm\"",
        ),
    }
    if keys.is_given("outline_units") && !keys.is_given("outline") {
        keys.fault_of_section(
            Code::HoleSize,
            "expected outline_units beside an outline only, found no outline",
            "remove outline_units, or name the outline's file as outline = \"leaf.dxf\"",
        );
    }
    let may_be_drawn = face == BoxFace::Lid && matches!(purpose, HolePurpose::Sound | HolePurpose::Pickup);
    if keys.is_given("outline") && !may_be_drawn {
        keys.fault_of_section(
            Code::HoleSize,
            "expected an outline for a sound hole or a pickup in the lid only, found one for another hole",
            "write diameter = \"10 mm\" in its place: what a jack or a pot sits in is drilled",
        );
    }
    let opening = match (outline, diameter, length, width) {
        (Some(outline), ..) => Opening::Drawn { outline, outline_units },
        (None, None, Some(length), Some(width)) => Opening::Rectangle { length, width },
        (None, diameter, ..) => Opening::Round { diameter: diameter.unwrap_or(mm(25.4)) },
    };
    let depth = keys.optional_length("depth", mm(0.0)..=mm(200.0));
    Hole { purpose, face, at, opening, depth }
}

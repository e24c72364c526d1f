//! Plans that cannot be built as they stand, or will not please, each by one check.

use spec::Document;

use super::plan;

const PORCH: &str = include_str!("../../../../specs/porch-three-string.toml");
const MEADOW: &str = include_str!("../../../../specs/meadow-diatonic.toml");

/// The check that a plan breaks, and the plan.
pub fn building() -> Vec<(&'static str, Document)> {
    let porch = |id, changes: &[(&str, &str)]| (id, plan(PORCH, changes));
    let meadow = |id, changes: &[(&str, &str)]| (id, plan(MEADOW, changes));
    vec![
        porch("plank-length", &[("plank.length", "860 mm")]),
        porch("plank-width", &[("plank.width", "37 mm"), ("tail.hole_height", "3.5 mm")]),
        porch("plank-thickness", &[("plank.thickness", "18.5 mm")]),
        porch("slot-floor", &[("neck.thickness", "12 mm"), ("zero_fret.slot_depth", "5 mm")]),
        porch("neck-relief", &[("neck.thickness", "17 mm")]),
        porch("neck-stress", &[("neck.thickness", "14 mm"), ("zero_fret.slot_depth", "10 mm")]),
        porch("tongue-thickness", &[("neck.tongue_recess", "9 mm")]),
        porch("tongue-under-lid", &[("neck.tongue_recess", "0.4 mm")]),
        porch("tongue-above-bottom", &[("box.depth", "24 mm")]),
        porch("heel-reach", &[("scale.length", "300 mm"), ("scale.frets", "1"), ("heel.reach", "60 mm")]),
        porch("heel-glue", &[("heel.depth", "24 mm")]),
        porch("heel-in-box", &[("heel.depth", "55 mm")]),
        porch("zero-fret-step", &[("zero_fret.crown_height", "1.2 mm")]),
        porch("zero-fret-step", &[("zero_fret.crown_height", "1.7 mm")]),
        porch(
            "wire-gap",
            &[
                ("scale.frets", "27"),
                ("box.length", "170 mm"),
                ("saddle.from_tail_end", "50 mm"),
                ("heel.reach", "0 mm"),
                ("frets.wire", "2.2 mm"),
            ],
        ),
        meadow("wire-seat", &[("frets.seat_depth", "1 mm")]),
        porch("wire-bend", &[("neck.edge_radius", "1 mm")]),
        porch("opening-edge", &[("box.holes.1.at", "50.8 mm, 68 mm")]),
        porch("opening-gap", &[("box.holes.1.at", "50.8 mm, -17 mm")]),
        meadow("opening-clear", &[("box.holes.2.at", "27 mm, 22 mm")]),
        porch("sound-hole-open", &[("box.holes.1.at", "50.8 mm, 12 mm")]),
        porch("hardware-clear", &[("box.holes.1.purpose", "pot"), ("box.holes.1.at", "50.8 mm, 25 mm")]),
        porch("hardware-clear", &[("box.holes.1.purpose", "pickup"), ("box.holes.1.at", "90 mm, 0 mm")]),
        porch("bushing-reach", &[("box.holes.1.purpose", "jack"), ("box.lid", "7 mm")]),
        porch("print-walls", &[("tail.hole_height", "2.8 mm")]),
        porch("bit-enters", &[("router.bit", "4 mm"), ("box.holes.1.diameter", "3.5 mm")]),
        porch("bed-room", &[("print.bed", "60 mm, 50 mm")]),
        porch("print-overhang", &[("tail.ball_bore", "6.5 mm")]),
    ]
}

//! What was checked first: frets, strings, loads, the parts as a whole.

use spec::Document;

use super::plan;

const PORCH: &str = include_str!("../../../../specs/porch-three-string.toml");
const LOW_TAIL: &str = include_str!("../../../../specs/runaway-low-tail.toml");

/// The check that a plan breaks, and the plan.
pub fn first() -> Vec<(&'static str, Document)> {
    let porch = |id, changes: &[(&str, &str)]| (id, plan(PORCH, changes));
    let low_tail = |id, changes: &[(&str, &str)]| (id, plan(LOW_TAIL, changes));
    vec![
        porch("frets-reached", &[("scale.frets", "19")]),
        porch("string-edge", &[("nut.edge_margin", "1 mm")]),
        porch("string-gap", &[("nut.edge_margin", "14 mm")]),
        porch("break-over-nut", &[("headstock.post_height", "12 mm")]),
        porch("break-over-saddle", &[("tail.hole_height", "7 mm")]),
        porch("string-load", &[("strings.3.pitch", "G4")]),
        low_tail("saddle-drift", &[]),
        porch("compensation-room", &[("saddle.adjust", "1 mm")]),
        porch("tail-on-box", &[("tail.distance", "60 mm")]),
        porch("free-of-buzz", &[]),
        porch("neck-load", &[("neck.thickness", "14 mm")]),
        porch("lid-sink", &[("box.lid", "1.5 mm")]),
        low_tail("saddle-stands", &[("saddle.thickness", "4 mm")]),
        porch("part-made", &[("fretboard.thickness", "2 mm")]),
        porch("drawing-clean", &[("box.holes.1.at", "50.8 mm, -25 mm")]),
    ]
}

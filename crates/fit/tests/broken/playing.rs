//! Plans whose nut, saddle, tail or headstock is not right, each by one check.

use spec::Document;

use super::plan;

const PORCH: &str = include_str!("../../../../specs/porch-three-string.toml");
const KITCHEN: &str = include_str!("../../../../specs/kitchen-four-string.toml");
const MEADOW: &str = include_str!("../../../../specs/meadow-diatonic.toml");
const SIX: &str = include_str!("../../../../specs/left-hand-six.toml");

/// The check that a plan breaks, and the plan.
pub fn playing() -> Vec<(&'static str, Document)> {
    let porch = |id, changes: &[(&str, &str)]| (id, plan(PORCH, changes));
    let kitchen = |id, changes: &[(&str, &str)]| (id, plan(KITCHEN, changes));
    let meadow = |id, changes: &[(&str, &str)]| (id, plan(MEADOW, changes));
    let six = |id, changes: &[(&str, &str)]| (id, plan(SIX, changes));
    vec![
        porch("nut-wall", &[("nut.edge_margin", "17.9 mm")]),
        porch(
            "nut-slot-depth",
            &[
                ("neck.width_at_nut", "100 mm"),
                ("neck.width_at_box", "100 mm"),
                ("fretboard.thickness", "8 mm"),
                ("fretboard.radius", "300 mm"),
            ],
        ),
        porch("nut-foot", &[("headstock.thickness", "19 mm")]),
        porch("air-before-nut", &[("zero_fret.crown_height", "0.6 mm")]),
        porch("zero-fret-press", &[("nut.gap_behind_zero_fret", "25 mm"), ("action.height", "1 mm")]),
        porch("turn-at-nut", &[("neck.width_at_nut", "80 mm"), ("headstock.tuner_rows", "1")]),
        porch("string-past-posts", &[("nut.edge_margin", "16 mm"), ("headstock.tuner_rows", "1")]),
        porch("string-gap-at-saddle", &[("saddle.spread", "10 mm")]),
        porch("saddle-on-lid", &[("saddle.from_tail_end", "20 mm")]),
        porch("saddle-across", &[("saddle.spread", "148 mm")]),
        porch("saddle-over-opening", &[("box.holes.1.at", "165 mm, 0 mm")]),
        porch("saddle-before-tail", &[("tail.distance", "10 mm")]),
        porch("saddle-height", &[("neck.face_above_lid", "-6 mm")]),
        kitchen("saddle-slender", &[("saddle.thickness", "4.5 mm")]),
        porch("tail-clears-neck", &[("tail.hole_height", "-1 mm"), ("tail.distance", "72 mm")]),
        porch("tail-bore-edge", &[("tail.hole_height", "2 mm")]),
        porch("tail-bore-gap", &[("saddle.spread", "8 mm")]),
        six("tail-screw-clear", &[("saddle.spread", "40 mm")]),
        six("tail-screws-in-wall", &[("tail.ball_depth", "2 mm")]),
        meadow("ball-seat", &[("tail.hole_height", "-4 mm"), ("tail.ball_depth", "16 mm")]),
        porch("ball-fits", &[("tail.ball_bore", "3.5 mm")]),
        porch("ball-held", &[("tail.hole_bore", "4 mm")]),
        porch("string-bore", &[("tail.hole_bore", "0.8 mm")]),
        porch("post-distance", &[("headstock.length", "30 mm")]),
        porch("tuner-edge", &[("headstock.tuner_bore", "17 mm")]),
        porch("tuner-gap", &[("headstock.length", "48 mm")]),
        porch("tuner-bodies", &[("headstock.length", "55 mm")]),
        porch("tuner-buttons", &[("headstock.length", "54 mm")]),
        porch("button-reach", &[("neck.width_at_nut", "60 mm"), ("headstock.tuner_rows", "1")]),
        porch("tuner-reach", &[("headstock.post_height", "14.2 mm")]),
    ]
}

//! Wood, box and printer: what is checked of how the plan is built.

use fit::Severity::{Fail, Note, Pass, Warn};
use fit::{Concern, Measure};
use units::Length;

use crate::slide::{MEADOW, PORCH, Slide, all_findings, check, number, plan, slide, worst};

/// The porch plan with its first opening somewhere across the lid.
fn across(changes: &[(&str, &str)], from: f64, to: f64) -> Slide<'static> {
    Slide { plan: plan(PORCH, changes), key: "box.holes.1.at", written: "50.8 mm, {} mm", from, to }
}

#[test]
fn planks_are_measured_against_the_stick() {
    // 6 in of headstock, 6 mm of nut, 4 mm to the zero fret, 25 in less 2 1/2 in plus 10 in to the tail end, 1/2 in over it.
    let length = 152.4 + 6.0 + 4.0 + (635.0 + 63.5) + 12.7;
    check("plank-length", &slide(plan(PORCH, &[]), "plank.length", 900.0, 800.0), Fail, length, 1e-4);
    check("plank-width", &slide(plan(PORCH, &[]), "plank.width", 40.0, 30.0), Fail, 38.1, 1e-4);
    check("plank-thickness", &slide(plan(PORCH, &[]), "plank.thickness", 20.0, 15.0), Fail, 19.05, 1e-4);
}

#[test]
fn a_plank_that_nobody_measured_is_not_judged() {
    let told = all_findings(&plan(PORCH, &[]));
    assert!(told.iter().all(|finding| !finding.check.id.starts_with("plank")), "found {told:#?}");
}

#[test]
fn slot_floor() {
    // A board of 2.4 mm under slots of 1.6 mm keeps 0.8 mm.
    let board = || slide(plan(PORCH, &[]), "fretboard.thickness", 4.0, 2.0);
    check("slot-floor", &board(), Warn, 1.5, 1e-4);
    check("slot-floor", &board(), Fail, 0.8, 1e-4);
    let stick = || {
        let thin = plan(PORCH, &[("neck.thickness", "12 mm")]);
        slide(thin, "zero_fret.slot_depth", 1.6, 10.0)
    };
    check("slot-floor", &stick(), Warn, 8.0, 1e-4);
    check("slot-floor", &stick(), Fail, 4.0, 1e-4);
}

#[test]
fn a_crowned_board_is_thinnest_at_its_edge() {
    let crowned = plan(PORCH, &[("fretboard.thickness", "4 mm"), ("fretboard.radius", "100 mm")]);
    // 100 mm less the root of 100^2 - 19.05^2 is 1.831 mm of fall.
    let found = number(worst(&crowned, "slot-floor").found);
    assert!((found - (4.0 - 1.6 - 1.831_276)).abs() < 1e-5, "found {found}");
}

#[test]
fn neck_relief() {
    check("neck-relief", &slide(plan(PORCH, &[]), "neck.thickness", 19.0, 14.0), Warn, 1.0, 1e-4);
    check("neck-relief", &slide(plan(PORCH, &[]), "neck.thickness", 19.0, 13.0), Fail, 3.0, 1e-3);
}

#[test]
fn neck_stress() {
    let slot = || {
        let thin = plan(PORCH, &[("neck.thickness", "13 mm")]);
        slide(thin, "zero_fret.slot_depth", 1.6, 10.0)
    };
    check("neck-stress", &slot(), Warn, 0.25, 1e-5);
    check("neck-stress", &slot(), Fail, 1.0 / 2.3, 1e-5);
    let [_, beyond] = slot().edge("neck-stress", Warn);
    let words = beyond.detail.unwrap_or_default();
    assert!(words.contains("at the zero fret's slot"), "says where: {words}");
}

#[test]
fn tongue_thickness() {
    // 3/4 in less a lid of 1/8 in and the recess.
    let recess = || slide(plan(PORCH, &[]), "neck.tongue_recess", 3.0, 12.0);
    check("tongue-thickness", &recess(), Warn, 8.0, 1e-4);
    check("tongue-thickness", &recess(), Fail, 6.0, 1e-4);
    // Where the strings go down through the overhang, its top counts.
    let entry = slide(plan(MEADOW, &[]), "tail.hole_height", -4.0, -18.0);
    check("tongue-thickness", &entry, Fail, 6.0, 1e-4);
}

#[test]
fn tongue_under_lid_warns_and_never_fails() {
    let recess = slide(plan(PORCH, &[]), "neck.tongue_recess", 3.0, 0.0);
    check("tongue-under-lid", &recess, Warn, 0.5, 1e-4);
    assert_eq!(worst(&recess.at(0.0), "tongue-under-lid").severity, Warn, "a lid that lies on the tongue");
}

#[test]
fn tongue_above_bottom() {
    // The stick, 3/4 in thick, and a bottom as thick as the lid, 1/8 in.
    let depth = || slide(plan(PORCH, &[]), "box.depth", 50.0, 20.0);
    check("tongue-above-bottom", &depth(), Warn, 3.0, 1e-4);
    check("tongue-above-bottom", &depth(), Fail, 0.0, 1e-4);
    let [_, beyond] = depth().edge("tongue-above-bottom", Fail);
    assert!(number(beyond.found) <= 0.0, "found {beyond}");
    // A neck that leans back goes down toward the tail.
    let leaning = plan(PORCH, &[("neck.back_angle", "6 deg")]);
    assert_eq!(worst(&leaning, "tongue-above-bottom").severity, Pass, "upward: the lid falls away under it");
}

#[test]
fn heel() {
    let reach = || {
        let short = plan(PORCH, &[("scale.length", "300 mm"), ("scale.frets", "1")]);
        slide(short, "heel.reach", 10.0, 150.0)
    };
    check("heel-reach", &reach(), Warn, 80.0, 1e-4);
    check("heel-reach", &reach(), Fail, 0.0, 1e-4);
    check("heel-glue", &slide(plan(PORCH, &[]), "heel.depth", 38.0, 20.0), Warn, 8.0, 1e-4);
    check("heel-glue", &slide(plan(PORCH, &[]), "heel.depth", 38.0, 20.0), Fail, 3.0, 1e-4);
    // A neck that stands on the lid lifts its heel off the wall.
    let lifted = plan(PORCH, &[("neck.thickness", "12 mm"), ("heel.depth", "20 mm"), ("neck.joint", "butt")]);
    check("heel-glue", &slide(lifted, "neck.face_above_lid", 0.0, 20.0), Fail, 3.0, 1e-4);
    check("heel-in-box", &slide(plan(PORCH, &[]), "heel.depth", 38.0, 80.0), Warn, 0.0, 1e-4);
    check("heel-in-box", &slide(plan(PORCH, &[]), "heel.depth", 38.0, 80.0), Fail, -10.0, 1e-4);
    let without = all_findings(&plan(PORCH, &[("heel.reach", "0 mm")]));
    assert!(without.iter().all(|finding| !finding.check.id.starts_with("heel")), "no heel, nothing said");
}

#[test]
fn zero_fret_step() {
    let crown = |to| slide(plan(PORCH, &[]), "zero_fret.crown_height", 1.4, to);
    check("zero-fret-step", &crown(1.0), Warn, -0.02, 1e-4);
    check("zero-fret-step", &crown(0.8), Fail, -0.3, 1e-4);
    check("zero-fret-step", &crown(2.0), Warn, 0.25, 1e-4);
    check("zero-fret-step", &crown(2.5), Fail, 1.0, 1e-4);
    let [_, beyond] = crown(2.0).edge("zero-fret-step", Warn);
    assert_eq!(beyond.concern, Concern::Fret { number: 1 }, "says which fret");
    let level = all_findings(&plan(PORCH, &[("frets.kind", "fret wire")]));
    assert!(level.iter().all(|finding| finding.check.id != "zero-fret-step"), "one wire, one height");
}

#[test]
fn wire_gap_warns_and_never_fails() {
    let many = plan(
        PORCH,
        &[
            ("scale.frets", "27"),
            ("box.length", "170 mm"),
            ("saddle.from_tail_end", "50 mm"),
            ("heel.reach", "0 mm"),
        ],
    );
    let wire = slide(many, "frets.wire", 1.2, 3.0);
    check("wire-gap", &wire, Warn, 6.0, 1e-4);
    let [_, beyond] = wire.edge("wire-gap", Warn);
    assert_eq!(beyond.concern, Concern::Fret { number: 27 }, "the last two are nearest");
}

#[test]
fn wire_seat() {
    let depth = || slide(plan(MEADOW, &[]), "frets.seat_depth", 0.4, 1.6);
    check("wire-seat", &depth(), Warn, 0.5, 1e-5);
    check("wire-seat", &depth(), Fail, 0.8, 1e-5);
}

#[test]
fn wire_bend() {
    let thick = plan(PORCH, &[("frets.wire", "1.5 mm")]);
    check("wire-bend", &slide(thick, "neck.edge_radius", 3.0, 0.5), Warn, 1.5, 1e-4);
    let round = worst(&plan(PORCH, &[]), "wire-bend");
    assert_eq!(round.severity, Note, "the upper edges are square: {round}");
    let square = worst(&plan(PORCH, &[("neck.section", "square")]), "wire-bend");
    assert_eq!(square.severity, Note, "a square edge is filed: {square}");
    let fret_wire = all_findings(&plan(PORCH, &[("frets.kind", "fret wire")]));
    assert!(fret_wire.iter().all(|finding| finding.check.id != "wire-bend"), "nothing is wrapped");
}

#[test]
fn opening_edge() {
    // 7 in wide with walls of 1/4 in, and half an inch of opening.
    check("opening-edge", &across(&[], 44.0, 80.0), Warn, 3.0, 1e-4);
    check("opening-edge", &across(&[], 44.0, 80.0), Fail, 0.0, 1e-4);
    let [_, beyond] = across(&[], 44.0, 80.0).edge("opening-edge", Fail);
    assert_eq!(beyond.concern.to_string(), "opening 1 (sound, lid)", "says which");
}

#[test]
fn opening_gap() {
    check("opening-gap", &across(&[], 44.0, -30.0), Warn, 4.0, 1e-4);
    check("opening-gap", &across(&[], 44.0, -30.0), Fail, 1.0, 1e-4);
}

#[test]
fn opening_clear() {
    let beside_neck = || Slide {
        plan: plan(MEADOW, &[]),
        key: "box.holes.2.at",
        written: "{} mm, 22 mm",
        from: 44.0,
        to: 22.0,
    };
    check("opening-clear", &beside_neck(), Warn, 4.0, 1e-4);
    check("opening-clear", &beside_neck(), Fail, 0.0, 1e-4);
    let below_heel = Slide {
        plan: plan(PORCH, &[("box.holes.1.face", "neck end"), ("box.holes.1.diameter", "8 mm")]),
        key: "box.holes.1.at",
        written: "0 mm, {} mm",
        from: 46.5,
        to: 40.0,
    };
    check("opening-clear", &below_heel, Fail, 0.0, 1e-4);
    let [_, beyond] = below_heel.edge("opening-clear", Fail);
    assert!(beyond.detail.is_some_and(|words| words.contains("the heel")), "says what it meets");
    let at_tail = Slide { written: "{} mm, 0 mm", from: 150.0, to: 225.0, ..across(&[], 0.0, 0.0) };
    check("opening-clear", &at_tail, Fail, 0.0, 1e-4);
}

#[test]
fn sound_hole_open_warns_and_never_fails() {
    check("sound-hole-open", &across(&[], 44.0, 10.0), Warn, 0.5, 1e-5);
    let [inside, _] = across(&[], 44.0, 10.0).edge("sound-hole-open", Warn);
    assert_eq!(inside.severity, Pass, "half open");
    let closed = worst(&across(&[], 0.0, 0.0).at(0.0), "sound-hole-open");
    assert_eq!((closed.severity, number(closed.found)), (Warn, 0.0), "right over the tongue");
}

#[test]
fn hardware_clear() {
    let pot = &[("box.holes.1.purpose", "pot"), ("box.holes.1.diameter", "10 mm")];
    check("hardware-clear", &across(pot, 44.0, 20.0), Warn, 1.0, 1e-4);
    check("hardware-clear", &across(pot, 44.0, 20.0), Fail, 0.0, 1e-4);
    // A pickup over the tongue has the lid's thickness and the recess to hang into.
    let pickup = plan(PORCH, &[("box.holes.1.purpose", "pickup"), ("box.holes.1.at", "100 mm, 0 mm")]);
    check("hardware-clear", &slide(pickup, "box.holes.1.depth", 3.0, 12.0), Fail, 0.0, 1e-4);
    // And what needs the whole box.
    let deep = plan(PORCH, &[("box.holes.1.purpose", "pot")]);
    check("hardware-clear", &slide(deep, "box.depth", 50.0, 21.0), Fail, 0.0, 1e-4);
}

#[test]
fn bushing_reach() {
    let jack = || {
        let side = [("box.holes.1.purpose", "jack"), ("box.holes.1.face", "treble side")];
        slide(plan(PORCH, &side), "box.wall", 5.0, 12.0)
    };
    check("bushing-reach", &jack(), Warn, 6.5, 1e-4);
    check("bushing-reach", &jack(), Fail, 9.0, 1e-4);
}

#[test]
fn print_walls() {
    // Under counterbores of 4.5 mm.
    check("print-walls", &slide(plan(PORCH, &[]), "tail.hole_height", 4.0, 2.3), Warn, 0.8, 1e-4);
    check("print-walls", &slide(plan(PORCH, &[]), "tail.hole_height", 4.0, 2.3), Fail, 0.4, 1e-4);
    // Between the slots of a nut: three strings whose outer ones move inward.
    let nut = slide(plan(PORCH, &[("tail.hole_height", "5 mm")]), "nut.edge_margin", 4.0, 17.6);
    check("print-walls", &nut, Warn, 0.8, 1e-4);
    // A screw between two strings meets their bores.
    let screws = plan(PORCH, &[("tail.screws", "4"), ("tail.screw", "No. 10")]);
    check("print-walls", &slide(screws, "saddle.spread", 33.0, 5.0), Fail, 0.4, 1e-4);
}

#[test]
fn print_overhang_warns_and_never_fails() {
    check("print-overhang", &slide(plan(PORCH, &[]), "tail.ball_bore", 4.5, 9.0), Warn, 6.0, 1e-4);
}

#[test]
fn print_layer_is_a_note() {
    let layer = slide(plan(PORCH, &[]), "print.layer", 0.05, 0.2);
    check("print-layer", &layer, Note, 0.06, 1e-4);
    let thin = worst(&layer.at(0.05), "print-layer");
    assert!(thin.found <= Measure::Length(Length::mm(0.025)), "never more than half a layer: {thin}");
    let words = worst(&layer.at(0.2), "print-layer").detail.unwrap_or_default();
    assert!(words.contains("the saddle comes out 5.4 mm high for 5.35 mm"), "says the height: {words}");
}

//! Does every drawing of a known plan say what is to be done, and how often?

use std::collections::BTreeMap;

use geometry::Operation;
use spec::Document;

/// What a drawing asks for, as "1 cut outside, 3 drill": guides left out, they are not made.
fn asked(operations: &[Operation]) -> String {
    let mut counts: BTreeMap<&str, usize> = BTreeMap::new();
    for operation in operations {
        let kind = match operation {
            Operation::CutOutside(_) => "cut outside",
            Operation::CutInside(_) => "cut inside",
            Operation::Pocket { .. } => "pocket",
            Operation::Drill { .. } => "drill",
            Operation::Slot { .. } => "slot",
            Operation::Engrave(_) => "engrave",
            _ => continue,
        };
        *counts.entry(kind).or_default() += 1;
    }
    counts.iter().map(|(kind, count)| format!("{count} {kind}")).collect::<Vec<_>>().join(", ")
}

/// The drawings of the default plan with some lines changed, each by its name and what it asks for.
#[track_caller]
fn check(text: &str, expected: &[(&str, &str)]) {
    let document = Document::parse(text.as_bytes());
    let (spec, _) = document.read().into_result().unwrap_or_else(|faults| panic!("unsound: {faults:#?}"));
    let layout = layout::layout(&spec).unwrap_or_else(|fault| panic!("cannot be laid out: {fault}"));
    let set = parts::parts(&layout);
    assert!(set.faults.is_empty(), "no part may fail: {:?}", set.faults);
    let found: BTreeMap<String, String> = set
        .parts
        .iter()
        .flat_map(|part| &part.drawings)
        .map(|drawing| (drawing.name.clone(), asked(&drawing.operations)))
        .collect();
    for (name, operations) in expected {
        let found = found.get(*name).map(String::as_str);
        assert_eq!(found, (!operations.is_empty()).then_some(*operations), "{name} of {text:?}");
    }
}

#[test]
fn a_wrapped_neck_is_marked_for_its_frets_and_slotted_for_the_zero_fret() {
    check(
        "scale.frets = 15",
        &[("neck-plan", "1 cut outside, 3 drill, 15 engrave, 1 slot"), ("fretboard", "")],
    );
}

#[test]
fn a_board_takes_the_slots() {
    let text = "fretboard.thickness = \"6 mm\"\nfrets.kind = \"fret wire\"\nscale.frets = 14";
    check(text, &[("neck-plan", "1 cut outside, 3 drill"), ("fretboard", "1 cut outside, 15 slot")]);
}

#[test]
fn seated_wire_takes_grooves() {
    let text = "frets.kind = \"seated wire\"\nfrets.seat_depth = \"0.3 mm\"\nscale.frets = 10";
    check(text, &[("neck-plan", "1 cut outside, 3 drill, 11 slot")]);
}

#[test]
fn a_nut_has_a_slot_a_string_in_both_views() {
    check("", &[("nut-front", "1 cut outside, 3 slot"), ("nut-top", "1 cut outside, 3 slot")]);
}

#[test]
fn a_tail_block_has_two_drillings_a_string_and_one_a_screw() {
    let on_lid =
        [("tail-block-strings", "1 cut outside, 6 drill"), ("tail-block-screws", "1 cut outside, 2 drill")];
    check("", &on_lid);
    check(
        "tail.screws = 3\nsaddle.spread = \"44 mm\"\nneck.width_at_nut = \"50 mm\"\nneck.width_at_box = \"54 mm\"",
        &[("tail-block-screws", "1 cut outside, 3 drill"), ("lid", "1 cut inside, 1 cut outside, 3 drill")],
    );
}

#[test]
fn strings_through_the_stick_drill_the_neck() {
    let text = "tail.kind = \"string through\"\ntail.hole_height = \"-3 mm\"\ntail.distance = \"80 mm\"\n\
                neck.tail_overhang = \"35 mm\"";
    check(text, &[("neck-plan", "1 cut outside, 6 drill, 18 engrave, 1 slot"), ("tail-block-strings", "")]);
}

#[test]
fn a_lid_has_its_holes_and_a_pocket_for_a_saddle_that_is_let_in() {
    check("", &[("lid", "1 cut inside, 1 cut outside, 2 drill")]);
    check("saddle.kind = \"let in\"", &[("lid", "1 cut inside, 1 cut outside, 2 drill, 1 pocket")]);
}

#[test]
fn coupons_try_what_is_printed_and_what_is_routed() {
    check(
        "",
        &[("coupon-printed", "1 cut outside, 2 drill, 3 slot"), ("coupon-routed", "1 cut outside, 1 drill")],
    );
    check("saddle.kind = \"let in\"", &[("coupon-routed", "1 cut outside, 1 drill, 1 pocket")]);
    check("neck.joint = \"butt\"", &[("coupon-routed", "")]);
    check(
        "neck.joint = \"butt\"\nsaddle.kind = \"let in\"",
        &[("coupon-routed", "1 cut outside, 1 drill, 1 pocket")],
    );
}

/// The area of what a drawing cuts out along its outside.
#[track_caller]
fn area(text: &str, name: &str) -> f64 {
    let document = Document::parse(text.as_bytes());
    let (spec, _) = document.read().into_result().unwrap_or_else(|faults| panic!("unsound: {faults:#?}"));
    let set =
        parts::parts(&layout::layout(&spec).unwrap_or_else(|fault| panic!("cannot be laid out: {fault}")));
    let drawing = set.parts.iter().flat_map(|part| &part.drawings).find(|drawing| drawing.name == name);
    let cut = drawing.and_then(|drawing| {
        drawing.operations.iter().find_map(|operation| match operation {
            Operation::CutOutside(shape) => Some(shape.area()),
            _ => None,
        })
    });
    cut.unwrap_or_else(|| panic!("{name} of {text:?} has an outside"))
}

// A plate 16 mm and a bit wider than the notch; below the notch a wall of 8 mm and half a bit, the bore of 8 mm, and another wall.
// The notch is 15 mm deep and its two dogbones take half a disc each, less the right-angled triangle in it.
#[test]
fn a_routed_coupon_is_a_plate_less_its_notch_and_bites() {
    let text = "neck.width_at_nut = \"40 mm\"\nneck.width_at_box = \"40 mm\"\nneck.thickness = \"20 mm\"\n\
                headstock.tuner_bore = \"8 mm\"\nprint.clearance = \"0.5 mm\"\nrouter.bit = \"4 mm\"\n";
    let plate = 61.0 * (8.0 + 8.0 + 8.0 + 2.0 + 15.5) - 41.0 * 15.5;
    let half_disc = 2.0 * std::f64::consts::PI;
    for (relief, bite) in [("none", 0.0), ("dogbone", half_disc - 4.0), ("t-bone", half_disc)] {
        let found = area(&format!("{text}router.corner_relief = \"{relief}\""), "coupon-routed");
        let expected = plate - 2.0 * bite;
        assert!((found - expected).abs() < 1e-6, "{relief}: area {found} must be {expected} mm2");
    }
}

#[test]
fn an_unworked_side_has_no_drawing() {
    check("", &[("box-bass-side", ""), ("box-treble-side", ""), ("box-tail-end", "1 cut outside")]);
    let jack = "box.holes = [{ purpose = \"jack\", face = \"bass side\", at = [\"60 mm\", \"25 mm\"], diameter = \"10 mm\" }]";
    check(jack, &[("box-bass-side", "1 cut outside, 1 drill"), ("box-treble-side", "")]);
}

//! Does every check hold just inside its limit, and break just beyond it?

#[path = "../broken/mod.rs"]
mod broken;
mod building;
mod mends;
mod playing;
mod slide;

use std::collections::BTreeSet;

use fit::Severity::{Fail, Note, Pass, Warn};
use fit::{Measure, checks};
use slide::{LOW_TAIL, MEADOW, PORCH, Slide, all_findings, check, number, plan, slide, worst};

#[test]
fn frets_reached_breaks_at_the_first_fret_too_many() {
    let wanted = |frets: &str| worst(&plan(PORCH, &[("scale.frets", frets)]), "frets-reached");
    assert_eq!(wanted("18").severity, Pass, "18 fit");
    let beyond = wanted("19");
    assert_eq!(beyond.severity, Fail, "19 do not");
    assert_eq!((beyond.found, beyond.limit), (Measure::Count(18), Measure::Count(19)), "18 of 19");
}

#[test]
fn string_edge() {
    check("string-edge", &slide(plan(PORCH, &[]), "nut.edge_margin", 4.0, 1.0), Warn, 2.0, 1e-4);
    check("string-edge", &slide(plan(PORCH, &[]), "saddle.spread", 33.0, 60.0), Fail, 0.0, 1e-4);
}

#[test]
fn string_gap() {
    check("string-gap", &slide(plan(PORCH, &[]), "nut.edge_margin", 4.0, 14.0), Warn, 5.0, 1e-4);
    check("string-gap", &slide(plan(PORCH, &[]), "nut.edge_margin", 4.0, 17.2), Fail, 1.0, 1e-4);
}

#[test]
fn break_over_nut() {
    check("break-over-nut", &slide(plan(PORCH, &[]), "headstock.post_height", 5.0, 9.0), Warn, 3.0, 1e-4);
    check("break-over-nut", &slide(plan(PORCH, &[]), "headstock.post_height", 5.0, 14.0), Fail, 0.5, 1e-4);
    let without_heel = plan(PORCH, &[("heel.reach", "0 mm")]);
    check("break-over-nut", &slide(without_heel, "neck.thickness", 19.0, 45.0), Warn, 20.0, 1e-4);
}

#[test]
fn break_over_saddle() {
    check("break-over-saddle", &slide(plan(PORCH, &[]), "tail.hole_height", 4.0, 5.0), Warn, 4.0, 1e-4);
    check("break-over-saddle", &slide(plan(PORCH, &[]), "tail.hole_height", 4.0, 8.0), Fail, 1.0, 1e-4);
    check("break-over-saddle", &slide(plan(LOW_TAIL, &[]), "tail.hole_height", 8.0, 3.5), Warn, 25.0, 1e-4);
    check("break-over-saddle", &slide(plan(LOW_TAIL, &[]), "tail.distance", 42.0, 12.0), Fail, 60.0, 1e-3);
}

#[test]
fn tail_on_box() {
    check("tail-on-box", &slide(plan(PORCH, &[]), "tail.distance", 30.0, 60.0), Fail, 0.0, 1e-4);
}

#[test]
fn string_load() {
    let at = |pitch| plan(PORCH, &[("strings.3.pitch", pitch)]);
    check("string-load", &slide(at("G4"), "scale.length", 600.0, 635.0), Warn, 0.75, 1e-6);
    check("string-load", &slide(at("A4"), "scale.length", 620.0, 650.0), Fail, 1.0, 1e-6);
}

#[test]
fn saddle_drift() {
    check("saddle-drift", &slide(plan(LOW_TAIL, &[]), "tail.hole_height", 12.9, 4.0), Warn, 6.0, 1e-3);
    check("saddle-drift", &slide(plan(LOW_TAIL, &[]), "tail.distance", 42.0, 34.0), Fail, 40.0, 1e-3);
}

#[test]
fn compensation_room() {
    let thinner = slide(plan(PORCH, &[]), "saddle.thickness", 8.0, 2.5);
    let [inside, beyond] = thinner.edge("compensation-room", Fail);
    assert_eq!((inside.severity, beyond.severity), (Pass, Fail), "room is there or not");
    assert!((number(beyond.found) - number(beyond.limit)).abs() <= 1e-4, "by a hair: {beyond}");
    // A crest keeps half a millimetre from the edge.
    check("compensation-room", &thinner, Fail, number(beyond.limit), 1e-4);
}

#[test]
fn free_of_buzz_warns_and_never_fails() {
    // One of a thousand instruments more or less is the hair.
    check("free-of-buzz", &slide(plan(PORCH, &[]), "frets.height_scatter", 0.0, 0.08), Warn, 0.95, 0.001_1);
    let hopeless = worst(&plan(PORCH, &[("action.height", "0.5 mm")]), "free-of-buzz");
    assert_eq!(hopeless.severity, Warn, "buzz can be cured after stringing: {hopeless}");
}

#[test]
fn neck_load() {
    check("neck-load", &slide(plan(PORCH, &[]), "neck.thickness", 19.0, 15.0), Warn, 4.0, 1e-3);
    check("neck-load", &slide(plan(PORCH, &[]), "neck.thickness", 19.0, 12.0), Fail, 12.0, 1e-3);
}

#[test]
fn lid_sink() {
    check("lid-sink", &slide(plan(PORCH, &[]), "box.lid", 3.2, 1.0), Warn, 1.0, 1e-4);
    let heavy = plan(PORCH, &[("tail.distance", "20 mm"), ("tail.hole_height", "0.5 mm")]);
    check("lid-sink", &slide(heavy, "box.lid", 3.2, 1.0), Fail, 5.0, 1e-3);
}

#[test]
fn saddle_stands() {
    check("saddle-stands", &slide(plan(LOW_TAIL, &[]), "saddle.thickness", 9.0, 4.0), Warn, 0.5, 1e-4);
    check("saddle-stands", &slide(plan(LOW_TAIL, &[]), "saddle.thickness", 9.0, 2.0), Fail, 0.0, 1e-4);
}

#[test]
fn part_made_breaks_where_the_fretboard_gets_too_thin() {
    // Slots of 1.6 mm must leave 0.8 mm of a flat board.
    let board = |mm: f64| worst(&plan(PORCH, &[("fretboard.thickness", &format!("{mm} mm"))]), "part-made");
    assert_eq!(board(4.0).severity, Pass, "a usual board");
    assert_eq!(board(2.401).severity, Pass, "a hair inside");
    let beyond = board(2.399);
    assert_eq!(beyond.severity, Fail, "a hair beyond");
    assert!(beyond.detail.is_some_and(|words| words.contains("fretboard")), "says which part and why");
}

#[test]
fn drawing_clean_breaks_where_two_openings_meet() {
    // Two openings of 25.4 mm whose centres lie this far apart, across the lid.
    let apart = |mm: f64| {
        let at = format!("50.8 mm, {} mm", mm - 44.45);
        worst(&plan(PORCH, &[("box.holes.1.at", &at)]), "drawing-clean")
    };
    assert_eq!(apart(88.9).severity, Pass, "as the plan has it");
    assert_eq!(apart(25.5).severity, Pass, "a hair apart");
    let crossing = apart(25.3);
    assert_eq!(crossing.severity, Fail, "a hair too near");
    assert!(number(crossing.found) >= 1.0, "says how many: {crossing}");
    assert_eq!(
        crossing.detail.as_deref(),
        Some("opening 2 (sound, lid) runs into opening 1 (sound, lid)"),
        "says which, in words"
    );
}

#[test]
fn a_drawing_is_faulted_in_words() {
    #[track_caller]
    fn check(changes: &[(&str, &str)], expected: &str) {
        let found = worst(&plan(PORCH, changes), "drawing-clean");
        assert_eq!(found.detail.as_deref(), Some(expected), "{changes:?}");
    }
    check(&[("box.holes.1.at", "10 mm, 80 mm")], "opening 1 (sound, lid) runs into the outside of the part");
    check(
        &[
            ("box.holes.1.face", "treble side"),
            ("box.holes.1.purpose", "jack"),
            ("box.holes.1.at", "100 mm, 90 mm"),
        ],
        "opening 1 (jack, treble side) lies outside the part",
    );
}

#[test]
fn a_part_that_cannot_be_made_is_told_with_its_keys_and_without_coordinates() {
    #[track_caller]
    fn check(changes: &[(&str, &str)], expected: &str) {
        let words = worst(&plan(PORCH, changes), "part-made").detail.unwrap_or_default();
        assert!(words.contains(expected), "{changes:?}: {words}");
    }
    check(&[("neck.tongue_recess", "8 mm")], "a smaller neck.tongue_recess makes the neck stiffer");
    check(&[("action.height", "0.6 mm")], "a larger action.height");
    check(
        &[("headstock.tuner_bore", "22 mm")],
        "the neck cannot be built: a bore of 22 mm runs over an edge that is 9.5",
    );
    check(
        &[("tail.ball_bore", "12 mm"), ("saddle.spread", "15 mm")],
        "the tail-block cannot be built: two of its bores meet",
    );
}

#[test]
fn bed_room_warns_where_a_part_is_longer_than_the_bed() {
    let shrinking =
        Slide { plan: plan(PORCH, &[]), key: "print.bed", written: "{} mm, 50 mm", from: 150.0, to: 51.0 };
    let [inside, beyond] = shrinking.edge("bed-room", Warn);
    assert_eq!((inside.severity, beyond.severity), (Pass, Warn), "it never fails");
    for finding in [&inside, &beyond] {
        let off = (number(finding.found) - number(finding.limit)).abs();
        assert!(off <= 2e-6, "by a hair: {finding}");
    }
    let words = beyond.detail.expect("it says which bed would do");
    let needed = number(beyond.found).ceil();
    assert!(words.contains(&format!("print.bed of \"{needed} mm\"")), "a bed that would do: {words}");
}

#[test]
fn bit_enters() {
    // The widest bit is told to 0.01 mm and needs way to go round.
    let plan = plan(PORCH, &[("router.bit", "4 mm")]);
    check("bit-enters", &slide(plan.clone(), "box.holes.1.diameter", 9.0, 3.0), Fail, 4.0, 0.011);
    let two = worst(&plan.with_override("box.holes.1.diameter", "3.5 mm"), "bit-enters");
    assert!((number(two.found) - 3.49).abs() < 1e-9, "says which bit works: {two}");
}

#[test]
fn mate_enters_is_a_note_where_corners_are_left_to_the_hand() {
    let by_hand = |clearance: &str| {
        plan(
            PORCH,
            &[("router.corner_relief", "none"), ("router.bit", "4 mm"), ("print.clearance", clearance)],
        )
    };
    // A fillet of 2 mm reaches 2 (sqrt 2 - 1) along the diagonal; air on both sides takes sqrt 2 of it.
    let found = worst(&by_hand("0.1 mm"), "mate-enters");
    assert_eq!(found.severity, Note, "to be rounded by hand: {found}");
    let expected = 2.0 * (2.0_f64.sqrt() - 1.0) - 0.1 * 2.0_f64.sqrt();
    assert!((number(found.found) - expected).abs() < 0.02, "found {found}, expected {expected} mm");
    check("mate-enters", &slide(by_hand("0.6 mm"), "print.clearance", 0.6, 0.5), Note, 0.0, 0.011);
    for relief in ["dogbone", "t-bone"] {
        let relieved = plan(
            PORCH,
            &[("router.corner_relief", relief), ("print.clearance", "0 mm"), ("saddle.kind", "let in")],
        );
        let found = worst(&relieved, "mate-enters");
        assert_eq!((found.severity, number(found.found)), (Pass, 0.0), "{relief} needs no air: {found}");
    }
}

#[test]
fn parts_clear() {
    // Strings that go down through the stick's end sink onto the lid's edge; a hair of it is forgiven.
    check("parts-clear", &slide(plan(MEADOW, &[]), "tail.hole_height", -0.5, -4.0), Fail, -0.01, 1e-4);
    // The tail block comes forward into the saddle.
    let forward = |distance: &str| {
        let changes =
            [("tail.hole_height", "6 mm"), ("saddle.thickness", "12 mm"), ("tail.distance", distance)];
        worst(&plan(PORCH, &changes), "parts-clear")
    };
    assert_eq!(forward("12 mm").severity, Pass, "there is room");
    let beyond = forward("5 mm");
    assert_eq!(beyond.severity, Fail, "there is none: {beyond}");
    assert_eq!(beyond.concern.to_string(), "tail block and saddle", "says what meets");
}

#[test]
fn parts_touch() {
    // A butted neck 19 mm thick, which rises over a lid of 3 mm until nothing of its end is left on the wall.
    let butted =
        [("neck.joint", "butt"), ("heel.reach", "0 mm"), ("neck.thickness", "19 mm"), ("box.lid", "3 mm")];
    let risen = |mm: f64| {
        let height = format!("{mm} mm");
        let changes: Vec<_> = butted.into_iter().chain([("neck.face_above_lid", &*height)]).collect();
        worst(&plan(PORCH, &changes), "parts-touch")
    };
    assert_eq!(risen(15.99).severity, Pass, "a hundredth of a millimetre is left");
    let beyond = risen(16.01);
    assert_eq!(beyond.severity, Fail, "nothing is left: {beyond}");
    assert_eq!(beyond.concern.to_string(), "neck end and neck", "says what hangs in the air");
}

#[test]
fn every_check_is_named_once_and_says_something() {
    let ids: BTreeSet<&str> = checks().map(|check| check.id).collect();
    assert_eq!(ids.len(), checks().count(), "ids are unique");
    let wired = [
        ("plank.length", "1000 mm"),
        ("plank.width", "40 mm"),
        ("plank.thickness", "20 mm"),
        ("box.holes.3.purpose", "jack"),
        ("box.holes.3.face", "tail end"),
        ("box.holes.3.at", "50 mm, 30 mm"),
        ("box.holes.3.diameter", "9.5 mm"),
    ];
    let on_end = [("tail.hole_height", "-1 mm"), ("tail.distance", "72 mm")];
    let plans = [plan(PORCH, &wired), plan(MEADOW, &[]), plan(PORCH, &on_end)];
    let told: BTreeSet<&str> = plans.iter().flat_map(all_findings).map(|finding| finding.check.id).collect();
    assert_eq!(told, ids, "three plans are told of by every check, and by no other");
}

#[test]
fn every_broken_plan_is_told_of_by_its_check() {
    for (id, document) in broken::broken() {
        let found = worst(&document, id);
        assert!(found.severity >= Warn, "{id} lets pass {found}");
    }
}

#[test]
fn every_check_stands_in_the_developers_table() {
    let page = std::fs::read_to_string(concat!(env!("CARGO_MANIFEST_DIR"), "/../../DEVELOPERS.md"))
        .expect("DEVELOPERS.md stands at the root");
    for check in checks() {
        assert!(
            page.contains(&format!("| `{}` |", check.id)),
            "{} is missing from the table of checks",
            check.id
        );
    }
}

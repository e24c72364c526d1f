//! Nut, saddle, tail and headstock.

use fit::Severity::{Fail, Pass, Warn};
use spec::Document;

use crate::slide::{KITCHEN, MEADOW, PORCH, SIX, Slide, check, number, plan, slide, worst};

/// The check breaks at a limit that itself depends on the plan; whatever it is, it is the value found.
#[track_caller]
fn check_at_its_limit(id: &str, slide: &Slide<'_>, severity: fit::Severity) {
    let [_, beyond] = slide.edge(id, severity);
    check(id, slide, severity, number(beyond.limit), 1e-4);
}

#[test]
fn nut_wall() {
    check("nut-wall", &slide(plan(PORCH, &[]), "nut.edge_margin", 4.0, 18.05), Warn, 0.8, 1e-4);
    check("nut-wall", &slide(plan(PORCH, &[]), "nut.edge_margin", 4.0, 18.05), Fail, 0.0, 1e-4);
    // Toward the end of the nut, where the slot is wider than the string by much.
    let wide = plan(PORCH, &[("nut.slot_clearance", "1 mm")]);
    check("nut-wall", &slide(wide, "nut.edge_margin", 4.0, 1.0), Warn, 0.8, 1e-4);
    let left = plan(SIX, &[]);
    check("nut-wall", &slide(left, "nut.edge_margin", 3.5, 22.28), Fail, 0.0, 1e-4);
}

#[test]
fn nut_slot_depth() {
    let changes = [
        ("neck.width_at_nut", "100 mm"),
        ("neck.width_at_box", "100 mm"),
        ("fretboard.thickness", "15 mm"),
        ("fretboard.radius", "2000 mm"),
    ];
    check("nut-slot-depth", &slide(plan(PORCH, &changes), "fretboard.radius", 2000.0, 60.0), Warn, 2.0, 1e-4);
    check("nut-slot-depth", &slide(plan(PORCH, &changes), "fretboard.radius", 2000.0, 60.0), Fail, 6.0, 1e-3);
}

#[test]
fn nut_foot() {
    check("nut-foot", &slide(plan(PORCH, &[]), "headstock.thickness", 9.5, 19.05), Warn, 2.0, 1e-4);
    check("nut-foot", &slide(plan(PORCH, &[]), "headstock.thickness", 9.5, 19.05), Fail, 1.0, 1e-4);
}

#[test]
fn air_before_nut() {
    check("air-before-nut", &slide(plan(PORCH, &[]), "zero_fret.crown_height", 1.4, 0.3), Warn, 0.2, 1e-4);
    check("air-before-nut", &slide(plan(PORCH, &[]), "zero_fret.crown_height", 1.4, 0.3), Fail, 0.0, 1e-4);
}

#[test]
fn zero_fret_press() {
    let low = plan(PORCH, &[("action.height", "0.3 mm"), ("headstock.post_height", "0 mm")]);
    check("zero-fret-press", &slide(low.clone(), "nut.gap_behind_zero_fret", 4.0, 30.0), Warn, 2.0, 1e-4);
    check("zero-fret-press", &slide(low, "nut.gap_behind_zero_fret", 4.0, 30.0), Fail, 1.0, 1e-4);
}

#[test]
fn turn_at_nut() {
    let row = plan(PORCH, &[("headstock.tuner_rows", "1")]);
    check("turn-at-nut", &slide(row.clone(), "neck.width_at_nut", 38.1, 119.0), Warn, 15.0, 1e-4);
    check("turn-at-nut", &slide(row, "neck.width_at_nut", 38.1, 119.0), Fail, 35.0, 1e-4);
}

#[test]
fn string_past_posts() {
    let row = plan(PORCH, &[("headstock.tuner_rows", "1")]);
    check("string-past-posts", &slide(row.clone(), "nut.edge_margin", 4.0, 17.9), Warn, 0.2, 1e-4);
    check("string-past-posts", &slide(row, "nut.edge_margin", 4.0, 17.9), Fail, -1.0, 1e-4);
}

#[test]
fn string_gap_at_saddle() {
    check("string-gap-at-saddle", &slide(plan(PORCH, &[]), "saddle.spread", 33.0, 0.0), Warn, 6.0, 1e-4);
    check("string-gap-at-saddle", &slide(plan(PORCH, &[]), "saddle.spread", 33.0, 0.0), Fail, 1.0, 1e-4);
}

#[test]
fn saddle_on_lid_at_either_end() {
    for end in [5.0, 252.0] {
        let along = |end| slide(plan(PORCH, &[]), "saddle.from_tail_end", 63.5, end);
        check("saddle-on-lid", &along(end), Warn, 5.0, 1e-4);
        // The wall is a quarter of an inch.
        check("saddle-on-lid", &along(end), Fail, -6.35, 1e-4);
    }
}

#[test]
fn saddle_across() {
    let narrow = plan(PORCH, &[("box.width", "120 mm")]);
    check("saddle-across", &slide(narrow.clone(), "saddle.spread", 33.0, 118.0), Warn, 5.0, 1e-4);
    check("saddle-across", &slide(narrow, "saddle.spread", 33.0, 118.0), Fail, -6.35, 1e-4);
}

#[test]
fn saddle_over_opening() {
    let along = || Slide {
        plan: plan(PORCH, &[]),
        key: "box.holes.1.at",
        written: "{} mm, 0 mm",
        from: 50.0,
        to: 178.0,
    };
    check("saddle-over-opening", &along(), Warn, 3.0, 1e-4);
    check("saddle-over-opening", &along(), Fail, 0.0, 1e-4);
    // A saddle that is let in is not slid: only where it stands counts.
    let let_in = Slide { plan: plan(PORCH, &[("saddle.kind", "let in")]), ..along() };
    let [floating, let_in] =
        [along(), let_in].map(|slide| number(worst(&slide.at(120.0), "saddle-over-opening").found));
    assert!((let_in - floating) > 8.0, "floating {floating} mm, let in {let_in} mm");
}

#[test]
fn saddle_before_tail() {
    check("saddle-before-tail", &slide(plan(PORCH, &[]), "tail.distance", 30.0, 5.0), Warn, 0.0, 1e-4);
    check_at_its_limit("saddle-before-tail", &slide(plan(PORCH, &[]), "tail.distance", 30.0, 5.0), Fail);
}

#[test]
fn saddle_height() {
    check_at_its_limit("saddle-height", &slide(plan(PORCH, &[]), "neck.face_above_lid", 0.0, -6.0), Fail);
}

#[test]
fn saddle_slender() {
    check("saddle-slender", &slide(plan(KITCHEN, &[]), "saddle.thickness", 6.0, 2.0), Warn, 3.5, 1e-4);
    check("saddle-slender", &slide(plan(KITCHEN, &[]), "saddle.thickness", 6.0, 2.0), Fail, 7.0, 1e-4);
}

#[test]
fn compensation_room_says_which_is_short() {
    let words =
        |key, value| worst(&plan(PORCH, &[(key, value)]), "compensation-room").detail.unwrap_or_default();
    let (slid, thin) = (words("saddle.adjust", "0 mm"), words("saddle.thickness", "2.5 mm"));
    assert!(slid.contains("saddle.adjust") && !slid.contains("saddle.thickness"), "it cannot follow: {slid}");
    assert!(thin.contains("saddle.thickness") && !thin.contains("saddle.adjust"), "it is too thin: {thin}");
}

#[test]
fn tail_on_box_across_and_on_the_end() {
    let narrow = plan(PORCH, &[("box.width", "120 mm")]);
    check("tail-on-box", &slide(narrow, "saddle.spread", 33.0, 118.0), Fail, 0.0, 1e-4);
    check("tail-on-box", &slide(plan(SIX, &[]), "box.depth", 75.0, 15.0), Fail, 0.0, 1e-4);
}

/// A block on the tail end behind a through neck that ends there.
fn on_end(changes: &[(&str, &str)]) -> Document {
    let moved = [("tail.hole_height", "-1 mm"), ("tail.distance", "72 mm"), ("neck.tail_overhang", "0 mm")];
    plan(PORCH, &[&moved[..], changes].concat())
}

#[test]
fn tail_clears_neck() {
    check("tail-clears-neck", &slide(on_end(&[]), "neck.tail_overhang", 0.0, 12.7), Fail, 0.0, 1e-4);
    // A deep recess puts the overhang under the block.
    let under = on_end(&[("neck.tail_overhang", "12.7 mm"), ("tail.ball_depth", "0 mm")]);
    check("tail-clears-neck", &slide(under, "neck.tongue_recess", 8.0, 2.0), Fail, 0.0, 1e-4);
}

#[test]
fn tail_bore_edge() {
    check("tail-bore-edge", &slide(plan(PORCH, &[]), "tail.hole_height", 4.0, 0.5), Warn, 1.5, 1e-4);
    check("tail-bore-edge", &slide(plan(PORCH, &[]), "tail.hole_height", 4.0, 0.5), Fail, 0.0, 1e-4);
    // The counterbore leaves the overhang at its end, on the box's side, and at the neck's edge.
    check("tail-bore-edge", &slide(plan(MEADOW, &[]), "tail.distance", 60.0, 75.0), Fail, 0.0, 1e-4);
    check("tail-bore-edge", &slide(plan(MEADOW, &[]), "tail.distance", 60.0, 50.0), Fail, 0.0, 1e-4);
    check("tail-bore-edge", &slide(plan(MEADOW, &[]), "saddle.spread", 26.0, 60.0), Fail, 0.0, 1e-4);
    // The side of a block on the end that lies against the box.
    check("tail-bore-edge", &slide(plan(SIX, &[]), "tail.distance", 56.0, 50.0), Warn, 1.5, 1e-4);
}

#[test]
fn tail_bore_gap() {
    check("tail-bore-gap", &slide(plan(PORCH, &[]), "saddle.spread", 33.0, 4.0), Warn, 1.5, 1e-4);
    check("tail-bore-gap", &slide(plan(PORCH, &[]), "saddle.spread", 33.0, 4.0), Fail, 0.0, 1e-4);
}

#[test]
fn tail_screw_clear() {
    let more = plan(PORCH, &[("tail.screws", "4")]);
    check("tail-screw-clear", &slide(more.clone(), "saddle.spread", 33.0, 4.0), Warn, 1.0, 1e-4);
    check("tail-screw-clear", &slide(more, "saddle.spread", 33.0, 4.0), Fail, 0.0, 1e-4);
    check("tail-screw-clear", &slide(plan(SIX, &[]), "saddle.spread", 52.0, 20.0), Fail, 0.0, 1e-4);
    // A screw in the middle of a longer counterbore meets that instead of the narrow bore.
    check("tail-screw-clear", &slide(plan(SIX, &[]), "tail.ball_bore", 4.5, 9.0), Warn, 1.0, 1e-4);
}

#[test]
fn tail_screws_in_wall() {
    // Nearer to an edge than a No. 6 is thick.
    check("tail-screws-in-wall", &slide(plan(SIX, &[]), "box.lid", 4.0, 12.0), Warn, 3.5, 1e-4);
    check("tail-screws-in-wall", &slide(plan(SIX, &[]), "box.lid", 4.0, 12.0), Fail, 0.0, 1e-4);
    check(
        "tail-screws-in-wall",
        &slide(plan(SIX, &[("box.depth", "40 mm")]), "tail.hole_height", 0.0, -40.0),
        Warn,
        3.5,
        1e-4,
    );
    // Past the notch of a through neck.
    check("tail-screws-in-wall", &slide(on_end(&[]), "neck.width_at_box", 30.0, 60.0), Fail, 0.0, 1e-4);
}

#[test]
fn ball_seat() {
    check("ball-seat", &slide(plan(MEADOW, &[]), "tail.ball_depth", 4.0, 22.0), Warn, 5.0, 1e-4);
    check("ball-seat", &slide(plan(MEADOW, &[]), "tail.ball_depth", 4.0, 22.0), Fail, 2.0, 1e-4);
}

#[test]
fn ball_fits() {
    check("ball-fits", &slide(plan(PORCH, &[]), "tail.ball_bore", 4.5, 3.0), Warn, 4.2, 1e-4);
    check("ball-fits", &slide(plan(PORCH, &[]), "tail.ball_bore", 4.5, 3.0), Fail, 3.8, 1e-4);
}

#[test]
fn ball_held() {
    check("ball-held", &slide(plan(PORCH, &[]), "tail.hole_bore", 1.6, 4.4), Warn, 2.6, 1e-4);
    check("ball-held", &slide(plan(PORCH, &[]), "tail.hole_bore", 1.6, 4.4), Fail, 3.6, 1e-4);
}

#[test]
fn string_bore() {
    check("string-bore", &slide(plan(PORCH, &[]), "tail.hole_bore", 1.6, 0.5), Warn, 0.2, 1e-4);
    check("string-bore", &slide(plan(PORCH, &[]), "tail.hole_bore", 1.6, 0.5), Fail, 0.0, 1e-4);
}

#[test]
fn post_distance() {
    check("post-distance", &slide(plan(PORCH, &[]), "headstock.length", 60.0, 30.0), Warn, 20.0, 1e-4);
}

#[test]
fn tuner_edge() {
    check("tuner-edge", &slide(plan(PORCH, &[]), "headstock.tuner_bore", 10.0, 25.0), Warn, 2.0, 1e-4);
    check("tuner-edge", &slide(plan(PORCH, &[]), "headstock.tuner_bore", 10.0, 25.0), Fail, 0.0, 1e-4);
    // A wide neck has room at its sides; then it is the end.
    let wide = plan(PORCH, &[("neck.width_at_nut", "80 mm"), ("headstock.length", "60 mm")]);
    check("tuner-edge", &slide(wide, "headstock.tuner_bore", 10.0, 25.0), Fail, 0.0, 1e-4);
}

#[test]
fn tuner_gap() {
    check("tuner-gap", &slide(plan(PORCH, &[]), "headstock.length", 80.0, 40.0), Warn, 3.0, 1e-4);
    check("tuner-gap", &slide(plan(PORCH, &[]), "headstock.length", 80.0, 40.0), Fail, 0.0, 1e-4);
}

#[test]
fn tuner_bodies() {
    check("tuner-bodies", &slide(plan(PORCH, &[]), "headstock.length", 80.0, 40.0), Warn, 0.5, 1e-4);
    check("tuner-bodies", &slide(plan(PORCH, &[]), "headstock.length", 80.0, 40.0), Fail, 0.0, 1e-4);
}

#[test]
fn tuner_buttons() {
    check("tuner-buttons", &slide(plan(PORCH, &[]), "headstock.length", 80.0, 40.0), Warn, 4.0, 1e-4);
    check("tuner-buttons", &slide(plan(PORCH, &[]), "headstock.length", 80.0, 40.0), Fail, 0.0, 1e-4);
}

#[test]
fn button_reach() {
    let row = plan(PORCH, &[("headstock.tuner_rows", "1")]);
    check("button-reach", &slide(row.clone(), "neck.width_at_nut", 38.1, 100.0), Warn, 8.0, 1e-4);
    check("button-reach", &slide(row, "neck.width_at_nut", 38.1, 100.0), Fail, 0.0, 1e-4);
}

#[test]
fn tuner_reach() {
    check("tuner-reach", &slide(plan(PORCH, &[]), "headstock.post_height", 5.0, 20.0), Warn, 1.0, 1e-4);
    check("tuner-reach", &slide(plan(PORCH, &[]), "headstock.post_height", 5.0, 20.0), Fail, 0.0, 1e-4);
}

#[test]
fn what_does_not_apply_is_not_judged() {
    let silent = |text, id: &str| {
        let told = crate::slide::all_findings(&plan(text, &[]));
        assert!(told.iter().all(|finding| finding.check.id != id), "{id} has nothing to say here");
    };
    silent(PORCH, "saddle-slender");
    silent(PORCH, "ball-seat");
    silent(PORCH, "tail-screws-in-wall");
    silent(MEADOW, "tail-on-box");
    silent(MEADOW, "saddle-before-tail");
    silent(SIX, "tail-clears-neck");
    assert_eq!(
        worst(&on_end(&[]), "tail-clears-neck").severity,
        Pass,
        "a through neck that ends at the wall"
    );
}

#[test]
fn the_plans_that_come_along_pass() {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../../specs");
    let mut files: Vec<_> = std::fs::read_dir(folder)
        .expect("the plans stand at the root")
        .map(|entry| entry.expect("a readable folder").path())
        .filter(|path| path.extension().is_some_and(|ending| ending == "toml"))
        .collect();
    files.sort();
    for file in files {
        let text = std::fs::read_to_string(&file).expect("a readable plan");
        let start = plan(&text, &[]);
        let document = start.files().iter().fold(start, |document, name| {
            let path = format!("{folder}/{name}");
            document.with_file(name, std::fs::read(path).map_err(|fault| fault.to_string()))
        });
        let failed: Vec<_> = crate::slide::all_findings(&document)
            .into_iter()
            .filter(|finding| finding.severity == Fail)
            .map(|finding| finding.to_string())
            .collect();
        assert!(failed.is_empty(), "{}: {failed:#?}", file.display());
    }
}

/// A drawing of one closed polyline in millimetres, its corners with the bulge of what leaves each.
fn drawing(corners: &[(f64, f64, f64)]) -> Vec<u8> {
    let corners: String =
        corners.iter().map(|(x, y, bulge)| format!("10\n{x}\n20\n{y}\n42\n{bulge}\n")).collect();
    let head = "0\nSECTION\n2\nHEADER\n9\n$INSUNITS\n70\n4\n0\nENDSEC\n";
    let body = format!("0\nSECTION\n2\nENTITIES\n0\nLWPOLYLINE\n70\n1\n{corners}0\nENDSEC\n0\nEOF\n");
    format!("{head}{body}").into_bytes()
}

#[test]
fn a_drawn_headstock_is_judged_by_its_own_edge() {
    // As wide as the neck at the nut, and straight from there to a rounded end: 60 mm wide where the posts stand.
    let paddle = [
        (0.0, -30.0, 0.0),
        (110.0, -30.0, 0.0),
        (140.0, -19.05, 0.0),
        (140.0, 19.05, 0.0),
        (110.0, 30.0, 0.0),
        (0.0, 30.0, 0.0),
    ];
    let drawn = |corners: &[(f64, f64, f64)]| {
        plan(PORCH, &[("headstock.outline", "head.dxf")]).with_file("head.dxf", Ok(drawing(corners)))
    };
    let plain = worst(&plan(PORCH, &[]), "tuner-edge");
    assert!(
        (crate::slide::number(plain.found) - 4.0).abs() < 1e-9,
        "between a bore and the plain headstock's side"
    );
    let wide = worst(&drawn(&paddle), "tuner-edge");
    // The posts stand on the middle between row and row as before; the nearest edge is now the slanting one or the side.
    assert!(crate::slide::number(wide.found) > 10.0, "there is more wood beside them: {wide}");
    let waisted: Vec<(f64, f64, f64)> =
        paddle.iter().map(|(x, y, bulge)| (*x, if *x < 120.0 { y / 2.5 } else { *y }, *bulge)).collect();
    assert_eq!(
        worst(&drawn(&waisted), "tuner-edge").severity,
        Fail,
        "a waist that is narrower than the posts stand"
    );
    let hidden: Vec<(f64, f64, f64)> =
        paddle.iter().map(|(x, y, bulge)| (*x, if *x < 120.0 { y * 1.7 } else { *y }, *bulge)).collect();
    assert_eq!(
        worst(&drawn(&hidden), "button-reach").severity,
        Fail,
        "buttons that hide under a wide headstock"
    );
    assert_eq!(
        worst(&drawn(&paddle).with_override("plank.width", "59 mm"), "plank-width").severity,
        Fail,
        "a plank that is too narrow"
    );
    assert_eq!(
        worst(&drawn(&paddle).with_override("plank.width", "60 mm"), "plank-width").severity,
        Pass,
        "one that is just wide enough"
    );
}

#[test]
fn a_drawn_opening_is_judged_by_its_own_edge() {
    // A triangle whose tip points at the saddle's foot from the side: its bounds would reach over the foot, its edge does not.
    let triangle = [(0.0, 0.0, 0.0), (100.0, 60.0, 0.0), (0.0, 60.0, 0.0)];
    let at = |along: f64, across: f64| {
        let text = format!("[[box.holes]]\nat = [\"{along} mm\", \"{across} mm\"]\noutline = \"hole.dxf\"\n");
        plan(&text, &[]).with_file("hole.dxf", Ok(drawing(&triangle)))
    };
    let clear = worst(&at(150.0, 45.0), "saddle-over-opening");
    assert!(crate::slide::number(clear.found) > 0.0, "its slanting edge passes the foot: {clear}");
    assert_eq!(worst(&at(160.0, 0.0), "saddle-over-opening").severity, Fail, "nearer, it does not");
    assert_eq!(worst(&at(160.0, 60.0), "opening-edge").severity, Fail, "it leaves the lid");
}

//! Are outlines read as they are drawn, and is everything else refused by name and place?

use std::f64::consts::PI;

use geometry::{Outline, Point2};
use import::{ImportFault, Spot, outline};
use units::LengthUnit;

const MM: Option<LengthUnit> = Some(LengthUnit::Millimetre);

/// A file that states a unit and holds some things drawn, each as its groups.
fn file(unit: i64, entities: &[&str]) -> Vec<u8> {
    let body: Vec<String> = entities
        .iter()
        .map(|entity| entity.split_whitespace().map(|word| format!("{word}\n")).collect())
        .collect();
    format!(
        "999\nmade by hand\n0\nSECTION\n2\nHEADER\n9\n$INSUNITS\n70\n{unit}\n0\nENDSEC\n0\nSECTION\n2\nENTITIES\n{}0\nENDSEC\n0\nEOF\n",
        body.concat()
    )
    .into_bytes()
}

fn line(x0: f64, y0: f64, x1: f64, y1: f64) -> String {
    format!("0 LINE 8 0 10 {x0} 20 {y0} 30 0.0 11 {x1} 21 {y1} 31 0.0")
}

/// What is drawn, as an area with the bounds.
#[track_caller]
fn check(unit: i64, entities: &[&str], area: f64, bounds: [f64; 4]) {
    let read = outline(&file(unit, entities), None).expect("an outline");
    assert!((read.signed_area() - area).abs() < 1e-6 * area, "area {}, expected {area}", read.signed_area());
    let found = read.bounds();
    let found = [found.min.x, found.min.y, found.max.x, found.max.y];
    for (found, expected) in found.into_iter().zip(bounds) {
        assert!((found - expected).abs() < 1e-6, "bounds {found}, expected {expected} of {bounds:?}");
    }
}

#[track_caller]
fn refused(entities: &[&str]) -> ImportFault {
    let fault = outline(&file(4, entities), None).expect_err("no outline");
    assert!(!fault.to_string().is_empty() && !fault.advice().is_empty(), "{fault:?} is told");
    fault
}

const SQUARE: &str = "0 LWPOLYLINE 90 4 70 1 10 0 20 0 10 10 20 0 10 10 20 10 10 0 20 10";

#[test]
fn a_polyline_in_every_unit() {
    for (unit, mm) in [(1, 25.4), (2, 304.8), (4, 1.0), (5, 10.0), (6, 1000.0)] {
        check(unit, &[SQUARE], 100.0 * mm * mm, [0.0, 0.0, 10.0 * mm, 10.0 * mm]);
    }
}

#[test]
fn the_documents_word_goes_before_the_files() {
    let read = outline(&file(1, &[SQUARE]), MM).expect("an outline");
    assert_eq!(read.bounds().width().as_mm(), 10.0, "millimetres, whatever the file says");
    assert_eq!(outline(&file(0, &[SQUARE]), None), Err(ImportFault::NoUnit), "a file without a unit");
    assert_eq!(
        outline(&file(9, &[SQUARE]), None),
        Err(ImportFault::UnknownUnit { number: 9 }),
        "thousandths of an inch"
    );
    let inches = outline(&file(0, &[SQUARE]), Some(LengthUnit::Inch)).expect("an outline");
    assert_eq!(inches.bounds().width().as_mm(), 254.0, "inches, because they are asked for");
}

#[test]
fn a_slot_of_lines_and_arcs_in_any_sense() {
    let entities = [
        &line(0.0, -5.0, 20.0, -5.0),
        "0 ARC 10 20 20 0 40 5 50 270 51 90",
        &line(0.0, 5.0, 20.0, 5.0),
        "0 ARC 10 0 20 0 40 5 50 90 51 270",
    ];
    check(4, &entities, 200.0 + PI * 25.0, [-5.0, -5.0, 25.0, 5.0]);
}

#[test]
fn an_old_polyline_with_bulges() {
    let old = "0 POLYLINE 66 1 70 1 0 VERTEX 10 0 20 -5 42 0 0 VERTEX 10 20 20 -5 42 1 0 VERTEX 10 20 20 5 0 VERTEX 10 0 20 5 42 1 0 SEQEND";
    check(4, &[old], 200.0 + PI * 25.0, [-5.0, -5.0, 25.0, 5.0]);
}

#[test]
fn what_is_drawn_on_the_back() {
    // x runs to the left there: the half disc beyond x = 20 lies beyond -20.
    let entities = [
        "0 LWPOLYLINE 90 4 70 0 10 20 20 5 10 0 20 5 10 0 20 -5 10 20 20 -5 230 -1",
        "0 ARC 10 20 20 0 40 5 50 270 51 90 210 0 220 0 230 -1.0",
    ];
    check(4, &entities, 200.0 + PI * 12.5, [-25.0, -5.0, 0.0, 5.0]);
}

#[test]
fn a_circle_and_an_arc_of_all_but_a_circle() {
    check(4, &["0 CIRCLE 10 3 20 4 40 2"], PI * 4.0, [1.0, 2.0, 5.0, 6.0]);
    let c = 2.0_f64.sqrt();
    let entities = ["0 ARC 10 0 20 0 40 2 50 45 51 -45", &line(c, c, c, -c)];
    check(4, &entities, PI * 3.0 + 2.0, [-2.0, -2.0, c, 2.0]);
}

#[test]
fn small_gaps_are_joined_half_way() {
    let read = outline(
        &file(4, &[&line(0.0, 0.0, 10.0, 0.02), &line(10.0, -0.02, 5.0, 8.0), &line(5.0, 8.0, 0.0, 0.0)]),
        None,
    )
    .expect("a triangle");
    assert_eq!(
        read,
        Outline::polygon([Point2::mm(0.0, 0.0), Point2::mm(10.0, 0.0), Point2::mm(5.0, 8.0)])
            .expect("a triangle"),
        "joined"
    );
}

#[test]
fn what_is_hidden_or_on_paper_is_left_out() {
    check(
        4,
        &[SQUARE, "0 TEXT 67 1 1 title", "0 LINE 60 1 10 0 20 0 11 50 21 50", "0 VIEWPORT 10 0"],
        100.0,
        [0.0, 0.0, 10.0, 10.0],
    );
}

#[test]
fn gaps_are_told_with_their_place_and_size() {
    let found = refused(&[&line(0.0, 0.0, 10.0, 0.0), &line(10.3, 0.4, 5.0, 8.0), &line(5.0, 8.0, 0.0, 0.0)]);
    let ImportFault::Gap { at, other, size } = found else { panic!("{found:?}") };
    assert_eq!((at, other), (Spot { x: 10.0, y: 0.0 }, Spot { x: 10.3, y: 0.4 }), "both ends");
    assert!((size - 0.5).abs() < 1e-9, "{size}");
    // In an inch drawing places are inches, as the person sees them, and the gap is in millimetres.
    let found = outline(&file(1, &[&line(0.0, 0.0, 10.0, 0.0)]), None).expect_err("a line is no loop");
    assert_eq!(
        found.to_string(),
        "expected a closed loop, found an open end at (0, 0), 254.000 mm from the nearest other one at (10, 0)",
        "a single line"
    );
}

#[test]
fn crossings_branches_and_second_loops() {
    let bow_tie = "0 LWPOLYLINE 90 4 70 1 10 0 20 0 10 10 20 10 10 10 20 0 10 0 20 5";
    let found = refused(&[bow_tie]);
    assert_eq!(
        found.to_string(),
        "expected a loop that does not cross itself, found a crossing at (3.333, 3.333)",
        "a bow tie"
    );
    assert_eq!(
        refused(&[SQUARE, SQUARE]),
        ImportFault::Branch { at: Spot { x: 0.0, y: 0.0 }, ends: 4 },
        "drawn twice"
    );
    assert_eq!(
        refused(&[SQUARE, "0 CIRCLE 10 5 20 5 40 2"]),
        ImportFault::SeveralLoops { count: 2, second: Spot { x: 3.0, y: 5.0 } },
        "a ring"
    );
    assert_eq!(refused(&[]), ImportFault::Empty, "nothing");
}

#[test]
fn what_is_no_line_or_arc_is_named() {
    for kind in ["SPLINE", "ELLIPSE", "TEXT", "MTEXT", "INSERT", "HATCH", "DIMENSION", "POINT", "3DFACE"] {
        let found = refused(&[SQUARE, &format!("0 {kind} 8 0")]);
        assert!(
            matches!(&found, ImportFault::Unsupported { kind: found, .. } if found == kind)
                && found.to_string().contains(kind),
            "{found:?}"
        );
    }
    assert!(
        matches!(refused(&["0 POLYLINE 70 4 0 VERTEX 10 0 20 0 0 SEQEND"]), ImportFault::Unsupported { .. }),
        "smoothed"
    );
    assert!(
        matches!(refused(&["0 LINE 10 0 20 0 30 0 11 5 21 5 31 2"]), ImportFault::NotFlat { .. }),
        "a line that rises"
    );
    assert!(
        matches!(refused(&["0 CIRCLE 10 0 20 0 40 1 210 1 220 0 230 0"]), ImportFault::NotFlat { .. }),
        "a circle on edge"
    );
    assert_eq!(
        refused(&["0 CIRCLE 10 0 20 0"]),
        ImportFault::Incomplete { kind: "CIRCLE".into(), line: 18, group: 40 },
        "no radius"
    );
    assert!(matches!(refused(&["0 CIRCLE 10 0 20 0 40 wide"]), ImportFault::Number { .. }), "a word");
    assert!(matches!(refused(&["0 CIRCLE 10 0 20 0 40 nan"]), ImportFault::Number { .. }), "no number");
    assert!(
        matches!(refused(&["0 CIRCLE 10 0 20 0 40 1e9"]), ImportFault::Outline(_)),
        "as large as the world"
    );
    for far in ["1e308", "-1e308", "1e300", "1.1e9"] {
        let figures = [format!("0 CIRCLE 10 0 20 0 40 {far}"), format!("0 LINE 10 {far} 20 0 11 5 21 {far}")];
        for figure in &figures {
            assert!(
                matches!(refused(&[figure]), ImportFault::Number { .. }),
                "beyond every drawing: {figure}"
            );
        }
    }
}

#[test]
fn what_is_no_dxf_is_refused() {
    assert_eq!(
        outline(b"", MM),
        Err(ImportFault::NotDxf { line: 1, found: "the end of the file".into() }),
        "empty"
    );
    assert_eq!(
        outline(b"<svg/>\n", MM),
        Err(ImportFault::NotDxf { line: 1, found: "<svg/>".into() }),
        "another format"
    );
    assert!(matches!(outline(b"0\nSECTION\n0", MM), Err(ImportFault::NotDxf { line: 4, .. })), "cut off");
    assert_eq!(outline(b"0\nSEC\0TION\n", MM), Err(ImportFault::Binary), "binary");
    assert_eq!(
        outline(&vec![b'0'; import::FILE_BYTES + 1], MM),
        Err(ImportFault::TooLarge { found: import::FILE_BYTES + 1 }),
        "large"
    );
    let corners: String = (0..=import::SEGMENTS).map(|at| format!(" 10 {at} 20 {}", at % 2)).collect();
    assert_eq!(
        outline(&file(4, &[&format!("0 LWPOLYLINE 70 1{corners}")]), None),
        Err(ImportFault::TooMany),
        "fine"
    );
}

//! Does a drawing stay what it is in every version and style, and do cut lines, tabs and labels keep their word?

use boxneck_export::ExportFault;
use boxneck_export::dxf::{ArcStyle, DxfOptions, DxfProfile, DxfStyle, Tabs, stem, write};
use dxf::entities::{Entity, EntityType};
use geometry::{Bounds2, Point2, Segment};
use units::{ChordTolerance, Length, LengthUnit};

use crate::dxf_file::{check_near, read};
use crate::{golden, sample};

const FLAT: ArcStyle = ArcStyle::Flattened(ChordTolerance::new(Length::mm(0.01)));

fn text(style: DxfStyle) -> String {
    let options = DxfOptions { style, ..DxfOptions::default() };
    write(&sample::plate(), &options).expect("the plate can be written")
}

/// What an entity draws, by our own geometry of the file's numbers.
fn segments(entity: &Entity) -> Vec<Segment> {
    let point = |x: f64, y: f64| Point2::mm(x, y);
    let run = |corners: Vec<(f64, f64, f64)>, closed: bool| {
        let count = if closed { corners.len() } else { corners.len() - 1 };
        let next = |i: usize| corners[(i + 1) % corners.len()];
        (0..count)
            .map(|i| {
                Segment::new(point(corners[i].0, corners[i].1), point(next(i).0, next(i).1), corners[i].2)
            })
            .collect()
    };
    match &entity.specific {
        EntityType::Line(line) => run(vec![(line.p1.x, line.p1.y, 0.0), (line.p2.x, line.p2.y, 0.0)], false),
        EntityType::Circle(circle) => {
            let (x, y, r) = (circle.center.x, circle.center.y, circle.radius);
            run(vec![(x - r, y, 1.0), (x + r, y, 1.0)], true)
        }
        EntityType::Arc(arc) => {
            let at = |degrees: f64| {
                let angle = units::Angle::degrees(degrees);
                (arc.center.x + arc.radius * angle.cos(), arc.center.y + arc.radius * angle.sin())
            };
            let sweep = units::Angle::degrees((arc.end_angle - arc.start_angle).rem_euclid(360.0));
            let (from, to) = (at(arc.start_angle), at(arc.end_angle));
            run(vec![(from.0, from.1, (sweep / 4.0).tan()), (to.0, to.1, 0.0)], false)
        }
        EntityType::LwPolyline(line) => {
            run(line.vertices.iter().map(|v| (v.x, v.y, v.bulge)).collect(), line.is_closed())
        }
        EntityType::Polyline(line) => {
            run(line.vertices().map(|v| (v.location.x, v.location.y, v.bulge)).collect(), line.is_closed())
        }
        other => panic!("{other:?} is not among the entities that every program reads"),
    }
}

/// The segments on a layer.
fn on(text: &str, layer: &str) -> Vec<Segment> {
    read(text).entities().filter(|entity| entity.common.layer == layer).flat_map(segments).collect()
}

fn extents(text: &str) -> Bounds2 {
    let file = read(text);
    let bounds = file.entities().flat_map(segments).map(|segment| segment.bounds());
    bounds.reduce(Bounds2::union).expect("there are entities")
}

/// Square millimetres within segments end to end, by Green's theorem in steps of a thousandth of each.
fn area(segments: &[Segment]) -> f64 {
    let share = |i: u32| f64::from(i) / 1000.0;
    let piece = |segment: &Segment, i: u32| {
        let (a, b) = (segment.point_at(share(i)), segment.point_at(share(i + 1)));
        (a.x * b.y - b.x * a.y) / 2.0
    };
    segments.iter().map(|segment| (0..1000).map(|i| piece(segment, i)).sum::<f64>()).sum::<f64>().abs()
}

fn each_style() -> Vec<DxfStyle> {
    let arcs = [ArcStyle::Bulges, ArcStyle::Separate, FLAT];
    let profiles = [DxfProfile::R2000, DxfProfile::R12];
    profiles
        .into_iter()
        .flat_map(|profile| arcs.map(|arcs| DxfStyle { profile, arcs, ..DxfStyle::default() }))
        .collect()
}

#[test]
fn the_old_version_is_as_it_was() {
    let style = DxfStyle { profile: DxfProfile::R12, ..DxfStyle::default() };
    golden::check("plate_r12.dxf", &text(style));
}

#[test]
fn every_version_and_style_has_the_same_extents() {
    let expected = extents(&text(DxfStyle::default()));
    for style in each_style() {
        let found = extents(&text(style));
        for (found, expected, side) in [
            (found.min.x, expected.min.x, "left"),
            (found.min.y, expected.min.y, "bottom"),
            (found.max.x, expected.max.x, "right"),
            (found.max.y, expected.max.y, "top"),
        ] {
            check_near(found, expected, 1e-6, &format!("{side} of {style:?}"));
        }
    }
}

#[test]
fn separate_arcs_are_the_same_outline_in_pieces() {
    for profile in [DxfProfile::R2000, DxfProfile::R12] {
        let text = text(DxfStyle { profile, arcs: ArcStyle::Separate, ..DxfStyle::default() });
        let file = read(&text);
        let outside = || file.entities().filter(|entity| entity.common.layer == "CUT_OUTER");
        let arcs = outside().filter(|entity| matches!(entity.specific, EntityType::Arc(_))).count();
        let lines = outside().filter(|entity| matches!(entity.specific, EntityType::Line(_))).count();
        assert_eq!((arcs, lines, outside().count()), (4, 4, 8), "four corners and four edges");
        let ends: Vec<Point2> =
            on(&text, "CUT_OUTER").iter().flat_map(|piece| [piece.from(), piece.to()]).collect();
        for end in &ends {
            let others = ends.iter().filter(|other| other.distance(*end) < 1e-7).count();
            assert_eq!(others, 2, "at {end:?} two pieces meet");
        }
    }
}

#[test]
fn flat_arcs_keep_their_tolerance() {
    let text = text(DxfStyle { arcs: FLAT, ..DxfStyle::default() });
    let exact = on(&self::text(DxfStyle::default()), "CUT_INNER");
    let flat = on(&text, "CUT_INNER");
    assert!(flat.len() > 20, "the window's half circles are broken up, found {} pieces", flat.len());
    for piece in &flat {
        assert!(matches!(piece, Segment::Line { .. }), "{piece:?} is straight");
        let middle = piece.point_at(0.5);
        let off = exact.iter().map(|edge| edge.distance_to(middle).as_mm()).fold(f64::INFINITY, f64::min);
        assert!(off <= 0.01 + 1e-9, "a chord stands off by {off} mm, at most 0.01");
        assert!(piece.length() >= Length::mm(0.05), "no line is shorter than 0.05 mm");
    }
    let file = read(&text);
    let drilled =
        file.entities().find(|entity| entity.common.layer == "DRILL_D3_175").expect("there is a hole");
    assert!(matches!(drilled.specific, EntityType::Circle(_)), "a drilled hole stays a circle");
}

#[test]
fn a_tolerance_below_what_machines_take_is_refused() {
    let arcs = ArcStyle::Flattened(ChordTolerance::new(Length::mm(1e-5)));
    let options = DxfOptions { style: DxfStyle { arcs, ..DxfStyle::default() }, ..DxfOptions::default() };
    let found = write(&sample::plate(), &options);
    assert!(matches!(found, Err(ExportFault::FineArcs { .. })), "lines too short, found {found:?}");
}

#[test]
fn the_old_version_has_no_inches() {
    let style = DxfStyle { profile: DxfProfile::R12, ..DxfStyle::default() };
    let options = DxfOptions { unit: LengthUnit::Inch, style, ..DxfOptions::default() };
    assert_eq!(write(&sample::plate(), &options), Err(ExportFault::UnitlessInches), "inches in R12");
}

#[test]
fn a_cut_line_grows_outsides_and_shrinks_openings_where_they_are() {
    let style = DxfStyle { cut_line: Some(Length::mm(3.175)), ..DxfStyle::default() };
    let text = text(style);
    let (bit, radius) = (3.175, 3.175 / 2.0);
    // A rounded rectangle of 60 by 40 with corners of 5, grown; and a slot of 10 between half circles of 5, shrunk.
    let corner = 5.0 + radius;
    let outside = (60.0 + bit) * (40.0 + bit) - (4.0 - std::f64::consts::PI) * corner * corner;
    let within = 5.0 - radius;
    let window = 10.0 * 2.0 * within + std::f64::consts::PI * within * within;
    check_near(area(&on(&text, "CUT_OUTER")), outside, 0.01, "the area within the outer cut");
    check_near(area(&on(&text, "CUT_INNER")), window, 0.01, "the area within the inner cut");
    let nominal = self::text(DxfStyle::default());
    for layer in ["DRILL_D3_175", "SLOT", "ENGRAVE", "GUIDE"] {
        assert_eq!(on(&text, layer), on(&nominal, layer), "{layer} stays where it is");
    }
    assert!(text.contains("CUT LINE OF A BIT OR KERF OF 3.175 MM, NOT TO BE OFFSET AGAIN"), "it says so");
    assert_eq!(stem("lid", &style), "lid_bit3_175", "the name says so");
    assert_eq!(stem("lid", &DxfStyle::default()), "lid", "a nominal drawing has a plain name");
}

#[test]
fn a_bit_too_wide_is_refused() {
    let style = DxfStyle { cut_line: Some(Length::mm(11.0)), ..DxfStyle::default() };
    let found = write(&sample::plate(), &DxfOptions { style, ..DxfOptions::default() });
    assert!(matches!(found, Err(ExportFault::CutLine(_))), "a window 10 mm wide, found {found:?}");
}

#[test]
fn tabs_part_the_outside_and_together_they_are_it() {
    let tabs = Tabs::new(4, Length::mm(5.0)).expect("the tabs are sound");
    for (cut_line, drawn) in [(None, 5.0), (Some(Length::mm(3.0)), 8.0)] {
        for profile in [DxfProfile::R2000, DxfProfile::R12] {
            let style = DxfStyle { profile, cut_line, tabs: Some(tabs), ..DxfStyle::default() };
            let text = text(style);
            let left = on(&text, "TAB");
            assert_eq!(left.len(), 4, "four tabs, straight");
            for tab in &left {
                check_near(tab.length().as_mm(), drawn, 1e-6, "the width of a tab as drawn");
            }
            let whole = self::text(DxfStyle { tabs: None, ..style });
            let length = |pieces: &[Segment]| pieces.iter().map(|piece| piece.length().as_mm()).sum::<f64>();
            let together = length(&left) + length(&on(&text, "CUT_OUTER"));
            check_near(together, length(&on(&whole, "CUT_OUTER")), 1e-6, "the way round");
            let layers: Vec<_> = read(&text).entities().map(|entity| entity.common.layer.clone()).collect();
            let last = layers.iter().rposition(|layer| layer != "CUT_OUTER").expect("there are others");
            assert!(
                layers[last + 1..].len() == 4 && layers[last] == "TAB",
                "outer cuts come last: {layers:?}"
            );
        }
    }
}

#[test]
fn tabs_that_do_not_fit_are_fewer_and_the_file_says_so() {
    let write = |count, width_mm| {
        let tabs = Tabs::new(count, Length::mm(width_mm)).expect("the tabs are sound");
        let style = DxfStyle { tabs: Some(tabs), ..DxfStyle::default() };
        write(&sample::plate(), &DxfOptions { style, ..DxfOptions::default() })
    };
    let text = write(40, 6.0).expect("some fit");
    // Each tab wants 12 mm of a straight edge: four on each of 50 and two on each of 30.
    assert_eq!(on(&text, "TAB").len(), 12, "as many as fit");
    assert!(text.contains("TABS: 12 OF 6 MM ON LAYER TAB"), "the file says how many");
    let text = write(4, 30.0).expect("the outline stays whole");
    assert_eq!(on(&text, "TAB").len(), 0, "there is no room for any");
    assert!(text.contains("TABS: 0 OF 30 MM ON LAYER TAB"), "and the file says so");
    assert!(Tabs::new(0, Length::mm(6.0)).is_err(), "no tabs are not asked for");
    assert!(Tabs::new(4, Length::ZERO).is_err(), "tabs have a width");
}

#[test]
fn a_label_is_strokes_on_the_engraving_layer_within_the_part() {
    let label = |words: &str| DxfOptions { label: vec![words.into()], ..DxfOptions::default() };
    let text = write(&sample::plate(), &label("LID")).expect("the plate can be written");
    let plain = self::text(DxfStyle::default());
    let strokes = on(&text, "ENGRAVE");
    let own = on(&plain, "ENGRAVE").len();
    assert!(strokes.len() > own, "the letters are there");
    let part = Bounds2 { min: Point2::ORIGIN, max: Point2::mm(60.0, 40.0) };
    for stroke in &strokes {
        assert!(part.contains_bounds(stroke.bounds()), "{stroke:?} is on the part");
    }
    for layer in ["CUT_OUTER", "CUT_INNER", "GUIDE", "SLOT"] {
        assert_eq!(on(&text, layer), on(&plain, layer), "{layer} is as it was");
    }
    let long = label("A LABEL THAT NO PLATE OF SIXTY BY FORTY MILLIMETRES HAS ROOM FOR");
    let text = write(&sample::plate(), &long).expect("the plate can be written without");
    assert!(text.contains("LABEL: NO ROOM FOR ONE"), "the file says that there is none");
    assert_eq!(on(&text, "ENGRAVE").len(), own, "and there is none");
}

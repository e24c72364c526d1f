//! Does an independent reader of DXF find what was drawn?

use boxneck_export::ExportFault;
use boxneck_export::dxf::{DxfOptions, write};
use dxf::Drawing as File;
use dxf::entities::{Entity, EntityType};
use geometry::{Bounds2, Drawing, DrawingFault, Path, Point2, Segment};
use units::LengthUnit;

use crate::{golden, sample};

pub const MILLIMETRE: LengthUnit = LengthUnit::Millimetre;
pub const INCH: LengthUnit = LengthUnit::Inch;

pub fn text(drawing: &Drawing, unit: LengthUnit) -> String {
    write(drawing, &DxfOptions { unit, ..DxfOptions::default() }).expect("the drawing can be written")
}

pub fn read(text: &str) -> File {
    File::load(&mut std::io::Cursor::new(text.as_bytes())).expect("the file can be read")
}

/// The bounds of what an entity draws, by our own geometry of its numbers; the numbers are the file's.
pub fn bounds(entity: &Entity) -> Bounds2 {
    let corners = |a: (f64, f64), b: (f64, f64)| {
        Bounds2::at(Point2::mm(a.0, a.1)).union(Bounds2::at(Point2::mm(b.0, b.1)))
    };
    match &entity.specific {
        EntityType::Line(line) => corners((line.p1.x, line.p1.y), (line.p2.x, line.p2.y)),
        EntityType::Circle(circle) => {
            let (x, y, r) = (circle.center.x, circle.center.y, circle.radius);
            corners((x - r, y - r), (x + r, y + r))
        }
        EntityType::LwPolyline(line) => {
            let count = if line.is_closed() { line.vertices.len() } else { line.vertices.len() - 1 };
            let point = |i: usize| {
                let vertex = &line.vertices[i % line.vertices.len()];
                Point2::mm(vertex.x, vertex.y)
            };
            (0..count)
                .map(|i| Segment::new(point(i), point(i + 1), line.vertices[i].bulge).bounds())
                .reduce(Bounds2::union)
                .expect("a polyline has segments")
        }
        other => panic!("{other:?} is not among the entities that every program reads"),
    }
}

pub fn extents(file: &File) -> Bounds2 {
    file.entities().map(bounds).reduce(Bounds2::union).expect("the file has entities")
}

#[track_caller]
pub fn check_near(found: f64, expected: f64, tolerance: f64, what: &str) {
    let off = (found - expected).abs();
    assert!(off <= tolerance, "{what} is {expected}, found {found}: off by {off:e}, at most {tolerance:e}");
}

#[test]
fn the_plate_is_as_it_was() {
    golden::check("plate_mm.dxf", &text(&sample::plate(), MILLIMETRE));
    golden::check("plate_in.dxf", &text(&sample::plate(), INCH));
}

#[test]
fn every_operation_is_one_entity_and_the_datum_two() {
    let file = read(&text(&sample::plate(), MILLIMETRE));
    assert_eq!(file.entities().count(), sample::plate().operations.len() + 2, "entities of the plate");
}

#[test]
fn layers_stand_in_order_and_nothing_is_on_layer_0() {
    let file = read(&text(&sample::plate(), MILLIMETRE));
    let mut layers: Vec<_> = file.entities().map(|entity| entity.common.layer.clone()).collect();
    layers.dedup();
    let expected =
        ["GUIDE", "ENGRAVE", "POCKET_D3_2", "POCKET_D12_0", "SLOT", "DRILL_D3_175", "CUT_INNER", "CUT_OUTER"];
    assert_eq!(layers, expected, "the layers in the order of the entities");
    let mut listed: Vec<_> = file.layers().map(|layer| layer.name.clone()).collect();
    listed.retain(|name| name != "0");
    assert_eq!(listed, expected, "the layers of the table");
    for layer in file.layers() {
        assert!(layer.color.index().is_some(), "layer {} has a colour of its own", layer.name);
    }
}

#[test]
fn contours_are_closed_with_true_arcs_and_lines_stay_open() {
    let file = read(&text(&sample::plate(), MILLIMETRE));
    let on =
        |name: &str| file.entities().find(|entity| entity.common.layer == name).expect("the layer is used");
    match &on("CUT_OUTER").specific {
        EntityType::LwPolyline(line) => {
            assert!(line.is_closed(), "the outside is closed");
            assert_eq!(line.vertices.len(), 8, "four edges and four corners");
            let arcs: Vec<_> =
                line.vertices.iter().map(|vertex| vertex.bulge).filter(|b| *b != 0.0).collect();
            assert_eq!(arcs.len(), 4, "the four corners are arcs");
            for bulge in arcs {
                // tan(90 degrees / 4) in closed form.
                check_near(bulge, std::f64::consts::SQRT_2 - 1.0, 1e-12, "the bulge of a quarter turn");
            }
        }
        other => panic!("the outside is one polyline, found {other:?}"),
    }
    match &on("ENGRAVE").specific {
        EntityType::LwPolyline(line) => {
            assert!(!line.is_closed(), "the mark stays open");
            let bulges: Vec<_> = line.vertices.iter().map(|vertex| vertex.bulge).collect();
            assert_eq!(bulges, [-0.5, 0.0, 0.0], "the bulges of the mark");
        }
        other => panic!("the mark is one polyline, found {other:?}"),
    }
    assert!(matches!(on("SLOT").specific, EntityType::Line(_)), "a straight slot is a line");
    match &on("POCKET_D3_2").specific {
        EntityType::Circle(circle) => check_near(circle.radius, 6.0, 1e-8, "the radius of the pocket"),
        other => panic!("a round pocket is a circle, found {other:?}"),
    }
}

#[test]
fn the_part_stands_on_the_origin_and_the_header_tells_the_extents() {
    let file = read(&text(&sample::plate(), MILLIMETRE));
    let part =
        file.entities().find(|entity| entity.common.layer == "CUT_OUTER").expect("there is an outside");
    let part = bounds(part);
    check_near(part.min.x, 0.0, 1e-8, "the left of the part");
    check_near(part.min.y, 0.0, 1e-8, "the bottom of the part");
    check_near(part.max.x, 60.0, 1e-8, "the right of the part");
    check_near(part.max.y, 40.0, 1e-8, "the top of the part");
    let header = &file.header;
    // The datum's cross reaches 3 mm to the left; the guide 5 mm up and down.
    check_near(header.minimum_drawing_extents.x, -3.0, 1e-8, "the least x");
    check_near(header.minimum_drawing_extents.y, -5.0, 1e-8, "the least y");
    check_near(header.maximum_drawing_extents.x, 60.0, 1e-8, "the greatest x");
    check_near(header.maximum_drawing_extents.y, 45.0, 1e-8, "the greatest y");
    check_near(header.maximum_drawing_limits.x, 60.0, 1e-8, "the right limit");
    check_near(header.paperspace_maximum_drawing_limits.y, 45.0, 1e-8, "the paper's upper limit");
}

#[test]
fn the_file_says_its_unit() {
    let millimetres = read(&text(&sample::plate(), MILLIMETRE)).header;
    assert_eq!(millimetres.default_drawing_units, dxf::enums::Units::Millimeters, "$INSUNITS");
    assert_eq!(millimetres.drawing_units, dxf::enums::DrawingUnits::Metric, "$MEASUREMENT");
    let inches = read(&text(&sample::plate(), INCH)).header;
    assert_eq!(inches.default_drawing_units, dxf::enums::Units::Inches, "$INSUNITS");
    assert_eq!(inches.drawing_units, dxf::enums::DrawingUnits::English, "$MEASUREMENT");
    assert_eq!(inches.version, dxf::enums::AcadVersion::R2000, "the version");
}

#[test]
fn handles_are_unique_and_below_the_seed() {
    let text = text(&sample::plate(), MILLIMETRE);
    let lines: Vec<_> = text.lines().collect();
    let mut seed = None;
    let mut handles = std::collections::BTreeSet::new();
    for pair in lines.windows(4).step_by(2) {
        let [code, value, ..] = pair else { unreachable!("windows are of four lines") };
        let before = (pair[0].trim(), pair[1]);
        if before == ("9", "$HANDSEED") {
            seed = Some(u64::from_str_radix(pair[3], 16).expect("the seed is hexadecimal"));
        }
        if code.trim() == "5" || code.trim() == "105" {
            let handle = u64::from_str_radix(value, 16).expect("a handle is hexadecimal");
            if Some(handle) != seed {
                assert!(handles.insert(handle), "handle {value} is used twice");
            }
        }
    }
    let seed = seed.expect("there is a seed");
    assert!(handles.iter().all(|handle| *handle < seed), "every handle is below {seed:X}");
}

#[test]
fn the_text_is_ascii_and_numbers_have_no_exponent() {
    let text = text(&sample::plate(), INCH);
    assert!(text.is_ascii(), "the file is ASCII");
    let is_exponent = |line: &&str| line.parse::<f64>().is_ok() && line.contains(['e', 'E', 'N', 'i']);
    // Handles such as 1E are hexadecimal, not numbers, and stand under the codes for handles.
    let lines: Vec<_> = text.lines().collect();
    let numbers = lines.chunks(2).filter(|pair| {
        pair[0].trim().parse::<u16>().is_ok_and(|code| (10..60).contains(&code) || (140..150).contains(&code))
    });
    assert_eq!(numbers.map(|pair| pair[1]).find(is_exponent), None, "no number with an exponent");
}

#[test]
fn a_faulty_drawing_is_refused_with_all_its_faults() {
    let mut drawing = sample::plate();
    drawing.name = "Plate!".into();
    drawing.datum.point = Point2::mm(f64::NAN, 0.0);
    match write(&drawing, &DxfOptions::default()) {
        Err(ExportFault::FaultyDrawing { faults, .. }) => assert_eq!(
            faults,
            [DrawingFault::BadName { name: "Plate!".into() }, DrawingFault::DatumNotFinite],
            "both faults are told"
        ),
        other => panic!("the drawing is refused, found {other:?}"),
    }
}

#[test]
fn nothing_to_draw_is_said() {
    let drawing = Drawing { operations: Vec::new(), ..sample::plate() };
    let expected = ExportFault::NothingToDraw { name: "plate".into() };
    assert_eq!(write(&drawing, &DxfOptions::default()), Err(expected), "a drawing without operations");
}

#[test]
fn a_datum_in_the_next_town_is_refused() {
    let mut drawing = sample::plate();
    drawing.datum.point = Point2::mm(1e6, 0.0);
    let found = write(&drawing, &DxfOptions::default());
    assert!(matches!(found, Err(ExportFault::OutOfRange { .. })), "a datum 1 km away, found {found:?}");
}

#[test]
fn a_drawing_of_guides_alone_stands_on_the_origin() {
    let line = Path::line(Point2::mm(5.0, 5.0), Point2::mm(15.0, 5.0)).expect("the line is sound");
    let mut drawing = sample::plate();
    drawing.operations = vec![geometry::Operation::Guide(line)];
    let file = read(&text(&drawing, MILLIMETRE));
    let first = file.entities().next().expect("the line is there");
    check_near(bounds(first).min.x, 0.0, 1e-8, "the left end of the line");
}

//! Does the 3MF package hold what was put on the plate, and where?

use std::io::Read;

use boxneck_export::ExportFault;
use boxneck_export::threemf::{Plate, PlateObject, PlatePlace, write};
use geometry::{Bounds2, Point2};
use units::{ChordTolerance, Length};

use crate::bodies;

/// Two copies of the sample plate of 30 by 20 mm, one of them turned.
fn plate() -> Plate {
    let mesh = bodies::plate().mesh(ChordTolerance::new(Length::mm(0.02))).expect("the plate has a mesh");
    let room = |min: [f64; 2], size: [f64; 2]| Bounds2 {
        min: Point2::mm(min[0], min[1]),
        max: Point2::mm(min[0] + size[0], min[1] + size[1]),
    };
    let places = vec![
        PlatePlace { room: room([10.0, 20.0], [30.0, 20.0]), turned: false },
        PlatePlace { room: room([45.0, 20.5], [20.0, 30.0]), turned: true },
    ];
    Plate {
        title: "Porch <three>".into(),
        description: "one plate".into(),
        objects: vec![PlateObject { name: "nut & co".into(), mesh, places }],
    }
}

/// The text of one file of the package.
fn text(bytes: &[u8], name: &str) -> String {
    let mut package = zip::ZipArchive::new(std::io::Cursor::new(bytes)).expect("the package can be opened");
    let mut text = String::new();
    let mut file = package.by_name(name).unwrap_or_else(|fault| panic!("{name}: {fault}"));
    file.read_to_string(&mut text).expect("the file is text");
    text
}

#[track_caller]
fn check(expected: &str) {
    let bytes = write(&plate()).expect("the plate can be written");
    let model = text(&bytes, "3D/3dmodel.model");
    assert!(model.contains(expected), "{expected} is in the model: {}", &model[..800.min(model.len())]);
}

#[test]
fn the_unit_is_declared() {
    check("<model unit=\"millimeter\"");
}

#[test]
fn names_are_kept_and_cannot_break_the_file() {
    check("<metadata name=\"Title\">Porch &lt;three&gt;</metadata>");
    check("name=\"nut &amp; co\"");
}

#[test]
fn each_copy_lies_in_its_room() {
    check("<item objectid=\"1\" transform=\"1 0 0 0 1 0 0 0 1 10 20 0\"/>");
    // A quarter turn sends (x, y) to (-y, x): what was 20 mm deep reaches from 65 back to 45.
    check("<item objectid=\"1\" transform=\"0 1 0 -1 0 0 0 0 1 65 20.5 0\"/>");
}

#[test]
fn every_point_and_triangle_is_there() {
    let plate = plate();
    let model = text(&write(&plate).expect("the plate can be written"), "3D/3dmodel.model");
    let mesh = &plate.objects[0].mesh;
    assert_eq!(model.matches("<vertex ").count(), mesh.points().len(), "points");
    assert_eq!(model.matches("<triangle ").count(), mesh.triangles().len(), "triangles");
}

#[test]
fn the_same_plate_gives_the_same_bytes() {
    assert_eq!(write(&plate()), write(&plate()), "two writings");
}

#[test]
fn an_empty_plate_is_refused() {
    let empty = Plate { objects: Vec::new(), ..plate() };
    let expected = ExportFault::NothingToDraw { name: "Porch <three>".into() };
    assert_eq!(write(&empty), Err(expected), "no part");
}

#[test]
fn a_part_in_the_air_is_refused() {
    let mut plate = plate();
    let lifted = geometry::Rigid3::translation(geometry::Vector3::mm(0.0, 0.0, 1.0));
    plate.objects[0].mesh = plate.objects[0].mesh.moved(&lifted);
    let expected = ExportFault::NotOnBed { name: "nut & co".into(), lowest: Length::mm(1.0) };
    assert_eq!(write(&plate), Err(expected), "1 mm above the bed");
}

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

/// The picture within a plate's file: four bytes a pixel, row by row from the top, and its side.
fn picture(plate: &Plate) -> (Vec<u8>, usize) {
    let bytes = write(plate).expect("the plate can be written");
    let mut package = zip::ZipArchive::new(std::io::Cursor::new(bytes)).expect("the package can be opened");
    let mut file = Vec::new();
    let mut packed = package.by_name("Metadata/thumbnail.png").expect("there is a picture");
    packed.read_to_end(&mut file).expect("it can be unpacked");
    let mut reader = png::Decoder::new(std::io::Cursor::new(file)).read_info().expect("it is a PNG");
    let mut pixels = vec![0; reader.output_buffer_size().expect("its size can be told")];
    let info = reader.next_frame(&mut pixels).expect("it has pixels");
    assert_eq!(
        (info.width, info.color_type),
        (info.height, png::ColorType::Rgba),
        "a square that lets through"
    );
    (pixels, info.width as usize)
}

#[test]
fn the_package_names_its_picture() {
    let bytes = write(&plate()).expect("the plate can be written");
    assert!(text(&bytes, "_rels/.rels").contains("Target=\"/Metadata/thumbnail.png\""), "as a relationship");
    assert!(text(&bytes, "[Content_Types].xml").contains("Extension=\"png\""), "and by its kind");
}

#[test]
fn the_picture_shows_the_parts_alone() {
    let (pixels, side) = picture(&plate());
    let solid = pixels.chunks_exact(4).filter(|pixel| pixel[3] == 255).count();
    let clear = pixels.chunks_exact(4).filter(|pixel| pixel[3] == 0).count();
    let share = |count: usize| count as f64 / (side * side) as f64;
    assert!(share(solid) > 0.2, "the parts fill a good part: {}", share(solid));
    assert!(share(clear) > 0.2, "nothing is drawn beside them: {}", share(clear));
    let edge = |index: usize| index < side || index >= side * (side - 1) || index.is_multiple_of(side);
    let is_clear = pixels.chunks_exact(4).enumerate().all(|(index, pixel)| !edge(index) || pixel[3] == 0);
    assert!(is_clear, "no part is cut off");
}

#[test]
fn a_part_that_lies_elsewhere_changes_the_picture() {
    let mut moved = plate();
    moved.objects[0].places[1].room =
        moved.objects[0].places[1].room.translated(geometry::Vector2::mm(9.0, 0.0));
    assert_ne!(picture(&plate()), picture(&moved), "9 mm to the right");
    let mut one = plate();
    one.objects[0].places.pop();
    assert_ne!(picture(&plate()), picture(&one), "one copy less");
}

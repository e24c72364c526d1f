//! Does the GLB file hold every solid under its name, in the words of the specification?

use boxneck_export::ExportFault;
use boxneck_export::gltf::{Item, Material, Model, Sheen, write};
use geometry::{Mesh, Rigid3, Vector3};
use serde_json::Value;
use units::{ChordTolerance, Length};

use crate::bodies;

const MAPLE: Material = Material { name: "wood", rgb: [255, 0, 127], sheen: Sheen::Dull };

fn mesh() -> Mesh {
    bodies::plate().mesh(ChordTolerance::new(Length::mm(0.05))).expect("the plate has a mesh")
}

fn model() -> Model {
    let beside = mesh().moved(&Rigid3::translation(Vector3::mm(100.0, 0.0, 0.0)));
    let item = |name: &str, mesh| Item { name: name.into(), mesh, material: MAPLE };
    Model {
        name: "\"Porch\"".into(),
        description: "two plates".into(),
        items: vec![item("one", mesh()), item("other", beside)],
    }
}

/// The description and the numbers, read by the specification's layout of a GLB.
fn read(bytes: &[u8]) -> (Value, Vec<u8>) {
    let word = |at: usize| u32::from_le_bytes(bytes[at..at + 4].try_into().expect("four bytes")) as usize;
    assert_eq!((&bytes[..4], word(4), word(8)), (&b"glTF"[..], 2, bytes.len()), "the head");
    let described = word(12);
    assert_eq!((&bytes[16..20], described % 4), (&b"JSON"[..], 0), "the first chunk");
    let text = serde_json::from_slice(&bytes[20..20 + described]).expect("the description is JSON");
    let at = 20 + described;
    assert_eq!((&bytes[at + 4..at + 8], at + 8 + word(at)), (&b"BIN\0"[..], bytes.len()), "the second chunk");
    (text, bytes[at + 8..].to_vec())
}

#[test]
fn every_solid_is_a_node_under_its_name() {
    let (text, _) = read(&write(&model()).expect("the model can be written"));
    let names: Vec<&str> =
        text["nodes"].as_array().expect("nodes").iter().flat_map(|n| n["name"].as_str()).collect();
    assert_eq!(names, ["\"Porch\"", "one", "other"], "the root and its two");
    assert_eq!(text["nodes"][0]["children"], serde_json::json!([1, 2]), "the root's children");
    assert_eq!(text["materials"].as_array().map(Vec::len), Some(1), "a material is there once");
    let colour = &text["materials"][0]["pbrMetallicRoughness"]["baseColorFactor"];
    // 127/255 is 0.2122 of the light: IEC 61966-2-1, by hand.
    assert_eq!(*colour, serde_json::json!([1.0, 0.0, 0.2122, 1.0]), "sRGB becomes light");
}

#[test]
fn points_and_triangles_read_back() {
    let (text, numbers) = read(&write(&model()).expect("the model can be written"));
    let view = |accessor: &Value| {
        let view = &text["bufferViews"][accessor["bufferView"].as_u64().expect("a view") as usize];
        (view["byteOffset"].as_u64().expect("where") + accessor["byteOffset"].as_u64().expect("where"))
            as usize
    };
    let [points, corners] = [2, 3].map(|number| &text["accessors"][number]);
    let start = view(points);
    let x = f32::from_le_bytes(numbers[start..start + 4].try_into().expect("four bytes"));
    assert!((100.0..=130.0).contains(&x), "the other plate stands beside the first, found x = {x}");
    assert_eq!(points["min"][0], 100.0, "its bounds");
    assert_eq!(points["max"][0], 130.0, "its bounds");
    let count = corners["count"].as_u64().expect("a count") as usize;
    assert_eq!(count, 3 * mesh().triangles().len(), "three corners a triangle");
    let last = view(corners) + 2 * (count - 1);
    let corner = u16::from_le_bytes(numbers[last..last + 2].try_into().expect("two bytes"));
    assert!(usize::from(corner) < mesh().points().len(), "a corner names a point, found {corner}");
}

#[test]
fn many_points_take_longer_numbers() {
    // A prism of 40000 sides has 80000 points.
    let count = 40_000_u32;
    let at = |index: u32, z: f64| {
        let angle = units::Angle::radians(std::f64::consts::TAU * f64::from(index) / f64::from(count));
        geometry::Point3::mm(angle.cos() * 5000.0, angle.sin() * 5000.0, z)
    };
    let rims = (0..count).flat_map(|index| [at(index, 0.0), at(index, 10.0)]);
    let points = rims.chain([geometry::Point3::ORIGIN, geometry::Point3::mm(0.0, 0.0, 10.0)]).collect();
    let around = (0..count).flat_map(|index| {
        let [low, next] = [2 * index, 2 * ((index + 1) % count)];
        [
            [low, next, next + 1],
            [low, next + 1, low + 1],
            [2 * count, next, low],
            [2 * count + 1, low + 1, next + 1],
        ]
    });
    let large = Mesh::new(points, around.collect()).expect("the corners exist");
    let item = Item { name: "drum".into(), mesh: large, material: MAPLE };
    let mut whole = model();
    whole.items.push(item.clone());
    let kinds = |model: &Model| {
        let (text, _) = read(&write(model).expect("the model can be written"));
        let views = text["bufferViews"].as_array().map(Vec::len);
        let accessors = text["accessors"].as_array().expect("accessors").iter().skip(1).step_by(2);
        let kinds = accessors.map(|a| (a["componentType"].as_u64(), a["bufferView"].as_u64()));
        (views, kinds.collect::<Vec<_>>())
    };
    let (short, long) = ((Some(5123), Some(1)), (Some(5125), Some(2)));
    assert_eq!(kinds(&whole), (Some(3), vec![short, short, long]), "16 and 32 bits");
    whole.items = vec![item];
    assert_eq!(kinds(&whole), (Some(2), vec![(Some(5125), Some(1))]), "32 bits alone");
}

#[test]
fn the_same_model_gives_the_same_bytes() {
    assert_eq!(write(&model()), write(&model()), "two writings");
}

#[test]
fn nothing_and_what_is_open_are_refused() {
    let empty = Model { items: Vec::new(), ..model() };
    assert_eq!(write(&empty), Err(ExportFault::NothingToDraw { name: "\"Porch\"".into() }), "no solid");
    let mut open = model();
    let whole = mesh();
    open.items[1].mesh =
        Mesh::new(whole.points().to_vec(), whole.triangles()[1..].to_vec()).expect("the corners exist");
    let found = write(&open);
    assert!(matches!(&found, Err(ExportFault::OpenMesh { name, .. }) if name == "other"), "found {found:?}");
}

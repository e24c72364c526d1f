//! Does an independent reader of STL find a closed solid on its face?

use boxneck_export::ExportFault;
use boxneck_export::stl::{self, StlOptions};
use geometry::{Mesh, Point3};
use units::Length;

fn write(name: &str, mesh: &Mesh) -> Result<Vec<u8>, ExportFault> {
    stl::write(name, mesh, &StlOptions::default())
}

/// A box from (0, 0, `bottom`) with sides 30, 20 and 10 mm.
fn block(bottom: f64) -> Mesh {
    let points = (0..8).map(|i| {
        let side = |bit: usize, length: f64| if i & bit == 0 { 0.0 } else { length };
        Point3::mm(side(1, 30.0), side(2, 20.0), bottom + side(4, 10.0))
    });
    let faces = [[0, 2, 3, 1], [4, 5, 7, 6], [0, 1, 5, 4], [2, 6, 7, 3], [0, 4, 6, 2], [1, 3, 7, 5]];
    let triangles = faces.iter().flat_map(|&[a, b, c, d]| [[a, b, c], [a, c, d]]).collect();
    Mesh::new(points.collect(), triangles).expect("the corners exist")
}

#[test]
fn a_block_comes_back_whole() {
    let bytes = write("block", &block(0.0)).expect("the block can be written");
    assert_eq!(bytes.len(), 84 + 12 * 50, "twelve triangles");
    assert!(!bytes.starts_with(b"solid"), "the header does not pass for the text form");
    let read = stl_io::read_stl(&mut std::io::Cursor::new(&bytes)).expect("the file can be read");
    read.validate().expect("the reader finds it closed");
    assert_eq!(read.vertices.len(), 8, "eight corners");
    let points = read.vertices.iter().map(|v| Point3::mm(v[0].into(), v[1].into(), v[2].into())).collect();
    let triangles = read.faces.iter().map(|face| face.vertices.map(|corner| corner as u32)).collect();
    let mesh = Mesh::new(points, triangles).expect("the corners exist");
    assert_eq!(mesh.volume(), 6000.0, "30 by 20 by 10 mm");
    assert_eq!(mesh.bounds().expect("there are points").min, Point3::ORIGIN, "it lies on the bed");
    for face in &read.faces {
        let length = face.normal.0.iter().map(|n| n * n).sum::<f32>();
        assert!((length - 1.0).abs() < 1e-6, "normals are of length 1, found the square {length}");
    }
}

#[test]
fn normals_point_outward() {
    let bytes = write("block", &block(0.0)).expect("the block can be written");
    let read = stl_io::read_stl(&mut std::io::Cursor::new(&bytes)).expect("the file can be read");
    for face in &read.faces {
        let middle = [15.0, 10.0, 5.0];
        let corner = read.vertices[face.vertices[0]];
        let outward: f32 = (0..3).map(|axis| face.normal[axis] * (corner[axis] - middle[axis])).sum();
        assert!(outward > 0.0, "the normal {:?} points away from the middle", face.normal);
    }
}

#[test]
fn what_a_rotation_left_over_is_taken_off() {
    let tilted = block(3e-16);
    assert_eq!(write("block", &tilted), write("block", &block(0.0)), "3e-16 mm is none");
}

#[test]
fn a_block_in_the_air_is_refused() {
    let expected = ExportFault::NotOnBed { name: "block".into(), lowest: Length::mm(2.5) };
    assert_eq!(write("block", &block(2.5)), Err(expected), "2.5 mm above the bed");
    let expected = ExportFault::NotOnBed { name: "block".into(), lowest: Length::mm(-1.0) };
    assert_eq!(write("block", &block(-1.0)), Err(expected), "1 mm below the bed");
}

#[test]
fn a_block_with_a_hole_is_refused() {
    let whole = block(0.0);
    let open =
        Mesh::new(whole.points().to_vec(), whole.triangles()[1..].to_vec()).expect("the corners exist");
    let found = write("block", &open);
    assert!(matches!(found, Err(ExportFault::OpenMesh { .. })), "a triangle is missing, found {found:?}");
}

#[test]
fn a_block_turned_inside_out_is_refused() {
    let whole = block(0.0);
    let turned = whole.triangles().iter().map(|&[a, b, c]| [a, c, b]).collect();
    let inside_out = Mesh::new(whole.points().to_vec(), turned).expect("the corners exist");
    let found = write("block", &inside_out);
    assert!(matches!(found, Err(ExportFault::OpenMesh { .. })), "the faces look inward, found {found:?}");
}

#[test]
fn nothing_is_refused() {
    let found = write("nothing", &Mesh::default());
    assert!(matches!(found, Err(ExportFault::OpenMesh { .. })), "a mesh without triangles, found {found:?}");
}

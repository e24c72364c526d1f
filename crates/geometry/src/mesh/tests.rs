//! Does a mesh know whether it is closed, and does it stay so when it is rounded?

use units::{Length, WeldDistance};

use super::{Mesh, MeshFault};
use crate::Point3;

const CORNERS: [Point3; 4] = [
    Point3::mm(0.0, 0.0, 0.0),
    Point3::mm(1.0, 0.0, 0.0),
    Point3::mm(0.0, 1.0, 0.0),
    Point3::mm(0.0, 0.0, 1.0),
];
const TETRAHEDRON: [[u32; 3]; 4] = [[0, 2, 1], [0, 1, 3], [1, 2, 3], [2, 0, 3]];

fn mesh(points: &[Point3], triangles: &[[u32; 3]]) -> Mesh {
    Mesh::new(points.to_vec(), triangles.to_vec()).expect("points that exist")
}

#[track_caller]
fn check(points: &[Point3], triangles: &[[u32; 3]], expected: Result<(), MeshFault>) {
    assert_eq!(mesh(points, triangles).check_closed(), expected, "closed?");
}

#[test]
fn a_tetrahedron_is_closed_and_measured() {
    check(&CORNERS, &TETRAHEDRON, Ok(()));
    let mesh = mesh(&CORNERS, &TETRAHEDRON);
    assert!((mesh.volume() - 1.0 / 6.0).abs() < 1e-15, "found {}", mesh.volume());
    assert!((mesh.area() - (1.5 + 3.0_f64.sqrt() / 2.0)).abs() < 1e-15, "found {}", mesh.area());
    let center = mesh.center_of_mass().expect("a solid");
    assert!(center.distance(Point3::mm(0.25, 0.25, 0.25)) < 1e-15, "found {center:?}");
}

#[test]
fn a_missing_triangle() {
    let expected = MeshFault::OpenEdge { from: 0, to: 2, along: 1, against: 0 };
    check(&CORNERS, &TETRAHEDRON[..3], Err(expected));
}

#[test]
fn a_triangle_turned_about() {
    let mut triangles = TETRAHEDRON;
    triangles[3] = [0, 2, 3];
    let expected = MeshFault::OpenEdge { from: 0, to: 2, along: 2, against: 0 };
    check(&CORNERS, &triangles, Err(expected));
}

#[test]
fn a_mesh_inside_out() {
    let triangles = TETRAHEDRON.map(|[a, b, c]| [a, c, b]);
    let found = mesh(&CORNERS, &triangles).check_closed();
    assert!(matches!(found, Err(MeshFault::NoVolume { volume }) if volume < 0.0), "found {found:?}");
}

#[test]
fn a_flat_triangle() {
    let mut points = CORNERS.to_vec();
    points.push(Point3::mm(0.5, 0.0, 0.0));
    let triangles = [[0, 2, 1], [0, 4, 3], [4, 1, 3], [0, 1, 4], [1, 2, 3], [2, 0, 3]];
    check(&points, &triangles, Err(MeshFault::NoArea { triangle: 3 }));
    // Rounding turns the long edge of such a triangle, so that the file holds none.
    let rounded = mesh(&points, &triangles).rounded_to_f32(WeldDistance::new(Length::mm(1e-5)));
    assert_eq!(rounded.check_closed(), Ok(()), "rounded");
}

#[test]
fn a_point_that_does_not_exist() {
    let found = Mesh::new(CORNERS.to_vec(), vec![[0, 1, 4]]);
    assert_eq!(found, Err(MeshFault::NoSuchPoint { triangle: 0 }), "point 4 of 4");
}

#[test]
fn rounding_welds_what_it_brings_together() {
    // A thousandth of a micrometre between two points vanishes in 32 bits, and with it the two triangles that have it.
    let mut points = CORNERS.to_vec();
    points.push(Point3::mm(1.0, 1e-9, 0.0));
    let triangles = [[0, 2, 4], [0, 4, 1], [0, 1, 3], [1, 4, 3], [4, 2, 3], [2, 0, 3]];
    let rounded = mesh(&points, &triangles).rounded_to_f32(WeldDistance::new(Length::mm(1e-5)));
    assert_eq!((rounded.points().len(), rounded.triangles().len()), (4, 4), "points and triangles left");
    assert_eq!(rounded.check_closed(), Ok(()), "rounded");
}

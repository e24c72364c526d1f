//! Do bodies come through: as triangles that close and as a solid of the right size?

use boxneck_export::stl::StlOptions;
use boxneck_export::{step, stl};
use geometry::{Body, Bore, BoreStep, Corner, Frame3, Mesh, Outline, Point2, Point3, Vector3};
use units::{ChordTolerance, Length};

/// A plate of 30 by 20 by 6 mm with corners of radius 4, a hole of radius 2 through it, and a countersunk one.
pub fn plate() -> Body {
    let corner = |x: f64, y: f64| Corner { point: Point2::mm(x, y), radius: Length::mm(4.0) };
    let outline = Outline::rounded(&[corner(0., 0.), corner(30., 0.), corner(30., 20.), corner(0., 20.)])
        .expect("the outline is sound");
    let (down, deep) = (Vector3::mm(0.0, 0.0, -1.0), Length::mm(6.0));
    let hole = Bore::straight(Point3::mm(8.0, 10.0, 6.0), down, Length::mm(2.0), deep);
    let through = BoreStep { depth: deep, radius: Length::mm(1.5) };
    let sunk =
        Bore::countersunk(Point3::mm(22.0, 10.0, 6.0), down, through, Length::mm(3.5), Length::mm(2.0));
    Body::prism(Frame3::across_z(Length::ZERO), outline, deep, vec![hole, sunk]).expect("the plate is sound")
}

/// Cubic millimetres of the plate in closed form: the block, less its corners, the hole, and the cone and the rest of
/// the countersunk one.
pub fn volume() -> f64 {
    let pi = std::f64::consts::PI;
    let cone = pi * 2.0 * (3.5 * 3.5 + 3.5 * 1.5 + 1.5 * 1.5) / 3.0;
    (30.0 * 20.0 - (4.0 - pi) * 16.0 - pi * 4.0) * 6.0 - cone - pi * 1.5 * 1.5 * 4.0
}

#[test]
fn a_body_with_bores_comes_back_closed_and_of_its_size() {
    let chord = Length::mm(0.005);
    let mesh = plate().mesh(ChordTolerance::new(chord)).expect("the plate has a mesh");
    let bytes = stl::write("plate", &mesh, &StlOptions::default()).expect("the mesh can be written");
    let read = stl_io::read_stl(&mut std::io::Cursor::new(&bytes)).expect("the file can be read");
    read.validate().expect("the reader finds it closed");
    let points = read.vertices.iter().map(|v| Point3::mm(v[0].into(), v[1].into(), v[2].into())).collect();
    let triangles = read.faces.iter().map(|face| face.vertices.map(|corner| corner as u32)).collect();
    let found = Mesh::new(points, triangles).expect("the corners exist");
    // No wall deviates by more than the chord's, so the volume by no more than the area times it.
    let (off, most) = ((found.volume() - volume()).abs(), found.area() * chord.as_mm());
    assert!(
        off <= most,
        "the volume is {}, found {}: off by {off}, at most {most}",
        volume(),
        found.volume()
    );
}

#[test]
fn the_same_body_gives_the_same_files() {
    let mesh = || plate().mesh(ChordTolerance::new(Length::mm(0.02))).expect("the plate has a mesh");
    let triangles = || stl::write("plate", &mesh(), &StlOptions::default()).expect("the mesh can be written");
    assert_eq!(triangles(), triangles(), "STL");
    let solid = || plate().brep().expect("the plate has a boundary");
    let text = || step::write("plate", &solid(), &Default::default()).expect("the solid can be written");
    assert_eq!(text(), text(), "STEP");
    assert_eq!(text().matches("MANIFOLD_SOLID_BREP(").count(), 1, "one solid");
    assert_eq!(text().matches("CLOSED_SHELL(").count(), 1, "of one closed shell");
}

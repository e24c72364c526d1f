//! Does somebody else's tessellation of the B-rep agree with our mesh?

use boxneck_geometry::{Body, Bounds3, Frame3, Mesh, Rigid3, Skin, Vector3};
use truck_meshalgo::prelude::*;
use units::{Angle, ChordTolerance, Length};

const CHORD_MM: f64 = 0.01;

/// What two readings may differ by: each deviates by no more than the tolerance over the whole surface.
fn allowance(mesh: &Mesh) -> f64 {
    2.0 * CHORD_MM * mesh.area()
}

/// Checks a body in every way that needs no knowledge of its shape, and gives its volume in cubic millimetres.
///
/// - The skin's parts obey Euler's formula for a solid with a number of holes through it.
/// - The mesh is closed, still so when rounded for a file, and the same after a motion and in the mirror.
/// - The B-rep is closed; tessellated by `truck-meshalgo`, none of its faces is missing, it is closed, and it has the
///   mesh's volume and bounds.
#[track_caller]
pub fn check_body(body: &Body, holes_through: i64) {
    check_own_readings(body, holes_through);
    check_brep(body);
}

/// The part of [`check_body`] that does not tessellate the B-rep: `truck-meshalgo` breaks a ruled face only along its
/// curved edges, and a twisted face between straight ones not at all.
#[track_caller]
pub fn check_own_readings(body: &Body, holes_through: i64) {
    let skin = body.skin().expect("a sound skin");
    assert_eq!(euler(&skin), 2 - 2 * holes_through, "Euler's formula");

    let tolerance = ChordTolerance::new(Length::mm(CHORD_MM));
    let mesh = body.mesh(tolerance).expect("a closed mesh");
    let volume = mesh.volume();
    let rounded = mesh.rounded_to_f32(units::WeldDistance::new(Length::mm(1e-5)));
    rounded.check_closed().expect("a mesh that stays closed in 32 bits");
    let drift = (rounded.volume() - volume).abs();
    assert!(drift <= 1e-4 * mesh.area(), "rounding changed the volume by {drift}");

    let motion = Rigid3::turn(
        boxneck_geometry::Point3::mm(3.0, -2.0, 1.0),
        Vector3::mm(1.0, 2.0, -0.7),
        Angle::degrees(77.0),
    )
    .expect("an axis")
    .then(&Rigid3::translation(Vector3::mm(100.0, -50.0, 20.0)));
    for (what, other) in [("moved", body.moved(&motion)), ("mirrored", body.mirrored_y())] {
        let found = other.mesh(tolerance).unwrap_or_else(|fault| panic!("{what}: {fault}")).volume();
        let within = allowance(&mesh);
        assert!((found - volume).abs() <= within, "{what}: expected {volume} within {within}, found {found}");
        assert_eq!(euler(&other.skin().expect("a sound skin")), euler(&skin), "{what}: Euler's formula");
        other.brep().unwrap_or_else(|fault| panic!("{what}: {fault}"));
    }
}

#[track_caller]
fn check_brep(body: &Body) {
    let mesh = body.mesh(ChordTolerance::new(Length::mm(CHORD_MM))).expect("a closed mesh");
    let solid = body.brep().expect("a closed B-rep");
    // A face thinner than the tolerance is not closed by `truck-meshalgo`, so it may try again with a finer one.
    let polygon = tessellated(&solid, CHORD_MM)
        .or_else(|_| tessellated(&solid, CHORD_MM / 10.0))
        .unwrap_or_else(|reason| panic!("{reason}"));

    let (expected, found, within) = (mesh.volume(), polygon.volume(), allowance(&mesh));
    assert!(
        (found - expected).abs() <= within,
        "B-rep volume: expected {expected} within {within}, found {found}"
    );
    let theirs = polygon.positions().iter().map(|p| boxneck_geometry::Point3::mm(p.x, p.y, p.z));
    let theirs = Bounds3::of_points(theirs).expect("a mesh has points");
    let ours = mesh.bounds().expect("a mesh has points");
    for (what, apart) in
        [("least", theirs.min.distance(ours.min)), ("largest", theirs.max.distance(ours.max))]
    {
        assert!(apart <= 4.0 * CHORD_MM, "{what} corners of the bounds are {apart} mm apart");
    }
}

/// The triangles of a B-rep, or why they are none.
fn tessellated(solid: &truck_modeling::Solid, chord_mm: f64) -> Result<PolygonMesh, String> {
    let meshed = solid.triangulation(chord_mm);
    if let Some(missing) = meshed.face_iter().position(|face| face.surface().is_none()) {
        return Err(format!("face {missing} of the B-rep cannot be tessellated"));
    }
    let polygon = meshed.to_polygon();
    let faces: Vec<Vec<usize>> =
        polygon.face_iter().map(|face| face.iter().map(|vertex| vertex.pos).collect()).collect();
    let attributes = StandardAttributes { positions: polygon.positions().clone(), ..Default::default() };
    let mut polygon = PolygonMesh::new(attributes, faces.into_iter().collect());
    polygon.put_together_same_attrs(1e-6).remove_degenerate_faces();
    match polygon.shell_condition() {
        ShellCondition::Closed => Ok(polygon),
        condition => Err(format!("the tessellated B-rep is {condition:?}")),
    }
}

/// Points less edges plus faces less holes in faces: 2 for a solid without holes through it, 2 less for each.
fn euler(skin: &Skin) -> i64 {
    let holes: usize = skin.faces().iter().map(|face| face.loops.len() - 1).sum();
    skin.points().len() as i64 - skin.edges().len() as i64 + skin.faces().len() as i64 - holes as i64
}

#[test]
fn faces_of_a_brep_look_outward() {
    let body = Body::prism(
        Frame3::across_x(Length::ZERO),
        super::samples::rounded(6.0, 4.0, 1.0),
        Length::mm(9.0),
        Vec::new(),
    );
    let solid = body.expect("a prism").brep().expect("a closed B-rep");
    let volume = solid.triangulation(CHORD_MM).to_polygon().volume();
    assert!(volume > 0.0, "an inward B-rep has a negative volume, found {volume}");
}

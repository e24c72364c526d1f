//! Are the solids closed, in our reading and in somebody else's?

use boxneck::geometry::{Bounds3, Mesh, Point3, WELD};
use boxneck::parts::Part;
use boxneck::units::{ChordTolerance, Length};
use proptest::prelude::*;
use truck_meshalgo::prelude::*;

use crate::random_document::{config, instrument, sound_instrument};

const CHORD_MM: f64 = 0.02;
const CHORD: ChordTolerance = ChordTolerance::new(Length::mm(CHORD_MM));

proptest! {
    #![proptest_config(config(60))]

    #[test]
    fn every_part_that_was_made_has_a_closed_mesh(instrument in instrument()) {
        let text = instrument.document().source();
        for part in &instrument.parts().parts {
            let Some(solid) = &part.solid else { continue };
            let mesh = solid.body.mesh(CHORD);
            prop_assert!(mesh.is_ok(), "{}: {}\n{text}", part.name, mesh.unwrap_err());
            let mesh = mesh.expect("checked above");
            let closed = mesh.check_closed();
            prop_assert!(closed.is_ok(), "{}: {closed:?}\n{text}", part.name);
            prop_assert!(mesh.volume() > 0.0, "{}: faces look outward\n{text}", part.name);
            let rounded = mesh.moved(&solid.laid).rounded_to_f32(WELD);
            let closed = rounded.check_closed();
            prop_assert!(closed.is_ok(), "{}: in 32 bits {closed:?}\n{text}", part.name);
            let drift = (rounded.volume() - mesh.volume()).abs();
            prop_assert!(
                drift <= 1e-4 * mesh.area(),
                "{}: 32 bits change the volume by {drift} mm3\n{text}",
                part.name
            );
        }
    }
}

proptest! {
    #![proptest_config(config(8))]

    #[test]
    fn the_boundary_representation_agrees_with_the_mesh(instrument in sound_instrument()) {
        for part in &instrument.parts().parts {
            let agreed = agree(part);
            prop_assert!(agreed.is_ok(), "{}\n{}", agreed.unwrap_err(), instrument.document().source());
        }
    }
}

/// Compares the mesh with `truck-meshalgo`'s tessellation of the B-rep.
fn agree(part: &Part) -> Result<(), String> {
    let Some(solid) = &part.solid else { return Ok(()) };
    let told = |fault: &dyn std::fmt::Display| format!("{}: {fault}", part.name);
    let mesh = solid.body.mesh(CHORD).map_err(|fault| told(&fault))?;
    let brep = solid.body.brep().map_err(|fault| told(&fault))?;
    let meshed = brep.triangulation(CHORD_MM);
    if let Some(missing) = meshed.face_iter().position(|face| face.surface().is_none()) {
        return Err(told(&format!("face {missing} of the B-rep cannot be tessellated")));
    }
    let polygon = meshed.to_polygon();
    let (expected, found) = (mesh.volume(), polygon.volume());
    // Each deviates by no more than the tolerance over the whole surface.
    let within = 2.0 * CHORD_MM * mesh.area();
    if (found - expected).abs() > within {
        return Err(told(&format!("volume {expected} within {within}, the B-rep has {found}")));
    }
    let apart = furthest(&mesh, &polygon);
    if apart > 4.0 * CHORD_MM {
        return Err(told(&format!("the bounds are {apart} mm apart")));
    }
    Ok(())
}

fn furthest(mesh: &Mesh, polygon: &PolygonMesh) -> f64 {
    let points = polygon.positions().iter().map(|point| Point3::mm(point.x, point.y, point.z));
    let theirs = Bounds3::of_points(points).expect("a tessellation has points");
    let ours = mesh.bounds().expect("a mesh has points");
    theirs.min.distance(ours.min).max(theirs.max.distance(ours.max))
}

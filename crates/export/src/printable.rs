//! Is a mesh, as a file of 32-bit numbers will hold it, a solid that lies on the bed?

use geometry::{Mesh, Point3, WELD};
use units::Length;

use crate::ExportFault;

/// The mesh rounded as a file will hold it, its lowest point at z = 0.
///
/// - **Accuracy**: single precision, about 4e-6 mm at 100 mm; what is nearer to a plane of the axes than [`WELD`] is
///   put on it.
/// - **Errors**: [`ExportFault::NotOnBed`]; [`ExportFault::OpenMesh`] when the rounded and welded triangles do not
///   close; [`ExportFault::TooManyTriangles`].
pub(crate) fn printable(name: &str, mesh: &Mesh) -> Result<Mesh, ExportFault> {
    let lowest = mesh.points().iter().map(|point| point.z).fold(f64::INFINITY, f64::min);
    if lowest.is_finite() && lowest.abs() > WELD.distance().as_mm() {
        return Err(ExportFault::NotOnBed { name: name.into(), lowest: Length::mm(lowest) });
    }
    let open = |fault| ExportFault::OpenMesh { name: name.into(), fault };
    let points = mesh.points().iter().copied().map(settled).collect();
    let rounded = Mesh::new(points, mesh.triangles().to_vec()).map_err(open)?.rounded_to_f32(WELD);
    rounded.check_closed().map_err(open)?;
    let triangles = rounded.triangles().len();
    if u32::try_from(triangles).is_err() {
        return Err(ExportFault::TooManyTriangles { name: name.into(), triangles });
    }
    Ok(rounded)
}

/// The point with what a rotation left over removed, so that a face on the bed is at z = 0 and not at 1e-15.
fn settled(point: Point3) -> Point3 {
    let settle = |value: f64| if value.abs() <= WELD.distance().as_mm() { 0.0 } else { value };
    Point3::mm(settle(point.x), settle(point.y), settle(point.z))
}

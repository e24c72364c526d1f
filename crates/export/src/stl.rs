//! How does a mesh become a binary STL file that slicers take without mending?

use geometry::Mesh;
use stl_io::{Normal, Triangle, Vector};

use crate::ExportFault;
use crate::printable::printable;

/// The bytes at the head of the file that are free for text.
const HEAD: usize = 80;

/// How a mesh is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub struct StlOptions {
    /// Up to 80 letters of ASCII for the head of the file; what is longer is cut.
    pub remark: Option<&'static str>,
}

/// A mesh as the bytes of a binary STL file.
///
/// - **Shape**: the mesh as it is to lie on the bed, its lowest point at z = 0; `name` is for messages, the format has
///   no room for it.
/// - **Units**: millimetres, as the format silently takes them to be.
/// - **Accuracy**: single precision, about 4e-6 mm at 100 mm; what is nearer to a plane of the axes than [`geometry::WELD`] is
///   put on it.
/// - **Errors**: [`ExportFault::NotOnBed`]; [`ExportFault::OpenMesh`] when the rounded and welded triangles do not
///   close; [`ExportFault::TooManyTriangles`].
pub fn write(name: &str, mesh: &Mesh, options: &StlOptions) -> Result<Vec<u8>, ExportFault> {
    let rounded = printable(name, mesh)?;
    let triangles: Vec<_> = rounded.triangles().iter().map(|corners| facet(&rounded, *corners)).collect();
    let mut bytes = Vec::with_capacity(84 + 50 * triangles.len());
    stl_io::write_stl(&mut bytes, triangles.iter()).expect("writing to memory cannot fail");
    for (place, letter) in bytes.iter_mut().take(HEAD).zip(options.remark.unwrap_or_default().bytes()) {
        *place = letter;
    }
    Ok(bytes)
}

fn facet(mesh: &Mesh, corners: [u32; 3]) -> Triangle {
    let [a, b, c] = corners.map(|corner| mesh.points()[corner as usize]);
    let normal = (b - a).cross(c - a).normalised().expect("a checked triangle has an area");
    Triangle {
        normal: Normal::new([normal.x as f32, normal.y as f32, normal.z as f32]),
        vertices: [a, b, c].map(|point| Vector::new([point.x as f32, point.y as f32, point.z as f32])),
    }
}

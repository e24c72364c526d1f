//! How do the solids of a whole become one binary glTF file for looking at in space?
//!
//! After the glTF 2.0 specification (Khronos Group; ISO/IEC 12113): a header, a chunk of JSON that describes, and a
//! chunk of numbers. Every solid is one node with its name. A root node turns the solids' frame (millimetres, z up)
//! into the format's (metres, y up), so that the numbers of the solids stay those of their frame.
//!
//! No normals are written: the format then has every viewer shade each triangle flat, and the file is half as large.

use geometry::{Bounds3, Mesh};
use serde_json::{Value, json};

use crate::ExportFault;

/// Solids to be looked at together.
#[derive(Clone, Debug, PartialEq)]
pub struct Model {
    /// The name of the whole.
    pub name: String,
    /// What is said of it.
    pub description: String,
    /// The solids, each in its place.
    pub items: Vec<Item>,
}

/// One solid.
#[derive(Clone, Debug, PartialEq)]
pub struct Item {
    /// Its name.
    pub name: String,
    /// The solid, in the frame of the whole: millimetres, z up.
    pub mesh: Mesh,
    /// What it looks like.
    pub material: Material,
}

/// What a solid looks like.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Material {
    /// Its name; materials of one name are the same.
    pub name: &'static str,
    /// Red, green and blue, sRGB.
    pub rgb: [u8; 3],
    /// Whether it shines like metal.
    pub sheen: Sheen,
}

/// How a surface throws light back.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sheen {
    /// Like bare wood.
    Dull,
    /// Like metal.
    Metallic,
}

// Numbers by which the format calls its kinds.
const FLOAT: u32 = 5126;
const UNSIGNED_SHORT: u32 = 5123;
const UNSIGNED_INT: u32 = 5125;
const VERTICES: u32 = 34962;
const INDICES: u32 = 34963;

/// A model as the bytes of a GLB file.
///
/// - **Units**: the solids' millimetres, under a root node that makes them the format's metres.
/// - **Frame**: the items' own, under the root; the format's +y is their +z.
/// - **Accuracy**: single precision, about 4e-5 mm at a metre; points that rounding makes one stay two.
/// - **Errors**: [`ExportFault::NothingToDraw`] without an item; [`ExportFault::OpenMesh`] where the triangles of one do
///   not close; [`ExportFault::TooManyTriangles`] where the numbers take 4 GiB or more.
pub fn write(model: &Model) -> Result<Vec<u8>, ExportFault> {
    if model.items.is_empty() {
        return Err(ExportFault::NothingToDraw { name: model.name.clone() });
    }
    for Item { name, mesh, .. } in &model.items {
        mesh.check_closed().map_err(|fault| ExportFault::OpenMesh { name: name.clone(), fault })?;
    }
    let meshes: Vec<&Mesh> = model.items.iter().map(|item| &item.mesh).collect();
    let (numbers, views, accessors) = numbers(&meshes);
    let mut text = description(model, numbers.len(), &views, &accessors).to_string().into_bytes();
    text.resize(text.len().next_multiple_of(4), b' ');
    let length = 12 + 8 + text.len() + 8 + numbers.len();
    let Ok(length) = u32::try_from(length) else {
        let triangles = meshes.iter().map(|mesh| mesh.triangles().len()).sum();
        return Err(ExportFault::TooManyTriangles { name: model.name.clone(), triangles });
    };
    let mut bytes = Vec::with_capacity(length as usize);
    bytes.extend(b"glTF");
    bytes.extend(2_u32.to_le_bytes());
    bytes.extend(length.to_le_bytes());
    for (kind, chunk) in [(b"JSON", &text), (b"BIN\0", &numbers)] {
        // No chunk is longer than the file.
        bytes.extend((chunk.len() as u32).to_le_bytes());
        bytes.extend(kind);
        bytes.extend(chunk);
    }
    Ok(bytes)
}

/// The chunk of numbers, the views of it, and two accessors a mesh: its points and its triangles.
///
/// All points come first, then the triangles of the meshes that have few points, 16 bits a corner, then those of the
/// others, 32 bits a corner.
fn numbers(meshes: &[&Mesh]) -> (Vec<u8>, Vec<Value>, Vec<Value>) {
    let [mut points, mut short, mut long] = [const { Vec::<u8>::new() }; 3];
    let mut accessors = Vec::new();
    for mesh in meshes {
        let bounds = mesh.bounds().expect("a closed mesh has points");
        accessors.push(points_accessor(points.len(), mesh.points().len(), bounds));
        for point in mesh.points() {
            points.extend([point.x, point.y, point.z].iter().flat_map(|c| (*c as f32).to_le_bytes()));
        }
        let corners = mesh.triangles().iter().flatten();
        // The largest number of 16 bits is kept free: it can mean the end of a strip.
        let fits = mesh.points().len() <= usize::from(u16::MAX);
        let (view, offset, kind) =
            if fits { (1, short.len(), UNSIGNED_SHORT) } else { (2, long.len(), UNSIGNED_INT) };
        if fits {
            short.extend(corners.flat_map(|corner| (*corner as u16).to_le_bytes()));
        } else {
            long.extend(corners.flat_map(|corner| corner.to_le_bytes()));
        }
        accessors.push(json!({
            "bufferView": view, "byteOffset": offset, "componentType": kind,
            "count": 3 * mesh.triangles().len(), "type": "SCALAR",
        }));
    }
    short.resize(short.len().next_multiple_of(4), 0);
    let mut views = vec![json!({
        "buffer": 0, "byteOffset": 0, "byteLength": points.len(), "byteStride": 12, "target": VERTICES,
    })];
    let mut offset = points.len();
    // A view may not be empty. Where there is none of 16 bits, the one of 32 takes its number.
    for part in [&short, &long].into_iter().filter(|part| !part.is_empty()) {
        views.push(json!({ "buffer": 0, "byteOffset": offset, "byteLength": part.len(), "target": INDICES }));
        offset += part.len();
    }
    if short.is_empty() {
        for accessor in accessors.iter_mut().filter(|accessor| accessor["bufferView"] == 2) {
            accessor["bufferView"] = json!(1);
        }
    }
    ([points, short, long].concat(), views, accessors)
}

fn points_accessor(offset: usize, count: usize, bounds: Bounds3) -> Value {
    let [least, most] = [bounds.min, bounds.max].map(|point| [point.x, point.y, point.z].map(|c| c as f32));
    json!({
        "bufferView": 0, "byteOffset": offset, "componentType": FLOAT, "count": count, "type": "VEC3",
        "min": least, "max": most,
    })
}

fn description(model: &Model, length: usize, views: &[Value], accessors: &[Value]) -> Value {
    let mut materials: Vec<Material> = Vec::new();
    let mut meshes = Vec::new();
    let mut nodes = vec![root(model)];
    for (index, item) in model.items.iter().enumerate() {
        let known = materials.iter().position(|material| material.name == item.material.name);
        let material = known.unwrap_or_else(|| {
            materials.push(item.material);
            materials.len() - 1
        });
        meshes.push(json!({
            "name": item.name,
            "primitives": [{
                "attributes": { "POSITION": 2 * index }, "indices": 2 * index + 1, "material": material,
            }],
        }));
        nodes.push(json!({ "name": item.name, "mesh": index }));
    }
    json!({
        "asset": { "version": "2.0", "generator": "boxneck", "extras": { "description": model.description } },
        "scene": 0,
        "scenes": [{ "name": model.name, "nodes": [0] }],
        "nodes": nodes,
        "meshes": meshes,
        "materials": materials.iter().map(look).collect::<Vec<Value>>(),
        "accessors": accessors,
        "bufferViews": views,
        "buffers": [{ "byteLength": length }],
    })
}

/// The node that stands the model up and makes its millimetres metres.
fn root(model: &Model) -> Value {
    // A quarter turn about x, clockwise seen against the axis, as a quaternion: z goes to y, y to -z.
    let half = std::f64::consts::FRAC_1_SQRT_2;
    json!({
        "name": model.name,
        "rotation": [-half, 0.0, 0.0, half],
        "scale": [0.001, 0.001, 0.001],
        "children": (1..=model.items.len()).collect::<Vec<usize>>(),
    })
}

fn look(material: &Material) -> Value {
    let [red, green, blue] = material.rgb.map(linear);
    let (metallic, rough) = match material.sheen {
        Sheen::Dull => (0.0, 0.8),
        Sheen::Metallic => (0.6, 0.4),
    };
    json!({
        "name": material.name,
        "pbrMetallicRoughness": {
            "baseColorFactor": [red, green, blue, 1.0], "metallicFactor": metallic, "roughnessFactor": rough,
        },
    })
}

/// A channel of sRGB as a share of light, to four places.
///
/// - **Source**: IEC 61966-2-1, the transfer function of sRGB.
fn linear(channel: u8) -> f64 {
    let value = f64::from(channel) / 255.0;
    let light = if value <= 0.04045 { value / 12.92 } else { units::math::pow((value + 0.055) / 1.055, 2.4) };
    (light * 1e4).round() / 1e4
}

//! How does a plate of printable parts become a 3MF file that slicers open as named objects in their places?
//!
//! After the 3MF Core Specification 1.x: a zip package of the list of content types, the relationships that name the
//! model and the picture of it, and these two. Every part is one object, and every copy of it one item of the build.

mod thumbnail;

use std::fmt::Write as _;
use std::io::{Cursor, Write as _};

use geometry::{Bounds2, Mesh};
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, DateTime, ZipWriter};

use crate::ExportFault;
use crate::markup::escaped;
use crate::number::decimal;
use crate::printable::printable;

/// The parts of one bed.
#[derive(Clone, Debug, PartialEq)]
pub struct Plate {
    /// What the file is titled.
    pub title: String,
    /// What its description says.
    pub description: String,
    /// The parts.
    pub objects: Vec<PlateObject>,
}

/// One part and its copies on the bed.
#[derive(Clone, Debug, PartialEq)]
pub struct PlateObject {
    /// Its name in the slicer's list.
    pub name: String,
    /// The part as it lies: the lower left of its bounds on x = 0 and y = 0, its lowest point on z = 0.
    pub mesh: Mesh,
    /// Where each copy lies; at least one.
    pub places: Vec<PlatePlace>,
}

/// Where one copy lies.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PlatePlace {
    /// The room that it takes; the bed's lower left corner is the origin.
    pub room: Bounds2,
    /// Whether it is turned by a quarter, counter-clockwise seen from above.
    pub turned: bool,
}

const CONTENT_TYPES: &str = r#"<?xml version="1.0" encoding="UTF-8"?>
<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">
 <Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>
 <Default Extension="model" ContentType="application/vnd.ms-package.3dmanufacturing-3dmodel+xml"/>
 <Default Extension="png" ContentType="image/png"/>
</Types>
"#;

const RELATIONSHIPS: &str = r#"<?xml version="1.0" encoding="UTF-8"?>
<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">
 <Relationship Target="/3D/3dmodel.model" Id="model" Type="http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"/>
 <Relationship Target="/Metadata/thumbnail.png" Id="thumbnail" Type="http://schemas.openxmlformats.org/package/2006/relationships/metadata/thumbnail"/>
</Relationships>
"#;

/// A plate as the bytes of a 3MF file.
///
/// - **Units**: millimetres, declared.
/// - **Accuracy**: single precision, as of a binary STL; places to 1e-6 mm.
/// - **Errors**: [`ExportFault::NothingToDraw`] without a part; [`ExportFault::NotOnBed`], [`ExportFault::OpenMesh`]
///   and [`ExportFault::TooManyTriangles`] for a part that cannot be printed.
pub fn write(plate: &Plate) -> Result<Vec<u8>, ExportFault> {
    if plate.objects.iter().all(|object| object.places.is_empty()) {
        return Err(ExportFault::NothingToDraw { name: plate.title.clone() });
    }
    let model = model(plate)?;
    let thumbnail = thumbnail::thumbnail(plate);
    let files = [
        ("[Content_Types].xml", CONTENT_TYPES.as_bytes()),
        ("_rels/.rels", RELATIONSHIPS.as_bytes()),
        ("3D/3dmodel.model", model.as_bytes()),
        ("Metadata/thumbnail.png", &thumbnail),
    ];
    // The earliest time that a zip package can say, so that the same plate gives the same bytes.
    let options = SimpleFileOptions::default()
        .compression_method(CompressionMethod::Deflated)
        .last_modified_time(DateTime::default());
    let mut package = ZipWriter::new(Cursor::new(Vec::new()));
    for (name, bytes) in files {
        package.start_file(name, options).expect("a package in memory takes a file");
        package.write_all(bytes).expect("writing to memory cannot fail");
    }
    Ok(package.finish().expect("a package in memory can be finished").into_inner())
}

fn model(plate: &Plate) -> Result<String, ExportFault> {
    let mut text = format!(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n\
         <model unit=\"millimeter\" xml:lang=\"en\" xmlns=\"http://schemas.microsoft.com/3dmanufacturing/core/2015/02\">\n \
         <metadata name=\"Title\">{}</metadata>\n \
         <metadata name=\"Description\">{}</metadata>\n \
         <metadata name=\"Application\">boxneck</metadata>\n \
         <resources>\n",
        escaped(&plate.title),
        escaped(&plate.description),
    );
    for (number, object) in numbered(plate) {
        object_text(&mut text, number, object, &printable(&object.name, &object.mesh)?);
    }
    text.push_str(" </resources>\n <build>\n");
    for (number, object) in numbered(plate) {
        for place in &object.places {
            // Writing to a string cannot fail.
            let _ = writeln!(text, "  <item objectid=\"{number}\" transform=\"{}\"/>", transform(place));
        }
    }
    text.push_str(" </build>\n</model>\n");
    Ok(text)
}

/// The objects that are built, with the numbers by which the file calls them.
fn numbered(plate: &Plate) -> impl Iterator<Item = (usize, &PlateObject)> {
    (1..).zip(plate.objects.iter().filter(|object| !object.places.is_empty()))
}

fn object_text(text: &mut String, number: usize, object: &PlateObject, mesh: &Mesh) {
    let name = escaped(&object.name);
    // Writing to a string cannot fail.
    let _ = writeln!(
        text,
        "  <object id=\"{number}\" type=\"model\" name=\"{name}\" partnumber=\"{name}\"><mesh>"
    );
    text.push_str("   <vertices>\n");
    for point in mesh.points() {
        // The shortest decimals that read back as the same 32-bit number, without an exponent.
        let [x, y, z] = [point.x, point.y, point.z].map(|coordinate| coordinate as f32);
        let _ = writeln!(text, "    <vertex x=\"{x}\" y=\"{y}\" z=\"{z}\"/>");
    }
    text.push_str("   </vertices>\n   <triangles>\n");
    for [a, b, c] in mesh.triangles() {
        let _ = writeln!(text, "    <triangle v1=\"{a}\" v2=\"{b}\" v3=\"{c}\"/>");
    }
    text.push_str("   </triangles>\n  </mesh></object>\n");
}

/// The motion from the object to its place, as the format writes it: where x, y, z and the origin go, in this order.
fn transform(place: &PlatePlace) -> String {
    let at = |value: f64| decimal(value, 6);
    let room = place.room;
    if place.turned {
        format!("0 1 0 -1 0 0 0 0 1 {} {} 0", at(room.max.x), at(room.min.y))
    } else {
        format!("1 0 0 0 1 0 0 0 1 {} {} 0", at(room.min.x), at(room.min.y))
    }
}

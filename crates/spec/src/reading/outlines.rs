//! How does an outline out of a file become a headstock or an opening?

use geometry::{Outline, Point2, Segment, Vector2, Vertex};
use units::{Length, LengthUnit};

use super::keys::{Asking, Keys, mm};
use super::measure::{Misreading, Reading};
use super::written::Written;
use crate::code::Code;
use crate::document::{AttachedFault, Document, is_plain};
use crate::instrument::OutlineFile;
use crate::key::KeyKind;

impl Keys<'_, '_> {
    /// The unit of an outline, where it is told.
    pub(super) fn outline_units(&mut self) -> Option<LengthUnit> {
        self.optional_choice("outline_units")
    }

    /// A drawn headstock.
    pub(super) fn headstock_outline(&mut self, units: Option<LengthUnit>) -> Option<OutlineFile> {
        self.outline(units, headstock)
    }

    /// A drawn opening.
    pub(super) fn opening_outline(&mut self, units: Option<LengthUnit>) -> Option<OutlineFile> {
        self.outline(units, opening)
    }

    /// An outline that may be given, put where the instrument wants it.
    fn outline(
        &mut self,
        units: Option<LengthUnit>,
        put: fn(Outline) -> Reading<Outline>,
    ) -> Option<OutlineFile> {
        let document = self.reader.document();
        self.value(&Asking::optional("outline", KeyKind::OutlineFile), |written| {
            let file = file_name(written)?;
            let outline = document.map(|document| drawn(document, &file, units)).transpose()?;
            let outline = outline.map(put).transpose()?;
            // Without a document nothing is read, only recorded.
            outline.map(|outline| OutlineFile { file, outline }).ok_or_else(|| unusable("no document"))
        })
    }
}

fn unusable(found: &str) -> Misreading {
    Misreading::new(Code::UnusableFile, format!("expected the name of a DXF file beside the document, found {found}"))
        .hint("write the file's name, as \"headstock.dxf\", or \"drawings/headstock.dxf\" where it lies in a folder below")
}

fn bad(message: impl Into<String>) -> Misreading {
    Misreading::new(Code::BadOutline, message)
}

fn file_name(written: Written<'_>) -> Reading<String> {
    match written {
        Written::Text(name) | Written::Loose(name) if is_plain(name) => Ok(name.to_owned()),
        Written::Other(_) | Written::Number(_) => {
            Err(Misreading::wrong_kind("the name of a file, as \"headstock.dxf\"", written))
        }
        other => Err(unusable(&other.description())),
    }
}

fn drawn(document: &Document, file: &str, units: Option<LengthUnit>) -> Reading<Outline> {
    document.outline_in(file, units).map_err(|fault| match fault {
        AttachedFault::NotGiven(why) => unusable(&format!("\"{file}\", and {why}")),
        AttachedFault::Import(fault) => {
            let advice = fault.advice();
            let misreading = bad(format!("\"{file}\": {fault}")).hint(advice);
            match fault {
                import::ImportFault::NoUnit | import::ImportFault::UnknownUnit { .. } => misreading
                    .hint("write outline_units = \"mm\" or outline_units = \"in\" below the outline"),
                _ => misreading,
            }
        }
    })
}

/// The headstock with the middle of its joint on the origin.
fn headstock(outline: Outline) -> Reading<Outline> {
    let bounds = outline.bounds();
    within("long", bounds.width(), [mm(30.0), mm(400.0)])?;
    within("wide", bounds.height(), [mm(10.0), mm(300.0)])?;
    let right = bounds.max.x;
    // What ends on the joint ends on it exactly.
    let on_joint = |x: f64| if right - x <= import::JOIN.distance().as_mm() { 0.0 } else { x - right };
    let vertices = outline
        .vertices()
        .iter()
        .map(|vertex| Vertex { point: Point2::mm(on_joint(vertex.point.x), vertex.point.y), ..*vertex });
    let outline = Outline::new(vertices.collect()).map_err(|fault| no_room(&fault))?.merged();
    let is_joint =
        |segment: &Segment| matches!(segment, Segment::Line { from, to } if from.x == 0.0 && to.x == 0.0);
    let joints: Vec<Segment> = outline.segments().filter(is_joint).collect();
    let [joint] = joints[..] else {
        let count = if joints.is_empty() { "none".to_owned() } else { joints.len().to_string() };
        return Err(bad(format!(
            "expected one straight edge at the right end of the headstock, square to the neck, found {count}"
        ))
        .hint("draw the headstock from above with the neck to the right, and end it there with one straight line from edge to edge"));
    };
    Ok(outline.translated(Vector2::mm(0.0, -(joint.from().y + joint.to().y) / 2.0)))
}

fn no_room(fault: &geometry::OutlineFault) -> Misreading {
    bad(format!("expected a headstock that ends in its joint, found that {fault}"))
        .hint("keep all but one straight edge clear of its right end")
}

/// The opening with the middle of its bounds on the origin.
fn opening(outline: Outline) -> Reading<Outline> {
    let bounds = outline.bounds();
    within("long", bounds.width(), [mm(1.0), mm(400.0)])?;
    within("wide", bounds.height(), [mm(1.0), mm(400.0)])?;
    Ok(outline.translated(Point2::ORIGIN - bounds.center()))
}

fn within(way: &str, found: Length, [least, most]: [Length; 2]) -> Reading<()> {
    if least <= found && found <= most {
        return Ok(());
    }
    Err(bad(format!("expected an outline {least} to {most} {way}, found {found}"))
        .hint("draw it in its true size, or write the unit that it was drawn in as outline_units = \"mm\" or outline_units = \"in\""))
}

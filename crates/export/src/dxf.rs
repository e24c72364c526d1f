//! How does a flat drawing become a DXF file that every program opens at the right size?
//!
//! R2000, the oldest version with both polyline arcs and a unit in the file; R12 for what is older. Only LINE, ARC,
//! CIRCLE and polylines are written: unless told otherwise a closed outline is one closed polyline with its arcs as
//! bulges, a full circle is a CIRCLE, an open path of one line is a LINE and any other an open polyline. The lower left
//! of what is cut is at (0, 0), the datum is a cross on `GUIDE`, and [`crate::Layer`] says what else is where. Inner
//! cuts stand before outer ones. Comments at the head say the unit and what was chosen.
//!
//! A slot is its centre line; the width and the depth of the cut are not in the file.

mod entity;
mod flat;
mod label;
mod options;
mod r12;
mod r2000;
mod remarks;
mod short;
mod tabs;
mod tags;

use geometry::{Bounds2, Drawing, Operation, cut_line};
use units::{Length, LengthUnit};

pub use options::{ArcStyle, DxfOptions, DxfProfile, DxfStyle, Tabs};

use crate::plan::{Plan, check, plan};
use crate::{ExportFault, Layer, Micrometres};
use entity::{Entity, entities, open};
use short::without_short_segments;
use tags::Tags;

/// What is in a file, whatever its version.
struct Content {
    /// Layers in their order, each with its entities in the drawing's order.
    layers: Vec<(Layer, Vec<Entity>)>,
    /// The exact bounds of all of it, in millimetres.
    bounds: Bounds2,
}

/// A drawing as the text of a DXF file, in ASCII with line feeds.
///
/// - **Units**: those of the options.
/// - **Frame**: the drawing's own, moved so that the lower left of everything but guides is at (0, 0). A cut line has
///   the frame of the nominal drawing, so that holes stay where they are, and passes half its bit beyond.
/// - **Accuracy**: coordinates within 1e-8 of the unit, bulges within 1e-12, angles within 1e-10 degrees; flattened
///   arcs within the tolerance of the options; cut lines within 0.001 mm.
/// - **Errors**: [`ExportFault::FaultyDrawing`] for what the pre-flight finds, of the drawing as it is, as a cut line
///   and as it is flattened, [`ExportFault::CutLine`] where a bit does not go, [`ExportFault::FineArcs`] and
///   [`ExportFault::CoarseArcs`] where a tolerance makes lines too short or folds an outline onto itself,
///   [`ExportFault::NothingToDraw`] without operations, [`ExportFault::OutOfRange`] beyond 100 m,
///   [`ExportFault::UnitlessInches`] for inches in R12.
///
/// A round plate:
/// ```
/// use boxneck_export::dxf::{DxfOptions, write};
/// use geometry::{Circle, Datum, Drawing, Operation, Point2, Shape};
/// use units::Length;
///
/// let edge = Shape::Circle(Circle::of_diameter(Point2::ORIGIN, Length::mm(80.0)));
/// let drawing = Drawing {
///     name: "plate".into(),
///     title: "Plate".into(),
///     datum: Datum { point: Point2::ORIGIN, meaning: "centre".into() },
///     operations: vec![Operation::CutOutside(edge)],
/// };
/// let text = write(&drawing, &DxfOptions::default())?;
/// assert!(text.contains("CUT_OUTER"), "the layer tells the operation");
/// # Ok::<(), boxneck_export::ExportFault>(())
/// ```
pub fn write(drawing: &Drawing, options: &DxfOptions) -> Result<String, ExportFault> {
    if options.style.profile == DxfProfile::R12 && options.unit == LengthUnit::Inch {
        return Err(ExportFault::UnitlessInches);
    }
    check(drawing, &options.preflight)?;
    let mut placed = drawing.at_origin();
    let label = label::label(&placed, &options.label);
    let has_label = label.is_some();
    placed.operations.extend(label.into_iter().flatten());
    if let Some(diameter) = options.style.cut_line {
        placed = without_short_segments(&cut_line(&placed, diameter)?, options.preflight.shortest_segment)
            .map_err(|fault| ExportFault::CoarseArcs { name: drawing.name.clone(), fault })?;
    }
    check(&placed, &options.preflight)?;
    if let ArcStyle::Flattened(chord) = options.style.arcs {
        let least = options.preflight.shortest_segment;
        if let Some(found) = flat::shortest_line(&placed, chord).filter(|found| *found < least) {
            return Err(ExportFault::FineArcs { name: drawing.name.clone(), found, least });
        }
        let flat = flat::flattened_drawing(&placed, chord)
            .map_err(|fault| ExportFault::CoarseArcs { name: drawing.name.clone(), fault })?;
        check(&flat, &options.preflight)?;
    }
    let plan = plan(&placed)?;
    let content = content(plan, &options.style);
    let mut tags = Tags::default();
    let tabs =
        content.layers.iter().find(|(layer, _)| *layer == Layer::Tab).map_or(0, |(_, tabs)| tabs.len());
    for remark in remarks::remarks(options, has_label, tabs) {
        tags.text(999, &remark);
    }
    match options.style.profile {
        DxfProfile::R2000 => r2000::write(&mut tags, options.unit, &content),
        DxfProfile::R12 => r12::write(&mut tags, &content),
    }
    Ok(tags.into_text())
}

/// The drawing with the first wording engraved that finds room on its largest part, as [`DxfOptions::label`] does it;
/// `None` where none finds room.
#[must_use]
pub fn labelled(drawing: &Drawing, wordings: &[String]) -> Option<Drawing> {
    let mut labelled = drawing.clone();
    labelled.operations.extend(label::label(drawing, wordings)?);
    Some(labelled)
}

/// The stem of the file's name: that of the drawing, and the bit or kerf of a cut line, in millimetres as in the names
/// of layers: `lid_bit3_175`.
#[must_use]
pub fn stem(name: &str, style: &DxfStyle) -> String {
    let bit = |diameter| format!("_bit{}", Micrometres::nearest(diameter).written('_'));
    name.to_owned() + &style.cut_line.map(bit).unwrap_or_default()
}

/// The entities of a plan, with the outer cuts in stretches where tabs are asked for.
fn content(plan: Plan, style: &DxfStyle) -> Content {
    // A bit takes half of itself from both ends of what it leaves standing.
    let taken = style.cut_line.unwrap_or(Length::ZERO);
    let mut layers = Vec::new();
    for (layer, operations) in plan.layers {
        let (mut own, mut left) = (Vec::new(), Vec::new());
        for operation in &operations {
            match (operation, style.tabs) {
                (Operation::CutOutside(outside), Some(tabs)) => {
                    match tabs::stretches(outside, tabs.count(), tabs.width() + taken) {
                        Some(stretches) => {
                            own.extend(stretches.cut.iter().flat_map(|path| open(path, style.arcs)));
                            left.extend(stretches.tabs.iter().flat_map(|path| open(path, style.arcs)));
                        }
                        None => own.extend(entities(operation, style.arcs)),
                    }
                }
                _ => own.extend(entities(operation, style.arcs)),
            }
        }
        if !left.is_empty() {
            layers.push((Layer::Tab, left));
        }
        layers.push((layer, own));
    }
    Content { layers, bounds: plan.bounds }
}

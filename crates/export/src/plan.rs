//! What of a drawing goes into a file, in which order?
//!
//! Shared by the formats for flat drawings: the pre-flight, the datum's cross, and the order of layers.

use geometry::{Bounds2, Circle, Drawing, Operation, Outline, Path, Point2, Preflight, Shape, Vector2};
use units::Length;

use crate::{ExportFault, Layer};

/// Half the width of the datum's cross. Larger crowds small parts; smaller is lost beside a pencil line.
pub(crate) const DATUM_ARM: Length = Length::mm(3.0);

/// The farthest from the origin that anything is written: 100 m. Larger lets a slip of the unit through; smaller might
/// refuse a real part.
pub(crate) const FARTHEST: Length = Length::mm(100_000.0);

/// A drawing ready to be written.
pub(crate) struct Plan {
    /// Its operations by layer, layers in their order, each layer's operations in the drawing's order.
    pub layers: Vec<(Layer, Vec<Operation>)>,
    /// The exact bounds of all of it.
    pub bounds: Bounds2,
}

/// What is drawn for an operation.
pub(crate) enum Contour<'a> {
    /// A closed loop.
    Closed(&'a Outline),
    /// A full circle.
    Circle(&'a Circle),
    /// An open path.
    Open(&'a Path),
}

/// Marks the datum of a drawing that passed the check and stands where it is to stand, and sorts it by layer.
pub(crate) fn plan(drawing: &Drawing) -> Result<Plan, ExportFault> {
    let name = || drawing.name.clone();
    if drawing.operations.is_empty() {
        return Err(ExportFault::NothingToDraw { name: name() });
    }
    let out_of_range = || ExportFault::OutOfRange { name: name(), most: FARTHEST };
    let cross = cross(drawing.datum.point).ok_or_else(out_of_range)?;
    let operations = || drawing.operations.iter().chain(&cross);
    let bounds = operations().map(Operation::bounds).reduce(Bounds2::union);
    let bounds = bounds.filter(|bounds| in_range(*bounds)).ok_or_else(out_of_range)?;
    let mut sorted: Vec<_> =
        operations().map(|operation| (Layer::of(operation), operation.clone())).collect();
    sorted.sort_by_key(|(layer, _)| *layer);
    let mut layers: Vec<(Layer, Vec<Operation>)> = Vec::new();
    for (layer, operation) in sorted {
        match layers.last_mut() {
            Some((last, operations)) if *last == layer => operations.push(operation),
            _ => layers.push((layer, vec![operation])),
        }
    }
    Ok(Plan { layers, bounds })
}

/// Refuses a drawing in which the pre-flight finds anything.
pub(crate) fn check(drawing: &Drawing, preflight: &Preflight) -> Result<(), ExportFault> {
    let faults = drawing.faults(preflight);
    if faults.is_empty() {
        return Ok(());
    }
    Err(ExportFault::FaultyDrawing { name: drawing.name.clone(), faults })
}

/// What is drawn for an operation.
pub(crate) fn contour(operation: &Operation) -> Contour<'_> {
    match operation {
        Operation::CutOutside(shape)
        | Operation::CutInside(shape)
        | Operation::Pocket { shape, .. }
        | Operation::GuideShape(shape)
        | Operation::Mate(shape) => match shape {
            Shape::Outline(outline) => Contour::Closed(outline),
            Shape::Circle(circle) => Contour::Circle(circle),
        },
        Operation::Drill { circle, .. } => Contour::Circle(circle),
        Operation::Slot { path, .. } | Operation::Engrave(path) | Operation::Guide(path) => {
            Contour::Open(path)
        }
    }
}

/// Whether everything within bounds is finite and no farther out than is written.
pub(crate) fn in_range(bounds: Bounds2) -> bool {
    let near = |value: f64| value.abs() <= FARTHEST.as_mm();
    near(bounds.min.x) && near(bounds.min.y) && near(bounds.max.x) && near(bounds.max.y)
}

/// The two guides that mark the datum; `None` where there is no such point.
pub(crate) fn cross(datum: Point2) -> Option<[Operation; 2]> {
    let arm = DATUM_ARM.as_mm();
    let line = |arm: Vector2| Path::line(datum - arm, datum + arm).ok().map(Operation::Guide);
    Some([line(Vector2::mm(arm, 0.0))?, line(Vector2::mm(0.0, arm))?])
}

//! How does a drawing look where there is only room to recognise it?

use std::fmt::Write;

use geometry::{Drawing, Operation};

use crate::ExportFault;
use crate::markup::escaped;
use crate::number::decimal;
use crate::paper::Paper;
use crate::plan::{Contour, FARTHEST, contour, in_range};

/// A drawing as the markup of an `<svg>` element of class `small`, for a [`crate::page::Page`]: contours alone, no wider and no
/// higher than it is given room for.
///
/// - **Units**: the view box is in millimetres; lines are as wide as the page wants them.
/// - **Errors**: [`ExportFault::NothingToDraw`] without operations, [`ExportFault::OutOfRange`] beyond 100 m.
pub fn small(drawing: &Drawing) -> Result<String, ExportFault> {
    let bounds = drawing.operations.iter().map(Operation::bounds).reduce(geometry::Bounds2::union);
    let bounds = bounds.ok_or_else(|| ExportFault::NothingToDraw { name: drawing.name.clone() })?;
    if !in_range(bounds) {
        return Err(ExportFault::OutOfRange { name: drawing.name.clone(), most: FARTHEST });
    }
    let paper = Paper::showing(bounds, 0.0, 0.0, 1.0);
    let [width, height] = [bounds.max.x - bounds.min.x, bounds.max.y - bounds.min.y];
    // What is long and thin would else be cut off by half the width of its own line.
    let edge = (width + height) * 0.01;
    let [from, wide, high] = [-edge, width + 2.0 * edge, height + 2.0 * edge].map(|value| decimal(value, 3));
    let title = escaped(&drawing.title);
    let mut text = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"small\" viewBox=\"{from} {from} {wide} {high}\" role=\"img\" aria-label=\"{title}\">\n"
    );
    for operation in &drawing.operations {
        let class = match operation {
            Operation::CutOutside(_) | Operation::CutInside(_) | Operation::Drill { .. } => "cut",
            _ if operation.is_guide() => "guide",
            _ => "fine",
        };
        // Writing to a string cannot fail.
        let _ = match contour(operation) {
            Contour::Closed(outline) => {
                writeln!(text, "<path class=\"{class}\" d=\"{}\"/>", paper.loop_data(outline))
            }
            Contour::Circle(circle) => writeln!(text, "<circle class=\"{class}\" {}/>", paper.circle(circle)),
            Contour::Open(path) => {
                writeln!(text, "<path class=\"{class}\" d=\"{}\"/>", paper.path_data(path))
            }
        };
    }
    text.push_str("</svg>\n");
    Ok(text)
}

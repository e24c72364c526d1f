//! How does a flat drawing become an SVG file at true size?
//!
//! One group a layer with the layer's colour, class and title, true arcs, no style sheet, no font, no picture: what
//! browsers, editors and lasers read alike. The colours keep their contrast on a white and on a dark page. A slot says
//! its width and depth in a title of its own, a blind hole its diameter and depth.

use std::fmt::Write;

use geometry::{Drawing, HoleDepth, Operation, Preflight};
use units::Length;

use crate::markup::escaped;
use crate::number::decimal;
use crate::paper::{Paper, page};
use crate::plan::{Contour, Plan, check, contour, plan};
use crate::{ExportFault, Layer};

/// How a drawing is written.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SvgOptions {
    /// The room between what is drawn and the edge of the page, on all four sides.
    pub margin: Length,
    /// What the drawing must hold to before it is written.
    pub preflight: Preflight,
    /// What the file's description says first.
    pub remark: Option<&'static str>,
}

impl Default for SvgOptions {
    /// A margin of 2 mm, enough for the lines not to be clipped, and the usual pre-flight.
    fn default() -> Self {
        Self { margin: Length::mm(2.0), preflight: Preflight::default(), remark: None }
    }
}

/// A drawing as the text of an SVG file.
///
/// - **Units**: millimetres; one unit of the view box is one millimetre of the page.
/// - **Frame**: the page's upper left corner is (0, 0), y down; the drawing's y is turned over.
/// - **Accuracy**: coordinates within 1e-6 mm.
/// - **Errors**: [`ExportFault::FaultyDrawing`] for what the drawing's own pre-flight finds,
///   [`ExportFault::NothingToDraw`] without operations, [`ExportFault::OutOfRange`] beyond 100 m.
pub fn write(drawing: &Drawing, options: &SvgOptions) -> Result<String, ExportFault> {
    check(drawing, &options.preflight)?;
    let plan = plan(&drawing.at_origin())?;
    let sheet = plan.bounds.grown(options.margin);
    let paper = Paper::showing(sheet, 0.0, 0.0, 1.0);
    let mut text = head(drawing, options.remark, sheet.max.x - sheet.min.x, sheet.max.y - sheet.min.y);
    layers(&mut text, &paper, &plan);
    text.push_str("</svg>\n");
    Ok(text)
}

fn head(drawing: &Drawing, remark: Option<&str>, width: f64, height: f64) -> String {
    let (width, height) = (page(width), page(height));
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}mm\" height=\"{height}mm\" \
         viewBox=\"0 0 {width} {height}\">\n<title>{}</title>\n<desc>{}True size, in millimetres. Datum: {}</desc>\n",
        escaped(&drawing.title),
        remark.map(|remark| escaped(remark) + ". ").unwrap_or_default(),
        escaped(&drawing.datum.meaning),
    )
}

fn layers(text: &mut String, paper: &Paper, plan: &Plan) {
    for (layer, operations) in &plan.layers {
        text.push_str(&group(*layer));
        for operation in operations {
            text.push_str(&element(paper, operation));
        }
        text.push_str("</g>\n");
    }
}

fn group(layer: Layer) -> String {
    let line = match layer {
        Layer::Guide => "stroke-width=\"0.18\" stroke-dasharray=\"3 1\"",
        Layer::Engrave => "stroke-width=\"0.18\"",
        _ => "stroke-width=\"0.25\"",
    };
    format!(
        "<g class=\"{}\" data-layer=\"{}\" fill=\"none\" stroke=\"{}\" {line}>\n<title>{}</title>\n",
        layer.class(),
        layer.name(),
        layer.colour().hex(),
        layer.title(),
    )
}

fn element(paper: &Paper, operation: &Operation) -> String {
    let (tag, attributes) = match contour(operation) {
        Contour::Closed(outline) => ("path", format!("d=\"{}\"", paper.loop_data(outline))),
        Contour::Circle(circle) => ("circle", paper.circle(circle)),
        Contour::Open(path) => ("path", format!("d=\"{}\"", paper.path_data(path))),
    };
    let mut element = format!("<{tag} {attributes}");
    // Writing to a string cannot fail.
    let _ = match note(operation) {
        Some(note) => writeln!(element, "><title>{note}</title></{tag}>"),
        None => writeln!(element, "/>"),
    };
    element
}

/// What neither the shape nor the layer tells.
fn note(operation: &Operation) -> Option<String> {
    let mm = |length: Length| decimal(length.as_mm(), 3);
    match operation {
        Operation::Slot { width, depth, .. } => {
            Some(format!("slot {} mm wide, {} mm deep", mm(*width), mm(*depth)))
        }
        Operation::Drill { circle, depth: HoleDepth::To(depth) } => {
            Some(format!("hole {} mm in diameter, {} mm deep", mm(circle.radius * 2.0), mm(*depth)))
        }
        _ => None,
    }
}

//! How does a flat drawing become an SVG file that can be read at a bench and printed at true size?
//!
//! On a light page: the part in one group a layer with the layer's colour, class and title, true arcs; its dimensions, from
//! the datum; what is said of holes and slots; and a title block with what the lines mean. No style sheet, no picture,
//! nothing from elsewhere: what browsers, editors and printers read alike. A slot says its width and depth in a title of its
//! own too, a blind hole its diameter and depth.

mod annotation;
mod callouts;
mod sections;
mod sheet;
mod side;
mod small;
mod stations;
mod title_block;
mod wording;

use std::fmt::Write;

use geometry::{Drawing, HoleDepth, Operation, Point2, Preflight};
use units::{Length, LengthUnit};

pub use small::small;
pub use title_block::TitleBlock;

use crate::markup::escaped;
use crate::number::decimal;
use crate::paper::{Paper, page};
use crate::plan::{Contour, Plan, check, contour, plan};
use crate::{ExportFault, Layer};

/// How a drawing is written.
#[derive(Clone, Debug, PartialEq)]
pub struct SvgOptions {
    /// The unit of the dimensions; the page is in millimetres always.
    pub unit: LengthUnit,
    /// The room between what is drawn and the edge of the page, on all four sides.
    pub margin: Length,
    /// What the drawing must hold to before it is written.
    pub preflight: Preflight,
    /// What the title block says of the part, besides the drawing's title, scale, unit and datum.
    pub title_block: TitleBlock,
    /// What the title block and the file's description say first.
    pub remark: Option<&'static str>,
}

impl Default for SvgOptions {
    /// Millimetres, a margin of 5 mm, which printers leave free, and the usual pre-flight.
    fn default() -> Self {
        Self {
            unit: LengthUnit::Millimetre,
            margin: Length::mm(5.0),
            preflight: Preflight::default(),
            title_block: TitleBlock::default(),
            remark: None,
        }
    }
}

/// From the dimensions to the title block.
const ABOVE_TITLE: f64 = 6.0;

/// A drawing as the text of an SVG file.
///
/// - **Units**: millimetres; one unit of the view box is one millimetre of the page.
/// - **Frame**: the page's upper left corner is (0, 0), y down; the drawing's y is turned over.
/// - **Accuracy**: coordinates within 1e-6 mm; dimensions are rounded to 0.01 mm or 0.001 in.
/// - **Errors**: [`ExportFault::FaultyDrawing`] for what the drawing's own pre-flight finds,
///   [`ExportFault::NothingToDraw`] without operations, [`ExportFault::OutOfRange`] beyond 100 m,
///   [`ExportFault::CrowdedLabels`] where a dimension or a note finds no free place.
pub fn write(drawing: &Drawing, options: &SvgOptions) -> Result<String, ExportFault> {
    check(drawing, &options.preflight)?;
    let drawing = drawing.at_origin();
    let plan = plan(&drawing)?;
    let crowded = || ExportFault::CrowdedLabels { name: drawing.name.clone(), view: drawing.title.clone() };
    let annotation = sheet::annotated(&drawing, &plan, options.unit).ok_or_else(crowded)?;
    let drawn = sheet::bounds(&plan, &annotation);
    let layers: Vec<Layer> = plan.layers.iter().map(|(layer, _)| *layer).collect();
    let corner = Point2::mm(drawn.min.x, drawn.min.y - ABOVE_TITLE);
    let title = options.title_block.placed(&own_rows(&drawing, options), &layers, corner);
    let bounds = drawn.union(title.bounds).grown(options.margin);
    let paper = Paper::showing(bounds, 0.0, 0.0, 1.0);
    let mut text = head(&drawing, options.remark, bounds.max.x - bounds.min.x, bounds.max.y - bounds.min.y);
    write_layers(&mut text, &paper, &plan);
    text.push_str(&annotation.write(&paper));
    text.push_str(&title.write(&paper));
    text.push_str("</svg>\n");
    Ok(text)
}

/// What the title block says by itself.
fn own_rows(drawing: &Drawing, options: &SvgOptions) -> Vec<(String, String)> {
    let unit = match options.unit {
        LengthUnit::Millimetre => "millimetres",
        LengthUnit::Inch => "inches; in names of lines millimetres",
    };
    let row = |what: &str, value: &str| (what.to_owned(), value.to_owned());
    let mut rows = vec![
        row("drawing", &drawing.title),
        row("scale", "1:1"),
        row("unit", unit),
        row("measured from", &drawing.datum.meaning),
    ];
    if drawing.operations.iter().any(Operation::is_guide) {
        rows.push(row("in brackets", "for reference, of what is not cut"));
    }
    rows.extend(options.remark.map(|remark| row("CAUTION", remark)));
    rows
}

fn head(drawing: &Drawing, remark: Option<&str>, width: f64, height: f64) -> String {
    let (width, height) = (page(width), page(height));
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}mm\" height=\"{height}mm\" \
         viewBox=\"0 0 {width} {height}\">\n<title>{}</title>\n<desc>{}True size, in millimetres. Datum: {}</desc>\n\
         <rect class=\"page\" width=\"{width}\" height=\"{height}\" fill=\"#fff\"/>\n",
        escaped(&drawing.title),
        remark.map(|remark| escaped(remark) + ". ").unwrap_or_default(),
        escaped(&drawing.datum.meaning),
    )
}

fn write_layers(text: &mut String, paper: &Paper, plan: &Plan) {
    for (layer, operations) in &plan.layers {
        text.push_str(&group(*layer));
        for operation in operations {
            text.push_str(&element(paper, operation));
        }
        text.push_str("</g>\n");
    }
}

/// The attributes of a layer's lines, colour aside.
fn line(layer: Layer) -> &'static str {
    match layer {
        Layer::Guide => "stroke-width=\"0.18\" stroke-dasharray=\"3 1\"",
        Layer::Engrave => "stroke-width=\"0.25\"",
        _ => "stroke-width=\"0.4\"",
    }
}

fn group(layer: Layer) -> String {
    format!(
        "<g class=\"{}\" data-layer=\"{}\" fill=\"none\" stroke=\"{}\" {}>\n<title>{}</title>\n",
        layer.class(),
        layer.name(),
        layer.colour().hex(),
        line(layer),
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

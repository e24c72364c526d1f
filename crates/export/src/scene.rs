//! How do the views of a thing become one picture to look at?
//!
//! Views stand one under the other at a common scale, each with a caption and with labels in strips above and below
//! it, joined to what they name by thin lines, so that no label lies on the drawing; a scale bar closes the page. Fills
//! are soft, meanings do not hang on hue alone, and the picture follows the reader's light or dark page by a media
//! query.

mod labels;
mod scale_bar;
mod style;

use std::fmt::Write;

use geometry::{Bounds2, Path, Point2, Segment, Shape, meetings};
use units::LengthUnit;

use crate::ExportFault;
use crate::markup::escaped;
use crate::paper::{Paper, page};
use crate::plan::{FARTHEST, in_range};
use labels::{Strip, strips};

/// A picture.
#[derive(Clone, Debug, PartialEq)]
pub struct Scene {
    /// Its name, for messages.
    pub name: String,
    /// The heading.
    pub title: String,
    /// The unit of the scale bar.
    pub unit: LengthUnit,
    /// From top to bottom.
    pub views: Vec<View>,
}

/// One view, in a frame of its own: x to the right, y up, millimetres.
#[derive(Clone, Debug, PartialEq)]
pub struct View {
    /// What it shows.
    pub caption: String,
    /// From back to front.
    pub items: Vec<Item>,
}

/// One thing in a view.
#[derive(Clone, Debug, PartialEq)]
pub struct Item {
    /// Where it is.
    pub figure: Figure,
    /// How it looks.
    pub style: Style,
    /// What it is called.
    pub label: Option<String>,
}

/// The form of a thing.
#[derive(Clone, Debug, PartialEq)]
pub enum Figure {
    /// With an inside, which its style fills.
    Shape(Shape),
    /// A line.
    Path(Path),
}

/// How a thing looks. A line shows the stroke alone; what a style fills, only a shape shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Style {
    /// Pale wood, filled.
    PaleWood,
    /// Wood of a middle tone, filled.
    Wood,
    /// Dark wood, filled.
    DarkWood,
    /// A hole or a hollow, filled dark.
    Opening,
    /// Grey metal, filled.
    Metal,
    /// Copper: a filled shape, or a stout line.
    Copper,
    /// Something stretched: a thin, dark line.
    Strand,
    /// An edge: a plain line without a fill.
    Outline,
    /// What lies behind: a dashed line without a fill.
    Hidden,
    /// A remark of ours, not of the thing: a dash-dotted line in blue without a fill.
    Mark,
}

impl Figure {
    /// The exact bounds, without the width of the line.
    #[must_use]
    pub fn bounds(&self) -> Bounds2 {
        match self {
            Self::Shape(shape) => shape.bounds(),
            Self::Path(path) => path.bounds(),
        }
    }

    /// The pieces of what is drawn, end to end.
    #[must_use]
    pub fn segments(&self) -> Vec<Segment> {
        match self {
            Self::Shape(shape) => shape.segments(),
            Self::Path(path) => path.segments().collect(),
        }
    }
}

/// The width of the page, in page units (pixels, where nothing else is said).
const WIDTH: f64 = 1200.0;
/// The width of a thumbnail's drawing, in its own units. Larger looks finer, since lines keep their width.
const THUMBNAIL: f64 = 360.0;
/// The room at the page's edges.
const MARGIN: f64 = 40.0;
/// The most that views may take of the page's height together. Larger lets upright things fill many screens.
const TALLEST: f64 = 1400.0;
/// The height of the heading.
const HEADING: f64 = 56.0;
/// The height of a caption.
const CAPTION: f64 = 26.0;
/// The room between two views.
const GAP: f64 = 26.0;
/// The height of the scale bar with its words.
const FOOT: f64 = 44.0;

/// A picture as the text of an SVG file.
///
/// - **Units**: page units are pixels at the usual size; the scale bar tells the scale.
/// - **Errors**: [`ExportFault::NothingToDraw`] without views or with an empty one, [`ExportFault::OutOfRange`] beyond
///   100 m, [`ExportFault::CrowdedLabels`] where there is no room for a view's labels beside one another.
pub fn write(scene: &Scene) -> Result<String, ExportFault> {
    if scene.views.is_empty() {
        return Err(ExportFault::NothingToDraw { name: scene.name.clone() });
    }
    let bounds = scene.views.iter().map(|view| bounds_of(scene, view)).collect::<Result<Vec<_>, _>>()?;
    let widest = bounds.iter().map(|bounds| bounds.max.x - bounds.min.x).fold(0.0, f64::max);
    let height = bounds.iter().map(|bounds| bounds.max.y - bounds.min.y).sum::<f64>();
    // A view has a width or a height, for a line has a length; the other may be none.
    let scale = ((WIDTH - 2.0 * MARGIN) / widest).min(TALLEST / height);

    let mut body = String::new();
    let mut top = MARGIN + HEADING;
    for (view, bounds) in scene.views.iter().zip(bounds) {
        let left = (WIDTH - (bounds.max.x - bounds.min.x) * scale) / 2.0;
        let from_left = |item: &Item| left + (item.figure.bounds().center().x - bounds.min.x) * scale;
        let (above, below) = strips(view, bounds.center().y, from_left).ok_or_else(|| {
            ExportFault::CrowdedLabels { name: scene.name.clone(), view: view.caption.clone() }
        })?;
        let drawing_top = top + CAPTION + above.height();
        let paper = Paper::showing(bounds, left, drawing_top, scale);
        let drawing_bottom = drawing_top + (bounds.max.y - bounds.min.y) * scale;
        let caption = escaped(&view.caption);
        let _ = writeln!(body, "<g>\n<title>{caption}</title>");
        let _ = writeln!(
            body,
            "<text class=\"caption\" x=\"{}\" y=\"{}\">{caption}</text>",
            page(MARGIN),
            page(top + 14.0)
        );
        for item in &view.items {
            body.push_str(&element(&paper, item));
        }
        leaders(&mut body, &paper, view, &above, drawing_top, -1.0);
        leaders(&mut body, &paper, view, &below, drawing_bottom, 1.0);
        body.push_str("</g>\n");
        top = drawing_bottom + below.height() + GAP;
    }
    body.push_str(&scale_bar::scale_bar(scene.unit, scale, MARGIN, top, (WIDTH - 2.0 * MARGIN) / 4.0));
    Ok(head(scene, top + FOOT + MARGIN / 2.0) + &body + "</svg>\n")
}

/// A view as a small picture without words, for a page that has [`shared_style`] on it once.
///
/// - **Errors**: [`ExportFault::NothingToDraw`] without items, [`ExportFault::OutOfRange`] beyond 100 m.
pub fn thumbnail(view: &View, title: &str) -> Result<String, ExportFault> {
    let bounds = view.items.iter().map(|item| item.figure.bounds()).reduce(Bounds2::union);
    let bounds = bounds.ok_or_else(|| ExportFault::NothingToDraw { name: title.to_owned() })?;
    if !in_range(bounds) {
        return Err(ExportFault::OutOfRange { name: title.to_owned(), most: FARTHEST });
    }
    let [across, up] = [bounds.width(), bounds.height()].map(|size| size.as_mm().max(1.0));
    let scale = THUMBNAIL / across;
    let paper = Paper::showing(bounds, 2.0, 2.0, scale);
    let body: String = view
        .items
        .iter()
        .map(|item| element(&paper, &Item { label: None, figure: item.figure.clone(), style: item.style }))
        .collect();
    Ok(format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"picture\" width=\"100%\" viewBox=\"0 0 {} {}\" role=\"img\">\n\
         <title>{}</title>\n{body}</svg>\n",
        page(THUMBNAIL + 4.0),
        page((up * scale + 4.0).ceil()),
        escaped(title),
    ))
}

/// What the thumbnails of a page share.
#[must_use]
pub fn shared_style() -> String {
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"picture\" width=\"0\" height=\"0\" aria-hidden=\"true\">\n{}</svg>\n",
        style::STYLE_SHEET
    )
}

fn head(scene: &Scene, height: f64) -> String {
    let (width, height, title) = (page(WIDTH), page(height.ceil()), escaped(&scene.title));
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"picture\" width=\"{width}\" height=\"{height}\" \
         viewBox=\"0 0 {width} {height}\" role=\"img\">\n<title>{title}</title>\n{}\
         <rect class=\"page\" width=\"{width}\" height=\"{height}\" rx=\"14\"/>\n\
         <text class=\"heading\" x=\"{}\" y=\"{}\">{title}</text>\n",
        style::STYLE_SHEET,
        page(MARGIN),
        page(MARGIN + 20.0),
    )
}

fn bounds_of(scene: &Scene, view: &View) -> Result<Bounds2, ExportFault> {
    let bounds = view.items.iter().map(|item| item.figure.bounds()).reduce(Bounds2::union);
    let bounds = bounds.ok_or_else(|| ExportFault::NothingToDraw { name: view.caption.clone() })?;
    let out_of_range = || ExportFault::OutOfRange { name: scene.name.clone(), most: FARTHEST };
    in_range(bounds).then_some(bounds).ok_or_else(out_of_range)
}

fn element(paper: &Paper, item: &Item) -> String {
    let title =
        item.label.as_ref().map_or_else(String::new, |label| format!("<title>{}</title>", escaped(label)));
    let (tag, line, attributes) = match &item.figure {
        Figure::Shape(Shape::Outline(outline)) => ("path", "", format!("d=\"{}\"", paper.loop_data(outline))),
        Figure::Shape(Shape::Circle(circle)) => ("circle", "", paper.circle(circle)),
        Figure::Path(path) => ("path", " line", format!("d=\"{}\"", paper.path_data(path))),
    };
    format!("<{tag} class=\"{}{line}\" {attributes}>{title}</{tag}>\n", style::class(item.style))
}

/// The lowest and the highest point of a figure above the middle of its bounds.
fn ends_above(figure: &Figure) -> [Point2; 2] {
    let bounds = figure.bounds();
    let middle = bounds.center().x;
    let across = Segment::Line {
        from: Point2::mm(middle, bounds.min.y - 1.0),
        to: Point2::mm(middle, bounds.max.y + 1.0),
    };
    let crossed = meetings([across], figure.segments());
    match (crossed.first(), crossed.last()) {
        (Some(low), Some(high)) => [*low, *high],
        _ => [Point2::mm(middle, bounds.min.y), Point2::mm(middle, bounds.max.y)],
    }
}

/// The words of a strip and the lines from them to what they name; `edge` is the drawing's edge on that side, and
/// `outward` is -1 up the page and 1 down it.
fn leaders(body: &mut String, paper: &Paper, view: &View, strip: &Strip, edge: f64, outward: f64) {
    for placed in &strip.labels {
        let item = &view.items[placed.item];
        let [low, high] = ends_above(&item.figure);
        let (x, far) = paper.place(low);
        let (_, near) = paper.place(high);
        // A little inside the thing, from the side on which the label is.
        let inset = ((far - near) / 2.0).min(4.0);
        let anchor = (x, if outward < 0.0 { near + inset } else { far - inset });
        let bend = edge + outward * labels::BEND;
        let word = edge + outward * (labels::BEND + labels::RISE + labels::ROW * placed.row as f64);
        let baseline = if outward < 0.0 { word - 4.0 } else { word + 12.0 };
        let _ = writeln!(
            body,
            "<path class=\"leader\" d=\"M{} {}L{} {}L{} {}\"/>\n<circle class=\"dot\" cx=\"{}\" cy=\"{}\" r=\"2.2\"/>\n\
             <text class=\"label\" x=\"{}\" y=\"{}\">{}</text>",
            page(placed.x),
            page(word),
            page(placed.x),
            page(bend),
            page(anchor.0),
            page(anchor.1),
            page(anchor.0),
            page(anchor.1),
            page(placed.x),
            page(baseline),
            escaped(placed.words),
        );
    }
}

//! What stands under a drawing: what it is, at which scale, and what its lines mean?

use std::fmt::Write;

use geometry::{Bounds2, Point2};

use super::wording::{SIZE, width};
use crate::Layer;
use crate::markup::escaped;
use crate::paper::{Paper, page};

/// From one row to the next.
const ROW: f64 = 5.0;
/// Between columns, and between words and the frame.
const BETWEEN: f64 = 3.0;
/// How long the sample of a line is.
const SAMPLE: f64 = 9.0;

/// What is said of the part, row by row: what, and its value. Plain data of whoever knows the part.
#[derive(Clone, Debug, PartialEq, Eq, Default)]
pub struct TitleBlock {
    /// For example `("material", "hard maple")`.
    pub rows: Vec<(String, String)>,
}

/// A title block in its place.
pub(super) struct Placed {
    pub bounds: Bounds2,
    rows: Vec<(String, String)>,
    layers: Vec<Layer>,
    /// Where the values begin, and where the samples do.
    columns: [f64; 2],
}

impl TitleBlock {
    /// The block with its upper left corner at a point.
    pub(super) fn placed(&self, own: &[(String, String)], layers: &[Layer], corner: Point2) -> Placed {
        let rows: Vec<_> = self.rows.iter().chain(own).cloned().collect();
        let widest = |words: &mut dyn Iterator<Item = &str>| words.map(width).fold(0.0, f64::max);
        let values = corner.x + BETWEEN + widest(&mut rows.iter().map(|row| row.0.as_str())) + BETWEEN;
        let samples = values + widest(&mut rows.iter().map(|row| row.1.as_str())) + 2.0 * BETWEEN;
        let titles: Vec<String> = layers.iter().map(|layer| layer.title()).collect();
        let right = samples + SAMPLE + BETWEEN + widest(&mut titles.iter().map(String::as_str)) + BETWEEN;
        let deep = ROW * rows.len().max(layers.len()) as f64 + BETWEEN;
        let bounds = Bounds2 { min: Point2::mm(corner.x, corner.y - deep), max: Point2::mm(right, corner.y) };
        Placed { bounds, rows, layers: layers.to_vec(), columns: [values, samples] }
    }
}

impl Placed {
    /// As markup.
    pub fn write(&self, paper: &Paper) -> String {
        let (left, top) = paper.place(Point2::mm(self.bounds.min.x, self.bounds.max.y));
        let (right, bottom) = paper.place(Point2::mm(self.bounds.max.x, self.bounds.min.y));
        let [values, samples] = self.columns.map(|x| x - self.bounds.min.x + left);
        let mut markup = format!(
            "<g class=\"title-block\" font-family=\"sans-serif\" font-size=\"{SIZE}\" fill=\"#111\">\n\
             <rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\" fill=\"none\" stroke=\"#333\" stroke-width=\"0.25\"/>\n",
            page(left),
            page(top),
            page(right - left),
            page(bottom - top),
        );
        let foot = |row: usize| top + ROW * (row as f64 + 1.0);
        // Writing to a string cannot fail.
        for (row, (what, value)) in self.rows.iter().enumerate() {
            let y = page(foot(row));
            let _ = writeln!(
                markup,
                "<text x=\"{}\" y=\"{y}\" fill=\"#555\">{}</text>",
                page(left + BETWEEN),
                escaped(what)
            );
            let _ = writeln!(markup, "<text x=\"{}\" y=\"{y}\">{}</text>", page(values), escaped(value));
        }
        for (row, layer) in self.layers.iter().enumerate() {
            let y = foot(row);
            let _ = writeln!(
                markup,
                "<path d=\"M{} {}h{SAMPLE}\" stroke=\"{}\" {}/>",
                page(samples),
                page(y - 0.36 * SIZE),
                layer.colour().hex(),
                super::line(*layer),
            );
            let _ = writeln!(
                markup,
                "<text x=\"{}\" y=\"{}\">{}</text>",
                page(samples + SAMPLE + BETWEEN),
                page(y),
                escaped(&layer.title())
            );
        }
        markup.push_str("</g>\n");
        markup
    }
}

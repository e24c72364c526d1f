//! What must be known before anything is cut from paper?

use export::pdf::{Mark, Pen, Reading, Side, Template};
use export::scene::Figure;
use geometry::{Outline, Path, Point2, Shape};

use super::words;

/// The size of the words and from line to line.
const SIZE: f64 = 2.6;
const LEADING: f64 = 4.4;
/// From the left of one column to that of the other.
const COLUMN: f64 = 128.0;
/// The length of a sample, and from its start to its words.
const SAMPLE: f64 = 14.0;
const BESIDE: f64 = 17.0;

const STEPS: [&str; 6] = [
    "1. Print at 100 %: no scaling, no fitting to the page.",
    "2. Measure the rulers of a page, across and up: 100 mm, and 4 in.",
    "    If they are off, make the templates again with --measured-mark ACROSS,UP.",
    "3. Cut the tiles of one thing out along their thin frames.",
    "4. Lay each over its neighbour so that crosses of the same number meet; tape.",
    "5. Measure the longest distance again before you cut wood.",
];

const PENS: [(Pen, &str); 7] = [
    (Pen::Cut, "cut here"),
    (Pen::Slot, "slot: one pass of the saw along the line"),
    (Pen::Station, "mark, or fret station"),
    (Pen::Recess, "tinted: recess"),
    (Pen::Guide, "guide: not cut"),
    (Pen::Fold, "fold"),
    (Pen::Strand, "string, or frame of a tile"),
];

/// How to use the pages, and what their lines mean.
pub(super) fn template() -> Template {
    let mut marks = Vec::new();
    for (place, step) in STEPS.iter().enumerate() {
        let at = Point2::mm(0.0, -LEADING * place as f64);
        marks.push(words(at, Side::Start, Reading::Across, SIZE, *step));
    }
    for (place, (pen, meaning)) in PENS.iter().enumerate() {
        let y = -LEADING * place as f64;
        marks.extend(sample(*pen, y).map(|figure| Mark::Figure(figure, *pen)));
        marks.push(words(Point2::mm(COLUMN + BESIDE, y), Side::Start, Reading::Across, SIZE, *meaning));
    }
    Template { name: "read this first".into(), title: "Read this first".into(), notes: Vec::new(), marks }
}

fn sample(pen: Pen, y: f64) -> Option<Figure> {
    let (from, to) = (Point2::mm(COLUMN, y), Point2::mm(COLUMN + SAMPLE, y));
    if pen == Pen::Recess {
        let low = Point2::mm(from.x, y - 1.2);
        return Outline::rectangle(low, Point2::mm(to.x, y + 1.2))
            .ok()
            .map(|outline| Figure::Shape(Shape::Outline(outline)));
    }
    Path::line(from, to).ok().map(Figure::Path)
}

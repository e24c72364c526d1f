//! The labels of parts and kits.

use export::pdf::{Booklet, Mark, Pen, Reading, Side, Template, Words, shortened};
use export::scene::Figure;
use geometry::{Path, Point2};
use units::Length;

use super::member::Member;

/// The size of one label.
const LABEL: [f64; 2] = [62.0, 24.0];
/// Columns and rows of a page: what both office papers hold beside rulers and caption.
const GRID: [usize; 2] = [4, 7];
/// From the label's edge to its words.
const INSIDE: f64 = 2.5;
/// The lines of a label: how far below its upper edge the middle of the line is, and the size of its words.
const LINES: [(f64, f64); 4] = [(4.6, 5.0), (11.0, 3.8), (16.0, 2.7), (20.4, 2.7)];

/// One label a part of each student, and one for each student's kit.
pub(super) fn booklet(title: &str, members: &[Member]) -> Booklet {
    let mut labels: Vec<[String; 4]> = Vec::new();
    for (index, member) in members.iter().enumerate() {
        let last = |what: &str| {
            let note = &member.enrolment.note;
            if note.is_empty() { what.to_owned() } else { format!("{what}; {note}") }
        };
        let instrument = format!("{}, {}", member.made.instrument, member.hand());
        let label = |part: String, what: &str| [member.tag(index), part, instrument.clone(), last(what)];
        for (part, quantity, material) in &member.made.parts {
            let quantity = quantity * member.enrolment.quantity;
            labels.push(label(format!("{quantity} × {part}"), material));
        }
        labels.push(label(format!("{} × Kit", member.enrolment.quantity), "strings, tuners, wire, screws"));
    }
    let a_page = GRID[0] * GRID[1];
    let pages = labels.len().div_ceil(a_page);
    let templates = labels.chunks(a_page).enumerate().map(|(number, labels)| Template {
        name: format!("labels {}", number + 1),
        title: format!("Labels, page {} of {pages}", number + 1),
        notes: vec!["cut along the lines".into()],
        marks: marks(labels),
    });
    Booklet { title: title.to_owned(), templates: templates.collect(), remark: None }
}

fn marks(labels: &[[String; 4]]) -> Vec<Mark> {
    let rows = labels.len().div_ceil(GRID[0]);
    let columns = labels.len().min(GRID[0]);
    let [width, height] = LABEL;
    let (right, bottom) = (width * columns as f64, -height * rows as f64);
    let across =
        (0..=rows).map(|row| -height * row as f64).map(|y| [Point2::mm(0.0, y), Point2::mm(right, y)]);
    let down = (0..=columns).map(|column| width * column as f64);
    let down = down.map(|x| [Point2::mm(x, 0.0), Point2::mm(x, bottom)]);
    let lines = across.chain(down).filter_map(|[from, to]| Path::line(from, to).ok());
    let mut marks: Vec<Mark> = lines.map(|line| Mark::Figure(Figure::Path(line), Pen::Fine)).collect();
    for (place, label) in labels.iter().enumerate() {
        let corner = Point2::mm(width * (place % GRID[0]) as f64, -height * (place / GRID[0]) as f64);
        let sized = [0, 1, 2, 3].map(|line| (label[line].as_str(), Length::mm(LINES[line].1)));
        let texts = shortened(sized, Length::mm(width - 2.0 * INSIDE));
        for (text, (down, size)) in texts.into_iter().zip(LINES) {
            let at = Point2::mm(corner.x + INSIDE, corner.y - down);
            let size = Length::mm(size);
            marks.push(Mark::Words(Words { at, side: Side::Start, reading: Reading::Across, size, text }));
        }
    }
    marks
}

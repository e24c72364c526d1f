//! How does a drawing of operations become a template?

use std::collections::BTreeMap;

use geometry::{Bounds2, Circle, Drawing, HoleDepth, Operation, Path, Point2, Preflight, Shape, Vector2};
use units::Length;

use super::label::Taken;
use super::template::{Mark, Pen, Template};
use super::typeface::Typeface;
use crate::number::decimal;
use crate::plan::{Contour, DATUM_ARM, check, contour};
use crate::scene::Figure;
use crate::{ExportFault, Layer};

/// How far the cross in a hole stands out of it.
const CROSS_OUT: Length = Length::mm(0.8);
/// The size of the words beside holes.
const LABEL: Length = Length::mm(2.0);

impl Template {
    /// A drawing with crosses and diameters at its holes, its datum marked, and what is to be done in its notes.
    ///
    /// - **Frame**: the drawing's, moved so that the lower left of what is cut is at the origin.
    /// - **Errors**: [`ExportFault::FaultyDrawing`] and [`ExportFault::NothingToDraw`], as for every file of a drawing.
    pub fn of_drawing(drawing: &Drawing, preflight: &Preflight) -> Result<Self, ExportFault> {
        check(drawing, preflight)?;
        if drawing.operations.is_empty() {
            return Err(ExportFault::NothingToDraw { name: drawing.name.clone() });
        }
        let placed = drawing.at_origin();
        let mut operations: Vec<&Operation> = placed.operations.iter().collect();
        // What is tinted goes behind all lines.
        operations
            .sort_by_key(|operation| (!matches!(operation, Operation::Pocket { .. }), Layer::of(operation)));
        let mut marks = Vec::new();
        for operation in &operations {
            marks.push(Mark::Figure(figure(operation), pen(operation)));
            if let Operation::Drill { circle, .. } = operation {
                marks.extend(cross(circle.center, circle.radius + CROSS_OUT, Pen::Fine));
            }
        }
        let datum = placed.datum.point;
        marks.extend(cross(datum, DATUM_ARM, Pen::Station));
        labels(&mut marks, &placed, datum);
        // What a title says behind a semicolon is no title.
        let mut said = placed.title.split("; ").map(String::from);
        let title = said.next().unwrap_or_default();
        let mut notes: Vec<String> = said.collect();
        notes.push(format!("Datum: {}", placed.datum.meaning));
        notes.extend(work(&operations));
        Ok(Self { name: placed.name.replace('-', " "), title, notes, marks })
    }
}

fn figure(operation: &Operation) -> Figure {
    match contour(operation) {
        Contour::Closed(outline) => Figure::Shape(Shape::Outline(outline.clone())),
        Contour::Circle(circle) => Figure::Shape(Shape::Circle(*circle)),
        Contour::Open(path) => Figure::Path(path.clone()),
    }
}

const fn pen(operation: &Operation) -> Pen {
    match operation {
        Operation::CutOutside(_) | Operation::CutInside(_) => Pen::Cut,
        Operation::Pocket { .. } => Pen::Recess,
        Operation::Drill { .. } => Pen::Hole,
        Operation::Slot { .. } => Pen::Slot,
        Operation::Engrave(_) => Pen::Station,
        Operation::Guide(_) | Operation::GuideShape(_) | Operation::Mate(_) => Pen::Guide,
    }
}

/// Two lines across each other; none where there is no such point.
fn cross(center: Point2, arm: Length, pen: Pen) -> impl Iterator<Item = Mark> {
    let arm = arm.as_mm();
    let lines =
        [Vector2::mm(arm, 0.0), Vector2::mm(0.0, arm)].map(|arm| Path::line(center - arm, center + arm));
    lines.into_iter().flatten().map(move |path| Mark::Figure(Figure::Path(path), pen))
}

/// Says at holes, slots and the datum what they are, where there is room; the notes say it in any case.
fn labels(marks: &mut Vec<Mark>, drawing: &Drawing, datum: Point2) {
    let typeface = Typeface::new();
    let segments = marks.iter().flat_map(|mark| match mark {
        Mark::Figure(figure, _) => figure.segments(),
        Mark::Words(_) => Vec::new(),
    });
    let mut taken = Taken::by(segments);
    let mut add = |things: &[Bounds2], text: &str| {
        marks.extend(taken.beside_each(things, LABEL, text, &typeface).into_iter().map(Mark::Words));
    };
    for (text, bounds) in holes(drawing) {
        add(&bounds, &text);
    }
    for (text, bounds) in slots_of_their_own(drawing) {
        add(&[bounds], &text);
    }
    add(&[Bounds2::at(datum).grown(Length::mm(0.5))], "datum");
}

/// What each kind of hole is, and where those of its kind are: with their crosses, and holes in one place together.
fn holes(drawing: &Drawing) -> Vec<(String, Vec<Bounds2>)> {
    let mut places: Vec<(Point2, Bounds2, String)> = Vec::new();
    for operation in &drawing.operations {
        let Operation::Drill { circle, depth } = operation else { continue };
        let bounds = Bounds2::at(circle.center).grown(circle.radius + CROSS_OUT);
        let text = diameter(circle, *depth);
        match places.iter_mut().find(|place| place.0 == circle.center) {
            Some((_, known, said)) => {
                *known = known.union(bounds);
                *said = format!("{said} / {text}");
            }
            None => places.push((circle.center, bounds, text)),
        }
    }
    let mut kinds: Vec<(String, Vec<Bounds2>)> = Vec::new();
    for (_, bounds, text) in places {
        match kinds.iter_mut().find(|kind| kind.0 == text) {
            Some((_, known)) => known.push(bounds),
            None => kinds.push((text, vec![bounds])),
        }
    }
    kinds
}

fn diameter(circle: &Circle, depth: HoleDepth) -> String {
    match depth {
        HoleDepth::Through => format!("⌀{}", mm(circle.radius * 2.0)),
        HoleDepth::To(depth) => format!("⌀{}, {} deep", mm(circle.radius * 2.0), mm(depth)),
    }
}

/// The width of each slot that no other slot of the drawing is like, and where it is.
fn slots_of_their_own(drawing: &Drawing) -> Vec<(String, Bounds2)> {
    let slots: Vec<_> = drawing
        .operations
        .iter()
        .filter_map(|operation| match operation {
            Operation::Slot { path, width, .. } => Some((mm(*width), path.bounds())),
            _ => None,
        })
        .collect();
    let alone = |text: &String| slots.iter().filter(|slot| slot.0 == *text).count() == 1;
    // The only slot of a drawing is told by the notes alone.
    slots.iter().filter(|(text, _)| slots.len() > 1 && alone(text)).cloned().collect()
}

/// What is to be done, like things counted together, in the order of layers; numbers stay with their units.
fn work(operations: &[&Operation]) -> Vec<String> {
    let mut counts: BTreeMap<(Layer, String), usize> = BTreeMap::new();
    for operation in operations {
        let what = match operation {
            Operation::Drill { circle, depth: HoleDepth::Through } => {
                format!("⌀{}\u{a0}mm through", mm(circle.radius * 2.0))
            }
            Operation::Drill { circle, depth: HoleDepth::To(depth) } => {
                format!("⌀{}\u{a0}mm, {}\u{a0}mm deep", mm(circle.radius * 2.0), mm(*depth))
            }
            Operation::Slot { width, depth, .. } => {
                format!("{}\u{a0}mm wide, {}\u{a0}mm deep", mm(*width), mm(*depth))
            }
            Operation::Pocket { depth, .. } => format!("{}\u{a0}mm deep", mm(*depth)),
            _ => continue,
        };
        let verb = match operation {
            Operation::Drill { .. } => "drill",
            Operation::Slot { .. } => "saw slot",
            _ => "tinted: recess",
        };
        *counts.entry((Layer::of(operation), format!("{verb} {what}"))).or_default() += 1;
    }
    counts.into_iter().map(|((_, what), count)| format!("{count}\u{a0}× {what}")).collect()
}

fn mm(length: Length) -> String {
    decimal(length.as_mm(), 3)
}

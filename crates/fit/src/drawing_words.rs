//! How is a drawing's fault told to who has the plan before him, and not the drawing's numbers?
//!
//! A drawing counts its operations and knows nothing of the trade; what each of them is for follows from the drawing that it
//! stands in and from its place there.

use geometry::{Drawing, DrawingFault, Operation, Point2};
use layout::{Layout, StringPath};
use spec::BoxFace;
use units::Length;

use crate::finding::about_opening;

/// Two places nearer than this are one. Larger takes neighbours for one, smaller is lost in rounding.
const SAME: Length = Length::mm(1e-6);

/// The fault in words: what is wrong with which opening, bore or slot.
pub(crate) fn told(layout: &Layout, drawing: &Drawing, fault: &DrawingFault) -> String {
    let name = |operation: usize| {
        let found = drawing.operations.get(operation);
        found.map_or_else(|| "something".to_owned(), |found| operation_name(layout, &drawing.name, found))
    };
    match fault {
        DrawingFault::ContoursMeet { first, second, .. } => {
            format!("{} runs into {}", name(*second), name(*first))
        }
        DrawingFault::DrawnTwice { first, second, .. } => {
            format!("{} and {} are cut along one line", name(*first), name(*second))
        }
        DrawingFault::OutsidePart { operation, .. } => {
            format!("{} lies outside the part", name(*operation))
        }
        DrawingFault::CrossesItself { operation, .. } => format!("{} crosses itself", name(*operation)),
        DrawingFault::ShortSegment { operation, found, least, .. } => {
            format!("{} has a line of {found}, shorter than {least}", name(*operation))
        }
        DrawingFault::NotPositive { operation, measure, found } => {
            format!("the {} of {} must be above 0 mm, found {found}", measure.word(), name(*operation))
        }
        DrawingFault::SlotAstray { operation, run_out, .. } => {
            format!("{} misses the part, or ends more than {run_out} beyond its edge", name(*operation))
        }
        DrawingFault::NotFinite { operation } | DrawingFault::OutOfReach { operation, .. } => {
            format!("{} lies farther off than any machine reaches", name(*operation))
        }
        DrawingFault::PartInsidePart { .. } => "one part's outside lies inside another's".to_owned(),
        // A name or a datum: a fault of ours, which no plan can cause.
        other => other.to_string(),
    }
}

fn is_one(place: Point2, other: Point2) -> bool {
    place.distance(other) <= SAME.as_mm()
}

/// What an operation is for.
fn operation_name(layout: &Layout, drawing: &str, operation: &Operation) -> String {
    let middle = operation.bounds().center();
    match operation {
        Operation::CutOutside(_) => "the outside of the part".to_owned(),
        Operation::CutInside(_) => opening_name(layout, drawing, middle).unwrap_or("an opening".to_owned()),
        Operation::Drill { circle, .. } => opening_name(layout, drawing, middle)
            .or_else(|| bore_name(layout, drawing, middle, circle.radius * 2.0))
            .unwrap_or("a screw hole".to_owned()),
        Operation::Pocket { .. } => "the saddle's pocket".to_owned(),
        Operation::Slot { .. } => fret_name(layout, drawing, middle)
            .map_or("a slot".to_owned(), |fret| format!("the slot of {fret}")),
        Operation::Engrave(_) => fret_name(layout, drawing, middle)
            .map_or("a mark".to_owned(), |fret| format!("the mark of {fret}")),
        _ => "a guide line".to_owned(),
    }
}

fn opening_name(layout: &Layout, drawing: &str, middle: Point2) -> Option<String> {
    let face = match drawing {
        "lid" => BoxFace::Lid,
        "box-neck-end" => BoxFace::NeckEnd,
        "box-tail-end" => BoxFace::TailEnd,
        "box-bass-side" => BoxFace::BassSide,
        "box-treble-side" => BoxFace::TrebleSide,
        _ => return None,
    };
    // On a wall the document counts downward.
    let up = |second: Length| if face == BoxFace::Lid { second } else { -second };
    let is_it = |hole: &layout::BoxHole| {
        hole.face == face && is_one(middle, Point2::new(hole.first, up(hole.second)))
    };
    let (index, hole) = layout.holes().iter().enumerate().find(|(_, hole)| is_it(hole))?;
    Some(about_opening(index, hole).to_string())
}

fn bore_name(layout: &Layout, drawing: &str, middle: Point2, diameter: Length) -> Option<String> {
    let string_at = |is_there: &dyn Fn(usize) -> bool| -> Option<&StringPath> {
        layout.strings().get((0..layout.strings().len()).find(|index| is_there(*index))?)
    };
    match drawing {
        "neck-plan" => {
            let tuner = |index: usize| {
                let bore = layout.tuners()[index].bore;
                is_one(middle, Point2::new(bore.x, bore.y))
            };
            let through = |index: usize| {
                let tail = layout.strings()[index].tail;
                is_one(middle, Point2::new(tail.x, tail.y))
            };
            string_at(&tuner).map(|string| format!("the tuner's bore of string {}", string.number.0)).or_else(
                || string_at(&through).map(|string| format!("the bore of string {}", string.number.0)),
            )
        }
        "tail-block-strings" => {
            let bores = &layout.tail().bores;
            let string = string_at(&|index| (bores[index].across.as_mm() - middle.x).abs() <= SAME.as_mm())?;
            let is_ball = bores.first().is_some_and(|bore| (bore.ball_diameter - diameter).abs() <= SAME);
            let what = if is_ball { "the ball's counterbore" } else { "the bore" };
            Some(format!("{what} of string {}", string.number.0))
        }
        _ => None,
    }
}

fn fret_name(layout: &Layout, drawing: &str, middle: Point2) -> Option<String> {
    if !matches!(drawing, "neck-plan" | "fretboard") {
        return None;
    }
    let is_here = |x: Length| (x.as_mm() - middle.x).abs() <= SAME.as_mm();
    if is_here(Length::ZERO) {
        return Some("the zero fret".to_owned());
    }
    let fret = layout.frets().frets.iter().find(|fret| is_here(fret.x))?;
    Some(format!("fret {}", fret.number))
}

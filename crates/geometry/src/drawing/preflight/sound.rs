//! Is each operation sound in itself: finite, of a size above zero, of segments that are long enough?

use units::Length;

use super::{Drawing, DrawingFault, Drawn, Measure, Preflight};
use crate::{HoleDepth, Operation, Shape};

pub(super) fn faults(drawing: &Drawing) -> impl Iterator<Item = DrawingFault> {
    let bad_name = (!is_stem(&drawing.name)).then(|| DrawingFault::BadName { name: drawing.name.clone() });
    let bad_datum = (!drawing.datum.point.is_finite()).then_some(DrawingFault::DatumNotFinite);
    let operations = drawing.operations.iter().enumerate().flat_map(|(number, operation)| {
        let finite = circle_of(operation).is_none_or(|circle| circle.center.is_finite());
        let not_finite = (!finite).then_some(DrawingFault::NotFinite { operation: number });
        let not_positive = sizes(operation).into_iter().filter(|&(_, found)| found <= Length::ZERO);
        let not_positive = not_positive.map(move |(measure, found)| DrawingFault::NotPositive {
            operation: number,
            measure,
            found,
        });
        not_finite.into_iter().chain(not_positive)
    });
    bad_name.into_iter().chain(bad_datum).chain(operations)
}

pub(super) fn short_segments(drawn: &[Drawn], preflight: &Preflight) -> impl Iterator<Item = DrawingFault> {
    let least = preflight.shortest_segment;
    drawn.iter().flat_map(move |drawn| {
        let short = drawn.segments.iter().filter(move |segment| segment.length() < least);
        short.map(move |segment| DrawingFault::ShortSegment {
            operation: drawn.number,
            at: segment.from(),
            found: segment.length(),
            least,
        })
    })
}

fn is_stem(name: &str) -> bool {
    let allowed = |letter: char| letter.is_ascii_lowercase() || letter.is_ascii_digit() || letter == '-';
    !name.is_empty() && name.chars().all(allowed)
}

fn circle_of(operation: &Operation) -> Option<&crate::Circle> {
    match operation {
        Operation::Drill { circle, .. } => Some(circle),
        Operation::CutOutside(Shape::Circle(circle))
        | Operation::CutInside(Shape::Circle(circle))
        | Operation::Pocket { shape: Shape::Circle(circle), .. }
        | Operation::GuideShape(Shape::Circle(circle)) => Some(circle),
        _ => None,
    }
}

fn sizes(operation: &Operation) -> Vec<(Measure, Length)> {
    let mut sizes = Vec::new();
    sizes.extend(circle_of(operation).map(|circle| (Measure::Radius, circle.radius)));
    match *operation {
        Operation::Pocket { depth, .. } | Operation::Drill { depth: HoleDepth::To(depth), .. } => {
            sizes.push((Measure::Depth, depth));
        }
        Operation::Slot { width, depth, .. } => {
            sizes.extend([(Measure::Width, width), (Measure::Depth, depth)]);
        }
        _ => {}
    }
    sizes
}

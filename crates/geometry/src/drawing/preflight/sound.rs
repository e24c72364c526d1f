//! Is each operation sound in itself: within reach, of a size above zero, of segments that are long enough?

use units::Length;

use super::{Drawing, DrawingFault, Drawn, Measure, Preflight};
use crate::outline::{REACH, is_in_reach};
use crate::{Circle, HoleDepth, Operation, Point2, Shape, WELD};

pub(super) fn faults(drawing: &Drawing) -> impl Iterator<Item = DrawingFault> {
    let bad_name = (!is_stem(&drawing.name)).then(|| DrawingFault::BadName { name: drawing.name.clone() });
    let bad_datum = datum_fault(drawing.datum.point);
    let operations = drawing.operations.iter().enumerate().flat_map(|(number, operation)| {
        let misplaced = circle_of(operation).and_then(|circle| circle_fault(number, circle));
        let not_positive = sizes(operation).into_iter().filter(|&(_, found)| found <= WELD.distance());
        let not_positive = not_positive.map(move |(measure, found)| DrawingFault::NotPositive {
            operation: number,
            measure,
            found,
        });
        misplaced.into_iter().chain(not_positive)
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

fn datum_fault(point: Point2) -> Option<DrawingFault> {
    match point {
        point if !point.is_finite() => Some(DrawingFault::DatumNotFinite),
        point if !is_in_reach(point) => Some(DrawingFault::DatumOutOfReach { reach: REACH }),
        _ => None,
    }
}

fn circle_fault(operation: usize, circle: &Circle) -> Option<DrawingFault> {
    match circle {
        circle if !circle.center.is_finite() => Some(DrawingFault::NotFinite { operation }),
        circle if !is_in_reach(circle.center) || circle.radius > REACH => {
            Some(DrawingFault::OutOfReach { operation, reach: REACH })
        }
        _ => None,
    }
}

fn circle_of(operation: &Operation) -> Option<&Circle> {
    match operation {
        Operation::Drill { circle, .. } => Some(circle),
        Operation::CutOutside(Shape::Circle(circle))
        | Operation::CutInside(Shape::Circle(circle))
        | Operation::Pocket { shape: Shape::Circle(circle), .. }
        | Operation::GuideShape(Shape::Circle(circle))
        | Operation::Mate(Shape::Circle(circle)) => Some(circle),
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

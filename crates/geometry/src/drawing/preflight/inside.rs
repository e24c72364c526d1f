//! Does everything that is cut out of a part lie in that part?

use units::Length;

use super::{DrawingFault, Drawn, Preflight};
use crate::meeting::segment_meetings;
use crate::{Operation, Point2, Segment, Shape, gap};

/// Holes and openings that meet an outside are told as such (`meet`) and not again.
pub(super) fn faults(drawn: &[Drawn], meet: &[DrawingFault], preflight: &Preflight) -> Vec<DrawingFault> {
    let parts: Vec<(&Drawn, &Shape)> = drawn
        .iter()
        .filter_map(|drawn| match drawn.operation {
            Operation::CutOutside(shape) => Some((drawn, shape)),
            _ => None,
        })
        .collect();
    if parts.is_empty() {
        return Vec::new();
    }
    let told = |number: usize| {
        let with_part = |other: usize| matches!(drawn[other].operation, Operation::CutOutside(_));
        meet.iter().any(|fault| match *fault {
            DrawingFault::ContoursMeet { first, second, .. } => {
                (first == number && with_part(second)) || (second == number && with_part(first))
            }
            _ => false,
        })
    };
    let check = |cut: &Drawn| {
        let operation = cut.number;
        match cut.operation {
            Operation::CutInside(_) | Operation::Drill { .. } if told(operation) => None,
            Operation::CutInside(_) | Operation::Drill { .. } | Operation::Pocket { .. } => {
                let outside =
                    |(part, shape): &(&Drawn, &Shape)| first_outside(cut, part, shape, preflight.coincidence);
                let points: Option<Vec<Point2>> = parts.iter().map(outside).collect();
                points
                    .and_then(|points| points.first().map(|&at| DrawingFault::OutsidePart { operation, at }))
            }
            Operation::CutOutside(_) => parts
                .iter()
                .find(|(part, shape)| part.number != operation && !told(operation) && holds(shape, cut))
                .map(|(part, _)| DrawingFault::PartInsidePart { inner: operation, outer: part.number }),
            Operation::Slot { .. } => {
                let astray = !parts.iter().any(|(part, shape)| slot_belongs(cut, part, shape, preflight));
                let (bounds, run_out) = (cut.bounds, preflight.run_out);
                astray.then_some(DrawingFault::SlotAstray { operation, bounds, run_out })
            }
            Operation::Engrave(_) | Operation::Guide(_) | Operation::GuideShape(_) | Operation::Mate(_) => {
                None
            }
        }
    };
    drawn.iter().filter_map(check).collect()
}

/// The middle of the first piece of a contour that lies outside a part by more than the tolerance.
///
/// Between two points where it meets the part's edge, a piece lies on one side of it.
fn first_outside(cut: &Drawn, part: &Drawn, shape: &Shape, tolerance: Length) -> Option<Point2> {
    cut.segments.iter().find_map(|segment| {
        let mut shares: Vec<f64> = part
            .segments
            .iter()
            .flat_map(|edge| segment_meetings(segment, edge))
            .map(|p| segment.share_at(p))
            .collect();
        shares.extend([0.0, 1.0]);
        shares.sort_by(f64::total_cmp);
        shares.windows(2).map(|pair| segment.point_at((pair[0] + pair[1]) / 2.0)).find(|&middle| {
            let from_edge = |edge: &Segment| edge.distance_to(middle);
            !shape.contains(middle) && part.segments.iter().all(|edge| from_edge(edge) > tolerance)
        })
    })
}

/// Whether a contour that does not meet a part's edge lies inside it.
fn holds(shape: &Shape, cut: &Drawn) -> bool {
    shape.contains(cut.segments[0].from())
}

fn slot_belongs(slot: &Drawn, part: &Drawn, shape: &Shape, preflight: &Preflight) -> bool {
    let room = part.bounds.grown(preflight.run_out + preflight.coincidence);
    let apart = || gap(slot.segments.iter().copied(), part.segments.iter().copied());
    room.contains_bounds(slot.bounds)
        && (holds(shape, slot) || apart().is_some_and(|apart| apart <= preflight.coincidence))
}

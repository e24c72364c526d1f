//! Does a line meet itself, or a contour that parts the material another one?

use super::{DrawingFault, Drawn};
use crate::{Operation, meetings};

pub(super) fn lines_that_cross_themselves(drawn: &[Drawn]) -> impl Iterator<Item = DrawingFault> {
    drawn.iter().filter_map(|drawn| match drawn.operation {
        Operation::Slot { path, .. } | Operation::Engrave(path) => path
            .first_crossing()
            .map(|(_, _, at)| DrawingFault::CrossesItself { operation: drawn.number, at }),
        _ => None,
    })
}

/// Pairs that are one line are told as such and not again.
pub(super) fn contours_that_meet(drawn: &[Drawn], twice: &[DrawingFault]) -> Vec<DrawingFault> {
    let told = |first: usize, second: usize| {
        twice.iter().any(
            |fault| matches!(*fault, DrawingFault::DrawnTwice { first: a, second: b, .. } if (a, b) == (first, second)),
        )
    };
    let mut faults = Vec::new();
    for (first, a) in drawn.iter().enumerate() {
        for (second, b) in drawn.iter().enumerate().skip(first + 1) {
            if !may_not_meet(a.operation, b.operation) || told(first, second) {
                continue;
            }
            let points = meetings(a.segments.iter().copied(), b.segments.iter().copied());
            faults.extend(points.first().map(|&at| DrawingFault::ContoursMeet { first, second, at }));
        }
    }
    faults
}

fn may_not_meet(a: &Operation, b: &Operation) -> bool {
    use Operation::{CutInside, CutOutside, Drill};
    matches!(
        (a, b),
        (CutOutside(_) | CutInside(_), CutOutside(_) | CutInside(_))
            | (CutOutside(_), Drill { .. })
            | (Drill { .. }, CutOutside(_))
    )
}

//! Which places of a drawing are worth a dimension?
//!
//! Centres of holes, straight edges along the axes, corners where a slanted edge ends, centre lines of slots and marks, and
//! inner ends of slots; of what is not cut the same, for reference. What an arc's own radius tells is left out.

use geometry::{Bounds2, Drawing, Operation, Point2, Segment, Shape};
use units::Length;

use super::side::{Side, Station};

/// How near two places are one dimension. Larger hides real steps; smaller repeats what prints the same.
const SAME: f64 = 0.005;

/// The farthest from the edge that a place is measured there. Larger draws lines along the whole of a long part; smaller
/// would leave out holes in the middle of a large plate.
pub(super) const FARTHEST: f64 = 160.0;

/// One coordinate of something, and how far it reaches across that.
#[derive(Clone, Copy)]
struct Mark {
    at: f64,
    reach: (f64, f64),
    reference: bool,
}

/// The places across the drawing, for the side below it.
pub(super) fn below(drawing: &Drawing, datum: Point2) -> Vec<Station> {
    let stations = marks(drawing).0.into_iter().map(|mark| Station {
        along: mark.at,
        out: -mark.reach.0,
        reference: mark.reference,
    });
    told_once(stations.collect(), datum.x)
}

/// The places up the drawing, each for the side that is nearer to it.
pub(super) fn left_and_right(
    drawing: &Drawing,
    bounds: Bounds2,
    datum: Point2,
) -> (Vec<Station>, Vec<Station>) {
    let (mut left, mut right) = (Vec::new(), Vec::new());
    for Mark { at, reach, reference } in marks(drawing).1 {
        let (from_left, from_right) = (reach.0 - bounds.min.x, bounds.max.x - reach.1);
        if from_left.min(from_right) > FARTHEST {
            continue;
        }
        if from_left <= from_right {
            left.push(Station { along: at, out: -reach.0, reference });
        } else {
            right.push(Station { along: at, out: reach.1, reference });
        }
    }
    let left = told_once(left, datum.y);
    // What is told on the left is not told again.
    right.retain(|station| left.iter().all(|other| (other.along - station.along).abs() > SAME));
    (left, told_once(right, datum.y))
}

/// The two ends of the cut part along a side.
pub(super) fn ends(side: Side, cut: Bounds2) -> [Station; 2] {
    [cut.min, cut.max].map(|corner| Station {
        along: side.along(corner),
        out: side.out(cut.min).max(side.out(cut.max)),
        reference: false,
    })
}

/// Takes out what the size over all tells already: the far end of a part that begins at its datum, and both ends of one
/// that lies evenly about it.
pub(super) fn without_ends(stations: &mut Vec<Station>, datum: f64, ends: [Station; 2]) {
    let [first, last] = ends.map(|end| end.along - datum);
    let same = |a: f64, b: f64| (a - b).abs() <= SAME;
    let told = |at: f64, end: f64, other: f64| same(at, end) && (same(other, 0.0) || same(other, -end));
    stations.retain(|station| {
        let at = station.along - datum;
        !told(at, first, last) && !told(at, last, first)
    });
}

/// Adds those ends of the part that are neither there nor among the stations of the other side.
pub(super) fn with_ends(stations: &mut Vec<Station>, others: &[Station], datum: f64, ends: [Station; 2]) {
    let there = |end: &Station| {
        others.iter().any(|other| !other.reference && (other.along - end.along).abs() <= SAME)
    };
    stations.extend(ends.into_iter().filter(|end| !there(end)));
    *stations = told_once(std::mem::take(stations), datum);
}

/// In order, each place once and the datum not at all; what is cut goes before what is not.
fn told_once(mut stations: Vec<Station>, datum: f64) -> Vec<Station> {
    stations.retain(|station| (station.along - datum).abs() > SAME);
    stations.sort_by(|a, b| a.along.total_cmp(&b.along));
    let mut told: Vec<Station> = Vec::new();
    for station in stations {
        match told.last_mut() {
            Some(last) if station.along - last.along <= SAME => {
                last.reference &= station.reference;
                last.out = last.out.max(station.out);
            }
            _ => told.push(station),
        }
    }
    told
}

/// The places across and up the drawing.
fn marks(drawing: &Drawing) -> (Vec<Mark>, Vec<Mark>) {
    let (mut across, mut up) = (Vec::new(), Vec::new());
    let outsides: Vec<Segment> = drawing
        .operations
        .iter()
        .filter(|operation| matches!(operation, Operation::CutOutside(_)))
        .flat_map(Operation::segments)
        .collect();
    let on_edge = |point: Point2| outsides.iter().any(|edge| edge.distance_to(point) < Length::mm(0.05));
    for operation in &drawing.operations {
        // What enters a recess stands within a hair of it: the recess is what is measured.
        if matches!(operation, Operation::Mate(_)) {
            continue;
        }
        let reference = operation.is_guide();
        let mut corner = |point: Point2| {
            across.push(Mark { at: point.x, reach: (point.y, point.y), reference });
            up.push(Mark { at: point.y, reach: (point.x, point.x), reference });
        };
        if let Some(center) = center(operation) {
            corner(center);
            continue;
        }
        let segments = operation.segments();
        let is_arc = |at: usize| matches!(segments[at % segments.len()], Segment::Arc { .. });
        for (place, segment) in segments.iter().enumerate() {
            let Segment::Line { from, to } = *segment else { continue };
            let step = to - from;
            if step.x.abs() <= SAME {
                let reach = (from.y.min(to.y), from.y.max(to.y));
                across.push(Mark { at: from.x, reach, reference });
            } else if step.y.abs() <= SAME {
                let reach = (from.x.min(to.x), from.x.max(to.x));
                up.push(Mark { at: from.y, reach, reference });
            } else {
                let mut corner = |point: Point2| {
                    across.push(Mark { at: point.x, reach: (point.y, point.y), reference });
                    up.push(Mark { at: point.y, reach: (point.x, point.x), reference });
                };
                if !is_arc(place + segments.len() - 1) {
                    corner(from);
                }
                if !is_arc(place + 1) {
                    corner(to);
                }
            }
            if matches!(operation, Operation::Slot { .. }) {
                for end in [from, to].into_iter().filter(|end| !on_edge(*end)) {
                    across.push(Mark { at: end.x, reach: (end.y, end.y), reference });
                    up.push(Mark { at: end.y, reach: (end.x, end.x), reference });
                }
            }
        }
    }
    (across, up)
}

/// The centre of what is round.
fn center(operation: &Operation) -> Option<Point2> {
    match operation {
        Operation::Drill { circle, .. } => Some(circle.center),
        Operation::CutOutside(Shape::Circle(circle))
        | Operation::CutInside(Shape::Circle(circle))
        | Operation::Pocket { shape: Shape::Circle(circle), .. }
        | Operation::GuideShape(Shape::Circle(circle)) => Some(circle.center),
        _ => None,
    }
}

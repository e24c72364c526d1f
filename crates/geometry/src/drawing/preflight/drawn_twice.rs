//! Is a line drawn twice, whole or in part?

use units::Length;

use super::{DrawingFault, Drawn, Preflight};
use crate::meeting::crossings;
use crate::{Operation, Point2, Segment, Vector2};

/// How many times the coincidence a shared stretch is long, at least, unless it is a whole segment.
///
/// Smaller takes two lines that cross at a small angle, or two circles that touch, for one line over a short stretch:
/// at 100, crossings steeper than about a degree are told apart. Larger overlooks short lines that are cut twice.
const SHARED_STRETCH: f64 = 100.0;

pub(super) fn faults(drawn: &[Drawn], preflight: &Preflight) -> Vec<DrawingFault> {
    let mut faults = Vec::new();
    for (first, a) in drawn.iter().enumerate() {
        for (second, b) in drawn.iter().enumerate().skip(first + 1) {
            let kinship = kinship(a.operation, b.operation);
            if kinship == Kinship::None || !a.bounds.grown(preflight.coincidence).overlaps(b.bounds) {
                continue;
            }
            let shared = shared(a, b, preflight.coincidence);
            let one_line = || shared.whole && self::shared(b, a, preflight.coincidence).whole;
            if let Some((from, to)) = shared.stretch.filter(|_| kinship == Kinship::Same || one_line()) {
                faults.push(DrawingFault::DrawnTwice { first, second, from, to });
            }
        }
    }
    faults
}

/// How much two operations have to do with each other.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Kinship {
    /// They may share lines: a guide shows where a cut goes.
    None,
    /// They may share stretches but may not be one line.
    Cousins,
    /// They may share nothing.
    Same,
}

fn kinship(a: &Operation, b: &Operation) -> Kinship {
    use Operation::{CutInside, CutOutside, Drill, Engrave, Pocket, Slot};
    match (a, b) {
        (CutOutside(_) | CutInside(_), CutOutside(_) | CutInside(_))
        | (Drill { .. }, Drill { .. })
        | (Engrave(_), Engrave(_)) => Kinship::Same,
        (Pocket { depth, .. }, Pocket { depth: other, .. })
        | (Slot { depth, .. }, Slot { depth: other, .. })
            if depth == other =>
        {
            Kinship::Same
        }
        (a, b) if a.is_guide() == b.is_guide() => Kinship::Cousins,
        _ => Kinship::None,
    }
}

/// What a run of segments shares with another.
struct Shared {
    /// Whether each segment does, from end to end.
    whole: bool,
    /// The ends of the first stretch that is long enough to be told.
    stretch: Option<(Point2, Point2)>,
}

fn shared(a: &Drawn, b: &Drawn, coincidence: Length) -> Shared {
    let mut found = Shared { whole: true, stretch: None };
    for segment in &a.segments {
        let length = segment.length();
        let mut whole = false;
        for (begin, end) in stretches(segment, &b.segments, coincidence) {
            let stretch = length * (end - begin);
            let covers = length - stretch <= coincidence * 2.0;
            whole |= covers;
            if found.stretch.is_none() && (covers || stretch >= coincidence * SHARED_STRETCH) {
                found.stretch = Some((segment.point_at(begin), segment.point_at(end)));
            }
        }
        found.whole &= whole;
    }
    found
}

/// The stretches of a segment, by shares of its length, that lie within a distance of others.
///
/// The distance passes the limit only at the curves that run beside the others at that distance, and near their ends.
fn stretches(segment: &Segment, others: &[Segment], within: Length) -> Vec<(f64, f64)> {
    let reach = segment.bounds().grown(within);
    let near: Vec<&Segment> = others.iter().filter(|other| reach.overlaps(other.bounds())).collect();
    let mut shares = vec![0.0, 1.0];
    for other in &near {
        let ends = [other.from(), other.to()].map(|end| segment.nearest(end));
        let beside = [within, -within].into_iter().filter_map(|distance| beside(other, distance));
        let passed = beside.flat_map(|beside| crossings(segment, &beside));
        shares.extend(ends.into_iter().chain(passed).map(|point| segment.share_at(point)));
    }
    shares.sort_by(f64::total_cmp);
    let mut stretches: Vec<(f64, f64)> = Vec::new();
    for pair in shares.windows(2).filter(|pair| pair[0] < pair[1]) {
        let middle = segment.point_at((pair[0] + pair[1]) / 2.0);
        if !near.iter().any(|other| other.distance_to(middle) <= within) {
            continue;
        }
        match stretches.last_mut() {
            Some((_, end)) if *end == pair[0] => *end = pair[1],
            _ => stretches.push((pair[0], pair[1])),
        }
    }
    stretches
}

/// The segment that runs beside another, on its left at a distance; `None` where an arc's radius is used up.
fn beside(segment: &Segment, distance: Length) -> Option<Segment> {
    let step = |direction: Vector2| direction.left() * distance.as_mm();
    let (from, to) =
        (segment.from() + step(segment.start_direction()), segment.to() + step(segment.end_direction()));
    match *segment {
        Segment::Line { .. } => Some(Segment::Line { from, to }),
        Segment::Arc { center, radius, sweep, .. } => {
            let radius = if sweep > units::Angle::ZERO { radius - distance } else { radius + distance };
            (radius > Length::ZERO).then_some(Segment::Arc { from, to, center, radius, sweep })
        }
    }
}

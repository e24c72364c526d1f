//! What do two rings in one plane make of each other?
//!
//! Each is broken where the other touches or crosses it, and what then runs between the same two points the same way
//! is one edge of both.

use std::collections::BTreeMap;

use units::math;

use super::EdgeUse;
use crate::meeting::segment_meetings;
use crate::{Bounds2, Point2, Segment, WELD};

/// The points and edges that rings have in common or alone.
#[derive(Default)]
pub(super) struct Arrangement {
    pub points: Vec<Point2>,
    pub edges: Vec<FlatEdge>,
    /// For each ring, for each of its segments, the edges that it became, in the ring's direction.
    pub rings: Vec<Vec<Vec<EdgeUse>>>,
}

pub(super) struct FlatEdge {
    pub from: usize,
    pub to: usize,
    pub segment: Segment,
}

/// A point on a segment by its share of the length, and its number.
#[derive(Clone, Copy)]
struct Cut {
    share: f64,
    point: usize,
}

/// Where a segment of the first ring meets one of the second.
struct Meeting {
    segments: [usize; 2],
    point: Point2,
}

/// Breaks two rings at each other. Where one is empty, the other is left as it is.
pub(super) fn arrange(rings: &[Vec<Segment>; 2]) -> Arrangement {
    let mut arrangement = Arrangement::default();
    let mut corners: Vec<Vec<usize>> = Vec::new();
    for ring in rings {
        let known = arrangement.points.len();
        let numbers = ring.iter().map(|segment| arrangement.number_within(known, segment.from())).collect();
        corners.push(numbers);
    }
    let mut cuts: Vec<Vec<Vec<Cut>>> = rings.iter().map(|ring| vec![Vec::new(); ring.len()]).collect();
    // A ring meets itself at its own corners alone: where a body goes on as it was, there is nothing to look for.
    let [first, second] = rings;
    let met = if first == second { Vec::new() } else { meetings(rings) };
    for Meeting { segments, point } in met {
        let all = arrangement.points.len();
        let number = arrangement.number_within(all, point);
        for (ring, index) in segments.into_iter().enumerate() {
            let next = (index + 1) % rings[ring].len();
            if number != corners[ring][index] && number != corners[ring][next] {
                // Between the ends, even where the point is welded to just beyond one.
                let share =
                    share_of(&rings[ring][index], arrangement.points[number]).clamp(1e-15, 1.0 - 1e-15);
                cuts[ring][index].push(Cut { share, point: number });
            }
        }
    }
    let mut known: BTreeMap<(usize, usize), Vec<usize>> = BTreeMap::new();
    for (ring, segments) in rings.iter().enumerate() {
        let mut chains = Vec::with_capacity(segments.len());
        for (index, segment) in segments.iter().enumerate() {
            let mut stops = std::mem::take(&mut cuts[ring][index]);
            stops.push(Cut { share: 0.0, point: corners[ring][index] });
            stops.push(Cut { share: 1.0, point: corners[ring][(index + 1) % segments.len()] });
            stops.sort_by(|a, b| a.share.total_cmp(&b.share));
            stops.dedup_by_key(|stop| stop.point);
            let pieces =
                stops.windows(2).map(|ends| arrangement.edge_use(&mut known, segment, ends[0], ends[1]));
            chains.push(pieces.collect());
        }
        arrangement.rings.push(chains);
    }
    arrangement
}

impl Arrangement {
    /// The number of a point: that of one of the first `known` points that it coincides with, or a new one.
    fn number_within(&mut self, known: usize, point: Point2) -> usize {
        let weld = WELD.distance().as_mm();
        match self.points[..known].iter().position(|other| other.distance(point) <= weld) {
            Some(number) => number,
            None => {
                self.points.push(point);
                self.points.len() - 1
            }
        }
    }

    /// The piece of a segment between two cuts: an edge that is there already, or a new one.
    fn edge_use(
        &mut self,
        known: &mut BTreeMap<(usize, usize), Vec<usize>>,
        segment: &Segment,
        from: Cut,
        to: Cut,
    ) -> EdgeUse {
        let (start, end) = (self.points[from.point], self.points[to.point]);
        let bulge = math::tan(segment.sweep().as_radians() * (to.share - from.share) / 4.0);
        let piece = Segment::new(start, end, bulge);
        let between = known.entry((from.point.min(to.point), from.point.max(to.point))).or_default();
        let middle = piece.point_at(0.5);
        // Two pieces whose ends coincide within the weld distance have middles within twice that.
        let reach = 2.0 * WELD.distance().as_mm();
        let same = |edge: &&usize| self.edges[**edge].segment.point_at(0.5).distance(middle) <= reach;
        if let Some(&edge) = between.iter().find(same) {
            return EdgeUse { edge, forward: self.edges[edge].from == from.point };
        }
        self.edges.push(FlatEdge { from: from.point, to: to.point, segment: piece });
        between.push(self.edges.len() - 1);
        EdgeUse { edge: self.edges.len() - 1, forward: true }
    }
}

/// Where segments of two rings meet.
fn meetings([first, second]: &[Vec<Segment>; 2]) -> Vec<Meeting> {
    let near = |segment: &Segment| segment.bounds().grown(WELD.distance());
    let second_bounds: Vec<Bounds2> = second.iter().map(near).collect();
    let mut found = Vec::new();
    for (i, a) in first.iter().enumerate() {
        let bounds = near(a);
        for (j, b) in second.iter().enumerate() {
            if bounds.overlaps(second_bounds[j]) {
                let points = segment_meetings(a, b);
                found.extend(points.into_iter().map(|point| Meeting { segments: [i, j], point }));
            }
        }
    }
    found
}

/// The share of a segment's length at a point of it.
fn share_of(segment: &Segment, point: Point2) -> f64 {
    match *segment {
        Segment::Line { from, .. } => {
            let chord = segment.chord();
            chord.dot(point - from) / chord.dot(chord)
        }
        Segment::Arc { from, center, sweep, .. } => {
            let turned = (from - center).angle_to(point - center).as_radians() * sweep.as_radians().signum();
            let turned = if turned < 0.0 { turned + std::f64::consts::TAU } else { turned };
            turned / sweep.as_radians().abs()
        }
    }
}

//! Which segments of an outline are one, and which are better two?

use units::{Length, math};

use super::{Outline, Vertex};
use crate::{Point2, Segment, WELD};

/// The largest sweep, in radians, that two arcs are joined to: beyond three quarters of a circle a bulge loses its accuracy.
const WIDEST_ARC: f64 = 1.5 * std::f64::consts::PI;

/// How near an end an extreme is left to it, in millimetres. Larger misses what a caliper finds; smaller makes sides that nothing
/// can be made of.
const APART: f64 = 1e-3;

impl Outline {
    /// The same loop without needless vertices: lines that continue each other become one line, arcs of one circle one arc,
    /// and a loop that is a full circle two half circles from its leftmost point.
    ///
    /// - **Accuracy**: no vertex that is left out lies farther than [`WELD`] from the segment that takes its place.
    #[must_use]
    pub fn merged(&self) -> Self {
        let segments: Vec<Segment> = self.segments().collect();
        if let Some(circle) = self.as_circle(&segments) {
            return circle;
        }
        let count = segments.len();
        let needed = |i: &usize| joined(&segments[(i + count - 1) % count], &segments[*i]).is_none();
        let Some(first) = (0..count).find(needed) else { return self.clone() };
        // Each with its bulge, which is kept without rounding where nothing is joined.
        let mut kept: Vec<(Segment, f64)> = Vec::with_capacity(count);
        for at in (0..count).map(|i| (first + i) % count) {
            let segment = segments[at];
            match kept.last().and_then(|(last, _)| joined(last, &segment)) {
                Some(whole) => {
                    *kept.last_mut().expect("a segment was there: our bug") = (whole, whole.bulge())
                }
                None => kept.push((segment, self.vertices[at].bulge)),
            }
        }
        // Two arcs of one circle need two vertices to be told apart.
        if kept.len() < 2 {
            return self.clone();
        }
        let vertex = |(segment, bulge): &(Segment, f64)| Vertex { point: segment.from(), bulge: *bulge };
        Self { vertices: kept.iter().map(vertex).collect() }
    }

    /// The same loop with a vertex wherever an arc reaches farthest along an axis, so that the bounds of the vertices are those of
    /// the loop; an extreme that lies within a thousandth of a millimetre of an end is left to that end.
    #[must_use]
    pub fn with_extremes(&self) -> Self {
        let pieces = self.segments().flat_map(|segment| {
            let mut shares = vec![0.0];
            if let Segment::Arc { center, radius, .. } = segment {
                let radius = radius.as_mm();
                let extremes = [(radius, 0.0), (0.0, radius), (-radius, 0.0), (0.0, -radius)]
                    .map(|(x, y)| Point2::mm(center.x + x, center.y + y));
                let inside = |point: &Point2| {
                    segment.spans(*point)
                        && [segment.from(), segment.to()].iter().all(|end| end.distance(*point) > APART)
                };
                shares.extend(
                    extremes.iter().filter(|point| inside(point)).map(|point| segment.share_at(*point)),
                );
                shares.sort_by(f64::total_cmp);
            }
            let ends = shares.clone().into_iter().skip(1).chain([1.0]);
            let sweep = segment.sweep().as_radians();
            let vertex = move |(share, end): (f64, f64)| Vertex {
                point: segment.point_at(share),
                bulge: if sweep == 0.0 { 0.0 } else { math::tan(sweep * (end - share) / 4.0) },
            };
            shares.into_iter().zip(ends).map(vertex).collect::<Vec<_>>()
        });
        Self { vertices: pieces.collect() }
    }

    /// The loop as two half circles, where every segment is an arc of one circle.
    fn as_circle(&self, segments: &[Segment]) -> Option<Self> {
        let Segment::Arc { center, radius, .. } = segments[0] else { return None };
        let turned: f64 = segments.iter().map(|segment| segment.sweep().as_radians()).sum();
        let whole = (turned.abs() - std::f64::consts::TAU).abs() < 1e-6;
        if !whole || !segments.iter().all(|segment| is_on_circle(segment, center, radius)) {
            return None;
        }
        let at = |side: f64| Vertex {
            point: Point2::mm(center.x + side * radius.as_mm(), center.y),
            bulge: turned.signum(),
        };
        Some(Self { vertices: vec![at(-1.0), at(1.0)] })
    }
}

/// Whether a segment is an arc of a circle.
fn is_on_circle(segment: &Segment, on: Point2, with: Length) -> bool {
    match segment {
        Segment::Line { .. } => false,
        Segment::Arc { center, radius, .. } => {
            center.distance(on) <= WELD.distance().as_mm() && (*radius - with).abs() <= WELD.distance()
        }
    }
}

/// Two segments in a row as one, where they are one.
fn joined(before: &Segment, after: &Segment) -> Option<Segment> {
    let whole = match (before, after) {
        (Segment::Line { from, .. }, Segment::Line { to, .. }) => {
            if before.chord().dot(after.chord()) <= 0.0 {
                return None;
            }
            Segment::Line { from: *from, to: *to }
        }
        (Segment::Arc { from, center, radius, sweep, .. }, Segment::Arc { to, sweep: other, .. }) => {
            let total = (*sweep + *other).as_radians();
            let one_way = sweep.as_radians() * other.as_radians() > 0.0;
            if !is_on_circle(after, *center, *radius) || !one_way || total.abs() > WIDEST_ARC {
                return None;
            }
            Segment::new(*from, *to, math::tan(total / 4.0))
        }
        _ => return None,
    };
    let off = whole.distance_to(before.to());
    (off <= WELD.distance() && whole.length() > Length::ZERO).then_some(whole)
}

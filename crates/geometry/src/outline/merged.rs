//! Which segments of an outline continue each other, so that they are one?

use units::{Length, math};

use super::{Outline, Vertex};
use crate::{Point2, Segment, WELD};

/// The largest sweep, in radians, that two arcs are joined to: beyond three quarters of a circle a bulge loses its accuracy.
const WIDEST_ARC: f64 = 1.5 * std::f64::consts::PI;

impl Outline {
    /// The same loop without needless vertices: lines that continue each other become one line, arcs of one circle one arc,
    /// and a loop that is a full circle two half circles from its leftmost point.
    ///
    /// - **Accuracy**: no vertex that is left out lies farther than [`WELD`] from the segment that takes its place.
    #[must_use]
    pub fn merged(&self) -> Self {
        let segments: Vec<Segment> = self.segments().collect();
        let count = segments.len();
        let needed = |i: &usize| joined(&segments[(i + count - 1) % count], &segments[*i]).is_none();
        let Some(first) = (0..count).find(needed) else {
            return self.as_circle(&segments).unwrap_or_else(|| self.clone());
        };
        let mut kept: Vec<Segment> = Vec::with_capacity(count);
        for i in 0..count {
            let segment = segments[(first + i) % count];
            match kept.last().and_then(|last| joined(last, &segment)) {
                Some(whole) => *kept.last_mut().expect("a segment was there: our bug") = whole,
                None => kept.push(segment),
            }
        }
        // Two arcs of one circle need two vertices to be told apart.
        if kept.len() < 2 {
            return self.clone();
        }
        let vertex = |segment: &Segment| Vertex { point: segment.from(), bulge: bulge_of(segment) };
        Self { vertices: kept.iter().map(vertex).collect() }
    }

    /// The loop as two half circles, where every segment is an arc of one circle.
    fn as_circle(&self, segments: &[Segment]) -> Option<Self> {
        let Segment::Arc { center, radius, .. } = segments[0] else { return None };
        let bulge = if self.is_counter_clockwise() { 1.0 } else { -1.0 };
        let at = |side: f64| Vertex { point: Point2::mm(center.x + side * radius.as_mm(), center.y), bulge };
        Some(Self { vertices: vec![at(-1.0), at(1.0)] })
    }
}

/// A line's bulge without rounding.
fn bulge_of(segment: &Segment) -> f64 {
    if matches!(segment, Segment::Line { .. }) { 0.0 } else { segment.bulge() }
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
        (
            Segment::Arc { from, center, radius, sweep, .. },
            Segment::Arc { to, center: other, radius: other_radius, sweep: other_sweep, .. },
        ) => {
            let total = (*sweep + *other_sweep).as_radians();
            let one_circle = center.distance(*other) <= WELD.distance().as_mm()
                && (*radius - *other_radius).abs() <= WELD.distance();
            if !one_circle || sweep.as_radians() * other_sweep.as_radians() < 0.0 || total.abs() > WIDEST_ARC
            {
                return None;
            }
            Segment::new(*from, *to, math::tan(total / 4.0))
        }
        _ => return None,
    };
    let off = whole.distance_to(before.to());
    (off <= WELD.distance() && whole.length() > Length::ZERO).then_some(whole)
}

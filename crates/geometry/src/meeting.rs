//! Where do lines and arcs meet, and how near do they come to each other?
//!
//! Two segments *meet* where they cross, touch, or come within [`WELD`] of each other. All answers are exact for lines
//! and arcs, up to rounding; nothing is flattened.

use units::Length;

use crate::segment::center_from_start;
use crate::{Bounds2, Point2, Segment, Vector2, WELD};

/// The points where two runs of segments meet: outlines, shapes, paths or circles, by their segments.
///
/// Where they run along each other, the ends of the shared stretches. Sorted by x, then y; each point once.
pub fn meetings(a: impl IntoIterator<Item = Segment>, b: impl IntoIterator<Item = Segment>) -> Vec<Point2> {
    let (a, b): (Vec<_>, Vec<_>) = (a.into_iter().collect(), b.into_iter().collect());
    let mut points: Vec<Point2> =
        near_pairs(&a, &b).into_iter().flat_map(|(i, j)| segment_meetings(&a[i], &b[j])).collect();
    points.sort_by(|p, q| p.x.total_cmp(&q.x).then(p.y.total_cmp(&q.y)));
    points.dedup_by(|p, q| p.distance(*q) <= WELD.distance().as_mm());
    points
}

/// The two points, one of each run of segments, that are nearest to each other; `None` when a run is empty.
///
/// Where the two cross, the two points are one. The smallest gap is the distance between the two.
pub fn nearest_points(
    a: impl IntoIterator<Item = Segment>,
    b: impl IntoIterator<Item = Segment>,
) -> Option<(Point2, Point2)> {
    let (a, b): (Vec<_>, Vec<_>) = (a.into_iter().collect(), b.into_iter().collect());
    let b_bounds: Vec<_> = b.iter().map(Segment::bounds).collect();
    let mut best: Option<(f64, (Point2, Point2))> = None;
    for a in &a {
        let a_bounds = a.bounds();
        for (b, b_bounds) in b.iter().zip(&b_bounds) {
            if best.is_some_and(|(gap, _)| gap < bounds_gap(a_bounds, *b_bounds)) {
                continue;
            }
            let (p, q) = nearest_of_segments(a, b);
            if best.is_none_or(|(gap, _)| p.distance(q) < gap) {
                best = Some((p.distance(q), (p, q)));
            }
        }
    }
    best.map(|(_, points)| points)
}

/// The smallest distance between two runs of segments, 0 where they cross; `None` when a run is empty.
///
/// How much wood stands between a hole and an edge:
/// ```
/// use boxneck_geometry::{Circle, Outline, Point2, gap};
/// use units::Length;
///
/// let edge = Outline::rectangle(Point2::ORIGIN, Point2::mm(40.0, 20.0))?;
/// let hole = Circle::of_diameter(Point2::mm(33.0, 10.0), Length::mm(8.0));
/// let wood = gap(edge.segments(), hole.segments());
/// assert_eq!(wood, Some(Length::mm(3.0)), "the hole's rightmost point is at x = 37");
/// # Ok::<(), boxneck_geometry::OutlineFault>(())
/// ```
pub fn gap(a: impl IntoIterator<Item = Segment>, b: impl IntoIterator<Item = Segment>) -> Option<Length> {
    nearest_points(a, b).map(|(p, q)| Length::mm(p.distance(q)))
}

/// The first two of a run of joined segments, by number, that meet elsewhere than at an end that they share, and where.
pub(crate) fn first_self_meeting(segments: &[Segment], closed: bool) -> Option<(usize, usize, Point2)> {
    let count = segments.len();
    let mut pairs = near_pairs(segments, segments);
    pairs.retain(|(i, j)| i < j);
    pairs.sort_unstable();
    pairs.into_iter().find_map(|(i, j)| {
        let (a, b) = (&segments[i], &segments[j]);
        let (follows, wraps) = (i + 1 == j, closed && i == 0 && j + 1 == count);
        let point = match (follows, wraps) {
            // Two segments that share both ends have no third point in common, unless they are one: no area.
            (true, true) => None,
            (true, false) => neighbour_meeting(a, b),
            (false, true) => neighbour_meeting(b, a),
            (false, false) => segment_meetings(a, b).into_iter().next(),
        };
        point.map(|point| (i, j, point))
    })
}

/// A point where a segment meets the one that follows it, elsewhere than at the end that they share.
///
/// With that end for the origin, one of the two common points of the carriers is known, and the other follows without
/// a root: so a fillet's tangency is not taken for a crossing.
fn neighbour_meeting(before: &Segment, after: &Segment) -> Option<Point2> {
    let shared = after.from();
    let weld = WELD.distance();
    if after.distance_to(before.from()) <= weld {
        return Some(before.from());
    }
    if before.distance_to(after.to()) <= weld {
        return Some(after.to());
    }
    let offset = match (*before, *after) {
        (Segment::Line { .. }, Segment::Line { .. }) => return None,
        (Segment::Line { from, .. }, Segment::Arc { .. }) => chord_along(from - shared, center_of(after)),
        (Segment::Arc { .. }, Segment::Line { to, .. }) => {
            chord_along(to - shared, center_of(&before.reversed()))
        }
        (Segment::Arc { .. }, Segment::Arc { .. }) => {
            let (first, second) = (center_of(&before.reversed()), center_of(after));
            if (second - first).length() <= weld.as_mm() {
                return None;
            }
            chord_along((second - first).left(), first)
        }
    };
    let point = shared + offset;
    let apart = offset.length() > weld.as_mm();
    (apart && before.spans(point) && after.spans(point)).then_some(point)
}

/// The chord in a direction, of a circle that passes through the origin.
fn chord_along(direction: Vector2, center: Vector2) -> Vector2 {
    direction * (2.0 * direction.dot(center) / direction.dot(direction))
}

/// From the beginning of an arc to its centre, without the detour over the centre's coordinates.
fn center_of(arc: &Segment) -> Vector2 {
    center_from_start(arc.chord(), arc.bulge())
}

/// The points where two segments meet.
pub(crate) fn segment_meetings(a: &Segment, b: &Segment) -> Vec<Point2> {
    let weld = WELD.distance();
    let mut points = crossings(a, b);
    points.extend([a.from(), a.to()].into_iter().filter(|&end| b.distance_to(end) <= weld));
    points.extend([b.from(), b.to()].into_iter().filter(|&end| a.distance_to(end) <= weld));
    if points.is_empty() {
        let (p, q) = nearest_of_segments(a, b);
        points.extend((p.distance(q) <= weld.as_mm()).then_some(p));
    }
    points
}

/// The two points, one of each segment, that are nearest to each other.
fn nearest_of_segments(a: &Segment, b: &Segment) -> (Point2, Point2) {
    if let Some(&point) = crossings(a, b).first() {
        return (point, point);
    }
    let from_a = candidates(a, b).map(|point| (point, b.nearest(point)));
    let from_b = candidates(b, a).map(|point| (a.nearest(point), point));
    from_a
        .chain(from_b)
        .min_by(|(p, q), (r, s)| p.distance(*q).total_cmp(&r.distance(*s)))
        .expect("the ends of a segment are always candidates")
}

/// The points of a segment, its ends among them, of which one is nearest to another segment that does not cross it.
fn candidates(segment: &Segment, other: &Segment) -> impl Iterator<Item = Point2> {
    let inner = match (*segment, *other) {
        (Segment::Line { .. }, Segment::Line { .. }) => Vec::new(),
        (Segment::Line { .. }, Segment::Arc { center, .. }) => vec![segment.nearest(center)],
        (Segment::Arc { center, radius, .. }, _) => {
            let along = match *other {
                Segment::Line { .. } => other.chord().left(),
                Segment::Arc { center: to, .. } => to - center,
            };
            let step = along.normalised().unwrap_or(Vector2::ZERO) * radius.as_mm();
            vec![center + step, center - step]
        }
    };
    let segment = *segment;
    let inner = inner.into_iter().filter(move |&point| segment.spans(point));
    [segment.from(), segment.to()].into_iter().chain(inner)
}

/// The points that both segments pass through: none where they run along each other.
pub(crate) fn crossings(a: &Segment, b: &Segment) -> Vec<Point2> {
    let (a, b) = match (a, b) {
        (Segment::Line { .. }, _) => (a, b),
        (_, Segment::Line { .. }) => (b, a),
        _ => (a, b),
    };
    // Seen from the beginning of b, a circle b is |p|^2 = 2 p.c: no squared radius is lost in a difference.
    let origin = b.from();
    let start = a.from() - origin;
    let offsets = match (a, b) {
        (Segment::Line { .. }, Segment::Line { .. }) => line_line(start, a.chord(), b.chord()),
        (Segment::Line { .. }, Segment::Arc { .. }) => line_circle(start, a.chord(), center_of(b)),
        _ => {
            // The line through the common points of two circles: 2 p.n = w.
            let (center, other) = (center_of(b), center_of(a));
            let normal = start + other - center;
            let weight = start.dot(start) + 2.0 * start.dot(other);
            let square = normal.dot(normal);
            if square.sqrt() <= WELD.distance().as_mm() {
                return Vec::new();
            }
            line_circle(normal * (weight / (2.0 * square)), normal.left() * (1.0 / square.sqrt()), center)
        }
    };
    let points = offsets.into_iter().map(|offset| origin + offset);
    points.filter(|&point| a.spans(point) && b.spans(point)).collect()
}

/// Where the line from `start` along `along` meets the line from the origin along `other`.
fn line_line(start: Vector2, along: Vector2, other: Vector2) -> Vec<Vector2> {
    let cross = along.cross(other);
    // Parallel to rounding: what they share, if anything, is found at their ends.
    if cross.abs() <= 1e-14 * along.length() * other.length() {
        return Vec::new();
    }
    vec![other * (along.cross(start) / along.cross(other))]
}

/// Where the line from `start` along `along` meets the circle about `center` that passes through the origin.
fn line_circle(start: Vector2, along: Vector2, center: Vector2) -> Vec<Vector2> {
    let square = along.dot(along);
    let half = along.dot(start - center);
    let constant = start.dot(start - center * 2.0);
    let discriminant = half * half - square * constant;
    if discriminant < 0.0 {
        return Vec::new();
    }
    // The root of the larger size first: the other follows from their product without cancelling.
    let larger = -(half + discriminant.sqrt().copysign(half));
    if larger == 0.0 {
        return vec![start];
    }
    vec![start + along * (larger / square), start + along * (constant / larger)]
}

/// Which pairs, one of each list, have bounds within [`WELD`] of each other: found by a sweep along x.
fn near_pairs(a: &[Segment], b: &[Segment]) -> Vec<(usize, usize)> {
    let by_left = |segments: &[Segment]| {
        let mut bounds: Vec<(Bounds2, usize)> = segments
            .iter()
            .enumerate()
            .map(|(i, segment)| (segment.bounds().grown(WELD.distance()), i))
            .collect();
        bounds.sort_by(|(p, _), (q, _)| p.min.x.total_cmp(&q.min.x));
        bounds
    };
    let (a, b) = (by_left(a), by_left(b));
    let mut pairs = Vec::new();
    let mut first = 0;
    for (bounds, i) in &a {
        // Those whose right edge lies left of every further left edge are done with.
        while first < b.len() && b[first].0.max.x < bounds.min.x {
            first += 1;
        }
        let reached = b[first..].iter().take_while(|(other, _)| other.min.x <= bounds.max.x);
        pairs.extend(reached.filter(|(other, _)| bounds.overlaps(*other)).map(|(_, j)| (*i, *j)));
    }
    pairs
}

/// Millimetres between two boxes; 0 where they overlap.
fn bounds_gap(a: Bounds2, b: Bounds2) -> f64 {
    let x = (a.min.x - b.max.x).max(b.min.x - a.max.x).max(0.0);
    let y = (a.min.y - b.max.y).max(b.min.y - a.max.y).max(0.0);
    Vector2::mm(x, y).length()
}

//! What does a closed loop of lines and arcs enclose?

mod fault;
mod merged;

pub use fault::OutlineFault;

use units::{Angle, ChordTolerance, Length};

use crate::meeting::first_self_meeting;
use crate::segment::{cap_area, is_straight};
use crate::{Bounds2, Point2, Segment, Vector2, WELD};

/// How far from the origin an outline, a path or a circle of a drawing may reach.
///
/// Larger lets the rounding of coordinates come near [`WELD`]; smaller would refuse a real workshop.
pub(crate) const REACH: Length = Length::mm(1e6);

/// A corner of an outline or a path, and how the segment that leaves it bends.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Vertex {
    /// Where it is.
    pub point: Point2,
    /// The bulge of the segment that leaves it: the tangent of a quarter of the sweep; 0 a line, 1 a half circle,
    /// positive where the arc turns left (counter-clockwise).
    pub bulge: f64,
}

impl Vertex {
    /// A vertex that a straight line leaves.
    #[must_use]
    pub const fn sharp(point: Point2) -> Self {
        Self { point, bulge: 0.0 }
    }
}

/// A closed loop of lines and arcs, in millimetres; the last vertex is joined to the first.
///
/// What [`Outline::new`] checked once holds for good: all numbers are finite, no segment is shorter than [`WELD`],
/// the loop encloses area and does not cross or touch itself. It may run either way round.
#[derive(Clone, Debug, PartialEq)]
pub struct Outline {
    vertices: Vec<Vertex>,
}

impl Outline {
    /// A closed loop through vertices.
    ///
    /// An arc that stands off its chord by less than [`WELD`] becomes a line.
    ///
    /// - **Errors**: every [`OutlineFault`]; the first one found.
    pub fn new(mut vertices: Vec<Vertex>) -> Result<Self, OutlineFault> {
        let least = if vertices.iter().any(|vertex| vertex.bulge != 0.0) { 2 } else { 3 };
        if vertices.len() < least {
            return Err(OutlineFault::TooFewVertices { found: vertices.len(), least });
        }
        let count = vertices.len();
        check_segments(&mut vertices, count)?;
        let outline = Self { vertices };
        let (area, perimeter) = (outline.signed_area(), outline.perimeter());
        if area.abs() <= WELD.distance().as_mm() * perimeter.as_mm() / 2.0 {
            return Err(OutlineFault::NoArea { area, perimeter });
        }
        match outline.first_crossing() {
            Some((first, second, at)) => Err(OutlineFault::Crossing { first, second, at }),
            None => Ok(outline),
        }
    }

    /// Straight lines through points, closed.
    pub fn polygon(points: impl IntoIterator<Item = Point2>) -> Result<Self, OutlineFault> {
        Self::new(points.into_iter().map(Vertex::sharp).collect())
    }

    /// A rectangle along the axes by two opposite corners, counter-clockwise from the lower left.
    pub fn rectangle(a: Point2, b: Point2) -> Result<Self, OutlineFault> {
        let Bounds2 { min, max } = Bounds2::at(a).union(Bounds2::at(b));
        Self::polygon([min, Point2::mm(max.x, min.y), max, Point2::mm(min.x, max.y)])
    }

    /// The vertices, in order.
    #[must_use]
    pub fn vertices(&self) -> &[Vertex] {
        &self.vertices
    }

    /// The pieces, end to end; the i-th leaves the i-th vertex.
    pub fn segments(&self) -> impl Iterator<Item = Segment> {
        self.pairs().map(|(vertex, next)| Segment::new(vertex.point, next.point, vertex.bulge))
    }

    /// Each vertex with the one after it, round the loop.
    fn pairs(&self) -> impl Iterator<Item = (Vertex, Vertex)> {
        let next = self.vertices.iter().skip(1).chain(self.vertices.first());
        self.vertices.iter().copied().zip(next.copied())
    }

    /// Square millimetres enclosed, exact with arcs; positive when the loop runs counter-clockwise.
    #[must_use]
    pub fn signed_area(&self) -> f64 {
        let origin = self.vertices[0].point;
        let twice = |(vertex, next): (Vertex, Vertex)| {
            (vertex.point - origin).cross(next.point - origin)
                + 2.0 * cap_area(next.point - vertex.point, vertex.bulge)
        };
        self.pairs().map(twice).sum::<f64>() / 2.0
    }

    /// The way round, exact with arcs.
    #[must_use]
    pub fn perimeter(&self) -> Length {
        self.segments().map(|segment| segment.length()).sum()
    }

    /// The bounds, exact with arcs.
    #[must_use]
    pub fn bounds(&self) -> Bounds2 {
        let start = Bounds2::at(self.vertices[0].point);
        self.segments().map(|segment| segment.bounds()).fold(start, Bounds2::union)
    }

    /// Whether the loop runs counter-clockwise, with its inside on the left.
    #[must_use]
    pub fn is_counter_clockwise(&self) -> bool {
        self.signed_area() > 0.0
    }

    /// The same loop, turned to run counter-clockwise if it did not.
    #[must_use]
    pub fn counter_clockwise(self) -> Self {
        if self.is_counter_clockwise() { self } else { self.reversed() }
    }

    /// The same loop run the other way, from the same first vertex.
    #[must_use]
    pub fn reversed(&self) -> Self {
        let count = self.vertices.len();
        let vertices = (0..count).map(|i| Vertex {
            point: self.vertices[(count - i) % count].point,
            bulge: -self.vertices[count - 1 - i].bulge,
        });
        Self { vertices: vertices.collect() }
    }

    /// The mirror image in the x axis (y becomes -y); it runs the same way round as this one.
    #[must_use]
    pub fn mirrored_y(&self) -> Self {
        self.mapped(|vertex| Vertex { point: vertex.point.mirrored_y(), bulge: -vertex.bulge }).reversed()
    }

    /// The same loop elsewhere.
    #[must_use]
    pub fn translated(&self, by: Vector2) -> Self {
        self.mapped(|vertex| Vertex { point: vertex.point + by, ..vertex })
    }

    /// The loop after a turn about the origin, counter-clockwise.
    #[must_use]
    pub fn rotated(&self, angle: Angle) -> Self {
        self.mapped(|vertex| Vertex { point: vertex.point.rotated_about(Point2::ORIGIN, angle), ..vertex })
    }

    fn mapped(&self, change: impl Fn(Vertex) -> Vertex) -> Self {
        Self { vertices: self.vertices.iter().copied().map(change).collect() }
    }

    /// Points round the loop, the first not repeated, whose straight connection deviates by at most the tolerance.
    #[must_use]
    pub fn flatten(&self, chord: ChordTolerance) -> Vec<Point2> {
        let mut points = Vec::with_capacity(self.vertices.len());
        for segment in self.segments() {
            points.push(segment.from());
            points.extend(segment.flatten(chord));
        }
        points
    }

    /// Whether a point is inside, exact with arcs; within rounding of the edge either answer may come.
    ///
    /// The winding number of the polygon of the chords, and one more or less for each cap between an arc and its
    /// chord that holds the point. A point on a chord is taken for one a little to the right of itself, both times.
    #[must_use]
    pub fn contains(&self, point: Point2) -> bool {
        self.pairs().map(|(vertex, next)| winding(vertex, next.point, point)).sum::<i32>() != 0
    }

    /// The first two segments, by the vertices that they leave, that meet elsewhere than at a vertex that they share,
    /// and a point where they do. A made outline has none.
    #[must_use]
    pub fn first_crossing(&self) -> Option<(usize, usize, Point2)> {
        let segments: Vec<Segment> = self.segments().collect();
        first_self_meeting(&segments, true)
    }
}

/// Refuses what is not finite or too short among the first `count` segments, and turns flat arcs into lines.
pub(crate) fn check_segments(vertices: &mut [Vertex], count: usize) -> Result<(), OutlineFault> {
    let finite = |vertex: &Vertex| vertex.point.is_finite() && vertex.bulge.is_finite();
    if let Some(vertex) = vertices.iter().position(|vertex| !finite(vertex)) {
        return Err(OutlineFault::NotFinite { vertex });
    }
    if let Some(vertex) = vertices.iter().position(|vertex| !is_in_reach(vertex.point)) {
        return Err(OutlineFault::OutOfReach { vertex, reach: REACH });
    }
    for i in 0..count {
        let chord = vertices[(i + 1) % vertices.len()].point - vertices[i].point;
        if chord.length() <= WELD.distance().as_mm() {
            let found = Length::mm(chord.length());
            return Err(OutlineFault::ShortSegment { vertex: i, found, least: WELD.distance() });
        }
        // The radius of an arc of more than a half circle, to within a factor of 2.
        if vertices[i].bulge.abs() > 1.0 && chord.length() * vertices[i].bulge.abs() / 4.0 > REACH.as_mm() {
            return Err(OutlineFault::OutOfReach { vertex: i, reach: REACH });
        }
        if is_straight(chord, vertices[i].bulge) {
            vertices[i].bulge = 0.0;
        }
    }
    Ok(())
}

/// Whether a point has finite coordinates that are not so large that rounding shows.
pub(crate) fn is_in_reach(point: Point2) -> bool {
    point.x.abs() <= REACH.as_mm() && point.y.abs() <= REACH.as_mm()
}

/// What one segment adds to the winding number of the loop about a point.
fn winding(vertex: Vertex, to: Point2, point: Point2) -> i32 {
    let from = vertex.point;
    let (chord, bulge) = (to - from, vertex.bulge);
    let side = match chord.cross(point - from) {
        0.0 if chord.y != 0.0 => -chord.y,
        0.0 => chord.x,
        side => side,
    };
    let upward = from.y <= point.y && point.y < to.y && side > 0.0;
    let downward = to.y <= point.y && point.y < from.y && side < 0.0;
    let polygon = i32::from(upward) - i32::from(downward);
    // Inside the cap, the chord is seen under a larger angle than from the arc: 180 degrees less half the sweep.
    let (a, b) = (from - point, to - point);
    let within_circle = 2.0 * bulge.abs() * a.dot(b) + (1.0 - bulge * bulge) * a.cross(b).abs() < 0.0;
    let in_cap = side * bulge < 0.0 && within_circle;
    polygon + if in_cap { bulge.signum() as i32 } else { 0 }
}

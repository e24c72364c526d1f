//! Where does an open line of lines and arcs run?

use units::{Angle, ChordTolerance, Length};

use crate::meeting::first_self_meeting;
use crate::outline::check_segments;
use crate::{Bounds2, OutlineFault, Point2, Segment, Vector2, Vertex, WELD};

/// An open run of lines and arcs, with the bulges of an [`Outline`](crate::Outline); the last bulge is unused and kept 0.
///
/// Every coordinate is finite and no segment is shorter than [`WELD`](crate::WELD). A path may cross itself.
#[derive(Clone, Debug, PartialEq)]
pub struct Path {
    vertices: Vec<Vertex>,
}

impl Path {
    /// A path through vertices, in order; the last one's bulge is dropped.
    pub fn new(mut vertices: Vec<Vertex>) -> Result<Self, OutlineFault> {
        if vertices.len() < 2 {
            return Err(OutlineFault::TooFewVertices { found: vertices.len(), least: 2 });
        }
        if let Some(last) = vertices.last_mut() {
            last.bulge = 0.0;
        }
        let count = vertices.len();
        check_segments(&mut vertices, count - 1)?;
        Ok(Self { vertices })
    }

    /// One straight line.
    pub fn line(from: Point2, to: Point2) -> Result<Self, OutlineFault> {
        Self::polyline([from, to])
    }

    /// Straight lines through points.
    pub fn polyline(points: impl IntoIterator<Item = Point2>) -> Result<Self, OutlineFault> {
        Self::new(points.into_iter().map(Vertex::sharp).collect())
    }

    /// The vertices, in order.
    #[must_use]
    pub fn vertices(&self) -> &[Vertex] {
        &self.vertices
    }

    /// Where it begins.
    #[must_use]
    pub fn start(&self) -> Point2 {
        self.vertices[0].point
    }

    /// Where it ends.
    #[must_use]
    pub fn end(&self) -> Point2 {
        self.vertices[self.vertices.len() - 1].point
    }

    /// The pieces, end to end.
    pub fn segments(&self) -> impl Iterator<Item = Segment> {
        self.vertices.windows(2).map(|pair| Segment::new(pair[0].point, pair[1].point, pair[0].bulge))
    }

    /// How long it is, along itself.
    #[must_use]
    pub fn length(&self) -> Length {
        self.segments().map(|segment| segment.length()).sum()
    }

    /// The exact bounds.
    #[must_use]
    pub fn bounds(&self) -> Bounds2 {
        let ends = Bounds2::at(self.start());
        self.segments().map(|segment| segment.bounds()).fold(ends, Bounds2::union)
    }

    /// The first two segments, by number, that meet elsewhere than at an end that they share, and a point where they do.
    ///
    /// A path that ends where it began shares that end too.
    #[must_use]
    pub fn first_crossing(&self) -> Option<(usize, usize, Point2)> {
        let segments: Vec<Segment> = self.segments().collect();
        let returns = self.start().distance(self.end()) <= WELD.distance().as_mm();
        first_self_meeting(&segments, returns)
    }

    /// Points from the first to the last whose straight connection deviates by at most the tolerance.
    #[must_use]
    pub fn flatten(&self, chord: ChordTolerance) -> Vec<Point2> {
        let mut points = vec![self.start()];
        for segment in self.segments() {
            points.extend(segment.flatten(chord));
            points.push(segment.to());
        }
        points
    }

    /// The same path, run the other way.
    #[must_use]
    pub fn reversed(&self) -> Self {
        let last = self.vertices.len() - 1;
        let bulge_after = |i: usize| if i == 0 { 0.0 } else { -self.vertices[i - 1].bulge };
        let vertices = (0..=last)
            .rev()
            .map(|i| Vertex { point: self.vertices[i].point, bulge: bulge_after(i) })
            .collect();
        Self { vertices }
    }

    /// The mirror image in the x axis, run the same way.
    #[must_use]
    pub fn mirrored_y(&self) -> Self {
        self.mapped(|vertex| Vertex { point: vertex.point.mirrored_y(), bulge: -vertex.bulge })
    }

    /// The same path elsewhere.
    #[must_use]
    pub fn translated(&self, by: Vector2) -> Self {
        self.mapped(|vertex| Vertex { point: vertex.point + by, ..vertex })
    }

    /// The path after a turn about the origin, counter-clockwise.
    #[must_use]
    pub fn rotated(&self, angle: Angle) -> Self {
        self.mapped(|vertex| Vertex { point: vertex.point.rotated_about(Point2::ORIGIN, angle), ..vertex })
    }

    fn mapped(&self, change: impl Fn(Vertex) -> Vertex) -> Self {
        Self { vertices: self.vertices.iter().copied().map(change).collect() }
    }
}

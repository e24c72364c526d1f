//! What does a polygon look like when its corners are rounded?

use units::{Length, math};

use crate::{Outline, OutlineFault, Point2, Vector2, Vertex, WELD};

/// A corner of a polygon and the radius that rounds it; a radius of 0 leaves it sharp.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Corner {
    /// Where the two edges would meet.
    pub point: Point2,
    /// The radius of the arc that joins them, tangent to both.
    pub radius: Length,
}

impl Outline {
    /// A polygon whose corners are rounded, each with its own radius, inside corners as well as outside ones.
    ///
    /// Where two arcs use up an edge to within [`WELD`], they join without a line between them.
    ///
    /// - **Errors**: [`OutlineFault::RadiusDoesNotFit`] where an edge is too short for the arcs at its ends, with the
    ///   largest radius that fits beside the neighbours as they are; those of [`Outline::new`].
    ///
    /// Four corners of radius 5 turn a square of side 10 into a circle:
    /// ```
    /// use boxneck_geometry::{Corner, Outline, Point2};
    /// use units::Length;
    ///
    /// let corner = |x, y| Corner { point: Point2::mm(x, y), radius: Length::mm(5.0) };
    /// let round = Outline::rounded(&[corner(0.0, 0.0), corner(10.0, 0.0), corner(10.0, 10.0), corner(0.0, 10.0)])?;
    /// assert!((round.signed_area() - std::f64::consts::PI * 25.0).abs() < 1e-9, "pi r squared");
    /// # Ok::<(), boxneck_geometry::OutlineFault>(())
    /// ```
    pub fn rounded(corners: &[Corner]) -> Result<Self, OutlineFault> {
        let sharp = Self::polygon(corners.iter().map(|corner| corner.point))?;
        let count = corners.len();
        let edges: Vec<Vector2> = sharp.segments().map(|segment| segment.chord()).collect();
        let turns: Vec<Turn> =
            (0..count).map(|i| Turn::new(edges[(i + count - 1) % count], edges[i])).collect();
        let setbacks: Vec<f64> =
            corners.iter().zip(&turns).map(|(corner, turn)| corner.radius.as_mm() * turn.setback).collect();
        for (corner, &Corner { radius, .. }) in corners.iter().enumerate() {
            if radius < Length::ZERO {
                return Err(OutlineFault::NegativeRadius { corner, radius });
            }
        }
        for i in 0..count {
            let next = (i + 1) % count;
            if setbacks[i] + setbacks[next] > edges[i].length() + WELD.distance().as_mm() {
                let corner = if setbacks[i] >= setbacks[next] { i } else { next };
                let (before, after) = ((corner + count - 1) % count, (corner + 1) % count);
                let room =
                    (edges[before].length() - setbacks[before]).min(edges[corner].length() - setbacks[after]);
                let largest = Length::mm(room.max(0.0) / turns[corner].setback);
                return Err(OutlineFault::RadiusDoesNotFit {
                    corner,
                    radius: corners[corner].radius,
                    largest,
                });
            }
        }
        let mut vertices: Vec<Vertex> = Vec::with_capacity(2 * count);
        for (i, corner) in corners.iter().enumerate() {
            if setbacks[i] <= WELD.distance().as_mm() {
                vertices.push(Vertex::sharp(corner.point));
                continue;
            }
            let before = edges[(i + count - 1) % count];
            let arrives = corner.point - before * (setbacks[i] / before.length());
            let leaves = corner.point + edges[i] * (setbacks[i] / edges[i].length());
            vertices.push(Vertex { point: arrives, bulge: turns[i].bulge });
            vertices.push(Vertex::sharp(leaves));
        }
        Self::new(without_used_up_lines(&vertices))
    }
}

/// How an outline turns at a corner.
struct Turn {
    /// The bulge of an arc that turns as much.
    bulge: f64,
    /// How far from the corner the arc begins, for a radius of 1: the tangent of half the turn.
    setback: f64,
}

impl Turn {
    fn new(before: Vector2, after: Vector2) -> Self {
        let angle = before.angle_to(after).as_radians();
        Self { bulge: math::tan(angle / 4.0), setback: math::tan(angle.abs() / 2.0) }
    }
}

/// Leaves out the vertices whose line is used up by the arcs at its two ends.
fn without_used_up_lines(vertices: &[Vertex]) -> Vec<Vertex> {
    let next = vertices.iter().skip(1).chain(vertices.first());
    let used_up = |(vertex, next): &(&Vertex, &Vertex)| {
        vertex.bulge == 0.0 && vertex.point.distance(next.point) <= WELD.distance().as_mm()
    };
    vertices.iter().zip(next).filter(|pair| !used_up(pair)).map(|(vertex, _)| *vertex).collect()
}

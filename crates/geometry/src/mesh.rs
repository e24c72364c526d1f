//! What is a solid as triangles, what does it measure, and is it closed?

use thiserror::Error;
use units::WeldDistance;

use crate::{Bounds3, Point3, Rigid3, Vector3};

mod rounding;
#[cfg(test)]
mod tests;

/// A closed surface of triangles that share their points by number; each triangle runs counter-clockwise for an eye
/// outside. Millimetres.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Mesh {
    points: Vec<Point3>,
    triangles: Vec<[u32; 3]>,
}

/// A reason why triangles do not bound a solid.
#[derive(Clone, Debug, Error, PartialEq)]
#[non_exhaustive]
pub enum MeshFault {
    /// A triangle names a point that does not exist.
    #[error("triangle {triangle} names a point that does not exist")]
    NoSuchPoint {
        /// The triangle, counted from 0.
        triangle: usize,
    },
    /// A triangle has no area.
    #[error("triangle {triangle} has no area")]
    NoArea {
        /// The triangle, counted from 0.
        triangle: usize,
    },
    /// An edge is not used once each way.
    #[error(
        "the edge between points {from} and {to} is used {along} times one way and {against} times the other"
    )]
    OpenEdge {
        /// The number of the point where the edge begins.
        from: u32,
        /// The number of the point where it ends.
        to: u32,
        /// How many triangles run along it.
        along: usize,
        /// How many triangles run against it.
        against: usize,
    },
    /// The triangles look inward, or there is nothing inside.
    #[error("the triangles enclose {volume} cubic millimetres, expected more than none")]
    NoVolume {
        /// Cubic millimetres, negative where they look inward.
        volume: f64,
    },
}

impl Mesh {
    /// A mesh of points and of triangles that name them by number.
    ///
    /// - **Errors**: [`MeshFault::NoSuchPoint`]; whether it is closed, [`Mesh::check_closed`] tells.
    pub fn new(points: Vec<Point3>, triangles: Vec<[u32; 3]>) -> Result<Self, MeshFault> {
        let count = points.len();
        match triangles.iter().position(|triangle| triangle.iter().any(|&point| point as usize >= count)) {
            Some(triangle) => Err(MeshFault::NoSuchPoint { triangle }),
            None => Ok(Self { points, triangles }),
        }
    }

    /// The points.
    #[must_use]
    pub fn points(&self) -> &[Point3] {
        &self.points
    }

    /// The triangles, as numbers of points.
    #[must_use]
    pub fn triangles(&self) -> &[[u32; 3]] {
        &self.triangles
    }

    /// The corners of every triangle.
    pub fn corners(&self) -> impl Iterator<Item = [Point3; 3]> {
        self.triangles.iter().map(|triangle| triangle.map(|point| self.points[point as usize]))
    }

    /// Cubic millimetres inside.
    ///
    /// - **Source**: the divergence theorem: the sum over the triangles of the signed tetrahedra to one point.
    #[must_use]
    pub fn volume(&self) -> f64 {
        let apex = self.apex();
        self.corners().map(|[a, b, c]| (a - apex).dot((b - apex).cross(c - apex)) / 6.0).sum()
    }

    /// Square millimetres of surface.
    #[must_use]
    pub fn area(&self) -> f64 {
        self.corners().map(|corners| double_area(corners) / 2.0).sum()
    }

    /// The smallest box along the axes that holds every point; `None` of a mesh without points.
    #[must_use]
    pub fn bounds(&self) -> Option<Bounds3> {
        Bounds3::of_points(self.points.iter().copied())
    }

    /// The centre of mass of the solid, were it of one material; `None` where it has no volume.
    #[must_use]
    pub fn center_of_mass(&self) -> Option<Point3> {
        let apex = self.apex();
        let mut moment = Vector3::ZERO;
        let mut volume = 0.0;
        for [a, b, c] in self.corners() {
            let (a, b, c) = (a - apex, b - apex, c - apex);
            let tetrahedron = a.dot(b.cross(c)) / 6.0;
            moment = moment + (a + b + c) * (tetrahedron / 4.0);
            volume += tetrahedron;
        }
        (volume != 0.0).then(|| apex + moment * (1.0 / volume))
    }

    /// The mesh after a motion.
    #[must_use]
    pub fn moved(&self, motion: &Rigid3) -> Self {
        let points = self.points.iter().map(|&point| motion.point(point)).collect();
        Self { points, triangles: self.triangles.clone() }
    }

    /// Whether the triangles bound a solid: each edge is used once each way, no triangle is without area, and the
    /// volume is positive.
    ///
    /// - **Errors**: the first [`MeshFault`] found.
    pub fn check_closed(&self) -> Result<(), MeshFault> {
        if let Some(triangle) = self.corners().position(|corners| double_area(corners) <= 0.0) {
            return Err(MeshFault::NoArea { triangle });
        }
        if let Some(fault) = self.first_open_edge() {
            return Err(fault);
        }
        let volume = self.volume();
        if volume > 0.0 { Ok(()) } else { Err(MeshFault::NoVolume { volume }) }
    }

    /// The mesh as a file with 32-bit coordinates will hold it: every coordinate rounded, points that are then
    /// within the weld distance of each other made one, and triangles that this leaves without area taken out.
    #[must_use]
    pub fn rounded_to_f32(&self, weld: WeldDistance) -> Self {
        rounding::rounded_to_f32(self, weld)
    }

    /// The first edge, by the numbers of its points, that is not used once each way.
    fn first_open_edge(&self) -> Option<MeshFault> {
        let sides = self.triangles.iter().flat_map(|&[a, b, c]| [(a, b), (b, c), (c, a)]);
        let mut uses: Vec<(u32, u32, bool)> =
            sides.map(|(from, to)| (from.min(to), from.max(to), from < to)).collect();
        uses.sort_unstable();
        let mut edges = uses.chunk_by(|one, other| (one.0, one.1) == (other.0, other.1));
        edges.find_map(|edge| {
            let along = edge.iter().filter(|(.., along)| *along).count();
            let ((from, to, _), against) = (edge[0], edge.len() - along);
            ((along, against) != (1, 1)).then_some(MeshFault::OpenEdge { from, to, along, against })
        })
    }

    /// A point near the mesh, from which to sum without losing digits.
    fn apex(&self) -> Point3 {
        self.bounds().map_or(Point3::ORIGIN, Bounds3::center)
    }
}

/// Twice the area of a triangle, in square millimetres.
fn double_area([a, b, c]: [Point3; 3]) -> f64 {
    (b - a).cross(c - a).length()
}

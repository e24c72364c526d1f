//! What is the boundary of a body, before anyone reads it as triangles or as surfaces?
//!
//! Points are shared by edges and edges by faces, by number. Each edge is used by exactly two faces, once each way:
//! that is what makes every mesh read from it watertight and every boundary representation closed.

use super::{BodyFault, Curve3};
use crate::{Frame3, Point3, Vector3};

/// The boundary of a body.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Skin {
    pub(super) points: Vec<Point3>,
    pub(super) edges: Vec<Edge>,
    pub(super) faces: Vec<Face>,
}

/// A line or arc between two points of a skin.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Edge {
    /// The number of the point where it begins.
    pub from: usize,
    /// The number of the point where it ends.
    pub to: usize,
    /// The way between them.
    pub curve: Curve3,
}

/// One of the two uses of an edge by faces.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct EdgeUse {
    /// The number of the edge.
    pub edge: usize,
    /// Whether the face runs along it from its beginning to its end.
    pub forward: bool,
}

/// A closed row of edge uses; the face lies to its left for an eye outside the body.
pub type FaceLoop = Vec<EdgeUse>;

/// A piece of a surface within loops of edges.
#[derive(Clone, Debug, PartialEq)]
pub struct Face {
    /// The surface that it is a piece of.
    pub surface: Surface,
    /// Its loops: the outer first, then its holes.
    pub loops: Vec<FaceLoop>,
}

/// What a face is a piece of.
#[derive(Clone, Debug, PartialEq)]
pub enum Surface {
    /// A plane; the normal of the frame looks out of the body.
    Plane(Frame3),
    /// Straight rulings between the points at equal shares of two curves.
    Ruled(Strip),
    /// Half of the wall of a bore: a ruling turned about an axis.
    Revolved {
        /// The half circles at both ends.
        strip: Strip,
        /// A point of the axis.
        center: Point3,
        /// The direction of the axis, of length 1.
        axis: Vector3,
    },
}

/// The two curves between which a face is ruled, and how its one loop lies on them: along the start, up a side,
/// back along the end and down the other side. Start crossed with up looks out of the body.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Strip {
    /// The curve that the loop follows.
    pub start: Curve3,
    /// The curve that the loop follows backward; of no length where the face ends in a tip.
    pub end: Curve3,
    /// How many edge uses of the loop lie on the start; the rest but two lie on the end.
    pub start_uses: usize,
}

impl EdgeUse {
    /// The use by the face on the other side.
    #[must_use]
    pub const fn reversed(self) -> Self {
        Self { edge: self.edge, forward: !self.forward }
    }
}

impl Skin {
    /// The points.
    #[must_use]
    pub fn points(&self) -> &[Point3] {
        &self.points
    }

    /// The edges.
    #[must_use]
    pub fn edges(&self) -> &[Edge] {
        &self.edges
    }

    /// The faces.
    #[must_use]
    pub fn faces(&self) -> &[Face] {
        &self.faces
    }

    /// The number of the point where a use begins.
    #[must_use]
    pub fn start_of(&self, edge_use: EdgeUse) -> usize {
        let edge = &self.edges[edge_use.edge];
        if edge_use.forward { edge.from } else { edge.to }
    }

    /// The number of the point where a use ends.
    #[must_use]
    pub fn end_of(&self, edge_use: EdgeUse) -> usize {
        self.start_of(edge_use.reversed())
    }

    /// The curve along which a use runs, in its direction.
    #[must_use]
    pub fn curve_of(&self, edge_use: EdgeUse) -> Curve3 {
        let curve = self.edges[edge_use.edge].curve;
        if edge_use.forward { curve } else { curve.reversed() }
    }

    /// Whether the skin is closed: every edge is used exactly twice, once each way, and every loop returns to its
    /// beginning.
    ///
    /// - **Errors**: [`BodyFault::OpenSkin`] or [`BodyFault::BrokenLoop`], with the place.
    pub fn check(&self) -> Result<(), BodyFault> {
        let mut uses = vec![[0_usize; 2]; self.edges.len()];
        for face_loop in self.faces.iter().flat_map(|face| &face.loops) {
            for (index, &edge_use) in face_loop.iter().enumerate() {
                uses[edge_use.edge][usize::from(edge_use.forward)] += 1;
                let next = face_loop[(index + 1) % face_loop.len()];
                if self.end_of(edge_use) != self.start_of(next) {
                    return Err(BodyFault::BrokenLoop { at: self.points[self.end_of(edge_use)] });
                }
            }
        }
        match uses.iter().position(|&count| count != [1, 1]) {
            None => Ok(()),
            Some(edge) => {
                let uses = uses[edge][0] + uses[edge][1];
                Err(BodyFault::OpenSkin { uses, at: self.edges[edge].curve.point(0.5) })
            }
        }
    }

    pub(super) fn add_point(&mut self, point: Point3) -> usize {
        self.points.push(point);
        self.points.len() - 1
    }

    pub(super) fn add_edge(&mut self, from: usize, to: usize, bulge: f64, normal: Vector3) -> usize {
        let curve = Curve3 { from: self.points[from], to: self.points[to], bulge, normal };
        self.edges.push(Edge { from, to, curve });
        self.edges.len() - 1
    }

    pub(super) fn add_line(&mut self, from: usize, to: usize) -> usize {
        self.add_edge(from, to, 0.0, Vector3::ZERO)
    }
}

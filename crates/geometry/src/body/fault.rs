//! What can be wrong with the description of a body?

use thiserror::Error;

use crate::{MeshFault, Point3};

/// A reason why a description is not a solid. Places are in the body's own coordinates, lengths in millimetres.
#[derive(Clone, Debug, Error, PartialEq)]
#[non_exhaustive]
pub enum BodyFault {
    /// A body needs something to be made of.
    #[error("a body needs at least one loft")]
    NoLoft,
    /// The chain of lofts does not begin on a wall of its root.
    #[error("no flat wall of the root is the first ring of the chain")]
    NoWall,
    /// The two rings of a loft differ in their number of vertices.
    #[error("loft {loft} has {start} vertices at its start and {end} at its end")]
    VertexCount {
        /// The loft, counted from 0.
        loft: usize,
        /// Vertices of the start ring.
        start: usize,
        /// Vertices of the end ring.
        end: usize,
    },
    /// A segment is a line at one end of a loft and an arc, or an arc that turns the other way, at the other.
    #[error("segment {segment} of loft {loft} is a line or turns left at one end only")]
    SegmentKind {
        /// The loft, counted from 0.
        loft: usize,
        /// The segment, counted from 0.
        segment: usize,
    },
    /// A ring runs clockwise.
    #[error("a ring of loft {loft} runs clockwise in its frame")]
    Clockwise {
        /// The loft, counted from 0.
        loft: usize,
    },
    /// The directions of a frame are not of length 1 and perpendicular.
    #[error("a frame of loft {loft} is not of two perpendicular directions of length 1")]
    Frame {
        /// The loft, counted from 0.
        loft: usize,
    },
    /// The end of a loft is not wholly beyond its start.
    #[error(
        "loft {loft} does not go forward at vertex {vertex}: {rise:.6} mm from its start plane or to its end plane"
    )]
    Backward {
        /// The loft, counted from 0.
        loft: usize,
        /// The vertex, counted from 0.
        vertex: usize,
        /// How far forward it goes, in millimetres.
        rise: f64,
    },
    /// A section on the way along a loft crosses itself: the rulings twist through each other.
    #[error("loft {loft} twists so that it crosses itself")]
    Twisted {
        /// The loft, counted from 0.
        loft: usize,
    },
    /// A loft begins in another plane than the former ends in.
    #[error("loft {loft} does not begin in the plane where the former ends: {gap:.6} mm off")]
    Gap {
        /// The later loft, counted from 0.
        loft: usize,
        /// The largest distance of its start ring from that plane, in millimetres.
        gap: f64,
    },
    /// Two lofts share no area where they meet.
    #[error("loft {loft} does not touch the former over any area")]
    Apart {
        /// The later loft, counted from 0.
        loft: usize,
    },
    /// Two lofts touch from outside along an edge, where the solid would have no thickness.
    #[error("two lofts touch along an edge only, at {}", Place(*at))]
    EdgeTouch {
        /// A point of the edge.
        at: Point3,
    },
    /// A loop of a face could not be followed to its beginning.
    #[error("the outline of a face cannot be followed at {}", Place(*at))]
    BrokenLoop {
        /// Where it breaks off.
        at: Point3,
    },
    /// A bore has no direction, fewer than two steps, a step that goes back, or a radius that is not positive.
    #[error("bore {bore} is not a row of steps that go deeper with positive radii from depth 0")]
    BoreShape {
        /// The bore, counted from 0.
        bore: usize,
    },
    /// A bore does not begin on a flat face that it is square to.
    #[error("bore {bore} does not begin on a flat face square to it, at {}", Place(*at))]
    BoreMissesFace {
        /// The bore, counted from 0.
        bore: usize,
        /// Its entry.
        at: Point3,
    },
    /// The circle of a bore is not wholly inside the face that it enters or leaves by.
    #[error("bore {bore} runs over the edge of a face at {}: {room:.3} mm of room for a radius of {radius:.3} mm", Place(*at))]
    BoreLeavesFace {
        /// The bore, counted from 0.
        bore: usize,
        /// The circle's centre.
        at: Point3,
        /// The circle's radius, in millimetres.
        radius: f64,
        /// The distance from the centre to the nearest edge, in millimetres.
        room: f64,
    },
    /// Two bores overlap in a face or meet inside the solid.
    #[error("bores {first} and {second} meet near {}", Place(*at))]
    BoresMeet {
        /// The earlier bore, counted from 0.
        first: usize,
        /// The later bore, counted from 0.
        second: usize,
        /// A place near where they meet.
        at: Point3,
    },
    /// A bore comes out of the solid otherwise than at its last step through a flat face square to it.
    #[error("bore {bore} comes out of the solid near {}, {depth:.3} mm deep", Place(*at))]
    BoreBreaksOut {
        /// The bore, counted from 0.
        bore: usize,
        /// Where.
        at: Point3,
        /// How deep, in millimetres.
        depth: f64,
    },
    /// A recess is not wholly inside the outline of its plate.
    #[error("recess {recess} runs over the edge of the plate")]
    RecessLeavesPlate {
        /// The recess, counted from 0.
        recess: usize,
    },
    /// Two recesses of a plate touch or overlap.
    #[error("recesses {first} and {second} of the plate meet")]
    RecessesMeet {
        /// The earlier recess, counted from 0.
        first: usize,
        /// The later recess, counted from 0.
        second: usize,
    },
    /// The edges of a face cross or coincide as far as the mesh can tell: it is too thin somewhere.
    #[error("a face is too thin to be cut into triangles near {}", Place(*at))]
    TooThin {
        /// A point of the face.
        at: Point3,
    },
    /// An edge of the skin is not used by exactly two faces, once each way.
    #[error("an edge is used by {uses} faces, near {}", Place(*at))]
    OpenSkin {
        /// How many uses it has.
        uses: usize,
        /// A point of the edge.
        at: Point3,
    },
    /// The mesh that was read is not closed.
    #[error("the mesh of the body is not closed")]
    Mesh(#[from] MeshFault),
    /// The boundary representation refuses the skin.
    #[error("the boundary representation refuses the skin: {reason}")]
    Brep {
        /// What it said.
        reason: String,
    },
}

/// A place as people read it.
struct Place(Point3);

impl std::fmt::Display for Place {
    fn fmt(&self, formatter: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(formatter, "({:.3}, {:.3}, {:.3})", self.0.x, self.0.y, self.0.z)
    }
}

//! Why do vertices, or corners with radii, make no outline or path?

use units::Length;

use crate::Point2;

/// Why vertices make no outline, or no path.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum OutlineFault {
    /// There is no loop with so few vertices: two need an arc between them.
    #[error("at least {least} vertices are needed, found {found}")]
    TooFewVertices {
        /// How many were given.
        found: usize,
        /// How many are needed.
        least: usize,
    },
    /// A coordinate or a bulge is not a finite number.
    #[error("vertex {vertex} must have a finite place and bulge")]
    NotFinite {
        /// Which vertex, from 0.
        vertex: usize,
    },
    /// A vertex, or the circle of an arc that covers more than half of it, is so large that rounding shows.
    #[error("vertex {vertex} and the arc that leaves it must keep within {} mm", reach.as_mm())]
    OutOfReach {
        /// Which vertex, from 0.
        vertex: usize,
        /// How far from the origin a coordinate may be, and how large such a radius.
        reach: Length,
    },
    /// Two vertices in a row are one point.
    #[error("the segment that leaves vertex {vertex} must be longer than {} mm, found {} mm",
        least.as_mm(), found.as_mm())]
    ShortSegment {
        /// Which vertex it leaves, from 0.
        vertex: usize,
        /// From end to end.
        found: Length,
        /// What it must exceed.
        least: Length,
    },
    /// The loop goes out and back the same way.
    #[error("an outline must enclose area, found {area} mm2 within {} mm of edge", perimeter.as_mm())]
    NoArea {
        /// Square millimetres enclosed, by sign.
        area: f64,
        /// The way round.
        perimeter: Length,
    },
    /// Two segments cross or touch elsewhere than at the vertex that they share.
    #[error("segments {first} and {second} meet at ({}, {}) mm", at.x, at.y)]
    Crossing {
        /// The vertex that the first segment leaves, from 0.
        first: usize,
        /// The vertex that the second segment leaves, from 0.
        second: usize,
        /// A point where they meet.
        at: Point2,
    },
    /// A corner cannot be rounded inward.
    #[error("the radius of corner {corner} must not be negative, found {} mm", radius.as_mm())]
    NegativeRadius {
        /// Which corner, from 0.
        corner: usize,
        /// Its radius.
        radius: Length,
    },
    /// An edge is too short for the arcs at its ends.
    #[error("the radius of corner {corner} must be at most {} mm, found {} mm", largest.as_mm(), radius.as_mm())]
    RadiusDoesNotFit {
        /// Which corner, from 0.
        corner: usize,
        /// Its radius.
        radius: Length,
        /// The largest radius for which there is room beside the neighbours as they are.
        largest: Length,
    },
}

//! How is a solid described once, so that a mesh and a boundary representation can both be read from it?
//!
//! - *Section*: a closed line-and-arc ring in a plane.
//! - *Loft*: the solid between two sections, with straight rulings from each point of one ring to its like on the other.
//! - *Body*: a chain of lofts, each beginning in the plane where the former ends, less its bores. Where two lofts
//!   meet, their rings may differ in every way: a step, a slot wall and a shoulder are the part of that plane that
//!   only one of them covers.
//! - *Root*: a loft on a flat wall of which the chain begins, so that a body can be wide where the chain cannot say so.
//! - *Bore*: a round hole, square to the flat face that it enters, straight, stepped or countersunk.
//! - *Skin*: the boundary of a body: points, edges and faces that share them. It is built once and read twice, so
//!   that mesh and boundary representation cannot disagree about what touches what.
//! - *Plate*: the solid under a flat outline, less recesses of any outline; it has a skin like a body's.
//!
//! There is no general boolean: what is neither a chain of lofts with or without a root, less its bores, nor a plate is not described by
//! this module.

mod arrangement;
mod assembly;
mod bore;
mod bore_room;
mod boring;
mod brep;
mod curve;
mod description;
mod fault;
mod flat;
mod flat_triangles;
mod merging;
mod plate;
mod regions;
mod rooted;
mod skin;
mod triangulation;

pub use bore::{Bore, BoreStep};
pub use curve::Curve3;
pub use description::{Body, Loft, Section};
pub use fault::BodyFault;
pub(crate) use flat_triangles::triangulate;
pub use plate::{Plate, Recess};
pub use skin::{Edge, EdgeUse, Face, FaceLoop, Skin, Strip, Surface};

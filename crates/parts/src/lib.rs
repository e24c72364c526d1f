//! What is the instrument made of?
//!
//! Each part is a file here and a line in [`parts`]: from a [`Layout`](layout::Layout) it makes the flat drawings that a
//! saw, a router or a pencil follows and, where the part is a body, the solid. Drawings lie in a frame of their own,
//! stated by their datum; solids stand in the instrument frame and say how they are laid down to be made.
//!
//! No file format is known here.

mod box_walls;
mod catalogue;
mod coupon_printed;
mod coupon_routed;
mod fret_jig;
mod fretboard;
mod heel_block;
mod lid;
mod mating;
mod neck;
mod neck_solid;
mod nut;
mod part;
mod placed;
mod saddle;
mod tail_block;
mod tail_guide;

pub use catalogue::{PartSet, parts};
pub use neck::neck_outline;
pub use nut::LEAST_NUT_FOOT;
pub use part::{Lying, Part, PartFault, Process, Solid};
pub use placed::{Form, Placed, Thing, placed};
pub use saddle::{SADDLE_CREST_RADIUS, least_crest_height, room_for_crest};

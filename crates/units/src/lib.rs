//! What does a number in a document mean, and how do people write it?
//!
//! Every quantity is a type of its own, finite by construction: an inch read as a millimetre ruins wood, and the
//! compiler reviews every line. Inside, lengths are millimetres, angles radians, forces newtons, pressures
//! megapascals, frequencies hertz, masses per length kilograms per metre.
//!
//! Nothing here knows what the quantities are of.

mod arithmetic;

pub mod math;

mod length;
mod angle;
mod force;
mod frequency;
mod material;
mod tolerance;

pub use angle::Angle;
pub use force::Force;
pub use frequency::Frequency;
pub use length::{Length, LengthUnit};
pub use material::{Density, LinearDensity, Stress};
pub use tolerance::{ChordTolerance, WeldDistance};

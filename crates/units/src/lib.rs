//! What does a number in a document mean, and how do people write it?
//!
//! Every quantity is a type of its own, finite by construction: an inch read as a millimetre ruins wood, and the
//! compiler reviews every line. Inside, lengths are millimetres, angles radians, forces newtons, pressures
//! megapascals, frequencies hertz, masses per length kilograms per metre.
//!
//! What people write is read with `parse` ([`Length::parse`], [`Angle::parse`], [`Force::parse`], [`Frequency::parse`],
//! [`Pitch::parse`], [`WireGauge::parse`]): in exact arithmetic, with one rounding at the end, and never with a panic. What
//! is printed is read again within the error that its form states ([`LengthForm`]).
//!
//! Nothing here knows what the quantities are of.

pub mod math;

mod angle;
mod force;
mod frequency;
mod length;
mod material;
mod pitch;
mod tolerance;
mod wire_gauge;

mod arithmetic;
mod error;
mod written;

mod rational;

mod print;
mod schema;

pub use angle::Angle;
pub use error::{LONGEST_SHOWN, QuantityError};
pub use force::Force;
pub use frequency::Frequency;
pub use length::{Length, LengthUnit};
pub use material::{Density, LinearDensity, Stress};
pub use pitch::Pitch;
pub use print::{LengthForm, WrittenLength};
pub use tolerance::{ChordTolerance, WeldDistance};
pub use wire_gauge::WireGauge;

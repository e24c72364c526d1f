//! What are the things made of that a builder buys?
//!
//! Tables as data, every row with its source: woods, string materials, wire, screws. A [`Wood`] or a [`WrapMaterial`] is
//! a small handle into its table, so that having one means that it is known.

mod name;
mod screw;
mod string_material;
mod wire;
mod wood;

pub use name::UnknownName;
pub use screw::{ScrewSize, screw_size};
pub use string_material::{PlainMetal, WrapMaterial, copper_wire, string_steel};
pub use wire::Wire;
pub use wood::Wood;

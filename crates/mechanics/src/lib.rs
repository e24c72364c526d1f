//! How will the instrument play, and what do its strings do to its wood?
//!
//! Strings under tension, intonation, the drift of the open string when the saddle is moved, forces on saddle and
//! lid, buzz, and the bending of the neck: pure functions over plain data, each with its source. Nothing here knows
//! the document, and nothing is rounded: rounding belongs to whoever prints.
//!
//! Four types are built once for each string and passed on:
//!
//! - [`string_body::StringBody`]: what the string is made of, whatever it is tuned to;
//! - [`string_model::StringModel`]: that string at its pitch and sounding length, with its tension and stiffnesses;
//! - [`string_line::StringLine`]: where it bears on zero fret and saddle;
//! - [`string_line::Fret`]: where the crowns stand under it.
//!
//! The frame is the instrument frame: x from the crown of the zero fret toward the tail, z up from the playing plane.
//! Heights of a string are heights of its underside, where it meets crowns. Lengths, angles and forces travel in the
//! types of [`units`]; a quantity that has no type there is an `f64` with its unit in its name.
//!
//! Every formula, with its source and how far that source was followed, is listed by [`formulas::formulas`].

mod error;
mod root;

pub mod pitch;

pub mod core_estimate;
pub mod load;
pub mod stiffness;
pub mod string_body;
pub mod string_model;
pub mod wire_strength;

pub mod compensation;
pub mod intonation;
pub mod string_line;

pub mod break_even;
pub mod drift;
pub mod tail_height;

pub mod down_force;
pub mod plate;
mod plate_clamped;
mod plate_supported;
pub mod standing;

pub mod buzz;
pub mod buzz_free;
pub mod clearance;
pub mod pluck;
pub mod random;
pub mod spread;

pub mod fixed_point;
pub mod least_squares;
pub mod linear_program;
pub mod neck;
pub mod section;

pub mod formulas;

pub use error::MechanicsError;

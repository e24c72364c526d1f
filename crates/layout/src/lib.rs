//! Where does everything go?
//!
//! [`layout`] turns a valid document into a [`Layout`]: the instrument frame, the stations of the frets and what stops
//! the next one, the strings from tuner post to tail with their heights and angles, and every dimension that the parts
//! are made from. Pure and total: the one plan that cannot be laid out at all is refused by a [`LayoutFault`]; a plan
//! that merely plays badly is laid out as written, and the checks say what is wrong with it.
//!
//! # The frame
//!
//! Right-handed, millimetres, radians. `x` runs along the centre line from the crown of the zero fret toward the tail,
//! `y` across, positive toward the treble string of a right-handed instrument, `z` up from the playing plane (the
//! surface that the frets sit on). A left-handed instrument is the mirror in `y`, made once, at the end of [`layout`].
//!
//! The box leans under the strings by the neck's back angle, so it has coordinates of its own: [`BoxFrame`].

mod bow;
mod box_frame;
pub mod built;
mod frets;
mod grooves;
mod headstock;
mod heel;
mod holes;
mod instrument;
mod neck_section;
mod neck_shape;
mod nut;
mod place;
pub mod playing;
mod saddle;
pub mod setup;
mod string_path;
mod strung;
mod tail;
pub mod tolerances;
mod tuned;
mod tuners;
mod weak_place;
mod wire;

pub use bow::Bow;
pub use box_frame::BoxFrame;
pub use frets::{Fret, FretPlan, Obstacle, Reach, Room, Shortfall, fret_distance};
pub use grooves::Groove;
pub use headstock::HeadstockPlan;
pub use heel::HeelPlan;
pub use holes::BoxHole;
pub use instrument::{Layout, LayoutFault, layout};
pub use neck_section::{NeckRing, RingPoint};
pub use neck_shape::NeckShape;
pub use nut::{NutPlan, NutSlot};
pub use place::Place;
pub use saddle::{Crest, SaddlePlan};
pub use string_path::{StringNumber, StringPath};
pub use strung::Run;
pub use tail::{StringBore, TailKind, TailPlan, TailScrew};
pub use tuned::TunedString;
pub use tuners::{POST_DIAMETER, Tuner};
pub use weak_place::{NeckPlace, WeakPlace};
pub use wire::{WireCut, WireList};

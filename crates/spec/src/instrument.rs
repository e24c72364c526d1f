//! What is true of the instrument that a document describes?
//!
//! A [`Spec`] is the document read, completed with defaults and found sound: every value in its range, every name
//! known. It mirrors the document key for key, so that a key's name, its type and the sentence that explains it stand
//! in one place; the schema is made from these types.

mod body;
mod making;
mod neck;
mod outline_file;
mod playing;
mod tolerances;

use schemars::JsonSchema;
use units::LengthUnit;

pub use body::{
    BoxFace, BoxSpec, Hole, HolePurpose, Opening, Saddle, SaddleKind, ScrewGauge, Tail, TailKind,
};
pub use making::{CornerRelief, Print, Router};
pub use neck::{BoardRadius, Fretboard, Headstock, Heel, Joint, Neck, NeckSection, Plank};
pub use outline_file::OutlineFile;
pub use playing::{
    Action, FretKind, FretPattern, Frets, Nut, PastHeel, Scale, Spacing, StringSpec, ZeroFret,
};
pub use tolerances::{MadeWith, Tolerances};

/// One instrument, complete and in range.
#[derive(Clone, Debug, PartialEq, JsonSchema)]
#[schemars(title = "boxneck document")]
pub struct Spec {
    /// What the instrument is called; the folder of its files is named after it.
    pub name: String,
    /// The unit of bare numbers in this document: "mm" or "in". A string always carries its own unit.
    pub units: LengthUnit,
    /// Which hand frets: "right" for a right-handed player; "left" mirrors every part.
    pub handed: Handed,
    /// Scale length and frets.
    pub scale: Scale,
    /// The strings from bass to treble, 1 to 6 of them.
    pub strings: Vec<StringSpec>,
    /// The stick that carries the strings.
    pub neck: Neck,
    /// The plank in hand that the stick is to be cut from.
    pub plank: Plank,
    /// The end of the stick that carries the tuners.
    pub headstock: Headstock,
    /// The block under the neck where it meets the box.
    pub heel: Heel,
    /// A board on top of the neck, where there is one.
    pub fretboard: Fretboard,
    /// What the frets are made of and how evenly they lie.
    pub frets: Frets,
    /// The fret at the head of the scale, which sets the height of the open strings.
    pub zero_fret: ZeroFret,
    /// The spacer behind the zero fret.
    pub nut: Nut,
    /// The movable saddle on the lid.
    pub saddle: Saddle,
    /// Where the strings end.
    pub tail: Tail,
    /// The box, measured outside.
    #[schemars(rename = "box")]
    pub body: BoxSpec,
    /// How high the strings are to be.
    pub action: Action,
    /// The router that cuts the parts.
    pub router: Router,
    /// The printer that prints them.
    pub print: Print,
    /// How well each dimension is held.
    pub tolerances: Tolerances,
}

/// Which hand frets the strings.
#[derive(Clone, Copy, Debug, PartialEq, Eq, JsonSchema)]
#[schemars(rename_all = "lowercase")]
pub enum Handed {
    /// The player frets with the left hand; the bass string lies at negative y.
    Right,
    /// The exact mirror.
    Left,
}

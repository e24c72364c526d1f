//! What is played: scale, strings, frets, nut, action.

use schemars::JsonSchema;
use units::{Length, Pitch};

use crate::stock::{Wire, WrapMaterial};

/// Scale length and fret pattern.
#[derive(Clone, Debug, PartialEq, JsonSchema)]
pub struct Scale {
    /// Scale length: crown of the zero fret to the saddle line, before compensation.
    pub length: Length,
    /// How many frets are wanted, the zero fret not counted.
    pub frets: u8,
    /// Which semitones have a fret: "chromatic", "diatonic" (steps 2 4 5 7 9 10 12 in every octave), or a rising list.
    pub pattern: FretPattern,
}

/// Which semitones above the open string have a fret.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum FretPattern {
    /// Every semitone.
    Chromatic,
    /// 2, 4, 5, 7, 9, 10 and 12 in every octave.
    Diatonic,
    /// These semitones, rising, none twice.
    Semitones(Vec<u8>),
}

/// One string.
#[derive(Clone, Debug, PartialEq, JsonSchema)]
pub struct StringSpec {
    /// The open note, as "G2", "F#3", "Bb3", or a frequency as "98 Hz".
    pub pitch: Pitch,
    /// Outside diameter (gauge).
    pub diameter: Length,
    /// Diameter of the core wire; given, the string is a wound one.
    pub core: Option<Length>,
    /// What is wound round the core; given without `core`, the core is estimated.
    pub wrap: Option<WrapMaterial>,
}

/// What the frets are made of.
#[derive(Clone, Debug, PartialEq, JsonSchema)]
pub struct Frets {
    /// "wrapped wire" round the neck, "seated wire" glued in a shallow groove, or "fret wire" with a tang in a saw
    /// slot (the same stock as the zero fret).
    pub kind: FretKind,
    /// Wire of wrapped and seated frets: a gauge as "16 AWG", or a diameter.
    pub wire: Wire,
    /// How deep the wire lies in its groove.
    pub seat_depth: Length,
    /// How unevenly the crowns lie: one standard deviation from fret to fret.
    pub height_scatter: Length,
    /// What happens beyond the last wrapped fret that clears the heel: "stop", or "seated" to go on with seated wire.
    pub past_heel: PastHeel,
}

/// How a fret is made.
#[derive(Clone, Copy, Debug, PartialEq, Eq, JsonSchema)]
#[schemars(rename_all = "lowercase")]
pub enum FretKind {
    /// Wire that goes all the way round the neck.
    #[schemars(rename = "wrapped wire")]
    WrappedWire,
    /// Wire glued in a shallow groove.
    #[schemars(rename = "seated wire")]
    SeatedWire,
    /// Wire with a tang, pressed into a saw slot.
    #[schemars(rename = "fret wire")]
    FretWire,
}

/// What happens beyond the last wrapped fret that clears the heel.
#[derive(Clone, Copy, Debug, PartialEq, Eq, JsonSchema)]
#[schemars(rename_all = "lowercase")]
pub enum PastHeel {
    /// There are no more frets.
    Stop,
    /// Seated wire goes on over the heel.
    Seated,
}

/// The fret that ends the open strings.
#[derive(Clone, Debug, PartialEq, JsonSchema)]
pub struct ZeroFret {
    /// Height of its crown above the playing plane.
    pub crown_height: Length,
    /// Width of its crown.
    pub crown_width: Length,
    /// Width of the saw slot for its tang; fret wire uses the same.
    pub slot_width: Length,
    /// Depth of that slot below the playing plane.
    pub slot_depth: Length,
}

/// The spacer behind the zero fret.
#[derive(Clone, Debug, PartialEq, JsonSchema)]
pub struct Nut {
    /// Its size along the strings.
    pub thickness: Length,
    /// "equal gaps" between the strings' edges, or "equal centres".
    pub spacing: Spacing,
    /// From the neck's edge to the outer edge of the outer strings.
    pub edge_margin: Length,
    /// Added to each string's diameter for the width of its slot.
    pub slot_clearance: Length,
    /// From the crown of the zero fret to the nut's front face.
    pub gap_behind_zero_fret: Length,
}

/// How strings share a width.
#[derive(Clone, Copy, Debug, PartialEq, Eq, JsonSchema)]
#[schemars(rename_all = "lowercase")]
pub enum Spacing {
    /// The same free space between neighbours.
    #[schemars(rename = "equal gaps")]
    EqualGaps,
    /// The same distance from centre to centre.
    #[schemars(rename = "equal centres")]
    EqualCentres,
}

/// How high the strings are to be.
#[derive(Clone, Debug, PartialEq, JsonSchema)]
pub struct Action {
    /// The semitone at which the height is measured: 12 is the octave, whether or not it has a fret.
    pub fret: u8,
    /// From the crown of that fret to the underside of the strings.
    pub height: Length,
}

//! What is true of the instrument that a document describes?
//!
//! A [`Spec`] is the document read, completed with defaults and found sound: every value in its range, every name
//! known. It mirrors the document key for key, so that a key's name, its type and the sentence that explains it stand
//! in one place; the schema is made from these types.

use schemars::JsonSchema;
use units::{Angle, Length, LengthUnit, Pitch};

use crate::stock::{Wire, Wood, WrapMaterial};

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
    /// The stick.
    pub neck: Neck,
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
    /// The box.
    #[schemars(rename = "box")]
    pub body: BoxSpec,
    /// How high the strings are to be.
    pub action: Action,
    /// The router that cuts the parts.
    pub router: Router,
    /// The printer that prints them.
    pub print: Print,
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

/// The stick that carries the strings.
#[derive(Clone, Debug, PartialEq, JsonSchema)]
pub struct Neck {
    /// How the neck meets the box: "through", the stick runs the length of the box; "butt", it ends on the box wall.
    pub joint: Joint,
    /// The wood of the stick, by its name in the table of woods.
    pub wood: Wood,
    /// Width at the front face of the nut; the headstock keeps it.
    pub width_at_nut: Length,
    /// Width at the neck end of the box; a through neck keeps it to its tail end.
    pub width_at_box: Length,
    /// Measured thickness of the plank, without a fretboard.
    pub thickness: Length,
    /// Cross-section: "square", "eased" (rounded lower edges), "oval" (a round back).
    pub section: NeckSection,
    /// Radius of the lower edges of an eased section.
    pub edge_radius: Length,
    /// How far the neck leans back about the box end, so that the strings rise over the lid toward the saddle.
    pub back_angle: Angle,
    /// The neck's top face above the lid's top, at the neck end of the box.
    pub face_above_lid: Length,
    /// Air between the top of a through neck's tongue and the underside of the lid, so that the lid can move.
    pub tongue_recess: Length,
    /// How far a through neck stands out at the tail end of the box.
    pub tail_overhang: Length,
}

/// How the neck meets the box.
#[derive(Clone, Copy, Debug, PartialEq, Eq, JsonSchema)]
#[schemars(rename_all = "lowercase")]
pub enum Joint {
    /// The stick runs the length of the box.
    Through,
    /// The stick ends on the box wall.
    Butt,
}

/// Cross-section of the neck's back.
#[derive(Clone, Copy, Debug, PartialEq, Eq, JsonSchema)]
#[schemars(rename_all = "lowercase")]
pub enum NeckSection {
    /// As sawn.
    Square,
    /// Lower edges rounded to `edge_radius`.
    Eased,
    /// The back a half oval of line and arcs.
    Oval,
}

/// The end of the stick that carries the tuners, cut down from above.
#[derive(Clone, Debug, PartialEq, JsonSchema)]
pub struct Headstock {
    /// From the rear face of the nut to the end of the stick.
    pub length: Length,
    /// What is left of the plank's thickness under the nut and the tuners; the cut is made from above.
    pub thickness: Length,
    /// Bore for each tuner's post or bushing.
    pub tuner_bore: Length,
    /// 1: all posts on the centre line; 2: a bass and a treble row.
    pub tuner_rows: u8,
    /// Height above the headstock's face at which the string leaves the post.
    pub post_height: Length,
}

/// The block glued under the neck against the box.
#[derive(Clone, Debug, PartialEq, JsonSchema)]
pub struct Heel {
    /// How far it stands out of the box toward the nut; 0 for no heel.
    pub reach: Length,
    /// From the neck's top face to the underside of the heel.
    pub depth: Length,
}

/// A board on top of the neck.
#[derive(Clone, Debug, PartialEq, JsonSchema)]
pub struct Fretboard {
    /// Thickness at its centre line; 0: no board, the frets sit on the neck.
    pub thickness: Length,
    /// "flat", or the radius of its top across the strings.
    pub radius: BoardRadius,
}

/// The top of the fretboard across the strings.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum BoardRadius {
    /// A plane.
    Flat,
    /// A cylinder of this radius about an axis along the centre line.
    Radius(Length),
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

/// The saddle.
#[derive(Clone, Debug, PartialEq, JsonSchema)]
pub struct Saddle {
    /// "floating" on the lid, or "let in" to a shallow pocket.
    pub kind: SaddleKind,
    /// Its size along the strings.
    pub thickness: Length,
    /// From the centre of the outer bass string to the centre of the outer treble string, at the saddle.
    pub spread: Length,
    /// From the saddle line to the tail end of the box, along the lid: with the scale length this says where the box
    /// begins.
    pub from_tail_end: Length,
    /// How far the saddle may be slid, each way.
    pub adjust: Length,
}

/// How the saddle is held.
#[derive(Clone, Copy, Debug, PartialEq, Eq, JsonSchema)]
#[schemars(rename_all = "lowercase")]
pub enum SaddleKind {
    /// Held by the strings alone.
    Floating,
    /// Standing in a pocket half as deep as the lid is thick.
    #[schemars(rename = "let in")]
    LetIn,
}

/// Where the strings end.
#[derive(Clone, Debug, PartialEq, JsonSchema)]
pub struct Tail {
    /// "block": a block on the lid (holes above it) or on the tail end (holes below it); "string through": down through
    /// the overhanging end of a through neck.
    pub kind: TailKind,
    /// Centre of the string holes above the lid; below it (negative), the height at which the strings go down.
    pub hole_height: Length,
    /// From the saddle line to where the strings enter the tail, along the lid.
    pub distance: Length,
    /// Bore for the string.
    pub hole_bore: Length,
    /// Counterbore for the ball end.
    pub ball_bore: Length,
    /// Depth of that counterbore.
    pub ball_depth: Length,
    /// Wood screw that holds the block: "No. 4", "No. 6", "No. 8" or "No. 10".
    pub screw: ScrewGauge,
    /// How many of them.
    pub screws: u8,
}

/// What holds the strings' ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq, JsonSchema)]
#[schemars(rename_all = "lowercase")]
pub enum TailKind {
    /// A block on the lid or on the tail end of the box.
    Block,
    /// The overhanging end of a through neck.
    #[schemars(rename = "string through")]
    StringThrough,
}

/// Wood screws by their number.
#[derive(Clone, Copy, Debug, PartialEq, Eq, JsonSchema)]
pub enum ScrewGauge {
    /// 2.8 mm.
    #[schemars(rename = "No. 4")]
    No4,
    /// 3.5 mm.
    #[schemars(rename = "No. 6")]
    No6,
    /// 4.2 mm.
    #[schemars(rename = "No. 8")]
    No8,
    /// 4.8 mm.
    #[schemars(rename = "No. 10")]
    No10,
}

/// The box, measured outside.
#[derive(Clone, Debug, PartialEq, JsonSchema)]
pub struct BoxSpec {
    /// From the neck end to the tail end, outside.
    pub length: Length,
    /// Across the strings, outside.
    pub width: Length,
    /// From the lid's top to the underside, outside.
    pub depth: Length,
    /// Measured thickness of the walls.
    pub wall: Length,
    /// Measured thickness of the lid.
    pub lid: Length,
    /// The wood of the lid, by its name in the table of woods.
    pub lid_wood: Wood,
    /// Openings in the lid and the walls.
    pub holes: Vec<Hole>,
}

/// An opening in the lid or a wall.
#[derive(Clone, Debug, PartialEq, JsonSchema)]
pub struct Hole {
    /// "sound", "jack", "pot" or "pickup".
    pub purpose: HolePurpose,
    /// "lid", "tail end", "neck end", "bass side" or "treble side".
    pub face: BoxFace,
    /// Its centre. On the lid: from the neck end, and from the centre line toward treble. On the sides: from the neck
    /// end, and down from the lid's top. On the ends: from the centre line toward treble, and down from the lid's top.
    pub at: [Length; 2],
    /// Its size.
    #[schemars(flatten)]
    pub opening: Opening,
}

/// The size of a hole.
#[derive(Clone, Copy, Debug, PartialEq, JsonSchema)]
#[schemars(untagged)]
pub enum Opening {
    /// A round one.
    Round {
        /// Diameter.
        diameter: Length,
    },
    /// A rectangle.
    Rectangle {
        /// Along the strings on the lid and the sides; across on the ends.
        length: Length,
        /// The other way.
        width: Length,
    },
}

/// What a hole is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, JsonSchema)]
#[schemars(rename_all = "lowercase")]
pub enum HolePurpose {
    /// Lets the air in the box speak.
    Sound,
    /// For an output jack.
    Jack,
    /// For a potentiometer.
    Pot,
    /// For a pickup.
    Pickup,
}

/// A face of the box.
#[derive(Clone, Copy, Debug, PartialEq, Eq, JsonSchema)]
#[schemars(rename_all = "lowercase")]
pub enum BoxFace {
    /// The top.
    Lid,
    /// The wall behind the saddle.
    #[schemars(rename = "tail end")]
    TailEnd,
    /// The wall at the neck.
    #[schemars(rename = "neck end")]
    NeckEnd,
    /// The wall on the bass side.
    #[schemars(rename = "bass side")]
    BassSide,
    /// The wall on the treble side.
    #[schemars(rename = "treble side")]
    TrebleSide,
}

/// How high the strings are to be.
#[derive(Clone, Debug, PartialEq, JsonSchema)]
pub struct Action {
    /// The semitone at which the height is measured: 12 is the octave, whether or not it has a fret.
    pub fret: u8,
    /// From the crown of that fret to the underside of the strings.
    pub height: Length,
}

/// The router that cuts the parts.
#[derive(Clone, Debug, PartialEq, JsonSchema)]
pub struct Router {
    /// Diameter of the bit.
    pub bit: Length,
    /// Relief of inside corners that a mating part must enter: "none", "dogbone" or "t-bone".
    pub corner_relief: CornerRelief,
}

/// Relief of inside corners for a round bit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, JsonSchema)]
#[schemars(rename_all = "kebab-case")]
pub enum CornerRelief {
    /// None: the mating part's corners are rounded by hand.
    None,
    /// A bite at each corner, along its bisector.
    Dogbone,
    /// A bite at each corner, along its longer side.
    TBone,
}

/// The printer that prints the parts.
#[derive(Clone, Debug, PartialEq, JsonSchema)]
pub struct Print {
    /// Air left on every mating face.
    pub clearance: Length,
    /// Layer height.
    pub layer: Length,
    /// Nozzle diameter.
    pub nozzle: Length,
    /// The bed, across and deep.
    pub bed: [Length; 2],
}

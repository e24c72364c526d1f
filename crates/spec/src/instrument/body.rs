//! The box and what stands on it.

use schemars::JsonSchema;
use units::{Length, LengthUnit};

use super::OutlineFile;
use crate::stock::Wood;

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
    /// How far what sits in it reaches below the outside of the face; left out, 12 mm for a pickup, 25 mm for a jack or a pot,
    /// nothing for a sound hole.
    pub depth: Option<Length>,
}

/// The size of a hole.
#[derive(Clone, Debug, PartialEq, JsonSchema)]
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
    /// What somebody drew.
    Drawn {
        /// A DXF file that holds the outline of an opening in the lid, for a sound hole or a pickup, seen from above: the neck
        /// to the left and the bass side of a right-handed instrument below. The middle of its bounds lies at `at`.
        #[schemars(with = "String")]
        outline: OutlineFile,
        /// The unit that the outline was drawn in, where its file does not say so or says it wrongly.
        outline_units: Option<LengthUnit>,
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
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, JsonSchema)]
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

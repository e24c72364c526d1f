//! The stick, its headstock, its heel and its board.

use schemars::JsonSchema;
use units::{Angle, Length, LengthUnit};

use super::OutlineFile;
use crate::stock::Wood;

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

/// The plank in hand that the stick is to be cut from.
#[derive(Clone, Debug, PartialEq, JsonSchema)]
pub struct Plank {
    /// Its length; left out, it is not checked.
    pub length: Option<Length>,
    /// Its width; left out, it is not checked.
    pub width: Option<Length>,
    /// Its thickness before it is planed to `neck.thickness`; left out, it is not checked.
    pub thickness: Option<Length>,
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
    /// A DXF file that holds its outline, seen from above: the neck to the right and the bass side of a right-handed
    /// instrument below. Its right end is one straight edge, square to the neck, which lies on the rear face of the nut with its
    /// middle on the centre line. Left out: a rectangle as wide as the neck and as long as `length` says; given, it says how
    /// long the headstock is.
    #[schemars(with = "Option<String>")]
    pub outline: Option<OutlineFile>,
    /// The unit that the outline was drawn in, where its file does not say so or says it wrongly.
    pub outline_units: Option<LengthUnit>,
    /// What is left of the plank's thickness under the nut and the tuners; the cut is made from above.
    pub thickness: Length,
    /// Bore for each tuner's post or bushing.
    pub tuner_bore: Length,
    /// 1: all posts on the centre line; 2: a bass and a treble row.
    pub tuner_rows: u8,
    /// Height above the headstock's face at which the string leaves the post.
    pub post_height: Length,
    /// From a tuner's seat under the headstock up to the hole in its post that takes the string: headstock and post height
    /// together can be no more.
    pub tuner_reach: Length,
    /// A tuner's body under the headstock: along the stick, and across.
    pub tuner_body: [Length; 2],
    /// A tuner's button: how far it reaches to the side from the middle of the post, and its size along the stick.
    pub tuner_button: [Length; 2],
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

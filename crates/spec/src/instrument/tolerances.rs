//! How well each dimension is held when the parts are made and put together.

use schemars::JsonSchema;
use units::Length;

/// How well each dimension is held: one standard deviation each. How evenly the frets lie is `frets.height_scatter`.
#[derive(Clone, Debug, PartialEq, JsonSchema)]
pub struct Tolerances {
    /// What the parts are made with: "hand tools", "router" or "printer"; it chooses the defaults of the others.
    pub made_with: MadeWith,
    /// How well the neck is set against the box: how far the zero fret lies above or below its place, the neck turned
    /// about the neck end of the box.
    pub neck_set: Length,
    /// How well the height of the zero fret's crown is held.
    pub zero_fret_height: Length,
    /// How well the place of each fret along the neck is held.
    pub fret_place: Length,
    /// How well the height of the saddle is held, under the bass string and under the treble string each.
    pub saddle_height: Length,
    /// How well the saddle's place along the lid is held, under the bass string and under the treble string each, before
    /// it is slid for intonation.
    pub saddle_place: Length,
    /// How well the height of the string holes over the lid is held.
    pub tail_height: Length,
    /// How well the distance of the string holes from the saddle line is held.
    pub tail_distance: Length,
    /// How well the strings' diameters are held; what winds and draws them holds it, whatever the rest is made with.
    pub string_diameter: Length,
}

/// What the parts are made with.
#[derive(Clone, Copy, Debug, PartialEq, Eq, JsonSchema)]
#[schemars(rename_all = "lowercase")]
pub enum MadeWith {
    /// Saw, file, rule and square.
    #[schemars(rename = "hand tools")]
    HandTools,
    /// A computer-controlled router cuts the parts; they are put together by hand.
    Router,
    /// A printer prints saddle, nut and tail; the stick is worked by hand.
    Printer,
}

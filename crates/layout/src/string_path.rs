//! Where does each string run, how high over every fret, and how sharply does it turn?

use units::{Angle, Length, Pitch};

use crate::box_frame::BoxFrame;
use crate::place::{Place, turn};

/// A string's number: 1 is the string at the treble edge, as players count.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct StringNumber(pub u8);

/// One string from post to tail, along its centre line.
#[derive(Clone, Debug, PartialEq)]
pub struct StringPath {
    /// Its number.
    pub number: StringNumber,
    /// Its open note.
    pub pitch: Pitch,
    /// Its diameter.
    pub diameter: Length,
    /// Where it leaves the tuner post.
    pub post: Place,
    /// At the nut's front edge.
    pub nut: Place,
    /// Over the crown of the zero fret.
    pub zero_fret: Place,
    /// Over the crest of the saddle.
    pub saddle: Place,
    /// At the mouth of its hole in the tail.
    pub tail: Place,
    /// From the underside to the crown of each fret on the neck as the strings have bent it, in the order of the frets.
    pub actions: Vec<Length>,
}

impl StringPath {
    /// The string's underside at `x` between zero fret and saddle.
    #[must_use]
    pub fn underside(&self, x: Length) -> Place {
        self.zero_fret.on_the_way_to(self.saddle, x).raised(-self.diameter / 2.0)
    }

    /// How far the string turns over the zero fret.
    #[must_use]
    pub fn break_at_zero_fret(&self) -> Angle {
        turn(self.saddle, self.zero_fret, self.nut)
    }

    /// How far the string falls, in elevation, from its run over the frets to its run to the post: over the zero fret
    /// and the nut together. Negative where it rises.
    #[must_use]
    pub fn fall_behind_zero_fret(&self) -> Angle {
        let rise = Angle::of_slope(self.saddle.z - self.zero_fret.z, self.saddle.x - self.zero_fret.x);
        let fall = Angle::of_slope(self.zero_fret.z - self.post.z, self.zero_fret.x - self.post.x);
        rise + fall
    }

    /// How far the string turns over the nut, down and sideways together.
    #[must_use]
    pub fn break_at_nut(&self) -> Angle {
        turn(self.zero_fret, self.nut, self.post)
    }

    /// How far the string turns over the saddle.
    #[must_use]
    pub fn break_at_saddle(&self) -> Angle {
        turn(self.zero_fret, self.saddle, self.tail)
    }

    /// How far the string falls from the saddle to its hole, against the lid: positive downward.
    #[must_use]
    pub fn tail_angle(&self, frame: &BoxFrame) -> Angle {
        Angle::of_slope(
            frame.above(self.saddle) - frame.above(self.tail),
            frame.along(self.tail) - frame.along(self.saddle),
        )
    }

    /// How far the string rises from the zero fret to the saddle, against the lid: positive upward.
    #[must_use]
    pub fn front_angle(&self, frame: &BoxFrame) -> Angle {
        Angle::of_slope(
            frame.above(self.saddle) - frame.above(self.zero_fret),
            frame.along(self.saddle) - frame.along(self.zero_fret),
        )
    }

    /// The same string of a mirrored instrument.
    pub(crate) fn mirrored(self) -> Self {
        Self {
            post: self.post.mirrored(),
            nut: self.nut.mirrored(),
            zero_fret: self.zero_fret.mirrored(),
            saddle: self.saddle.mirrored(),
            tail: self.tail.mirrored(),
            ..self
        }
    }
}

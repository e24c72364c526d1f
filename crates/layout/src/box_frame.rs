//! Where does the box stand under the strings?
//!
//! The box has coordinates of its own: `along` the lid from the neck end, `across` as the instrument's `y`, and
//! `above` the lid's top. With a back angle they lean against the instrument frame about the `y` axis.

use spec::Spec;
use units::{Angle, Length};

use crate::place::Place;

/// The box's own frame within the instrument frame.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BoxFrame {
    /// The `x` of the neck end of the box, at the top of its lid.
    pub neck_end_x: Length,
    /// The `z` of the lid's top at the neck end.
    pub lid_z: Length,
    /// How far the neck leans back: the lid falls away from the playing plane toward the tail by this angle.
    pub back_angle: Angle,
}

impl BoxFrame {
    /// The frame in which a saddle crest at `crest` stands where the document wants the saddle on the lid.
    ///
    /// The saddle stands square on the lid, so with a back angle its crest and its foot differ in `x`; the neck end
    /// of the box follows from both in closed form.
    pub(crate) fn under(crest: Place, spec: &Spec) -> Self {
        let back_angle = spec.neck.back_angle;
        let lid_z = -spec.fretboard.thickness - spec.neck.face_above_lid;
        let saddle_along = spec.body.length - spec.saddle.from_tail_end;
        let run = (saddle_along + (crest.z - lid_z) * back_angle.sin()) / back_angle.cos();
        Self { neck_end_x: crest.x - run, lid_z, back_angle }
    }

    /// From the neck end of the box along the lid to the foot of the square on the lid through `place`.
    #[must_use]
    pub fn along(&self, place: Place) -> Length {
        (place.x - self.neck_end_x) * self.back_angle.cos() - (place.z - self.lid_z) * self.back_angle.sin()
    }

    /// From the lid's top up to `place`, square to the lid; negative below the lid's top.
    #[must_use]
    pub fn above(&self, place: Place) -> Length {
        (place.x - self.neck_end_x) * self.back_angle.sin() + (place.z - self.lid_z) * self.back_angle.cos()
    }

    /// The place that lies `along` the lid, `across` and `above` it.
    #[must_use]
    pub fn place(&self, along: Length, across: Length, above: Length) -> Place {
        Place {
            x: self.neck_end_x + along * self.back_angle.cos() + above * self.back_angle.sin(),
            y: across,
            z: self.lid_z - along * self.back_angle.sin() + above * self.back_angle.cos(),
        }
    }

    /// The place moved along the lid and up from it.
    pub(crate) fn moved_on_lid(&self, place: Place, along: Length, up: Length) -> Place {
        let (cos, sin) = (self.back_angle.cos(), self.back_angle.sin());
        Place { x: place.x + (along * cos + up * sin), z: place.z + (up * cos - along * sin), ..place }
    }

    /// How far above the lid's top the plane of constant `z` lies, `along` the lid, measured square to the lid.
    #[must_use]
    pub fn above_at(&self, z: Length, along: Length) -> Length {
        let lid = self.place(along, Length::ZERO, Length::ZERO);
        (z - lid.z) / self.back_angle.cos()
    }

    /// The `x` of the outside of the box's neck end at the height `z`: the wall stands square on the lid.
    #[must_use]
    pub fn neck_wall_x(&self, z: Length) -> Length {
        self.neck_end_x + (z - self.lid_z) * self.back_angle.tan()
    }

    /// The `z` of a plane parallel to the lid, `above` its top, at `x`.
    #[must_use]
    pub fn level_z(&self, above: Length, x: Length) -> Length {
        self.lid_z + above / self.back_angle.cos() - (x - self.neck_end_x) * self.back_angle.tan()
    }
}

//! How wide, how thick and how long is the stick?

use spec::{Joint, NeckSection, Spec};
use units::Length;

use crate::box_frame::BoxFrame;

/// The stick in the instrument frame: where it begins and ends, its width and its levels.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NeckShape {
    /// The `x` of the headstock's end.
    pub head_end_x: Length,
    /// The `x` of the nut's front face, where the headstock is cut down and the taper begins.
    pub nut_front_x: Length,
    /// The `x` of the neck end of the box, at the top of the lid, where the taper ends.
    pub box_x: Length,
    /// The `x` of the stick's other end: the overhang of a through neck (at the height of its tongue), the box wall of
    /// a butt joint (where the slanting end reaches farthest).
    pub tail_end_x: Length,
    /// Width at and before the nut's front face.
    pub width_at_nut: Length,
    /// Width at and beyond the box.
    pub width_at_box: Length,
    /// The `z` of the neck's top face: the playing plane, less the fretboard.
    pub top_z: Length,
    /// The `z` of the headstock's top face.
    pub head_top_z: Length,
    /// The `z` of the underside.
    pub bottom_z: Length,
    /// How the neck meets the box.
    pub joint: Joint,
    /// Cross-section of the back between headstock and box.
    pub section: NeckSection,
    /// Radius of the lower edges of an eased section.
    pub edge_radius: Length,
}

impl NeckShape {
    pub(crate) fn of(spec: &Spec, frame: &BoxFrame) -> Self {
        let top_z = -spec.fretboard.thickness;
        let bottom_z = top_z - spec.neck.thickness;
        let nut_front_x = -spec.nut.gap_behind_zero_fret;
        let tongue_above = -spec.body.lid - spec.neck.tongue_recess;
        let tail_end_x = match spec.neck.joint {
            Joint::Through => {
                frame.place(spec.body.length + spec.neck.tail_overhang, Length::ZERO, tongue_above).x
            }
            Joint::Butt => frame.neck_wall_x(top_z).max(frame.neck_wall_x(bottom_z)),
        };
        Self {
            head_end_x: nut_front_x - spec.nut.thickness - spec.headstock.length,
            nut_front_x,
            box_x: frame.neck_end_x,
            tail_end_x,
            width_at_nut: spec.neck.width_at_nut,
            width_at_box: spec.neck.width_at_box,
            top_z,
            head_top_z: bottom_z + spec.headstock.thickness,
            bottom_z,
            joint: spec.neck.joint,
            section: spec.neck.section,
            edge_radius: spec.neck.edge_radius,
        }
    }

    /// Width at `x`: constant before the nut and beyond the box, tapering straight between.
    #[must_use]
    pub fn width(&self, x: Length) -> Length {
        let share = ((x - self.nut_front_x) / (self.box_x - self.nut_front_x)).clamp(0.0, 1.0);
        self.width_at_nut + (self.width_at_box - self.width_at_nut) * share
    }

    /// From end to end along `x`: the plank to buy is at least this long.
    #[must_use]
    pub fn length(&self) -> Length {
        self.tail_end_x - self.head_end_x
    }
}

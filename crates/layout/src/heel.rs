//! What stands under the neck against the box?

use spec::Spec;
use units::Length;

use crate::box_frame::BoxFrame;
use crate::neck_shape::NeckShape;

/// The heel block, glued under the neck and against the neck end of the box.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HeelPlan {
    /// How far it stands out of the box, along the neck.
    pub reach: Length,
    /// The `x` of its nut-side end.
    pub front_x: Length,
    /// The `x` of the box wall at the heel's top and at its bottom: they differ with a back angle.
    pub wall_x: [Length; 2],
    /// The `z` of its top, which is the neck's underside.
    pub top_z: Length,
    /// The `z` of its underside.
    pub bottom_z: Length,
    /// Width at its nut-side end.
    pub front_width: Length,
    /// Width at the box.
    pub box_width: Length,
}

impl HeelPlan {
    /// The heel, where the document has one that reaches out of the box and below the neck.
    pub(crate) fn of(spec: &Spec, neck: &NeckShape, frame: &BoxFrame) -> Option<Self> {
        let bottom_z = neck.top_z - spec.heel.depth;
        if spec.heel.reach <= Length::ZERO || bottom_z >= neck.bottom_z {
            return None;
        }
        let wall_x = [frame.neck_wall_x(neck.bottom_z), frame.neck_wall_x(bottom_z)];
        let front_x = wall_x[0] - spec.heel.reach;
        Some(Self {
            reach: spec.heel.reach,
            front_x,
            wall_x,
            top_z: neck.bottom_z,
            bottom_z,
            front_width: neck.width(front_x),
            box_width: neck.width_at_box,
        })
    }
}

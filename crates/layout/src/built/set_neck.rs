//! Where do saddle and zero fret go against each other when the neck is set otherwise than planned?

use units::{Angle, Length};

use crate::box_frame::BoxFrame;
use crate::place::Place;

/// A neck turned about the top edge of the box's neck end.
#[derive(Clone, Copy, Debug)]
pub(super) struct SetNeck {
    edge: Place,
    turned: Angle,
}

impl SetNeck {
    /// The neck whose zero fret lies `above` its place.
    pub(super) fn new(frame: &BoxFrame, above: Length) -> Self {
        let edge = frame.place(Length::ZERO, Length::ZERO, Length::ZERO);
        Self { edge, turned: Angle::of_slope(above, edge.x) }
    }

    /// Where the neck sees what stands on the box.
    pub(super) fn seen_from_neck(&self, on_box: Place) -> Place {
        self.turn(on_box, self.turned)
    }

    /// Where the box sees what stands on the neck.
    pub(super) fn seen_from_box(&self, on_neck: Place) -> Place {
        self.turn(on_neck, -self.turned)
    }

    /// Moves a place by what the turn moves it, so that no turn leaves it as it is to the last bit.
    fn turn(&self, place: Place, by: Angle) -> Place {
        let (along, up) = (place.x - self.edge.x, place.z - self.edge.z);
        let (shrink, rise) = (by.cos() - 1.0, by.sin());
        Place {
            x: place.x + (along * shrink - up * rise),
            z: place.z + (along * rise + up * shrink),
            ..place
        }
    }
}

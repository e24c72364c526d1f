//! What is cut across the playing surface for the zero fret and the frets?

use spec::{FretKind, Spec};
use units::Length;

use crate::frets::FretPlan;

/// A cut straight across the playing surface.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Groove {
    /// The number of the fret that it is for; 0 for the zero fret.
    pub fret: u8,
    /// The middle of it.
    pub x: Length,
    /// Its size along the strings.
    pub width: Length,
    /// Its depth below the playing surface.
    pub depth: Length,
}

impl Groove {
    /// Where it begins and ends along the strings.
    #[must_use]
    pub fn ends(&self) -> [Length; 2] {
        [self.x - self.width / 2.0, self.x + self.width / 2.0]
    }
}

/// The zero fret's slot, then a slot for each fret wire and a groove for each wire that is seated below the surface.
pub(crate) fn grooves(spec: &Spec, plan: &FretPlan) -> Vec<Groove> {
    let slot =
        |fret, x| Groove { fret, x, width: spec.zero_fret.slot_width, depth: spec.zero_fret.slot_depth };
    let seat = seat(spec.frets.wire.diameter(), spec.frets.seat_depth);
    let mut grooves = vec![slot(0, Length::ZERO)];
    for fret in &plan.frets {
        match fret.kind {
            FretKind::FretWire => grooves.push(slot(fret.number, fret.x)),
            FretKind::WrappedWire | FretKind::SeatedWire => {
                grooves.extend(seat.map(|(width, depth)| Groove {
                    fret: fret.number,
                    x: fret.x,
                    width,
                    depth,
                }));
            }
        }
    }
    grooves
}

/// Width and depth of the groove that lets a round wire in by `depth`: the chord of its circle at that depth, or its
/// diameter when more than half of it lies in.
fn seat(diameter: Length, depth: Length) -> Option<(Length, Length)> {
    (depth > Length::ZERO).then(|| {
        let (diameter_mm, depth_mm) = (diameter.as_mm(), depth.as_mm());
        let chord = if depth_mm < diameter_mm / 2.0 {
            2.0 * (depth_mm * (diameter_mm - depth_mm)).sqrt()
        } else {
            diameter_mm
        };
        (Length::mm(chord), depth)
    })
}

//! Where are the openings of the box, once the instrument's hand is known?

use spec::{BoxFace, HolePurpose, Opening, OutlineFile, Spec};
use units::Length;

/// One opening, in the coordinates of its face.
#[derive(Clone, Debug, PartialEq)]
pub struct BoxHole {
    /// What it is for.
    pub purpose: HolePurpose,
    /// The face that it is in.
    pub face: BoxFace,
    /// On the lid and the sides from the neck end; on the ends across, as the instrument's `y`.
    pub first: Length,
    /// On the lid across, as the instrument's `y`; on the walls down from the lid's top.
    pub second: Length,
    /// Its size.
    pub opening: Opening,
    /// How far what sits in it reaches below the outside of the face.
    pub depth: Length,
}

/// How far the usual hardware reaches below the face that it sits in: larger wants a roomier box, smaller lets it meet the
/// tongue. Common practice, no source.
const fn usual_depth(purpose: HolePurpose) -> Length {
    match purpose {
        HolePurpose::Sound => Length::ZERO,
        HolePurpose::Pickup => Length::mm(12.0),
        HolePurpose::Jack | HolePurpose::Pot => Length::mm(25.0),
    }
}

/// All openings of a right-handed box, in the document's order.
pub(crate) fn holes(spec: &Spec) -> Vec<BoxHole> {
    spec.body
        .holes
        .iter()
        .map(|hole| BoxHole {
            purpose: hole.purpose,
            face: hole.face,
            first: hole.at[0],
            second: hole.at[1],
            opening: hole.opening.clone(),
            depth: hole.depth.unwrap_or(usual_depth(hole.purpose)),
        })
        .collect()
}

impl BoxHole {
    /// The same opening of a mirrored box. A hole in a side stays in the side of its string.
    pub(crate) fn mirrored(self) -> Self {
        match self.face {
            BoxFace::Lid => Self { second: -self.second, opening: mirrored(self.opening), ..self },
            BoxFace::TailEnd | BoxFace::NeckEnd => Self { first: -self.first, ..self },
            BoxFace::BassSide | BoxFace::TrebleSide => self,
        }
    }
}

fn mirrored(opening: Opening) -> Opening {
    match opening {
        Opening::Drawn { outline, outline_units } => {
            let outline = OutlineFile { outline: outline.outline.mirrored_y(), ..outline };
            Opening::Drawn { outline, outline_units }
        }
        same @ (Opening::Round { .. } | Opening::Rectangle { .. }) => same,
    }
}

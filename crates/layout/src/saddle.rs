//! How high and how long is the saddle, and where does it stand on the lid?

use spec::{SaddleKind, Spec};
use units::Length;

use crate::box_frame::BoxFrame;
use crate::place::Place;

/// How far the saddle goes on beyond the outer strings. Larger is heavier; smaller lets a string slip off the end.
/// Common practice, no source.
const END: Length = Length::mm(5.0);

/// The saddle, in the box's frame.
#[derive(Clone, Debug, PartialEq)]
pub struct SaddlePlan {
    /// From the neck end of the box along the lid to the saddle line.
    pub along: Length,
    /// How far the middle of the foot lies behind the saddle line: half way between the crests that lie farthest forward
    /// and farthest back, as far as the adjustment goes.
    pub shift: Length,
    /// From the neck end of the box along the lid: how far toward the neck and how far toward the tail the middle of the
    /// foot can be slid. A saddle that is let in stays where it is.
    pub slide: [Length; 2],
    /// Its size along the strings.
    pub thickness: Length,
    /// Its ends across the strings: the bass end, then the treble end.
    pub ends: [Length; 2],
    /// How far its foot reaches below the lid's top: 0 for a floating saddle.
    pub let_in: Length,
    /// One crest a string, bass to treble.
    pub crests: Vec<Crest>,
}

/// Where one string lies on the saddle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Crest {
    /// Across.
    pub across: Length,
    /// Height of the string's underside above the lid's top.
    pub above: Length,
    /// How far behind the middle of the foot it lies, along the lid.
    pub offset: Length,
}

impl SaddlePlan {
    /// The saddle for strings whose undersides lie at `undersides`.
    pub(crate) fn of(spec: &Spec, frame: &BoxFrame, undersides: &[Place]) -> Self {
        let along = spec.body.length - spec.saddle.from_tail_end;
        let setbacks = undersides.iter().map(|underside| frame.along(*underside) - along);
        let first = setbacks.clone().reduce(Length::min).unwrap_or(Length::ZERO);
        let last = setbacks.reduce(Length::max).unwrap_or(Length::ZERO);
        let shift = ((first + last) / 2.0).max(-spec.saddle.adjust).min(spec.saddle.adjust);
        let crests: Vec<Crest> = undersides
            .iter()
            .map(|underside| Crest {
                across: underside.y,
                above: frame.above(*underside),
                offset: frame.along(*underside) - along - shift,
            })
            .collect();
        let half = spec.saddle.spread / 2.0 + END;
        Self {
            along,
            shift,
            slide: match spec.saddle.kind {
                SaddleKind::Floating => [along - spec.saddle.adjust, along + spec.saddle.adjust],
                SaddleKind::LetIn => [along + shift; 2],
            },
            thickness: spec.saddle.thickness,
            ends: [-half, half],
            let_in: match spec.saddle.kind {
                SaddleKind::Floating => Length::ZERO,
                SaddleKind::LetIn => spec.body.lid / 2.0,
            },
            crests,
        }
    }
}

impl SaddlePlan {
    /// From the neck end of the box along the lid to the middle of the foot.
    #[must_use]
    pub fn center_along(&self) -> Length {
        self.along + self.shift
    }
}

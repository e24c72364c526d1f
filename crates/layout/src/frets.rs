//! Where are the frets, how many are there room for, and what stops the next one?

use spec::{FretKind, FretPattern, PastHeel, Spec};
use units::{Length, math};

use crate::box_frame::BoxFrame;
use crate::heel::HeelPlan;
use crate::neck_shape::NeckShape;
use crate::wire;

/// Free neck that a wire needs beyond its outer edge, to be wrapped and pulled tight, or glued and trimmed.
///
/// Larger gives up frets that could be made; smaller leaves no room for pliers. Common practice, no source.
const FREE_NECK: Length = Length::mm(1.0);

/// One fret.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fret {
    /// 1 for the first fret from the zero fret; a diatonic instrument counts only the frets it has.
    pub number: u8,
    /// Semitones above the open string.
    pub semitone: u8,
    /// From the crown of the zero fret to the crown of this one.
    pub x: Length,
    /// How it is made.
    pub kind: FretKind,
    /// Height of its crown above the playing plane.
    pub crown: Length,
    /// Width of the neck here.
    pub width: Length,
    /// Wire to cut for it, ends included.
    pub wire: Length,
}

/// All frets, and what became of those that were wanted.
#[derive(Clone, Debug, PartialEq)]
pub struct FretPlan {
    /// The frets that there is room for, from the zero fret on.
    pub frets: Vec<Fret>,
    /// How many were wanted, how many are there, and why no more.
    pub reach: Reach,
}

/// How far the frets reach.
#[derive(Clone, Debug, PartialEq)]
pub struct Reach {
    /// How many the document asks for.
    pub wanted: u8,
    /// How many of the frets are wrapped round the neck.
    pub wrapped: u8,
    /// What stops the next fret, whether or not it is wanted; nothing where there is room for it, or where the
    /// pattern has no next fret.
    pub stop: Option<Shortfall>,
    /// What stops the next wrapped fret, where frets go on as seated wire.
    pub wrapped_stop: Option<Shortfall>,
    /// How many frets there is room for, wanted or not.
    pub room: Room,
}

/// How many frets of the pattern there is room for, up to the most that a document can ask for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Room {
    /// All of them.
    pub frets: u8,
    /// Those that are wrapped round the neck.
    pub wrapped: u8,
}

/// The most frets that a document can ask for.
const MOST_FRETS: u8 = 36;

/// The next fret, which does not fit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Shortfall {
    /// The number that the fret would have.
    pub number: u8,
    /// Where its crown would be.
    pub x: Length,
    /// What stands in its way.
    pub obstacle: Obstacle,
    /// How much more room it would need along the neck.
    pub lacks: Length,
}

/// What can stop a fret.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Obstacle {
    /// The heel, which a wrapped wire cannot pass.
    Heel,
    /// The box, or the end of the playing surface.
    Box,
    /// The neighbouring wire.
    Neighbour,
}

/// Distance from the zero fret to the fret of a semitone in twelve-tone equal temperament.
///
/// - **Units**: millimetres, inside [`Length`].
/// - **Frame**: instrument frame, along +x from the crown of the zero fret; each from that one datum, so that no
///   rounding adds up.
/// - **Accuracy**: closed form; within 1e-9 mm for any scale length that a document may have.
/// - **Source**: the pitch of a string varies inversely with its length (Mersenne's law), and twelve equal semitones
///   make an octave.
///
/// ```
/// use units::Length;
/// let octave = layout::fret_distance(Length::mm(640.0), 12);
/// assert!((octave.as_mm() - 320.0).abs() < 1e-9, "the octave is at half the scale length");
/// ```
#[must_use]
pub fn fret_distance(scale_length: Length, semitone: u8) -> Length {
    scale_length * (1.0 - math::exp2(-f64::from(semitone) / 12.0))
}

/// Height above the playing plane of the crowns of frets of one kind.
pub(crate) fn crown_height(spec: &Spec, kind: FretKind) -> Length {
    match kind {
        FretKind::WrappedWire | FretKind::SeatedWire => spec.frets.wire.diameter() - spec.frets.seat_depth,
        FretKind::FretWire => spec.zero_fret.crown_height,
    }
}

/// Half the width that a fret of one kind takes along the neck.
fn half_width(spec: &Spec, kind: FretKind) -> Length {
    match kind {
        FretKind::WrappedWire | FretKind::SeatedWire => spec.frets.wire.diameter() / 2.0,
        FretKind::FretWire => spec.zero_fret.crown_width / 2.0,
    }
}

impl FretPlan {
    pub(crate) fn of(spec: &Spec, neck: &NeckShape, frame: &BoxFrame, heel: Option<&HeelPlan>) -> Self {
        let mut frets = Vec::new();
        let mut kind = spec.frets.kind;
        let mut wrapped_stop = None;
        let mut stop = None;
        let mut previous = Length::ZERO;
        let mut room = Room::default();
        // One more than can be wanted, to say what would stop it; a pattern that ends earlier ends the search.
        for (number, semitone) in (1..=MOST_FRETS + 1).zip(semitones(&spec.scale.pattern)) {
            let is_next = number <= spec.scale.frets + 1;
            let x = fret_distance(spec.scale.length, semitone);
            let mut blocked = obstacle(spec, neck, frame, heel, kind, previous, x);
            if let Some((obstacle, lacks)) = blocked
                && kind == FretKind::WrappedWire
                && spec.frets.past_heel == PastHeel::Seated
                && obstacle == Obstacle::Heel
            {
                wrapped_stop = is_next.then_some(Shortfall { number, x, obstacle, lacks });
                kind = FretKind::SeatedWire;
                blocked = self::obstacle(spec, neck, frame, heel, kind, previous, x);
            }
            if let Some((obstacle, lacks)) = blocked {
                stop = is_next.then_some(Shortfall { number, x, obstacle, lacks });
                break;
            }
            previous = x;
            if number <= MOST_FRETS {
                room.frets += 1;
                room.wrapped += u8::from(kind == FretKind::WrappedWire);
            }
            if number > spec.scale.frets {
                continue;
            }
            let width = neck.width(x);
            frets.push(Fret {
                number,
                semitone,
                x,
                kind,
                crown: crown_height(spec, kind),
                width,
                wire: wire::length_at(spec, kind, width),
            });
        }
        let wrapped = frets.iter().filter(|fret| fret.kind == FretKind::WrappedWire).count() as u8;
        Self { frets, reach: Reach { wanted: spec.scale.frets, wrapped, stop, wrapped_stop, room } }
    }
}

/// The semitones of a pattern, rising; without end for the patterns that repeat.
fn semitones(pattern: &FretPattern) -> Box<dyn Iterator<Item = u8> + '_> {
    const DIATONIC: [u8; 7] = [2, 4, 5, 7, 9, 10, 12];
    match pattern {
        FretPattern::Chromatic => Box::new(1..=u8::MAX),
        FretPattern::Diatonic => {
            let octaves = (0..u8::MAX / 12).map(|octave| octave * 12);
            Box::new(octaves.flat_map(|below| DIATONIC.map(|step| below + step)))
        }
        FretPattern::Semitones(list) => Box::new(list.iter().copied()),
    }
}

/// What stops a fret of `kind` at `x`, and how much room it lacks.
fn obstacle(
    spec: &Spec,
    neck: &NeckShape,
    frame: &BoxFrame,
    heel: Option<&HeelPlan>,
    kind: FretKind,
    previous: Length,
    x: Length,
) -> Option<(Obstacle, Length)> {
    let half = half_width(spec, kind);
    let gap = x - previous - half * 2.0 - FREE_NECK;
    if previous > Length::ZERO && gap < Length::ZERO {
        return Some((Obstacle::Neighbour, -gap));
    }
    let (limit, obstacle) = match kind {
        // A wrapped wire meets the wall or the heel wherever on its way round the neck they reach farthest out.
        FretKind::WrappedWire => {
            let wall = frame.neck_wall_x(neck.top_z).min(frame.neck_wall_x(neck.bottom_z));
            match heel {
                Some(heel) => (heel.front_x, Obstacle::Heel),
                None => (wall, Obstacle::Box),
            }
        }
        FretKind::SeatedWire | FretKind::FretWire => (frame.neck_wall_x(neck.top_z), Obstacle::Box),
    };
    let lacks = x + half + FREE_NECK - limit;
    (lacks > Length::ZERO).then_some((obstacle, lacks))
}

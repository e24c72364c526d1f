//! The whole layout, and the order in which one thing follows from another.

use spec::{BoardRadius, Handed, Spec};
use units::Length;

use crate::box_frame::BoxFrame;
use crate::fret_distance;
use crate::frets::{FretPlan, crown_height};
use crate::grooves::{Groove, grooves};
use crate::heel::HeelPlan;
use crate::holes::{BoxHole, holes};
use crate::neck_shape::NeckShape;
use crate::nut::{self, NutPlan};
use crate::place::Place;
use crate::saddle::SaddlePlan;
use crate::string_path::{StringNumber, StringPath};
use crate::tail::TailPlan;
use crate::tuners::{Tuner, tuners};
use crate::wire::WireList;

/// Where everything of one instrument goes. Only [`layout`] makes one, so that one in hand stands for a valid document.
#[derive(Clone, Debug, PartialEq)]
pub struct Layout {
    spec: Spec,
    frame: BoxFrame,
    neck: NeckShape,
    heel: Option<HeelPlan>,
    frets: FretPlan,
    nut: NutPlan,
    saddle: SaddlePlan,
    tail: TailPlan,
    tuners: Vec<Tuner>,
    strings: Vec<StringPath>,
    wire: WireList,
    holes: Vec<BoxHole>,
    grooves: Vec<Groove>,
}

/// A plan that cannot be laid out at all.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum LayoutFault {
    /// The neck end of the box would lie at or before the nut.
    #[error(
        "the box begins {found} from the zero fret, at least {least} is needed: make scale.length longer, or box.length shorter, or saddle.from_tail_end larger"
    )]
    BoxReachesNut {
        /// Where the neck end of the box would lie.
        found: Length,
        /// The least distance.
        least: Length,
    },
}

/// The least length of free neck between zero fret and box: one first fret of the shortest scale and a hand.
const LEAST_FREE_NECK: Length = Length::mm(50.0);

/// Lays out the instrument that a document describes.
///
/// # Errors
///
/// [`LayoutFault::BoxReachesNut`] when the scale length is too short for the box and the saddle's place on it.
pub fn layout(spec: &Spec) -> Result<Layout, LayoutFault> {
    // The strings' heights at both ends follow from the zero fret and the wanted action alone ...
    let zero_fret_x = Length::ZERO;
    let nut_front_x = -spec.nut.gap_behind_zero_fret;
    let scale_length = spec.scale.length;
    let at_nut = nut::spread(&spec.strings, spec.nut.spacing, spec.neck.width_at_nut, spec.nut.edge_margin);
    let half_spread = spec.saddle.spread / 2.0;
    let at_saddle = nut::between(&spec.strings, spec.nut.spacing, -half_spread, half_spread);
    let undersides: Vec<[Place; 2]> = at_nut
        .iter()
        .zip(&at_saddle)
        .map(|(nut_y, saddle_y)| {
            let flat_nut = Place { x: nut_front_x, y: *nut_y, z: Length::ZERO };
            let flat_saddle = Place { x: scale_length, y: *saddle_y, z: Length::ZERO };
            let zero_fret_y = flat_nut.on_the_way_to(flat_saddle, zero_fret_x).y;
            let zero_fret = Place {
                x: zero_fret_x,
                y: zero_fret_y,
                z: spec.zero_fret.crown_height + board_surface(spec.fretboard.radius, zero_fret_y),
            };
            [zero_fret, Place { z: crest_z(spec, zero_fret, flat_nut, flat_saddle), ..flat_saddle }]
        })
        .collect();
    let on_zero_fret: Vec<Place> = undersides.iter().map(|[zero_fret, _]| *zero_fret).collect();
    let on_saddle: Vec<Place> = undersides.iter().map(|[_, saddle]| *saddle).collect();

    // ... the box stands where the middle of the saddle wants it ...
    let middle = on_saddle.iter().map(|crest| crest.z).sum::<Length>() / on_saddle.len() as f64;
    let frame = BoxFrame::under(Place { x: scale_length, y: Length::ZERO, z: middle }, spec);
    if frame.neck_end_x < LEAST_FREE_NECK {
        return Err(LayoutFault::BoxReachesNut { found: frame.neck_end_x, least: LEAST_FREE_NECK });
    }

    // ... and the rest follows from the box and the strings.
    let neck = NeckShape::of(spec, &frame);
    let heel = HeelPlan::of(spec, &neck, &frame);
    let frets = FretPlan::of(spec, &neck, &frame, heel.as_ref());
    let tuners = tuners(spec, &neck, &at_nut);
    let at_post: Vec<Place> = spec
        .strings
        .iter()
        .zip(&tuners)
        .map(|(string, tuner)| tuner.post.raised(-string.diameter / 2.0))
        .collect();
    let nut = NutPlan::of(spec, &neck, &at_nut, &on_zero_fret, &at_post);
    let saddle = SaddlePlan::of(spec, &frame, &on_saddle);
    let fan: Vec<f64> = at_nut
        .iter()
        .zip(&at_saddle)
        .map(|(nut_y, saddle_y)| (*saddle_y - *nut_y) / (scale_length - nut_front_x))
        .collect();
    let tail = TailPlan::of(spec, saddle.along, &at_saddle, &fan);
    let count = spec.strings.len();
    let strings = (0..count)
        .map(|index| {
            let string = &spec.strings[index];
            let radius = string.diameter / 2.0;
            let floor = nut.slots[index].front;
            let straight = on_zero_fret[index].on_the_way_to(at_post[index], nut_front_x);
            let mut path = StringPath {
                number: StringNumber((count - index) as u8),
                pitch: string.pitch,
                diameter: string.diameter,
                post: tuners[index].post,
                nut: Place { z: floor.z.max(straight.z), ..floor }.raised(radius),
                zero_fret: on_zero_fret[index].raised(radius),
                saddle: on_saddle[index].raised(radius),
                tail: TailPlan::entry(&tail.bores[index], &frame),
                actions: Vec::new(),
            };
            path.actions = frets
                .frets
                .iter()
                .map(|fret| {
                    let surface = board_surface(spec.fretboard.radius, path.underside(fret.x).y);
                    path.action_over(fret, fret.crown + surface)
                })
                .collect();
            path
        })
        .collect();
    let wire = WireList::of(spec, &frets, neck.width(zero_fret_x));
    let right_handed = Layout {
        spec: spec.clone(),
        frame,
        neck,
        heel,
        nut,
        saddle,
        tail,
        tuners,
        strings,
        wire,
        holes: holes(spec),
        grooves: grooves(spec, &frets),
        frets,
    };
    Ok(match spec.handed {
        Handed::Right => right_handed,
        Handed::Left => right_handed.mirrored(),
    })
}

/// Height of the playing surface at `y` against its height on the centre line.
fn board_surface(radius: BoardRadius, y: Length) -> Length {
    match radius {
        BoardRadius::Flat => Length::ZERO,
        BoardRadius::Radius(radius) => {
            let (radius, y) = (radius.as_mm(), y.as_mm());
            Length::mm((radius * radius - y * y).max(0.0).sqrt() - radius)
        }
    }
}

/// Height of the saddle's crest that gives a string the wanted action over the wanted fret.
///
/// The underside runs straight from the zero fret's crown through the point `action.height` above the fret's crown.
fn crest_z(spec: &Spec, zero_fret: Place, flat_nut: Place, flat_saddle: Place) -> Length {
    let fret_x = fret_distance(spec.scale.length, spec.action.fret);
    let fret_y = flat_nut.on_the_way_to(flat_saddle, fret_x).y;
    let crown = crown_height(spec, spec.frets.kind) + board_surface(spec.fretboard.radius, fret_y);
    let rise = crown + spec.action.height - zero_fret.z;
    zero_fret.z + rise * (spec.scale.length / fret_x)
}

impl Layout {
    /// The document that it was laid out from.
    #[must_use]
    pub fn spec(&self) -> &Spec {
        &self.spec
    }

    /// The box's own frame.
    #[must_use]
    pub fn frame(&self) -> &BoxFrame {
        &self.frame
    }

    /// The stick.
    #[must_use]
    pub fn neck(&self) -> &NeckShape {
        &self.neck
    }

    /// The heel, where there is one.
    #[must_use]
    pub fn heel(&self) -> Option<&HeelPlan> {
        self.heel.as_ref()
    }

    /// The frets.
    #[must_use]
    pub fn frets(&self) -> &FretPlan {
        &self.frets
    }

    /// The nut.
    #[must_use]
    pub fn nut(&self) -> &NutPlan {
        &self.nut
    }

    /// The saddle.
    #[must_use]
    pub fn saddle(&self) -> &SaddlePlan {
        &self.saddle
    }

    /// The tail.
    #[must_use]
    pub fn tail(&self) -> &TailPlan {
        &self.tail
    }

    /// The tuners, one a string, bass to treble.
    #[must_use]
    pub fn tuners(&self) -> &[Tuner] {
        &self.tuners
    }

    /// The strings, bass to treble.
    #[must_use]
    pub fn strings(&self) -> &[StringPath] {
        &self.strings
    }

    /// The wire to cut.
    #[must_use]
    pub fn wire(&self) -> &WireList {
        &self.wire
    }

    /// What is cut across the playing surface, from the zero fret on.
    #[must_use]
    pub fn grooves(&self) -> &[Groove] {
        &self.grooves
    }

    /// The openings of the box.
    #[must_use]
    pub fn holes(&self) -> &[BoxHole] {
        &self.holes
    }

    /// The exact mirror in `y`; the strings keep their order from bass to treble.
    fn mirrored(mut self) -> Self {
        for slot in &mut self.nut.slots {
            slot.front = slot.front.mirrored();
            slot.rear = slot.rear.mirrored();
        }
        for crest in &mut self.saddle.crests {
            crest.across = -crest.across;
        }
        for bore in &mut self.tail.bores {
            bore.across = -bore.across;
        }
        for screw in &mut self.tail.screws {
            screw.across = -screw.across;
        }
        for tuner in &mut self.tuners {
            tuner.bore = tuner.bore.mirrored();
            tuner.post = tuner.post.mirrored();
        }
        self.strings = self.strings.into_iter().map(StringPath::mirrored).collect();
        self.holes = self.holes.into_iter().map(BoxHole::mirrored).collect();
        self
    }
}

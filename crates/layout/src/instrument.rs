//! The whole layout, and the order in which one thing follows from another.

use mechanics::fixed_point::{Patience, rest};
use spec::{BoardRadius, Handed, Spec};
use units::{Force, Length};

use crate::bow::{Bow, PullLine};
use crate::box_frame::BoxFrame;
use crate::frets::FretPlan;
use crate::grooves::{Groove, grooves};
use crate::headstock::HeadstockPlan;
use crate::heel::HeelPlan;
use crate::holes::{BoxHole, holes};
use crate::neck_shape::NeckShape;
use crate::nut::{self, NutPlan};
use crate::place::Place;
use crate::saddle::SaddlePlan;
use crate::string_path::{StringNumber, StringPath};
use crate::strung::{Run, level_line, playing_radius};
use crate::tail::TailPlan;
use crate::tuned::{TunedString, tuned_strings};
use crate::tuners::{Tuner, tuners};
use crate::weak_place::{WeakPlace, weakest};
use crate::wire::WireList;

/// Where everything of one instrument goes. Only [`layout`] makes one, so that one in hand stands for a valid document.
#[derive(Clone, Debug, PartialEq)]
pub struct Layout {
    spec: Spec,
    frame: BoxFrame,
    neck: NeckShape,
    headstock: HeadstockPlan,
    heel: Option<HeelPlan>,
    bow: Bow,
    weakest: Option<WeakPlace>,
    frets: FretPlan,
    tuned: Vec<TunedString>,
    runs: Vec<Run>,
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

impl Layout {
    /// The same of an instrument that is called otherwise: a name moves nothing.
    #[must_use]
    pub fn renamed(mut self, name: String) -> Self {
        self.spec.name = name;
        self
    }
}

/// The least length of free neck between zero fret and box: one first fret of the shortest scale and a hand.
const LEAST_FREE_NECK: Length = Length::mm(50.0);

/// Lays out the instrument that a document describes.
///
/// # Errors
///
/// [`LayoutFault::BoxReachesNut`] when the scale length is too short for the box and the saddle's place on it.
pub fn layout(spec: &Spec) -> Result<Layout, LayoutFault> {
    let tuned = tuned_strings(spec);
    let ways = Ways::of(spec);
    // The strings bend the neck, which changes how high the crests must be, which changes where the strings pull.
    let tension = tuned.iter().map(|string| string.model.nominal.tension()).sum();
    let start = mean_crest(spec, &Bow::straight(spec), &ways);
    let resting = rest([start.as_mm()], PATIENCE, |[crest_mm]| {
        let stand = Length::try_mm(crest_mm).map(|crest| Stand::under(spec, crest, tension));
        [stand.map_or(f64::NAN, |stand| mean_crest(spec, &stand.bow, &ways).as_mm())]
    });
    let crest = resting.settled().map_or(start, |[crest_mm]| Length::mm(crest_mm));
    let Stand { frame, neck, heel, bow, pull } = Stand::under(spec, crest, tension);
    let bow = bow.with_verdict(resting.settled().is_some());
    if frame.neck_end_x < LEAST_FREE_NECK {
        return Err(LayoutFault::BoxReachesNut { found: frame.neck_end_x, least: LEAST_FREE_NECK });
    }

    let frets = FretPlan::of(spec, &neck, &frame, heel.as_ref());
    let runs: Vec<Run> = tuned
        .iter()
        .zip(ways.zero_fret.iter().zip(&ways.saddle))
        .map(|(string, (zero_fret_y, saddle_y))| {
            Run::new(spec, &frets.frets, &bow, string, *zero_fret_y, *saddle_y)
        })
        .collect();
    let on_zero_fret: Vec<Place> = runs
        .iter()
        .zip(&ways.zero_fret)
        .map(|(run, y)| Place { x: Length::ZERO, y: *y, z: run.line.zero_fret_height })
        .collect();
    let on_saddle: Vec<Place> = runs
        .iter()
        .zip(ways.saddle.iter().zip(&ways.fan))
        .map(|(run, (saddle_y, fan))| run.crest(*saddle_y, *fan))
        .collect();
    let tuners = tuners(spec, &neck, &ways.nut);
    let at_post: Vec<Place> = spec
        .strings
        .iter()
        .zip(&tuners)
        .map(|(string, tuner)| tuner.post.raised(-string.diameter / 2.0))
        .collect();
    let nut = NutPlan::of(spec, &neck, &ways.nut, &on_zero_fret, &at_post);
    let saddle = SaddlePlan::of(spec, &frame, &on_saddle);
    let tail = TailPlan::of(spec, saddle.along, &ways.saddle, &ways.fan);
    let strings = (0..spec.strings.len())
        .map(|index| {
            let string = &spec.strings[index];
            let radius = string.diameter / 2.0;
            let floor = nut.slots[index].front;
            let straight = on_zero_fret[index].on_the_way_to(at_post[index], neck.nut_front_x);
            StringPath {
                number: StringNumber((spec.strings.len() - index) as u8),
                pitch: string.pitch,
                diameter: string.diameter,
                post: tuners[index].post,
                nut: Place { z: floor.z.max(straight.z), ..floor }.raised(radius),
                zero_fret: on_zero_fret[index].raised(radius),
                saddle: on_saddle[index].raised(radius),
                tail: TailPlan::entry(&tail.bores[index], &frame),
                actions: runs[index].actions(),
            }
        })
        .collect();
    let wire = WireList::of(spec, &frets, neck.width(Length::ZERO));
    let headstock = HeadstockPlan::of(spec, &neck);
    let (holes, grooves) = (holes(spec), grooves(spec, &frets));
    let weakest = weakest(spec, &neck, &frame, heel.as_ref(), &grooves, tension, pull).ok().flatten();
    let spec = spec.clone();
    let right_handed = Layout {
        spec,
        frame,
        neck,
        headstock,
        heel,
        bow,
        weakest,
        frets,
        tuned,
        runs,
        nut,
        saddle,
        tail,
        tuners,
        strings,
        wire,
        holes,
        grooves,
    };
    Ok(match right_handed.spec.handed {
        Handed::Right => right_handed,
        Handed::Left => right_handed.mirrored(),
    })
}

/// When strings and neck have come to rest: a tenth of a micrometre of the crest is far below any tool.
const PATIENCE: Patience = Patience { settled: 1e-4, rounds: 30 };

/// Where each string crosses what it bears on, across the neck.
struct Ways {
    nut: Vec<Length>,
    zero_fret: Vec<Length>,
    saddle: Vec<Length>,
    /// How far it moves across for each length along.
    fan: Vec<f64>,
}

impl Ways {
    fn of(spec: &Spec) -> Self {
        let nut = nut::spread(&spec.strings, spec.nut.spacing, spec.neck.width_at_nut, spec.nut.edge_margin);
        let half_spread = spec.saddle.spread / 2.0;
        let saddle = nut::between(&spec.strings, spec.nut.spacing, -half_spread, half_spread);
        let from_nut = spec.nut.gap_behind_zero_fret;
        let fan: Vec<f64> = nut
            .iter()
            .zip(&saddle)
            .map(|(nut, saddle)| (*saddle - *nut) / (spec.scale.length + from_nut))
            .collect();
        let zero_fret = nut.iter().zip(&fan).map(|(nut, fan)| *nut + from_nut * *fan).collect();
        Self { nut, zero_fret, saddle, fan }
    }
}

/// What follows from the height of the crests alone.
struct Stand {
    frame: BoxFrame,
    neck: NeckShape,
    heel: Option<HeelPlan>,
    bow: Bow,
    pull: PullLine,
}

impl Stand {
    fn under(spec: &Spec, crest: Length, tension: Force) -> Self {
        let frame = BoxFrame::under(Place { x: spec.scale.length, y: Length::ZERO, z: crest }, spec);
        let neck = NeckShape::of(spec, &frame);
        let heel = HeelPlan::of(spec, &neck, &frame);
        let pull = PullLine { at_zero_fret: spec.zero_fret.crown_height, at_saddle: crest };
        let bow = Bow::of(spec, &neck, &frame, heel.as_ref(), tension, pull);
        Self { frame, neck, heel, bow, pull }
    }
}

/// The mean height of the crests that give every string the wanted action over a bent neck.
fn mean_crest(spec: &Spec, bow: &Bow, ways: &Ways) -> Length {
    let ends = ways.zero_fret.iter().zip(&ways.saddle);
    let crests = ends.map(|(zero_fret, saddle)| level_line(spec, bow, [*zero_fret, *saddle]).saddle_height);
    crests.sum::<Length>() / ways.saddle.len() as f64
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

    /// The headstock from above.
    #[must_use]
    pub fn headstock(&self) -> &HeadstockPlan {
        &self.headstock
    }

    /// How wide a plank the stick wants: as the neck at its widest, and as a headstock that is wider.
    #[must_use]
    pub fn stick_width(&self) -> Length {
        let half = self.neck.width_at_nut.max(self.neck.width_at_box) / 2.0;
        let head = self.headstock.bounds();
        Length::mm(half.as_mm().max(head.max.y) - (-half).as_mm().min(head.min.y))
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

    /// The neck's bow under the strings.
    #[must_use]
    pub fn bow(&self) -> &Bow {
        &self.bow
    }

    /// The radius of what the frets sit on: a neck without a board is flat, whatever is said of the board.
    #[must_use]
    pub fn playing_radius(&self) -> BoardRadius {
        playing_radius(&self.spec)
    }

    /// The place where the neck bears most; nothing where some section has nothing left to bear with.
    #[must_use]
    pub fn weakest(&self) -> Option<WeakPlace> {
        self.weakest
    }

    /// The strings at their pitches, bass to treble.
    #[must_use]
    pub fn tuned(&self) -> &[TunedString] {
        &self.tuned
    }

    /// The strings' runs over the frets, bass to treble.
    #[must_use]
    pub fn runs(&self) -> &[Run] {
        &self.runs
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
        self.headstock = self.headstock.mirrored();
        self.strings = self.strings.into_iter().map(StringPath::mirrored).collect();
        self.holes = self.holes.into_iter().map(BoxHole::mirrored).collect();
        self
    }
}

//! How far do the strings bend the neck?

use mechanics::MechanicsError;
use mechanics::neck::{Neck, NeckStation, amplification, deflection};
use mechanics::section::{Layer, Section, composite, rectangle};
use spec::{Joint, NeckSection, Spec};
use units::{Force, Length};

use crate::box_frame::BoxFrame;
use crate::heel::HeelPlan;
use crate::neck_section::NeckRing;
use crate::neck_shape::NeckShape;

/// The bent neck: how far each of its places has risen, and what that does under the strings.
///
/// The neck is a beam held at the box: a butted one fast, a through one by its tongue, which rests on both end walls and so
/// turns a little at the neck's. The strings pull along the line from zero fret to saddle, above the neck's neutral axis. A
/// board on the neck is taken to be as stiff as the neck's wood.
#[derive(Clone, Debug, PartialEq)]
pub struct Bow {
    neck: Option<Neck>,
    tension: Force,
    amplified: f64,
    held_x: Length,
    wall_rise: Length,
    scale_length: Length,
    droop: Length,
    settled: bool,
}

/// Where the strings pull: their mean height over the playing plane at the zero fret and at the saddle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct PullLine {
    pub(crate) at_zero_fret: Length,
    pub(crate) at_saddle: Length,
}

impl PullLine {
    /// Its height at `x`.
    pub(crate) fn at(&self, x: Length, scale_length: Length) -> Length {
        self.at_zero_fret + (self.at_saddle - self.at_zero_fret) * (x / scale_length)
    }
}

/// One place of the neck: where it is and how it resists there.
pub(crate) struct Cut {
    pub(crate) x: Length,
    pub(crate) section: Section,
    pub(crate) bending_stiffness_n_mm2: f64,
    pub(crate) neutral_z: Length,
}

impl Bow {
    /// The neck under the strings; one that cannot be reckoned (it would buckle) is left straight and called unsettled.
    pub(crate) fn of(
        spec: &Spec,
        neck: &NeckShape,
        frame: &BoxFrame,
        heel: Option<&HeelPlan>,
        tension: Force,
        pull: PullLine,
    ) -> Self {
        let straight = Self { tension, ..Self::straight(spec) };
        bent(&straight, spec, neck, frame, heel, pull).unwrap_or(straight)
    }

    /// A neck that the strings do not bend.
    pub(crate) fn straight(spec: &Spec) -> Self {
        Self {
            neck: None,
            tension: Force::ZERO,
            amplified: 1.0,
            held_x: Length::ZERO,
            wall_rise: Length::ZERO,
            scale_length: spec.scale.length,
            droop: Length::ZERO,
            settled: false,
        }
    }

    /// How far the neck has risen toward the strings at `x`, against the box.
    #[must_use]
    pub fn rise(&self, x: Length) -> Length {
        let Some(neck) = &self.neck else { return Length::ZERO };
        let from_held = (self.held_x - x).max(Length::ZERO);
        deflection(neck, self.tension, from_held) * self.amplified - self.wall_rise
    }

    /// How far a fret at `x` lies below the place where an unbent neck would hold it, seen from the line between zero fret and
    /// saddle: what the strings' pull adds to its action.
    #[must_use]
    pub fn at(&self, x: Length) -> Length {
        self.droop * (1.0 - x / self.scale_length) - self.rise(x)
    }

    /// How far the zero fret has risen against the box.
    #[must_use]
    pub fn droop(&self) -> Length {
        self.droop
    }

    /// What all strings pull together.
    #[must_use]
    pub fn tension(&self) -> Force {
        self.tension
    }

    /// Whether the neck could be reckoned, and strings and neck came to rest when they were worked out in turn.
    #[must_use]
    pub fn settled(&self) -> bool {
        self.settled
    }

    /// The same with the verdict of going round.
    pub(crate) fn with_verdict(self, settled: bool) -> Self {
        Self { settled: self.settled && settled, ..self }
    }
}

fn bent(
    straight: &Bow,
    spec: &Spec,
    neck: &NeckShape,
    frame: &BoxFrame,
    heel: Option<&HeelPlan>,
    pull: PullLine,
) -> Result<Bow, MechanicsError> {
    let wall_x = frame.neck_wall_x(neck.top_z);
    let string_z = |x: Length| pull.at(x, spec.scale.length);
    // A beam on two supports turns at the end where a moment acts like a held one of a third of its length (M l/(3 EI) against
    // M l/EI; Gere and Timoshenko, from memory).
    let lead = match neck.joint {
        Joint::Through => spec.body.length / 3.0,
        Joint::Butt => Length::ZERO,
    };
    let held_x = wall_x + lead;
    let mut stations = Vec::new();
    if neck.joint == Joint::Through {
        let tongue = tongue(spec, neck, frame)?;
        let below_strings = string_z(wall_x) - tongue.neutral_z;
        for from_box in [Length::ZERO, lead] {
            stations.push(NeckStation {
                from_box,
                bending_stiffness_n_mm2: tongue.bending_stiffness_n_mm2,
                below_strings,
            });
        }
    }
    for cut in cuts(spec, neck, heel, wall_x)? {
        let below_strings = string_z(cut.x) - cut.neutral_z;
        stations.push(NeckStation {
            from_box: lead + (wall_x - cut.x),
            bending_stiffness_n_mm2: cut.bending_stiffness_n_mm2,
            below_strings,
        });
    }
    let softest =
        stations.iter().map(|station| station.bending_stiffness_n_mm2).fold(f64::INFINITY, f64::min);
    let amplified = amplification(softest, held_x - neck.nut_front_x, straight.tension)?;
    let beam = Neck::new(stations)?;
    let wall_rise = deflection(&beam, straight.tension, lead) * amplified;
    let bow = Bow { neck: Some(beam), amplified, held_x, wall_rise, settled: true, ..straight.clone() };
    let droop = bow.rise(Length::ZERO);
    Ok(Bow { droop, ..bow })
}

/// From the box wall to the nut: steps at the heel's end and at both sides of the zero fret's slot.
fn cuts(
    spec: &Spec,
    neck: &NeckShape,
    heel: Option<&HeelPlan>,
    wall_x: Length,
) -> Result<Vec<Cut>, MechanicsError> {
    let half_slot = spec.zero_fret.slot_width / 2.0;
    let plain = |x: Length, slot: Length| across(spec, neck, None, x, slot);
    let mut cuts = Vec::new();
    let mut from_x = wall_x;
    if let Some(heel) = heel {
        cuts.push(across(spec, neck, Some(heel), wall_x, Length::ZERO)?);
        cuts.push(across(spec, neck, Some(heel), heel.front_x, Length::ZERO)?);
        from_x = heel.front_x;
    }
    cuts.push(plain(from_x, Length::ZERO)?);
    cuts.push(plain((from_x + half_slot) / 2.0, Length::ZERO)?);
    cuts.push(plain(half_slot, Length::ZERO)?);
    cuts.push(plain(half_slot, spec.zero_fret.slot_depth)?);
    cuts.push(plain(-half_slot, spec.zero_fret.slot_depth)?);
    cuts.push(plain(-half_slot, Length::ZERO)?);
    cuts.push(plain(neck.nut_front_x.min(-half_slot), Length::ZERO)?);
    Ok(cuts)
}

/// The neck at `x`, less a slot of some depth from above, with its board and its heel.
pub(crate) fn across(
    spec: &Spec,
    neck: &NeckShape,
    heel: Option<&HeelPlan>,
    x: Length,
    slot: Length,
) -> Result<Cut, MechanicsError> {
    let width = neck.width(x);
    let board = spec.fretboard.thickness;
    let stick_top = neck.top_z.min(-slot);
    let stick = NeckRing::new(neck.section, width, neck.top_z, neck.bottom_z, neck.edge_radius)
        .cut_down_to(stick_top)
        .section();
    let mut layers = vec![(stick, -stick_top)];
    if board > slot {
        layers.push((rectangle(width, board - slot)?, slot));
    }
    if let Some(heel) = heel {
        layers.push((rectangle(width, heel.top_z - heel.bottom_z)?, -heel.top_z));
    }
    glued(spec, x, &layers, Length::ZERO)
}

/// The tongue inside the box: as thick as at the wall where it is thinner.
pub(crate) fn tongue(spec: &Spec, neck: &NeckShape, frame: &BoxFrame) -> Result<Cut, MechanicsError> {
    let recess = -spec.body.lid - spec.neck.tongue_recess;
    let top = frame.level_z(recess, neck.box_x).min(frame.level_z(recess, neck.tail_end_x));
    let ring = NeckRing::new(NeckSection::Square, neck.width_at_box, top, neck.bottom_z, neck.edge_radius);
    let section = ring.section();
    glued(spec, neck.box_x, &[(section, Length::ZERO)], top)
}

/// Layers of the neck's wood, each with the depth of its top below `top_z`; they bend and bear as one.
pub(crate) fn glued(
    spec: &Spec,
    x: Length,
    layers: &[(Section, Length)],
    top_z: Length,
) -> Result<Cut, MechanicsError> {
    let elastic_modulus = spec.neck.wood.shear_free_modulus();
    let tops = layers.iter().map(|(_, top_depth)| *top_depth);
    let bottoms = layers.iter().map(|(section, top_depth)| *top_depth + section.depth);
    let top = tops.reduce(Length::min).unwrap_or(Length::ZERO);
    let bottom = bottoms.reduce(Length::max).unwrap_or(Length::ZERO);
    let layers: Vec<Layer> = layers
        .iter()
        .map(|(section, top_depth)| Layer { section: *section, top_depth: *top_depth, elastic_modulus })
        .collect();
    let whole = composite(&layers)?;
    let section = Section {
        area_mm2: whole.stretch_stiffness_n / elastic_modulus.as_megapascals(),
        second_moment_mm4: whole.bending_stiffness_n_mm2 / elastic_modulus.as_megapascals(),
        centroid_depth: whole.neutral_depth - top,
        depth: bottom - top,
    };
    Ok(Cut {
        x,
        section,
        bending_stiffness_n_mm2: whole.bending_stiffness_n_mm2,
        neutral_z: top_z - whole.neutral_depth,
    })
}

//! Where is the neck weakest under the strings?
//!
//! Wherever wood is taken away: at the headstock's step, in the slots, where the heel ends, at the box and in the tongue.

use mechanics::MechanicsError;
use mechanics::neck::section_stress;
use mechanics::section::rectangle;
use spec::{Joint, Spec};
use units::{Force, Length, Stress};

use crate::bow::{Cut, PullLine, across, glued, tongue};
use crate::box_frame::BoxFrame;
use crate::grooves::Groove;
use crate::heel::HeelPlan;
use crate::neck_shape::NeckShape;

/// A place of the neck and what it bears.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WeakPlace {
    /// Which place.
    pub place: NeckPlace,
    /// From its top to its underside there, board and heel included.
    pub depth: Length,
    /// The largest stress there, of bending and compression together.
    pub stress: Stress,
}

/// The places where a neck may be weakest.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NeckPlace {
    /// Right behind the nut, where the headstock is cut down.
    Headstock,
    /// Under the zero fret's slot.
    ZeroFret,
    /// Under the slot or the groove of a fret, by its number.
    Fret(u8),
    /// Where the heel begins, or the box where there is none.
    BeforeHeel,
    /// At the box's wall, heel included.
    Box,
    /// In the tongue, inside the wall.
    Tongue,
}

/// The place with the largest stress; nothing where a section has nothing left to bear with.
///
/// - **Accuracy**: of plane sections under tension times distance; the strings' pull line goes on straight behind the zero fret,
///   which puts a little too much on the headstock.
/// - **Source**: [`section_stress`].
pub(crate) fn weakest(
    spec: &Spec,
    neck: &NeckShape,
    frame: &BoxFrame,
    heel: Option<&HeelPlan>,
    grooves: &[Groove],
    tension: Force,
    pull: PullLine,
) -> Result<Option<WeakPlace>, MechanicsError> {
    let wall_x = frame.neck_wall_x(neck.top_z);
    let heel_x = heel.map_or(wall_x, |heel| heel.front_x);
    let mut cuts = vec![
        (NeckPlace::Headstock, headstock(spec, neck)?),
        (NeckPlace::BeforeHeel, across(spec, neck, None, heel_x, Length::ZERO)?),
        (NeckPlace::Box, across(spec, neck, heel, wall_x, Length::ZERO)?),
    ];
    for groove in grooves {
        let over_heel = heel.filter(|heel| groove.x > heel.front_x);
        let place = if groove.fret == 0 { NeckPlace::ZeroFret } else { NeckPlace::Fret(groove.fret) };
        cuts.push((place, across(spec, neck, over_heel, groove.x, groove.depth)?));
    }
    if neck.joint == Joint::Through {
        let inside = tongue(spec, neck, frame)?;
        cuts.push((NeckPlace::Tongue, Cut { x: wall_x, ..inside }));
    }
    let places = cuts.into_iter().map(|(place, cut)| {
        let below_strings = pull.at(cut.x, spec.scale.length) - cut.neutral_z;
        let stress = section_stress(&cut.section, tension, below_strings).together();
        WeakPlace { place, depth: cut.section.depth, stress }
    });
    Ok(places.max_by(|one, other| one.stress.as_megapascals().total_cmp(&other.stress.as_megapascals())))
}

/// The headstock is square.
fn headstock(spec: &Spec, neck: &NeckShape) -> Result<Cut, MechanicsError> {
    let section = rectangle(neck.width_at_nut, neck.head_top_z - neck.bottom_z)?;
    glued(spec, neck.nut_front_x, &[(section, Length::ZERO)], neck.head_top_z)
}

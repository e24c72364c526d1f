//! How does an instrument play that was not made quite as planned?
//!
//! A changed document is another plan: [`layout`](crate::layout()) works its saddle out anew, so that the action is as wanted. Here
//! the parts are made once, to one plan's numbers, each with an error of its own; then the strings go on, and are tuned.
//! [`Deviations`] says what was made otherwise, [`built()`] how that plays. With no deviations it agrees with layout and
//! [`Playing`](crate::playing::Playing) to the last bit, and it is smooth enough to be differentiated by finite differences.
//!
//! The neck's bow is the planned one, larger or smaller with the pull of all strings, and what the wood has given beyond that; what a
//! changed saddle does to the bow is left out, which is about a hundredth of the deviation itself.

mod deviations;
mod set_neck;

pub use deviations::{AcrossSaddle, Deviations, FretDeviation};

use mechanics::MechanicsError;
use mechanics::clearance::{Margin, PlayedString, margins};
use mechanics::drift::{StringPath as PathOverLid, drift_per_mm};
use mechanics::intonation::error_map;
use mechanics::string_line::{Fret as CrownUnderString, StringLine};
use mechanics::string_model::StringModel;
use units::{Force, Length};

use crate::instrument::Layout;
use crate::place::Place;
use crate::playing::{Player, path_over_lid};
use set_neck::SetNeck;

/// How an instrument plays as it was made.
#[derive(Clone, Debug, PartialEq)]
pub struct Built {
    /// Its strings, bass to treble.
    pub strings: Vec<BuiltString>,
    /// How much higher than planned each fret lies under the strings, in the order of the frets.
    pub raised: Vec<Length>,
}

/// How one string plays on an instrument as it was made.
#[derive(Clone, Debug, PartialEq)]
pub struct BuiltString {
    /// Where it bears, seen from the neck.
    pub line: StringLine,
    /// The action where the document measures it; over the fret there as it was made, where there is one.
    pub action: Length,
    /// The action over each fret, in the order of the frets.
    pub actions: Vec<Length>,
    /// Error of each fretted note when the open string is tuned to pitch, in cents, positive sharp.
    pub cents: Vec<f64>,
    /// Drift of the open string for each millimetre that the saddle moves toward the tail, in cents; it is not a number where the
    /// tail lies at the saddle.
    pub drift_cents_per_mm: f64,
    /// The room that the plucked string leaves over each later fret, from each fret.
    pub margins: Vec<Margin>,
    /// Its way over the lid, seen from the box.
    pub path: PathOverLid,
    /// The string at its pitch.
    pub model: StringModel,
}

impl BuiltString {
    /// The least room over any fret, from any fret; negative where the string touches. Nothing without frets.
    #[must_use]
    pub fn room(&self) -> Option<Length> {
        self.margins.iter().map(Margin::room).reduce(Length::min)
    }
}

/// Deviations with which an instrument cannot be strung.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum BuiltFault {
    /// A string could not be tuned, or its frets do not lie in order between zero fret and saddle.
    #[error("an instrument made so cannot be strung: {0}")]
    CannotBeStrung(#[from] MechanicsError),
}

/// How an instrument of a plan plays that was made with these deviations.
///
/// - **Shape**: the plan, the player, and one instrument's deviations in; what each string does out.
/// - **Units**: in the types; cents are plain numbers.
/// - **Frame**: instrument frame, tied to the neck.
/// - **Accuracy**: that of [`layout`](crate::layout()) and [`Playing`](crate::playing::Playing), with which it agrees to the last bit
///   where there are no deviations. The finger, and the height of a crowned board under a string, are those of the planned place.
/// - **Errors**: [`BuiltFault::CannotBeStrung`].
/// - **Source**: derived: the plan's own straight strings between moved ends.
pub fn built(layout: &Layout, player: &Player, deviations: &Deviations) -> Result<Built, BuiltFault> {
    let models = tuned(layout, deviations)?;
    let pull: Force = models.iter().map(StringModel::tension).sum();
    let planned_pull: Force = layout.tuned().iter().map(|string| string.model.nominal.tension()).sum();
    let more_pull = pull / planned_pull - 1.0;
    let frets = &layout.frets().frets;
    let deeper =
        |x: Length| layout.bow().at(x) * more_pull + deviations.bow_at(x, layout.spec().scale.length);
    let raised: Vec<Length> = frets
        .iter()
        .enumerate()
        .map(|(index, fret)| deviations.fret(index).height - deeper(fret.x))
        .collect();
    let measured = frets.iter().position(|fret| fret.semitone == layout.spec().action.fret);
    let neck = SetNeck::new(layout.frame(), deviations.neck_set);
    let strings = models.iter().enumerate().map(|(index, model)| {
        let run = &layout.runs()[index];
        let ends = Ends::of(layout, &neck, deviations, index);
        let line = ends.line(run.line, deviations);
        let crowns: Vec<CrownUnderString> = run
            .crowns
            .iter()
            .enumerate()
            .map(|(fret, crown)| moved(crown, deviations.fret(fret).place, raised[fret]))
            .collect();
        let measured_over = match measured {
            Some(fret) => moved(&run.measured_over, deviations.fret(fret).place, raised[fret]),
            None => moved(&run.measured_over, Length::ZERO, -deeper(run.measured_over.place)),
        };
        let played = PlayedString { line, tension: model.tension(), pluck: player.pluck };
        let path = ends.path(layout);
        Ok(BuiltString {
            line,
            action: line.action_over(&measured_over),
            actions: crowns.iter().map(|crown| line.action_over(crown)).collect(),
            cents: error_map(model, &line, &crowns)?,
            drift_cents_per_mm: drift_per_mm(model, &path).unwrap_or(f64::NAN),
            margins: margins(&played, &crowns)?,
            path,
            model: *model,
        })
    });
    let strings = strings.collect::<Result<_, MechanicsError>>()?;
    Ok(Built { strings, raised })
}

/// The strings as they were drawn, at their pitches.
fn tuned(layout: &Layout, deviations: &Deviations) -> Result<Vec<StringModel>, MechanicsError> {
    let tuned = layout.tuned().iter().enumerate().map(|(index, string)| {
        let planned = &string.model.nominal;
        let diameter = planned.body().diameter() + deviations.string_diameter(index);
        StringModel::tuned(planned.body().drawn_to(diameter)?, planned.sounding_length(), planned.pitch())
    });
    tuned.collect()
}

fn moved(crown: &CrownUnderString, along: Length, up: Length) -> CrownUnderString {
    CrownUnderString { place: crown.place + along, crown_height: crown.crown_height + up, ..*crown }
}

/// What one string bears on, as it was made.
struct Ends {
    /// How far the crest lies from its planned place, seen from the neck.
    crest_moved: Place,
    /// Centre lines, seen from the box.
    zero_fret: Place,
    saddle: Place,
    tail: Place,
}

impl Ends {
    fn of(layout: &Layout, neck: &SetNeck, deviations: &Deviations, index: usize) -> Self {
        let path = &layout.strings()[index];
        let frame = layout.frame();
        let across = share_across(layout, index);
        let thicker = deviations.string_diameter(index) / 2.0;
        let (place, height) = (deviations.saddle_place.at(across), deviations.saddle_height.at(across));
        let saddle = frame.moved_on_lid(path.saddle, place, height);
        let seen = neck.seen_from_neck(saddle);
        let crest_moved =
            Place { x: seen.x - path.saddle.x, y: seen.y - path.saddle.y, z: seen.z - path.saddle.z };
        let zero_fret = path.zero_fret.raised(deviations.zero_fret_height + thicker);
        Self {
            crest_moved,
            zero_fret: neck.seen_from_box(zero_fret),
            saddle: saddle.raised(thicker),
            tail: frame.moved_on_lid(path.tail, deviations.tail_distance, deviations.tail_height),
        }
    }

    fn line(&self, planned: StringLine, deviations: &Deviations) -> StringLine {
        StringLine {
            zero_fret_height: planned.zero_fret_height + deviations.zero_fret_height,
            saddle_height: planned.saddle_height + self.crest_moved.z,
            saddle_setback: planned.saddle_setback + self.crest_moved.x,
            ..planned
        }
    }

    fn path(&self, layout: &Layout) -> PathOverLid {
        path_over_lid(layout, self.zero_fret, self.saddle, self.tail)
    }
}

/// Where a string's crest lies on the way from the bass string's to the treble string's; half way for a single string.
pub(crate) fn share_across(layout: &Layout, index: usize) -> f64 {
    match layout.saddle().crests.as_slice() {
        crests @ [bass, .., treble] if bass.across != treble.across => {
            (crests[index].across - bass.across) / (treble.across - bass.across)
        }
        _ => 0.5,
    }
}

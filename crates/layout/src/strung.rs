//! How high must the crests be, and how far back, when the strings have bent the neck?
//!
//! The strings pull the head of the neck up. Seen from the straight line between zero fret and saddle, the frets between
//! then lie lower than they were built: the neck's *bow*. The saddle is made for the neck as it is strung, so that the
//! wanted action is there when the instrument is played.

use mechanics::compensation::{Compensation, Freedom, best_setbacks};
use mechanics::string_line::{Fret as CrownUnderString, StringLine};
use spec::{BoardRadius, Spec};
use units::Length;

use crate::bow::Bow;
use crate::fret_distance;
use crate::frets::{Fret, crown_height};
use crate::place::Place;
use crate::tuned::TunedString;

/// How far behind a fret the finger presses. Larger sharpens the low frets; smaller is only reached by practice. Common
/// practice, no source.
pub(crate) const FINGER: Length = Length::mm(8.0);

/// One string's run over the frets, strung.
#[derive(Clone, Debug, PartialEq)]
pub struct Run {
    /// Where it bears: heights of its underside over the playing plane at its `y`, the crest set back as compensated.
    pub line: StringLine,
    /// The crowns under it, lowered by the neck's bow, in the order of the frets.
    pub crowns: Vec<CrownUnderString>,
    /// The crown over which the document measures the action, whether or not a fret stands there, lowered in the same way.
    pub measured_over: CrownUnderString,
    /// How the setback was found; nothing where there are no frets to be in tune.
    pub compensation: Option<Compensation>,
}

impl Run {
    /// The run of one string that passes over the zero fret at `zero_fret_y` and the saddle at `saddle_y`.
    pub(crate) fn new(
        spec: &Spec,
        frets: &[Fret],
        bow: &Bow,
        string: &TunedString,
        zero_fret_y: Length,
        saddle_y: Length,
    ) -> Self {
        let crowns: Vec<CrownUnderString> = frets
            .iter()
            .map(|fret| crown(spec, bow, [zero_fret_y, saddle_y], fret.semitone, fret.crown))
            .collect();
        let line = level_line(spec, bow, [zero_fret_y, saddle_y]);
        let compensation = best_setbacks(&string.model.nominal, &line, &crowns, Freedom::Saddle).ok();
        let setback = compensation.as_ref().map_or(Length::ZERO, |found| found.saddle_setback);
        let set_back = StringLine { saddle_setback: setback, ..line };
        let measured_over = action_crown(spec, bow, [zero_fret_y, saddle_y]);
        let line = set_back.with_action(&measured_over, spec.action.height);
        Self { line, crowns, measured_over, compensation }
    }

    /// The underside over the crest, where it is set back to; the string goes on past the saddle line as it fans out.
    pub(crate) fn crest(&self, saddle_y: Length, fan: f64) -> Place {
        Place {
            x: self.line.saddle_place(),
            y: saddle_y + self.line.saddle_setback * fan,
            z: self.line.saddle_height,
        }
    }

    /// The action over each fret, strung.
    pub(crate) fn actions(&self) -> Vec<Length> {
        self.crowns.iter().map(|crown| self.line.action_over(crown)).collect()
    }
}

/// The run of a string with the wanted action and its crest on the saddle line; `ends` are its `y` at zero fret and saddle.
pub(crate) fn level_line(spec: &Spec, bow: &Bow, ends: [Length; 2]) -> StringLine {
    let level = StringLine {
        scale_length: spec.scale.length,
        zero_fret_height: spec.zero_fret.crown_height + board_surface(playing_radius(spec), ends[0]),
        saddle_height: Length::ZERO,
        saddle_setback: Length::ZERO,
        zero_fret_setback: Length::ZERO,
    };
    level.with_action(&action_crown(spec, bow, ends), spec.action.height)
}

/// The crown over which the document measures the action.
fn action_crown(spec: &Spec, bow: &Bow, ends: [Length; 2]) -> CrownUnderString {
    crown(spec, bow, ends, spec.action.fret, crown_height(spec, spec.frets.kind))
}

/// The crown of a semitone under a string, lowered by the neck's bow.
fn crown(spec: &Spec, bow: &Bow, ends: [Length; 2], semitone: u8, height: Length) -> CrownUnderString {
    let x = fret_distance(spec.scale.length, semitone);
    let y = ends[0] + (ends[1] - ends[0]) * (x / spec.scale.length);
    CrownUnderString {
        semitones: f64::from(semitone),
        place: x,
        crown_height: height + board_surface(playing_radius(spec), y) - bow.at(x),
        finger_behind: FINGER.min(x * 0.25),
    }
}

/// The radius of what the frets sit on: a neck without a board is flat, whatever is said of the board.
pub(crate) fn playing_radius(spec: &Spec) -> BoardRadius {
    if spec.fretboard.thickness == Length::ZERO { BoardRadius::Flat } else { spec.fretboard.radius }
}

/// Height of the playing surface at `y` against its height on the centre line.
pub(crate) fn board_surface(radius: BoardRadius, y: Length) -> Length {
    match radius {
        BoardRadius::Flat => Length::ZERO,
        BoardRadius::Radius(radius) => {
            let (radius, y) = (radius.as_mm(), y.as_mm());
            Length::mm((radius * radius - y * y).max(0.0).sqrt() - radius)
        }
    }
}

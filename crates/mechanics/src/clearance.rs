//! How much room does a string have over every fret in front of the finger?

use units::{Force, Length};

use crate::{
    MechanicsError,
    pluck::{Envelope, Pluck, envelope},
    string_line::{Fret, StringLine, check_order},
};

/// A string as it is played.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PlayedString {
    /// Where it bears.
    pub line: StringLine,
    /// How hard it pulls.
    pub tension: Force,
    /// How it is plucked.
    pub pluck: Pluck,
}

/// A string pressed to one fret, over a later one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Margin {
    /// From where it sounds: 0 for the zero fret, n for the nth fret of the list.
    pub fretted: usize,
    /// Over which fret: n for the nth fret of the list.
    pub over: usize,
    /// Place of that fret between the two ends of the sounding part: 0 at the fretted one, 1 at the saddle.
    pub share: f64,
    /// Room between the string at rest and the crown.
    pub clearance: Length,
    /// How far the plucked string swings down there.
    pub swing: Length,
}

impl Margin {
    /// Room that the plucked string leaves; negative where it touches.
    #[must_use]
    pub fn room(&self) -> Length {
        self.clearance - self.swing
    }
}

/// Room over every later fret, for the open string and for the string pressed to every fret.
///
/// - **Shape**: one string and its frets in; one margin for each pair out, by fretted and then by later fret.
/// - **Units**: millimetres, inside [`Length`].
/// - **Frame**: instrument frame; heights of the string's underside.
/// - **Accuracy**: exact for a string that touches its crown at one point; of [`envelope`] for the swing.
/// - **Errors**: [`MechanicsError::OutOfOrder`].
/// - **Source**: a straight string, less [`envelope`].
pub fn margins(string: &PlayedString, frets: &[Fret]) -> Result<Vec<Margin>, MechanicsError> {
    check_order(&string.line, frets)?;
    let mut margins = Vec::with_capacity(frets.len() * (frets.len() + 1) / 2);
    for fretted in 0..frets.len() {
        let (from, from_height) = sounding_end(&string.line, frets, fretted);
        let sounding = string.line.saddle_place() - from;
        let swing: Envelope = envelope(string.tension, sounding, &string.pluck);
        for (later, fret) in frets.iter().enumerate().skip(fretted) {
            let share = (fret.place - from) / sounding;
            let height = from_height + (string.line.saddle_height - from_height) * share;
            margins.push(Margin {
                fretted,
                over: later + 1,
                share,
                clearance: height - fret.crown_height,
                swing: swing.depth_at(fret.place - from),
            });
        }
    }
    Ok(margins)
}

/// Place and height of the crown that a string sounds from.
fn sounding_end(line: &StringLine, frets: &[Fret], fretted: usize) -> (Length, Length) {
    match fretted.checked_sub(1) {
        None => (line.zero_fret_place(), line.zero_fret_height),
        Some(index) => (frets[index].place, frets[index].crown_height),
    }
}

#[cfg(test)]
pub(crate) mod tests {
    use super::*;
    use crate::{
        string_line::tests::{level_frets, zero_fret_line},
        string_model::tests::{G3, plain},
    };

    /// The plain third over 648 mm, plucked with 2 N at 100 mm, a third of it at right angles to the face.
    pub(crate) fn played(action_mm: f64) -> PlayedString {
        let pluck =
            Pluck { force: Force::newtons(2.0), from_saddle: Length::mm(100.0), normal_share: 1.0 / 3.0 };
        PlayedString { line: zero_fret_line(action_mm), tension: plain(0.017, G3).tension(), pluck }
    }

    #[test]
    fn every_pair_is_there_once() {
        let found = margins(&played(2.0), &level_frets(648.0, 18, 0.0)).expect("in order");
        assert_eq!(found.len(), 18 * 19 / 2, "zero fret and 17 frets, each over all later ones");
        assert_eq!((found[0].fretted, found[0].over), (0, 1), "the open string over fret 1 comes first");
        assert!(found.iter().all(|margin| margin.over > margin.fretted), "only later frets count");
    }

    #[test]
    fn the_octave_sees_half_the_rise() {
        // Pressed at fret 12 of level frets, the string rises from nothing to 4 mm over 324 mm: fret 19 lies at a third of that.
        let found = margins(&played(2.0), &level_frets(648.0, 19, 0.0)).expect("in order");
        let pair = found.iter().find(|margin| (margin.fretted, margin.over) == (12, 19)).expect("listed");
        let place = 648.0 * (1.0 - units::math::exp2(-19.0 / 12.0));
        assert!((pair.clearance.as_mm() - 4.0 * (place - 324.0) / 324.0).abs() < 1e-12, "found {pair:?}");
    }

    #[test]
    fn the_no_touch_limit_of_a_straight_neck() {
        // F = T h/(l - p) (derived): the swing then lies along the string's own rise from the zero fret up to p.
        let mut string = played(2.0);
        let rise = string.line.saddle_height / Length::mm(648.0 - 100.0);
        string.pluck = Pluck { force: string.tension * rise, normal_share: 1.0, ..string.pluck };
        let found = margins(&string, &level_frets(648.0, 20, 0.0)).expect("in order");
        let open = found.iter().filter(|margin| margin.fretted == 0);
        let least = open.map(|margin| margin.room().as_mm()).fold(f64::INFINITY, f64::min);
        assert!(least.abs() < 1e-12, "least room {least}");
    }
}

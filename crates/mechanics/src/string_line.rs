//! Where does a string bear, and what stands under it?

use units::Length;

use crate::{MechanicsError, pitch::semitone_ratio};

/// One string's straight run from zero fret to saddle, seen from the side.
///
/// Frame: instrument frame; heights are of the string's underside. A string without a zero fret bears on its nut:
/// give the height of the nut's slot in place of the crown's.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StringLine {
    /// Zero fret to saddle line, before compensation: what the frets are laid out for.
    pub scale_length: Length,
    /// Height of the zero fret's crown.
    pub zero_fret_height: Length,
    /// Height of the saddle's crest under this string.
    pub saddle_height: Length,
    /// How far the crest lies beyond the saddle line, toward the tail.
    pub saddle_setback: Length,
    /// How far the zero fret lies beyond its place, away from the saddle; negative when it was moved toward the saddle.
    pub zero_fret_setback: Length,
}

impl StringLine {
    /// Place of the zero fret along x.
    #[must_use]
    pub fn zero_fret_place(&self) -> Length {
        -self.zero_fret_setback
    }

    /// Place of the saddle's crest along x.
    #[must_use]
    pub fn saddle_place(&self) -> Length {
        self.scale_length + self.saddle_setback
    }

    /// Height of the open string's underside at a place along x.
    #[must_use]
    pub fn height_at(&self, place: Length) -> Length {
        let share = (place - self.zero_fret_place()) / (self.saddle_place() - self.zero_fret_place());
        self.zero_fret_height + (self.saddle_height - self.zero_fret_height) * share
    }

    /// Action: height of the open string's underside above a crown.
    #[must_use]
    pub fn action_over(&self, fret: &Fret) -> Length {
        self.height_at(fret.place) - fret.crown_height
    }

    /// The same run with the saddle raised so that the action over a fret is what is wanted.
    #[must_use]
    pub fn with_action(&self, fret: &Fret, action: Length) -> Self {
        let share = (fret.place - self.zero_fret_place()) / (self.saddle_place() - self.zero_fret_place());
        let rise = (action - self.action_over(fret)) / share;
        Self { saddle_height: self.saddle_height + rise, ..*self }
    }
}

/// One fret, as a string meets it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fret {
    /// Semitones above the open string that this fret is meant to sound; need not be whole.
    pub semitones: f64,
    /// Where the crown stands along x.
    pub place: Length,
    /// Height of the crown.
    pub crown_height: Length,
    /// How far behind the crown, toward the zero fret, the finger presses.
    pub finger_behind: Length,
}

impl Fret {
    /// A fret at its equal-tempered place.
    ///
    /// - **Units**: millimetres, inside [`Length`].
    /// - **Frame**: instrument frame.
    /// - **Source**: Mersenne's law: x = L (1 - 2^(-n/12)).
    #[must_use]
    pub fn tempered(
        scale_length: Length,
        semitones: f64,
        crown_height: Length,
        finger_behind: Length,
    ) -> Self {
        let place = scale_length * (1.0 - 1.0 / semitone_ratio(semitones));
        Self { semitones, place, crown_height, finger_behind }
    }
}

/// Refuses frets that do not ascend from zero fret to saddle; both are needed for a string to sound from a fret.
pub(crate) fn check_order(line: &StringLine, frets: &[Fret]) -> Result<(), MechanicsError> {
    let what = "frets";
    let mut after = line.zero_fret_place();
    for fret in frets {
        if fret.place <= after {
            return Err(MechanicsError::OutOfOrder { what, found: fret.place, after });
        }
        after = fret.place;
    }
    let saddle = line.saddle_place();
    if saddle <= after {
        return Err(MechanicsError::OutOfOrder { what, found: saddle, after });
    }
    Ok(())
}

#[cfg(test)]
pub(crate) mod tests {
    use super::*;

    /// A level run of 648 mm whose action over fret 12 is given in mm, the worked case of the steel strings.
    pub(crate) fn zero_fret_line(action_mm: f64) -> StringLine {
        StringLine {
            scale_length: Length::mm(648.0),
            zero_fret_height: Length::ZERO,
            saddle_height: Length::mm(2.0 * action_mm),
            saddle_setback: Length::ZERO,
            zero_fret_setback: Length::ZERO,
        }
    }

    /// Frets 1 to `count` of equal temperament on crowns of no height.
    pub(crate) fn level_frets(scale_length_mm: f64, count: u32, finger_mm: f64) -> Vec<Fret> {
        let fret = |n| {
            Fret::tempered(Length::mm(scale_length_mm), f64::from(n), Length::ZERO, Length::mm(finger_mm))
        };
        (1..=count).map(fret).collect()
    }

    #[track_caller]
    fn check_place(scale_length_mm: f64, fret: u32, expected_mm: f64) {
        let found =
            Fret::tempered(Length::mm(scale_length_mm), f64::from(fret), Length::ZERO, Length::ZERO).place;
        assert!(
            (found.as_mm() - expected_mm).abs() < 6e-5,
            "fret {fret}: found {found:?}, expected {expected_mm}"
        );
    }

    // Computed at 50 digits from the closed form (derived).
    #[test]
    fn fret_1_of_648() {
        check_place(648.0, 1, 36.3694);
    }
    #[test]
    fn fret_7_of_648() {
        check_place(648.0, 7, 215.5119);
    }
    #[test]
    fn fret_12_of_648() {
        check_place(648.0, 12, 324.0);
    }
    #[test]
    fn fret_17_of_25_5_inches() {
        check_place(647.7, 17, 405.0866);
    }

    #[test]
    fn action_over_fret_12_is_half_the_rise() {
        let frets = level_frets(648.0, 12, 0.0);
        let found = zero_fret_line(2.5).action_over(&frets[11]).as_mm();
        assert!((found - 2.5).abs() < 1e-12, "found {found}");
    }

    #[test]
    fn with_action_gives_that_action() {
        let fret = Fret::tempered(Length::mm(640.0), 9.0, Length::mm(1.1), Length::ZERO);
        let line = StringLine { zero_fret_height: Length::mm(1.4), ..zero_fret_line(2.0) };
        let found = line.with_action(&fret, Length::mm(3.0)).action_over(&fret).as_mm();
        assert!((found - 3.0).abs() < 1e-12, "found {found}");
    }

    #[test]
    fn frets_out_of_order_are_named() {
        let mut frets = level_frets(648.0, 5, 0.0);
        frets.swap(1, 3);
        let found = check_order(&zero_fret_line(2.0), &frets);
        assert!(matches!(found, Err(MechanicsError::OutOfOrder { .. })), "found {found:?}");
    }
}

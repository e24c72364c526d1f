//! How likely is one string, pressed to one fret, to buzz on another?

use units::Length;

use crate::{MechanicsError, clearance::Margin, random::normal_below};

/// How far crowns stray from the heights they are meant to have: one standard deviation each, normal and independent.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HeightScatter {
    /// Of every fret.
    pub frets: Length,
    /// Of the zero fret.
    pub zero_fret: Length,
}

impl HeightScatter {
    /// Refuses a scatter below zero.
    pub(crate) fn check(&self) -> Result<(), MechanicsError> {
        for scatter in [self.frets, self.zero_fret] {
            if scatter < Length::ZERO {
                let (quantity, value) = ("scatter of crown heights in mm", scatter.as_mm());
                return Err(MechanicsError::OutsideRange {
                    quantity,
                    above: 0.0,
                    below: f64::INFINITY,
                    value,
                });
            }
        }
        Ok(())
    }
}

/// Probability that a fretted string touches a later fret when plucked.
///
/// Both crowns stray: the one under the finger lifts or lowers its end of the string, the one in front comes nearer or farther.
///
/// - **Shape**: one margin, as met by the intended heights, and the scatter in; a probability out.
/// - **Accuracy**: exact for normal, independent heights; 0 or 1 without scatter.
/// - **Errors**: [`MechanicsError::OutsideRange`] for a scatter below zero.
/// - **Source**: derived: room is linear in both heights, so it is normal with variance (1 - share)^2 s_k^2 + s_m^2.
pub fn touch_probability(margin: &Margin, scatter: &HeightScatter) -> Result<f64, MechanicsError> {
    scatter.check()?;
    let fretted = if margin.fretted == 0 { scatter.zero_fret } else { scatter.frets };
    let deviation = units::math::hypot((1.0 - margin.share) * fretted.as_mm(), scatter.frets.as_mm());
    let room_mm = margin.room().as_mm();
    if deviation > 0.0 {
        return Ok(normal_below(-room_mm / deviation));
    }
    Ok(if room_mm < 0.0 { 1.0 } else { 0.0 })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{
        clearance::{margins, tests::played},
        random::Random,
        string_line::tests::level_frets,
    };

    const SCATTER: HeightScatter = HeightScatter { frets: Length::mm(0.08), zero_fret: Length::mm(0.02) };

    #[test]
    fn closed_form_agrees_with_trials() {
        let (string, frets) = (played(1.1), level_frets(648.0, 14, 0.0));
        let expected = margins(&string, &frets).expect("in order");
        let mut touches = vec![0_u32; expected.len()];
        let mut random = Random::new(20_240);
        let trials = 20_000;
        for _ in 0..trials {
            let mut string = string;
            string.line.zero_fret_height = SCATTER.zero_fret * random.normal();
            let mut frets = frets.clone();
            for fret in &mut frets {
                fret.crown_height = fret.crown_height + SCATTER.frets * random.normal();
            }
            for (touches, margin) in touches.iter_mut().zip(margins(&string, &frets).expect("in order")) {
                *touches += u32::from(margin.room() < Length::ZERO);
            }
        }
        let mut unsure = 0;
        for (margin, touches) in expected.iter().zip(touches) {
            let probability = touch_probability(margin, &SCATTER).expect("a sound scatter");
            let share = f64::from(touches) / f64::from(trials);
            let error = (probability * (1.0 - probability) / f64::from(trials)).sqrt();
            assert!(
                (share - probability).abs() <= 4.0 * error + 1.0 / f64::from(trials),
                "{margin:?}: {share}, expected {probability}"
            );
            unsure += u32::from(probability > 0.01 && probability < 0.99);
        }
        assert!(unsure > 20, "only {unsure} pairs were a test at all");
    }

    #[test]
    fn a_negative_scatter_is_refused() {
        let margin = margins(&played(2.0), &level_frets(648.0, 2, 0.0)).expect("in order")[0];
        let scatter = HeightScatter { frets: Length::mm(-0.1), ..SCATTER };
        assert!(touch_probability(&margin, &scatter).is_err(), "a deviation is not below zero");
    }

    proptest::proptest! {
        #[test]
        fn without_scatter_nothing_is_left_to_chance(action_mm in 0.1..4.0_f64) {
            let none = HeightScatter { frets: Length::ZERO, zero_fret: Length::ZERO };
            for margin in margins(&played(action_mm), &level_frets(648.0, 18, 0.0)).expect("in order") {
                let found = touch_probability(&margin, &none).expect("a sound scatter");
                let expected = if margin.room() < Length::ZERO { 1.0 } else { 0.0 };
                proptest::prop_assert!((found - expected).abs() == 0.0, "{margin:?}: {found}");
            }
        }
    }
}

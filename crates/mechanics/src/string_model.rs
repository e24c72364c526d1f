//! How hard does a string pull when it sounds its pitch?

use std::f64::consts::PI;

use units::{Force, Frequency, Length, LinearDensity};

use crate::{MechanicsError, error::positive, string_body::StringBody};

/// One string at its pitch: built once, passed to everything that asks about that string.
///
/// The stiffness of the string is left out of the tension, as a builder does: it raises the pitch by 2 to 6 cents,
/// which the player tunes away.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StringModel {
    body: StringBody,
    sounding_length: Length,
    pitch: Frequency,
    tension: Force,
}

impl StringModel {
    /// A string tuned to a pitch over a sounding length.
    ///
    /// - **Units**: newtons, inside [`Force`].
    /// - **Errors**: [`MechanicsError::NotPositive`].
    /// - **Source**: Mersenne's law, through [`tension`].
    pub fn tuned(
        body: StringBody,
        sounding_length: Length,
        pitch: Frequency,
    ) -> Result<Self, MechanicsError> {
        positive("sounding length in mm", sounding_length.as_mm())?;
        positive("pitch in Hz", pitch.as_hertz())?;
        let tension = tension(body.linear_density(), sounding_length, pitch);
        Ok(Self { body, sounding_length, pitch, tension })
    }

    /// The string itself.
    #[must_use]
    pub const fn body(&self) -> &StringBody {
        &self.body
    }

    /// The length that sounds the open pitch.
    #[must_use]
    pub const fn sounding_length(&self) -> Length {
        self.sounding_length
    }

    /// The open pitch.
    #[must_use]
    pub const fn pitch(&self) -> Frequency {
        self.pitch
    }

    /// The tension at the open pitch.
    #[must_use]
    pub const fn tension(&self) -> Force {
        self.tension
    }

    /// EA/T: how many times the tension grows for a stretch of one in one; 50 for nylon, 100 to 400 for steel.
    #[must_use]
    pub fn stretch_ratio(&self) -> f64 {
        self.body.stretch_stiffness_n() / self.tension.as_newtons()
    }

    /// sqrt(EI/T), the length over which stiffness matters at a clamped end.
    #[must_use]
    pub fn stiffness_length(&self) -> Length {
        Length::mm((self.body.bending_stiffness_n_mm2() / self.tension.as_newtons()).sqrt())
    }

    /// Cross-section of what carries the tension, in square millimetres.
    #[must_use]
    pub fn core_area_mm2(&self) -> f64 {
        let core_mm = self.body.core_diameter().as_mm();
        PI / 4.0 * core_mm * core_mm
    }
}

/// Tension of an ideal string that sounds a pitch.
///
/// - **Units**: newtons, inside [`Force`].
/// - **Accuracy**: closed form for a string without stiffness.
/// - **Source**: Mersenne's law, T = mu (2 L f)^2.
#[must_use]
pub fn tension(linear_density: LinearDensity, sounding_length: Length, pitch: Frequency) -> Force {
    let wave_speed_m_per_s = 2.0 * sounding_length.as_metres() * pitch.as_hertz();
    Force::newtons(linear_density.as_kg_per_m() * wave_speed_m_per_s * wave_speed_m_per_s)
}

/// Pitch of an ideal string under a tension: the inverse of [`tension`].
///
/// - **Units**: hertz, inside [`Frequency`].
/// - **Accuracy**: closed form for a string without stiffness.
/// - **Errors**: [`MechanicsError::NotPositive`].
/// - **Source**: Mersenne's law.
pub fn pitch(
    linear_density: LinearDensity,
    sounding_length: Length,
    tension: Force,
) -> Result<Frequency, MechanicsError> {
    let mass = positive("mass per length in kg/m", linear_density.as_kg_per_m())?;
    let length_m = positive("sounding length in m", sounding_length.as_metres())?;
    let tension_n = positive("tension in N", tension.as_newtons())?;
    Ok(Frequency::hertz((tension_n / mass).sqrt() / (2.0 * length_m)))
}

#[cfg(test)]
pub(crate) mod tests {
    use units::Density;

    use super::*;
    use crate::string_body::MUSIC_WIRE;

    /// Equal-tempered pitches on A4 = 440 Hz that the known answers use.
    pub(crate) const E4: Frequency = Frequency::hertz(329.627_556_912_87);
    pub(crate) const G3: Frequency = Frequency::hertz(195.997_717_990_87);
    pub(crate) const D3: Frequency = Frequency::hertz(146.832_383_958_70);

    /// The worked plain strings: music wire over 648 mm.
    pub(crate) fn plain(diameter_in: f64, pitch: Frequency) -> StringModel {
        let body = StringBody::plain(Length::inches(diameter_in), MUSIC_WIRE).expect("a sound string");
        StringModel::tuned(body, Length::mm(648.0), pitch).expect("a sound pitch")
    }

    /// The worked wound string: 0.032 in over a core of 0.018 in, plated steel wrap, D3 over 648 mm.
    pub(crate) fn wound_d3() -> StringModel {
        let wrap = Density::kg_per_m3(7850.0);
        let body = StringBody::wound(Length::inches(0.032), Length::inches(0.018), MUSIC_WIRE, wrap);
        StringModel::tuned(body.expect("a sound string"), Length::mm(648.0), D3).expect("a sound pitch")
    }

    #[track_caller]
    fn check(string: &StringModel, mass_g_per_m: f64, tension_n: f64, stretch_n: f64, ratio: f64) {
        let found = [
            string.body().linear_density().as_kg_per_m() * 1000.0,
            string.tension().as_newtons(),
            string.body().stretch_stiffness_n(),
            string.stretch_ratio(),
        ];
        let expected = [mass_g_per_m, tension_n, stretch_n, ratio];
        for (found, expected) in found.iter().zip(expected) {
            assert!((found / expected - 1.0).abs() < 1.3e-5, "found {found}, expected {expected}");
        }
    }

    // Computed at 50 digits from the same closed forms (derived), printed to five digits.
    #[test]
    fn plain_10_at_e4() {
        check(&plain(0.010, E4), 0.397_77, 72.5912, 10_286.2, 141.700);
    }
    #[test]
    fn plain_17_at_g3() {
        check(&plain(0.017, G3), 1.149_54, 74.1715, 29_727.0, 400.788);
    }
    #[test]
    fn wound_32_at_d3() {
        check(&wound_d3(), 3.484_26, 126.1723, 33_327.2, 264.140);
    }

    #[test]
    fn pitch_undoes_tension() {
        let string = plain(0.012, E4);
        let found = pitch(string.body().linear_density(), string.sounding_length(), string.tension());
        let found = found.expect("all positive");
        assert!((found / E4 - 1.0).abs() < 1e-14, "found {found:?}");
    }

    proptest::proptest! {
        #[test]
        fn more_tension_never_lowers_the_pitch(tension_n in 1.0..200.0_f64, more_n in 0.0..50.0_f64, mass in 1e-4..1e-2_f64) {
            let sounds = |tension_n| pitch(LinearDensity::kg_per_m(mass), Length::mm(640.0), Force::newtons(tension_n));
            let (before, after) = (sounds(tension_n).expect("positive"), sounds(tension_n + more_n).expect("positive"));
            proptest::prop_assert!(after >= before, "{before:?} fell to {after:?}");
        }
    }
}

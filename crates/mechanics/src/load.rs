//! How near is a string to breaking, and what do all of them pull together?

use units::{Force, Frequency, Length, Stress};

use crate::{MechanicsError, string_model::StringModel, wire_strength::least_strength};

/// Stress in what carries the tension.
///
/// - **Units**: megapascals, inside [`Stress`].
/// - **Source**: force over area.
#[must_use]
pub fn core_stress(string: &StringModel) -> Stress {
    Stress::megapascals(string.tension().as_newtons() / string.core_area_mm2())
}

/// Load at which a steel wire of least strength breaks.
///
/// - **Units**: newtons, inside [`Force`].
/// - **Accuracy**: of [`least_strength`]; straight wire, without the knots and bends where strings really break.
/// - **Errors**: [`MechanicsError::OutsideStrengthTable`].
/// - **Source**: [`least_strength`].
pub fn breaking_load(core_diameter: Length) -> Result<Force, MechanicsError> {
    let core_mm = core_diameter.as_mm();
    let area_mm2 = std::f64::consts::PI / 4.0 * core_mm * core_mm;
    Ok(Force::newtons(least_strength(core_diameter)?.as_megapascals() * area_mm2))
}

/// Tension as a share of the load that breaks the steel core: 1 breaks it.
///
/// - **Units**: none.
/// - **Errors**: [`MechanicsError::OutsideStrengthTable`].
/// - **Source**: [`breaking_load`]. That 0.75 is the most to ask of a string is common practice, no source.
pub fn share_of_breaking_load(string: &StringModel) -> Result<f64, MechanicsError> {
    Ok(string.tension() / breaking_load(string.body().core_diameter())?)
}

/// Pitch at which the string breaks as it is tuned up.
///
/// - **Units**: hertz, inside [`Frequency`].
/// - **Errors**: [`MechanicsError::OutsideStrengthTable`].
/// - **Source**: Mersenne's law: pitch goes with the root of tension.
pub fn breaking_pitch(string: &StringModel) -> Result<Frequency, MechanicsError> {
    Ok(string.pitch() / share_of_breaking_load(string)?.sqrt())
}

/// What all strings pull together.
///
/// - **Units**: newtons, inside [`Force`].
#[must_use]
pub fn total_tension(strings: &[StringModel]) -> Force {
    strings.iter().map(StringModel::tension).sum()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::string_model::tests::{E4, G3, plain, wound_d3};

    #[track_caller]
    fn check_break(diameter_in: f64, load_n: f64, pitch_hz: f64) {
        let string = plain(diameter_in, E4);
        let found = breaking_load(string.body().core_diameter()).expect("inside the table").as_newtons();
        assert!((found - load_n).abs() < 0.06, "{diameter_in} in: found {found} N, expected {load_n} N");
        let found = breaking_pitch(&string).expect("inside the table").as_hertz();
        assert!(
            (found - pitch_hz).abs() < 0.06,
            "{diameter_in} in: found {found} Hz, expected {pitch_hz} Hz"
        );
    }

    // Least strengths of the wire data sheet turned into load and pitch at break over 648 mm (derived).
    #[test]
    fn wire_8() {
        check_break(0.008, 89.2, 456.8);
    }
    #[test]
    fn wire_9() {
        check_break(0.009, 111.2, 453.3);
    }
    #[test]
    fn wire_10() {
        check_break(0.010, 135.2, 449.9);
    }
    #[test]
    fn wire_11() {
        check_break(0.011, 161.5, 446.9);
    }
    #[test]
    fn wire_12() {
        check_break(0.012, 189.7, 444.0);
    }
    #[test]
    fn wire_13() {
        check_break(0.013, 220.2, 441.6);
    }
    #[test]
    fn wire_14() {
        check_break(0.014, 252.7, 439.3);
    }
    #[test]
    fn wire_15() {
        check_break(0.015, 286.9, 436.9);
    }
    #[test]
    fn wire_16() {
        check_break(0.016, 323.8, 435.1);
    }
    #[test]
    fn wire_18() {
        check_break(0.018, 403.0, 431.5);
    }
    #[test]
    fn wire_20() {
        check_break(0.020, 489.1, 427.8);
    }
    #[test]
    fn wire_22() {
        check_break(0.022, 583.4, 424.7);
    }
    #[test]
    fn wire_24() {
        check_break(0.024, 686.2, 422.3);
    }
    #[test]
    fn wire_26() {
        check_break(0.026, 795.9, 419.8);
    }

    #[track_caller]
    fn check_stress(string: &StringModel, expected_mpa: f64) {
        let found = core_stress(string).as_megapascals();
        assert!((found - expected_mpa).abs() < 0.06, "found {found}, expected {expected_mpa}");
    }

    // Computed at 50 digits from the same closed forms (derived).
    #[test]
    fn stress_of_plain_10() {
        check_stress(&plain(0.010, E4), 1432.6);
    }
    #[test]
    fn stress_of_plain_17() {
        check_stress(&plain(0.017, G3), 506.5);
    }
    #[test]
    fn stress_of_wound_32() {
        check_stress(&wound_d3(), 768.5);
    }

    #[test]
    fn three_strings_pull_together() {
        let strings = [plain(0.010, E4), plain(0.017, G3), wound_d3()];
        let found = total_tension(&strings).as_newtons();
        assert!((found - (72.5912 + 74.1715 + 126.1723)).abs() < 1e-3, "found {found}");
    }
}

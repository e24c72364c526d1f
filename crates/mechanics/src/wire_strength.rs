//! How much stress does a music wire bear before it breaks?

use units::{Length, Stress};

use crate::MechanicsError;

/// Megapascals in a thousand pounds per square inch.
const MPA_PER_KSI: f64 = 6.894_757_293;

/// Least tensile strength by diameter: thousandths of an inch, thousands of pounds per square inch.
///
/// Transcribed from a wire maker's data sheet for tinned music wire of the class of ASTM A228; the standard's own
/// table was not seen.
const LEAST_STRENGTH: [(f64, f64); 14] = [
    (8.0, 399.0),
    (9.0, 393.0),
    (10.0, 387.0),
    (11.0, 382.0),
    (12.0, 377.0),
    (13.0, 373.0),
    (14.0, 369.0),
    (15.0, 365.0),
    (16.0, 362.0),
    (18.0, 356.0),
    (20.0, 350.0),
    (22.0, 345.0),
    (24.0, 341.0),
    (26.0, 337.0),
];

/// The thinnest wire whose strength is tabulated, 0.008 in.
pub const THINNEST: Length = Length::inches(0.008);

/// The thickest wire whose strength is tabulated, 0.026 in.
pub const THICKEST: Length = Length::inches(0.026);

/// Least tensile strength that a music wire of this diameter must reach.
///
/// - **Shape**: one diameter in, one strength out; straight lines between the tabulated diameters.
/// - **Units**: megapascals, inside [`Stress`].
/// - **Accuracy**: the table is in steps of 1 ksi (7 MPa), 0.3 %.
/// - **Errors**: [`MechanicsError::OutsideStrengthTable`] outside 0.008 in to 0.026 in (a thousandth of a micrometre of
///   rounding is forgiven).
/// - **Source**: data sheet for tinned music wire of the class of ASTM A228, least values.
pub fn least_strength(diameter: Length) -> Result<Stress, MechanicsError> {
    let outside = MechanicsError::OutsideStrengthTable { diameter, thinnest: THINNEST, thickest: THICKEST };
    // Inches and millimetres of the same gauge differ in the last bit; a wire is not refused for that.
    let rounding = Length::mm(1e-6);
    if diameter < THINNEST - rounding || diameter > THICKEST + rounding {
        return Err(outside);
    }
    let thousandths = diameter.max(THINNEST).min(THICKEST).as_inches() * 1000.0;
    let above = LEAST_STRENGTH
        .partition_point(|&(tabulated, _)| tabulated < thousandths)
        .clamp(1, LEAST_STRENGTH.len() - 1);
    let (thinner, strength_thinner) = LEAST_STRENGTH[above - 1];
    let (thicker, strength_thicker) = LEAST_STRENGTH[above];
    let share = (thousandths - thinner) / (thicker - thinner);
    let ksi = strength_thinner + share * (strength_thicker - strength_thinner);
    Ok(Stress::megapascals(ksi * MPA_PER_KSI))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(diameter_in: f64, expected_mpa: f64) {
        let found = least_strength(Length::inches(diameter_in)).expect("inside the table").as_megapascals();
        assert!(
            (found - expected_mpa).abs() < 0.5,
            "{diameter_in} in: found {found}, expected {expected_mpa}"
        );
    }

    // Data sheet for A228-class tinned music wire, least values, in MPa.
    #[test]
    fn thinnest_wire() {
        check(0.008, 2751.0);
    }
    #[test]
    fn ten_thousandths() {
        check(0.010, 2668.0);
    }
    #[test]
    fn sixteen_thousandths() {
        check(0.016, 2496.0);
    }
    #[test]
    fn eighteen_thousandths() {
        check(0.018, 2455.0);
    }
    #[test]
    fn thickest_wire() {
        check(0.026, 2324.0);
    }
    #[test]
    fn halfway_between_two_rows() {
        check(0.017, 359.0 * MPA_PER_KSI);
    }

    #[test]
    fn outside_the_table_is_refused() {
        for diameter in [0.0079, 0.0261] {
            let found = least_strength(Length::inches(diameter));
            assert!(
                matches!(found, Err(MechanicsError::OutsideStrengthTable { .. })),
                "{diameter} in gave {found:?}"
            );
        }
    }

    #[test]
    fn agrees_with_the_handbook_formula() {
        // 2060/d^0.163 MPa with d in mm, from a handbook of engineering tables: within 5 % of the data sheet.
        for (thousandths, ksi) in LEAST_STRENGTH {
            let handbook = 2060.0 / units::math::pow(thousandths * 0.0254, 0.163);
            let ratio = ksi * MPA_PER_KSI / handbook;
            assert!((0.97..1.06).contains(&ratio), "{thousandths}: table over handbook is {ratio}");
        }
    }
}

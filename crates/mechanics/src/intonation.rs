//! How far out of tune is a fretted note?
//!
//! Pressing a string to a fret lengthens its path from saddle to zero fret, which raises its tension; the sounding
//! part is a little longer or shorter than the layout assumed; and a short stiff string is sharper than a long one.
//! The model is the exact one of M. Anderson and R. Beausoleil, J. Acoust. Soc. Am. 156, 683 (2024) (read in the
//! authors' manuscript), with every crown at a height of its own. Two points of reading: the manuscript prints the tension's
//! root in the numerator of the fretted string's stiffness, where by dimensions it belongs in the denominator; and the
//! open string's tension and stiffness are those at the scale length, not retuned after a setback, which moves the best
//! setback of a steel string by less than 2 %.
//!
//! Assumed: the string neither slides over saddle and zero fret as it is pressed nor moves them, and it touches no
//! fret behind the finger.

use crate::{
    MechanicsError, pitch,
    pitch::semitone_ratio,
    stiffness::clamped_pinned_factor,
    string_line::{Fret, StringLine, check_order},
    string_model::StringModel,
};

/// Error of one fretted note against the open string's equal-tempered pitch; positive when it sounds sharp.
///
/// - **Shape**: one string, its run, and one fret in; one number out.
/// - **Units**: cents.
/// - **Accuracy**: the model lies within a quarter of a cent of the range of readings that its authors took at frets 1 and 12
///   of a nylon-string guitar; arithmetic within 1e-9 cents.
/// - **Errors**: none; a fret that does not stand between zero fret and saddle is a bug of ours and panics.
/// - **Source**: Anderson and Beausoleil (2024), as told in the module.
#[must_use]
pub fn error_cents(string: &StringModel, line: &StringLine, fret: &Fret) -> f64 {
    let open = open_length_mm(line);
    let stretch = stretch(line, fret, open);
    let tension_growth = 1.0 + string.stretch_ratio() * stretch;
    let fretted = fretted_length_mm(line, fret);
    assert!(tension_growth > 0.0, "a string pressed to a fret keeps its tension");

    let end_share = string.stiffness_length() / line.scale_length;
    let fretted_end_share = end_share * open / (fretted * tension_growth.sqrt());
    let stiffness = clamped_pinned_factor(fretted_end_share, 1.0) / clamped_pinned_factor(end_share, 1.0);

    let length = open / (semitone_ratio(fret.semitones) * fretted);
    pitch::cents(length * ((1.0 + stretch) * tension_growth).sqrt() * stiffness)
}

/// By how much of its open length pressing to a fret stretches the string.
///
/// - **Units**: none; 1e-4 is typical.
/// - **Errors**: as for [`error_cents`].
/// - **Source**: Anderson and Beausoleil (2024): the string goes straight on past the crown to the finger, then straight to
///   the zero fret.
#[must_use]
pub fn fretting_stretch(line: &StringLine, fret: &Fret) -> f64 {
    stretch(line, fret, open_length_mm(line))
}

/// Errors of the notes on a list of frets, in their order.
///
/// - **Units**: cents.
/// - **Errors**: [`MechanicsError::OutOfOrder`].
/// - **Source**: [`error_cents`].
pub fn error_map(
    string: &StringModel,
    line: &StringLine,
    frets: &[Fret],
) -> Result<Vec<f64>, MechanicsError> {
    check_order(line, frets)?;
    Ok(frets.iter().map(|fret| error_cents(string, line, fret)).collect())
}

/// Root of the mean square of a list of errors; zero for an empty one.
#[must_use]
pub fn root_mean_square(errors: &[f64]) -> f64 {
    let squares: f64 = errors.iter().map(|error| error * error).sum();
    (squares / errors.len().max(1) as f64).sqrt()
}

fn open_length_mm(line: &StringLine) -> f64 {
    let run = (line.saddle_place() - line.zero_fret_place()).as_mm();
    let rise = (line.saddle_height - line.zero_fret_height).as_mm();
    (run * run + rise * rise).sqrt()
}

/// Crown to crest.
fn fretted_length_mm(line: &StringLine, fret: &Fret) -> f64 {
    let (run, rise) = fretted_run_mm(line, fret);
    (run * run + rise * rise).sqrt()
}

fn fretted_run_mm(line: &StringLine, fret: &Fret) -> (f64, f64) {
    let run = (line.saddle_place() - fret.place).as_mm();
    assert!(run > 0.0, "a fret stands before the saddle");
    (run, (line.saddle_height - fret.crown_height).as_mm())
}

fn stretch(line: &StringLine, fret: &Fret, open_mm: f64) -> f64 {
    let (run, rise) = fretted_run_mm(line, fret);
    let sounding = (run * run + rise * rise).sqrt();
    let finger = fret.finger_behind.as_mm();
    // Past the crown the string keeps its slope as far as the finger, which so presses it below the crown.
    let past_crown = sounding * finger / run;
    let back_run = (fret.place - line.zero_fret_place()).as_mm() - finger;
    let back_rise = (line.zero_fret_height - fret.crown_height).as_mm() + rise * finger / run;
    let back = (back_run * back_run + back_rise * back_rise).sqrt();
    (sounding + past_crown + back - open_mm) / open_mm
}

#[cfg(test)]
pub(crate) mod tests {
    use units::Length;

    use super::*;
    use crate::{
        compensation::tests::nylon_string,
        string_line::tests::{level_frets, zero_fret_line},
        string_model::tests::{E4, plain, wound_d3},
    };

    /// The straight run that sources describe with a nut above fret 1 and a saddle above the nut, in mm.
    pub(crate) fn nut_line(
        scale: f64,
        nut_over_frets: f64,
        saddle_over_nut: f64,
        saddle_back: f64,
        nut_back: f64,
    ) -> StringLine {
        StringLine {
            scale_length: Length::mm(scale),
            zero_fret_height: Length::mm(nut_over_frets),
            saddle_height: Length::mm(nut_over_frets + saddle_over_nut),
            saddle_setback: Length::mm(saddle_back),
            zero_fret_setback: Length::mm(nut_back),
        }
    }

    #[track_caller]
    fn check(
        string: &StringModel,
        line: &StringLine,
        finger_mm: f64,
        expected: &[(u32, f64)],
        tolerance: f64,
    ) {
        let frets = level_frets(line.scale_length.as_mm(), 15, finger_mm);
        let errors = error_map(string, line, &frets).expect("frets in order");
        for &(fret, expected) in expected {
            let found = errors[fret as usize - 1];
            assert!((found - expected).abs() < tolerance, "fret {fret}: found {found}, expected {expected}");
        }
    }

    /// The prototype of the source: radius 0.43 mm, stretch ratio 51, stiffness 0.00236 of the scale length.
    fn prototype() -> StringModel {
        let stiffness_length = 0.002_36 * 650.0;
        nylon_string(0.43, 1.0, 51.0, 100.0, Some(stiffness_length))
    }

    // Computed at 50 digits from the source's equations (derived).
    #[test]
    fn prototype_finger_on_the_fret() {
        let expected = [
            (1, 1.726_996_9),
            (2, 1.609_035),
            (3, 1.817_386_7),
            (4, 2.123_749_2),
            (5, 2.483_457_4),
            (6, 2.882_539_6),
            (7, 3.315_854),
            (8, 3.781_624_3),
            (9, 4.279_621_2),
            (10, 4.810_438_2),
            (11, 5.375_165_4),
            (12, 5.975_229_1),
        ];
        check(&prototype(), &nut_line(650.0, 1.0, 4.0, 0.0, 0.0), 0.0, &expected, 6e-8);
    }

    #[test]
    fn prototype_finger_10_mm_behind() {
        let expected = [
            (1, 2.326_996_2),
            (2, 1.816_518_1),
            (3, 1.952_548_3),
            (4, 2.233_308),
            (5, 2.582_230_2),
            (6, 2.977_174_6),
            (7, 3.410_072),
            (8, 3.877_886_3),
            (9, 4.379_79),
            (10, 4.916_085_5),
            (11, 5.487_732_5),
            (12, 6.096_121_4),
        ];
        check(&prototype(), &nut_line(650.0, 1.0, 4.0, 0.0, 0.0), 10.0, &expected, 6e-8);
    }

    #[test]
    fn prototype_stretch_at_fret_1() {
        // Anderson and Beausoleil (2024), read in the authors' manuscript: "about 47e-6".
        let fret = level_frets(650.0, 1, 10.0)[0];
        let found = fretting_stretch(&nut_line(650.0, 1.0, 4.0, 0.0, 0.0), &fret);
        assert!((found - 47e-6).abs() < 0.5e-6, "found {found}");
    }

    #[track_caller]
    fn check_nylon(
        radius_mm: f64,
        mass_g_per_m: f64,
        ratio: f64,
        pitch_hz: f64,
        stiffness: f64,
        expected: [f64; 6],
    ) {
        let string = nylon_string(radius_mm, mass_g_per_m, ratio, pitch_hz, Some(stiffness * 650.0));
        let expected: Vec<_> = [1, 3, 5, 7, 9, 12].into_iter().zip(expected).collect();
        check(&string, &nut_line(650.0, 1.0, 4.0, 0.0, 0.0), 0.0, &expected, 6e-4);
    }

    // Strings of the source's normal-tension set with its printed stiffness, uncompensated; computed at 50 digits (derived).
    #[test]
    fn nylon_e4() {
        check_nylon(0.356, 0.374, 48.2, 329.6276, 0.0019, [1.597, 1.603, 2.142, 2.827, 3.623, 5.023]);
    }
    #[test]
    fn nylon_b3() {
        check_nylon(0.409, 0.505, 48.7, 246.9417, 0.0022, [1.644, 1.715, 2.336, 3.112, 4.012, 5.594]);
    }
    #[test]
    fn nylon_g3() {
        check_nylon(0.512, 0.836, 58.6, 195.9977, 0.003_01, [2.016, 2.198, 3.050, 4.105, 5.325, 7.473]);
    }
    #[test]
    fn nylon_d3() {
        check_nylon(0.368, 1.92, 46.0, 146.8324, 0.001_92, [1.536, 1.564, 2.106, 2.791, 3.584, 4.979]);
    }
    #[test]
    fn nylon_a2() {
        check_nylon(0.445, 3.289, 48.7, 110.0, 0.002_39, [1.664, 1.781, 2.452, 3.286, 4.251, 5.947]);
    }
    #[test]
    fn nylon_e2() {
        check_nylon(0.546, 5.47, 58.2, 82.4069, 0.003_21, [2.026, 2.260, 3.166, 4.281, 5.570, 7.838]);
    }

    /// The guitar that the source measured: 652 mm, nut 1.4 mm over the frets, saddle 5.5 mm over the nut and 3.5 mm forward,
    /// finger 10 mm behind. Fret 1 was 4.5 to 5.75 cents sharp; fret 12 as `measured` says.
    #[track_caller]
    fn check_measured(
        radius_mm: f64,
        mass_g_per_m: f64,
        ratio: f64,
        pitch_hz: f64,
        stiffness: f64,
        model: [f64; 2],
        measured: [f64; 2],
    ) {
        let string = nylon_string(radius_mm, mass_g_per_m, ratio, pitch_hz, Some(stiffness * 650.0));
        let line = nut_line(652.0, 1.4, 5.5, -3.5, 0.0);
        check(&string, &line, 10.0, &[(1, model[0]), (12, model[1])], 6e-3);
        let frets = level_frets(652.0, 12, 10.0);
        let (first, twelfth) =
            (error_cents(&string, &line, &frets[0]), error_cents(&string, &line, &frets[11]));
        // Scatter of the source's readings: the ends of its range, and a quarter of a cent, its reading step.
        assert!((4.25..=6.0).contains(&first), "fret 1: found {first}");
        assert!((measured[0] - 0.25..=measured[1] + 0.25).contains(&twelfth), "fret 12: found {twelfth}");
    }

    #[test]
    fn measured_e4() {
        check_measured(0.356, 0.374, 48.2, 329.6276, 0.0019, [4.58, 16.16], [15.75, 17.5]);
    }
    #[test]
    fn measured_b3() {
        check_measured(0.409, 0.505, 48.7, 246.9417, 0.0022, [4.65, 16.76], [15.75, 17.5]);
    }
    #[test]
    fn measured_g3() {
        check_measured(0.512, 0.836, 58.6, 195.9977, 0.003_01, [5.51, 19.03], [18.5, 19.5]);
    }
    #[test]
    fn measured_d3() {
        check_measured(0.368, 1.92, 46.0, 146.8324, 0.001_92, [4.41, 16.04], [15.75, 17.5]);
    }
    #[test]
    fn measured_a2() {
        check_measured(0.445, 3.289, 48.7, 110.0, 0.002_39, [4.67, 17.11], [15.75, 17.5]);
    }
    #[test]
    fn measured_e2() {
        check_measured(0.546, 5.47, 58.2, 82.4069, 0.003_21, [5.50, 19.38], [18.5, 19.5]);
    }

    #[track_caller]
    fn check_steel(string: &StringModel, action_mm: f64, finger_mm: f64, expected: [f64; 8]) {
        let expected: Vec<_> = [1, 2, 3, 5, 7, 9, 12, 15].into_iter().zip(expected).collect();
        check(string, &zero_fret_line(action_mm), finger_mm, &expected, 6e-3);
    }

    // Steel over a zero fret, 648 mm, uncompensated; computed at 50 digits from the source's equations (derived).
    #[test]
    fn steel_e4_low() {
        check_steel(&plain(0.010, E4), 1.5, 0.0, [0.20, 0.41, 0.63, 1.11, 1.66, 2.27, 3.32, 4.57]);
    }
    #[test]
    fn steel_e4_low_finger_behind() {
        check_steel(&plain(0.010, E4), 1.5, 10.0, [0.23, 0.44, 0.66, 1.15, 1.71, 2.33, 3.41, 4.69]);
    }
    #[test]
    fn steel_e4_middle() {
        check_steel(&plain(0.010, E4), 2.5, 0.0, [0.33, 0.69, 1.06, 1.87, 2.78, 3.80, 5.56, 7.64]);
    }
    #[test]
    fn steel_e4_middle_finger_behind() {
        check_steel(&plain(0.010, E4), 2.5, 10.0, [0.42, 0.77, 1.15, 1.98, 2.92, 3.97, 5.80, 7.97]);
    }
    #[test]
    fn steel_e4_high() {
        check_steel(&plain(0.010, E4), 4.0, 0.0, [0.66, 1.37, 2.11, 3.72, 5.53, 7.54, 11.00, 15.07]);
    }
    #[test]
    fn steel_e4_high_finger_behind() {
        check_steel(&plain(0.010, E4), 4.0, 10.0, [0.89, 1.58, 2.34, 4.00, 5.87, 7.96, 11.59, 15.90]);
    }
    #[test]
    fn steel_d3_low() {
        check_steel(&wound_d3(), 1.5, 0.0, [0.45, 0.92, 1.43, 2.53, 3.76, 5.16, 7.58, 10.47]);
    }
    #[test]
    fn steel_d3_low_finger_behind() {
        check_steel(&wound_d3(), 1.5, 10.0, [0.51, 0.98, 1.49, 2.60, 3.85, 5.27, 7.73, 10.69]);
    }
    #[test]
    fn steel_d3_middle() {
        check_steel(&wound_d3(), 2.5, 0.0, [0.70, 1.45, 2.24, 3.96, 5.89, 8.05, 11.80, 16.25]);
    }
    #[test]
    fn steel_d3_middle_finger_behind() {
        check_steel(&wound_d3(), 2.5, 10.0, [0.87, 1.60, 2.40, 4.16, 6.13, 8.36, 12.23, 16.86]);
    }

    #[test]
    fn lifting_everything_changes_nothing() {
        let (string, lift) = (wound_d3(), Length::mm(1.4));
        let mut line = zero_fret_line(2.5);
        let mut fret = level_frets(648.0, 7, 5.0)[6];
        let before = error_cents(&string, &line, &fret);
        line.zero_fret_height = line.zero_fret_height + lift;
        line.saddle_height = line.saddle_height + lift;
        fret.crown_height = fret.crown_height + lift;
        let after = error_cents(&string, &line, &fret);
        assert!((after - before).abs() < 1e-9, "{before} became {after}");
    }

    proptest::proptest! {
        #[test]
        fn a_lower_crown_sounds_sharper(action_mm in 1.0..5.0_f64, drop_mm in 0.01..0.5_f64, fret in 1_u32..18) {
            let (string, line) = (plain(0.010, E4), zero_fret_line(action_mm));
            let mut fret = level_frets(648.0, fret, 0.0)[fret as usize - 1];
            let before = error_cents(&string, &line, &fret);
            fret.crown_height = fret.crown_height - Length::mm(drop_mm);
            let after = error_cents(&string, &line, &fret);
            proptest::prop_assert!(after > before, "{before} became {after}");
        }
    }
}

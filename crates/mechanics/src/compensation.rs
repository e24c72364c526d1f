//! Where must saddle and zero fret go so that the frets that exist are least out of tune?

use units::Length;

use crate::{
    MechanicsError,
    intonation::{error_cents, root_mean_square},
    string_line::{Fret, StringLine, check_order},
    string_model::StringModel,
};

/// What may be moved to bring a string into tune.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Freedom {
    /// The saddle only; the zero fret stays where it is.
    Saddle,
    /// Saddle and zero fret.
    SaddleAndZeroFret,
}

/// The best places that were found, and what remains.
#[derive(Clone, Debug, PartialEq)]
pub struct Compensation {
    /// Saddle crest beyond the saddle line, toward the tail.
    pub saddle_setback: Length,
    /// Zero fret beyond its place, away from the saddle; as it was when it may not move.
    pub zero_fret_setback: Length,
    /// What is left at each fret, in cents, in the order of the frets.
    pub residual_cents: Vec<f64>,
    /// Root mean square error in cents with the setbacks that the run came with.
    pub before_cents: f64,
    /// Root mean square error in cents with the setbacks found.
    pub after_cents: f64,
}

/// Setbacks that make the root mean square error over a list of frets least.
///
/// - **Shape**: one string, its run and its frets in; setbacks and residuals out.
/// - **Units**: millimetres inside [`Length`], cents.
/// - **Accuracy**: minimises the exact model of [`error_cents`] itself, to 1e-6 mm; never worse than the start.
/// - **Errors**: [`MechanicsError::Empty`] without frets, [`MechanicsError::OutOfOrder`].
/// - **Source**: the model is Anderson and Beausoleil's (2024); the minimisation is Gauss and Newton's with the damping of
///   Levenberg and Marquardt, derivatives by central differences.
pub fn best_setbacks(
    string: &StringModel,
    line: &StringLine,
    frets: &[Fret],
    freedom: Freedom,
) -> Result<Compensation, MechanicsError> {
    check_order(line, frets)?;
    let last = frets.last().ok_or(MechanicsError::Empty { what: "frets" })?;
    // Room that the search leaves on both sides of every string end, so that each fret stays inside the run.
    let least_saddle_place = last.place + (line.saddle_place() - last.place) * 0.1;
    let greatest_zero_fret_place = frets[0].place - (frets[0].place - line.zero_fret_place()) * 0.1;
    let allowed = |line: &StringLine| {
        line.saddle_place() >= least_saddle_place && line.zero_fret_place() <= greatest_zero_fret_place
    };

    let errors = |line: &StringLine| -> Vec<f64> {
        frets.iter().map(|fret| error_cents(string, line, fret)).collect()
    };
    let mut best = *line;
    let mut residual_cents = errors(&best);
    let before_cents = root_mean_square(&residual_cents);
    let mut damping = 1e-9;
    for _ in 0..MOST_STEPS {
        let slopes = Slopes::at(&best, freedom, &errors);
        let step = slopes.step(&residual_cents, damping);
        let trial = moved(&best, step);
        let smaller = allowed(&trial) && {
            let trial_errors = errors(&trial);
            let improves = root_mean_square(&trial_errors) < root_mean_square(&residual_cents);
            if improves {
                (best, residual_cents) = (trial, trial_errors);
            }
            improves
        };
        damping = if smaller { damping * 0.1 } else { damping * 10.0 };
        let settled = step.iter().all(|move_mm| move_mm.abs() < SETTLED_MM);
        if settled {
            break;
        }
    }
    let after_cents = root_mean_square(&residual_cents);
    Ok(Compensation {
        saddle_setback: best.saddle_setback,
        zero_fret_setback: best.zero_fret_setback,
        residual_cents,
        before_cents,
        after_cents,
    })
}

/// The errors are so nearly straight in the setbacks that four steps settle them; more than this would be a bug.
const MOST_STEPS: usize = 60;

/// Larger leaves the setback visibly short of the best; smaller chases rounding.
const SETTLED_MM: f64 = 1e-7;

/// Larger bends the derivative; smaller drowns it in rounding (1e-12 cents over this).
const DIFFERENCE_MM: f64 = 1e-3;

fn moved(line: &StringLine, step: [f64; 2]) -> StringLine {
    StringLine {
        saddle_setback: line.saddle_setback + Length::mm(step[0]),
        zero_fret_setback: line.zero_fret_setback + Length::mm(step[1]),
        ..*line
    }
}

/// Cents per millimetre of setback at each fret; all zero for the zero fret when it may not move.
struct Slopes {
    saddle: Vec<f64>,
    zero_fret: Vec<f64>,
}

impl Slopes {
    fn at(line: &StringLine, freedom: Freedom, errors: &impl Fn(&StringLine) -> Vec<f64>) -> Self {
        let difference = |direction: [f64; 2]| -> Vec<f64> {
            let ahead = errors(&moved(line, direction.map(|unit| unit * DIFFERENCE_MM)));
            let behind = errors(&moved(line, direction.map(|unit| -unit * DIFFERENCE_MM)));
            ahead.iter().zip(behind).map(|(ahead, behind)| (ahead - behind) / (2.0 * DIFFERENCE_MM)).collect()
        };
        let saddle = difference([1.0, 0.0]);
        let zero_fret = match freedom {
            Freedom::Saddle => vec![0.0; saddle.len()],
            Freedom::SaddleAndZeroFret => difference([0.0, 1.0]),
        };
        Self { saddle, zero_fret }
    }

    /// The damped least squares step in mm: (J'J + damping diag(J'J)) step = -J'r.
    fn step(&self, residuals: &[f64], damping: f64) -> [f64; 2] {
        let dot = |a: &[f64], b: &[f64]| a.iter().zip(b).map(|(a, b)| a * b).sum::<f64>();
        let saddle_saddle = dot(&self.saddle, &self.saddle) * (1.0 + damping);
        let zero_zero = dot(&self.zero_fret, &self.zero_fret) * (1.0 + damping);
        let saddle_zero = dot(&self.saddle, &self.zero_fret);
        let (saddle_pull, zero_pull) = (dot(&self.saddle, residuals), dot(&self.zero_fret, residuals));
        if zero_zero == 0.0 {
            return [-saddle_pull / saddle_saddle, 0.0];
        }
        let determinant = saddle_saddle * zero_zero - saddle_zero * saddle_zero;
        [
            -(zero_zero * saddle_pull - saddle_zero * zero_pull) / determinant,
            -(saddle_saddle * zero_pull - saddle_zero * saddle_pull) / determinant,
        ]
    }
}

#[cfg(test)]
pub(crate) mod tests {
    use units::{Frequency, LinearDensity};

    use super::*;
    use crate::{
        intonation::tests::nut_line,
        string_body::StringBody,
        string_line::tests::{level_frets, zero_fret_line},
        string_model::tests::{D3, E4, G3, plain, wound_d3},
    };

    /// A string given as the source gives it: radius, mass, stretch ratio EA/T over 650 mm; solid and round for its
    /// stiffness unless the length sqrt(EI/T) is given, in mm.
    pub(crate) fn nylon_string(
        radius_mm: f64,
        mass_g_per_m: f64,
        stretch_ratio: f64,
        pitch_hz: f64,
        stiffness_length_mm: Option<f64>,
    ) -> StringModel {
        let mass = LinearDensity::kg_per_m(mass_g_per_m * 1e-3);
        let (length, pitch) = (Length::mm(650.0), Frequency::hertz(pitch_hz));
        let tension_n = crate::string_model::tension(mass, length, pitch).as_newtons();
        let stiffness_length = stiffness_length_mm.unwrap_or(stretch_ratio.sqrt() * radius_mm / 2.0);
        let bending = tension_n * stiffness_length * stiffness_length;
        let body =
            StringBody::measured(Length::mm(2.0 * radius_mm), mass, stretch_ratio * tension_n, bending);
        StringModel::tuned(body.expect("all positive"), length, pitch).expect("all positive")
    }

    /// One row of the source's table for a normal-tension nylon set.
    struct Published {
        radius_mm: f64,
        mass_g_per_m: f64,
        pitch_hz: f64,
        tension_n: f64,
        resistance: f64,
        stretch_ratio: f64,
        stiffness: f64,
        modulus_gpa: f64,
        saddle_mm: f64,
        nut_mm: f64,
        rms_cents: f64,
    }

    /// Anderson and Beausoleil (2024), read in the authors' manuscript: 650 mm, nut 1 mm over the frets, saddle 4 mm over the
    /// nut, finger on the fret, frets 1 to 12. `direct` are setbacks that minimise the exact model, and `rms` the error at
    /// the printed setbacks, both computed at 50 digits (derived).
    #[track_caller]
    fn check(row: Published, direct_mm: [f64; 2], rms_at_printed_cents: f64) {
        let stiffness_length_mm = row.stiffness * 650.0;
        let string = nylon_string(
            row.radius_mm,
            row.mass_g_per_m,
            row.stretch_ratio,
            row.pitch_hz,
            Some(stiffness_length_mm),
        );
        let near = |what: &str, found: f64, expected: f64, share: f64| {
            assert!((found / expected - 1.0).abs() < share, "{what}: found {found}, expected {expected}");
        };
        near("tension", string.tension().as_newtons(), row.tension_n, 0.002);
        // The source measured R = (EA/T - 1)/2 and prints it to a tenth.
        assert!(
            (2.0 * row.resistance + 1.0 - row.stretch_ratio).abs() < 0.11,
            "R and the stretch ratio belong together"
        );
        let round = nylon_string(row.radius_mm, row.mass_g_per_m, row.stretch_ratio, row.pitch_hz, None);
        near("stiffness", round.stiffness_length().as_mm(), stiffness_length_mm, 0.003);
        let area_mm2 = std::f64::consts::PI * row.radius_mm * row.radius_mm;
        near("modulus", string.body().stretch_stiffness_n() / area_mm2 / 1000.0, row.modulus_gpa, 0.005);

        let line = nut_line(650.0, 1.0, 4.0, 0.0, 0.0);
        let frets = level_frets(650.0, 12, 0.0);
        let found =
            best_setbacks(&string, &line, &frets, Freedom::SaddleAndZeroFret).expect("frets in order");
        let within = |what: &str, found: f64, expected: f64, tolerance: f64| {
            assert!((found - expected).abs() < tolerance, "{what}: found {found}, expected {expected}");
        };
        within("saddle, printed", found.saddle_setback.as_mm(), row.saddle_mm, 0.03);
        within("nut, printed", found.zero_fret_setback.as_mm(), row.nut_mm, 0.0036);
        within("saddle, direct", found.saddle_setback.as_mm(), direct_mm[0], 0.0006);
        within("nut, direct", found.zero_fret_setback.as_mm(), direct_mm[1], 0.0006);

        let printed = nut_line(650.0, 1.0, 4.0, row.saddle_mm, row.nut_mm);
        let rms =
            root_mean_square(&crate::intonation::error_map(&string, &printed, &frets).expect("in order"));
        within("rms at the printed setbacks", rms, rms_at_printed_cents, 0.0006);
        within("rms, printed", rms, row.rms_cents, 0.0065);
        assert!(found.after_cents <= rms, "{} is worse than the printed {rms}", found.after_cents);
    }

    #[test]
    fn nylon_e4() {
        let row = Published {
            radius_mm: 0.356,
            mass_g_per_m: 0.374,
            pitch_hz: 329.6276,
            tension_n: 68.6,
            resistance: 23.6,
            stretch_ratio: 48.2,
            stiffness: 0.0019,
            modulus_gpa: 8.33,
            saddle_mm: 1.48,
            nut_mm: -0.36,
            rms_cents: 0.15,
        };
        check(row, [1.475, -0.358], 0.149);
    }
    #[test]
    fn nylon_b3() {
        let row = Published {
            radius_mm: 0.409,
            mass_g_per_m: 0.505,
            pitch_hz: 246.9417,
            tension_n: 52.0,
            resistance: 23.8,
            stretch_ratio: 48.7,
            stiffness: 0.0022,
            modulus_gpa: 4.82,
            saddle_mm: 1.69,
            nut_mm: -0.36,
            rms_cents: 0.15,
        };
        check(row, [1.684, -0.361], 0.150);
    }
    #[test]
    fn nylon_g3() {
        let row = Published {
            radius_mm: 0.512,
            mass_g_per_m: 0.836,
            pitch_hz: 195.9977,
            tension_n: 54.2,
            resistance: 28.8,
            stretch_ratio: 58.6,
            stiffness: 0.00301,
            modulus_gpa: 3.87,
            saddle_mm: 2.33,
            nut_mm: -0.43,
            rms_cents: 0.19,
        };
        check(row, [2.303, -0.431], 0.186);
    }
    #[test]
    fn nylon_d3() {
        let row = Published {
            radius_mm: 0.368,
            mass_g_per_m: 1.92,
            pitch_hz: 146.8324,
            tension_n: 70.0,
            resistance: 22.5,
            stretch_ratio: 46.0,
            stiffness: 0.00192,
            modulus_gpa: 7.56,
            saddle_mm: 1.48,
            nut_mm: -0.34,
            rms_cents: 0.14,
        };
        check(row, [1.477, -0.342], 0.142);
    }
    #[test]
    fn nylon_a2() {
        let row = Published {
            radius_mm: 0.445,
            mass_g_per_m: 3.289,
            pitch_hz: 110.0,
            tension_n: 67.3,
            resistance: 23.9,
            stretch_ratio: 48.7,
            stiffness: 0.00239,
            modulus_gpa: 5.28,
            saddle_mm: 1.82,
            nut_mm: -0.36,
            rms_cents: 0.15,
        };
        check(row, [1.816, -0.360], 0.151);
    }
    #[test]
    fn nylon_e2() {
        let row = Published {
            radius_mm: 0.546,
            mass_g_per_m: 5.47,
            pitch_hz: 82.4069,
            tension_n: 62.8,
            resistance: 28.6,
            stretch_ratio: 58.2,
            stiffness: 0.00321,
            modulus_gpa: 3.9,
            saddle_mm: 2.46,
            nut_mm: -0.43,
            rms_cents: 0.19,
        };
        check(row, [2.443, -0.427], 0.184);
    }

    #[track_caller]
    fn check_steel(string: &StringModel, action_mm: f64, finger_mm: f64, expected_mm: f64) {
        let twelfth = [level_frets(648.0, 12, finger_mm)[11]];
        let found =
            best_setbacks(string, &zero_fret_line(action_mm), &twelfth, Freedom::Saddle).expect("in order");
        let found_mm = found.saddle_setback.as_mm();
        assert!((found_mm - expected_mm).abs() < 3e-4, "found {found_mm}, expected {expected_mm}");
        assert!(found.after_cents < 1e-9, "fret 12 is left {} cents out", found.after_cents);
    }

    // Saddle setback that nulls fret 12, steel over a zero fret, 648 mm; computed at 50 digits (derived).
    #[test]
    fn steel_e4_low() {
        check_steel(&plain(0.010, E4), 1.5, 0.0, 1.2403);
    }
    #[test]
    fn steel_e4_low_finger_behind() {
        check_steel(&plain(0.010, E4), 1.5, 10.0, 1.2714);
    }
    #[test]
    fn steel_e4_middle() {
        check_steel(&plain(0.010, E4), 2.5, 0.0, 2.0708);
    }
    #[test]
    fn steel_e4_middle_finger_behind() {
        check_steel(&plain(0.010, E4), 2.5, 10.0, 2.1564);
    }
    #[test]
    fn steel_e4_high() {
        check_steel(&plain(0.010, E4), 4.0, 0.0, 4.0638);
    }
    #[test]
    fn steel_e4_high_finger_behind() {
        check_steel(&plain(0.010, E4), 4.0, 10.0, 4.2775);
    }
    #[test]
    fn steel_d3_low() {
        check_steel(&wound_d3(), 1.5, 0.0, 2.8226);
    }
    #[test]
    fn steel_d3_low_finger_behind() {
        check_steel(&wound_d3(), 1.5, 10.0, 2.8796);
    }
    #[test]
    fn steel_d3_middle() {
        check_steel(&wound_d3(), 2.5, 0.0, 4.3699);
    }
    #[test]
    fn steel_d3_middle_finger_behind() {
        check_steel(&wound_d3(), 2.5, 10.0, 4.5250);
    }

    #[test]
    fn retuning_after_the_setback_matters_little() {
        // The model holds the tension of the scale length; a builder tunes the longer string a little tighter.
        let frets = level_frets(648.0, 18, 5.0);
        for (string, pitch) in [(plain(0.010, E4), E4), (plain(0.017, G3), G3), (wound_d3(), D3)] {
            let line = zero_fret_line(2.5);
            let found =
                best_setbacks(&string, &line, &frets, Freedom::Saddle).expect("in order").saddle_setback;
            let retuned =
                StringModel::tuned(*string.body(), Length::mm(648.0) + found, pitch).expect("positive");
            let again =
                best_setbacks(&retuned, &line, &frets, Freedom::Saddle).expect("in order").saddle_setback;
            let share = again / found - 1.0;
            assert!(share.abs() < 0.02, "retuning moves the setback of {found:?} by {share}");
        }
    }

    #[test]
    fn without_frets_there_is_nothing_to_tune() {
        let found = best_setbacks(&wound_d3(), &zero_fret_line(2.0), &[], Freedom::Saddle);
        assert_eq!(found, Err(MechanicsError::Empty { what: "frets" }), "no frets, no best place");
    }

    proptest::proptest! {
        #![proptest_config(proptest::test_runner::Config::with_cases(64))]
        #[test]
        fn compensation_never_makes_a_string_worse(
            action_mm in 0.5..5.0_f64,
            finger_mm in 0.0..8.0_f64,
            crowns in proptest::collection::vec(-0.3..0.3_f64, 18),
            both in proptest::bool::ANY,
            which in 0_usize..3,
        ) {
            let string = [plain(0.010, E4), plain(0.017, G3), wound_d3()][which];
            let line = zero_fret_line(action_mm);
            let mut frets = level_frets(648.0, 18, finger_mm);
            for (fret, crown) in frets.iter_mut().zip(crowns) {
                fret.crown_height = Length::mm(crown);
            }
            let freedom = if both { Freedom::SaddleAndZeroFret } else { Freedom::Saddle };
            let found = best_setbacks(&string, &line, &frets, freedom).expect("in order");
            proptest::prop_assert!(found.after_cents <= found.before_cents, "{} rose to {}", found.before_cents, found.after_cents);
            // No neighbour a hundredth of a millimetre away does better.
            for step in [[0.01, 0.0], [-0.01, 0.0], [0.0, 0.01], [0.0, -0.01]] {
                if step[0] == 0.0 && !both {
                    continue;
                }
                let best = StringLine { saddle_setback: found.saddle_setback, zero_fret_setback: found.zero_fret_setback, ..line };
                let beside = crate::intonation::error_map(&string, &moved(&best, step), &frets).expect("in order");
                let beside = root_mean_square(&beside);
                proptest::prop_assert!(beside >= found.after_cents - 1e-9, "{beside} beats {}", found.after_cents);
            }
        }
    }
}

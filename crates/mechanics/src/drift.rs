//! How far does the open string run away when the saddle is slid?
//!
//! Sliding the saddle toward the tail lengthens the sounding part, which flattens it, but it also pulls the string
//! over a longer way from anchor to anchor, which tightens it; the steeper the string breaks down to the tail, the more.
//! Two ends bound what happens at the crest: the string slips over it freely, or friction holds it back by all that
//! the capstan law allows.

use std::cmp::Ordering;

use units::{Angle, Force, Length, math};

use crate::{
    MechanicsError,
    error::positive,
    pitch::{CENTS_PER_RELATIVE_CHANGE, cents},
    string_line::StringLine,
    string_model::StringModel,
};

/// What the string does beyond the zero fret.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum BehindZeroFret {
    /// It cannot pass nut and zero fret: the usual case, and the one with the larger drift.
    Fixed,
    /// It slips over zero fret and nut, so that a further length up to the post shares the stretch; see [`length_through`].
    Sliding(Length),
}

/// A string from one anchor to the other.
///
/// Frame: instrument frame; the saddle's crest is at the run's setback when nothing is moved.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StringPath {
    /// Zero fret to saddle.
    pub line: StringLine,
    /// Tail anchor behind the saddle line, along x.
    pub tail_distance: Length,
    /// Height of the tail anchor, where the string leaves its hole.
    pub tail_height: Length,
    /// What the string does beyond the zero fret.
    pub behind_zero_fret: BehindZeroFret,
}

/// How the string turns over the saddle's crest.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BreakAngles {
    /// How far the string rises from zero fret to crest.
    pub front: Angle,
    /// How far it falls from crest to tail.
    pub tail: Angle,
}

impl BreakAngles {
    /// The whole turn: the break angle, and the wrap of the capstan law.
    #[must_use]
    pub fn turn(&self) -> Angle {
        self.front + self.tail
    }
}

/// Length of a string through a list of points, such as zero fret, nut and post; each is x, y, z.
///
/// - **Units**: millimetres, inside [`Length`].
/// - **Frame**: any; straight between the points.
#[must_use]
pub fn length_through(points: &[[Length; 3]]) -> Length {
    let step = |pair: &[[Length; 3]]| {
        let squares: f64 =
            (0..3).map(|axis| (pair[1][axis] - pair[0][axis]).as_mm()).map(|along| along * along).sum();
        Length::mm(squares.sqrt())
    };
    points.windows(2).map(step).sum()
}

/// The two straight pieces on either side of the crest after the saddle has travelled; all in mm.
#[derive(Clone, Copy)]
struct Pieces {
    front_run: f64,
    front_rise: f64,
    tail_run: f64,
    tail_drop: f64,
    behind: f64,
}

impl Pieces {
    fn new(path: &StringPath, travel: Length) -> Result<Self, MechanicsError> {
        let line = &path.line;
        let front_run = (line.saddle_place() + travel - line.zero_fret_place()).as_mm();
        let tail_run = (path.tail_distance - line.saddle_setback - travel).as_mm();
        Ok(Self {
            front_run: positive("distance in mm from zero fret to saddle", front_run)?,
            front_rise: (line.saddle_height - line.zero_fret_height).as_mm(),
            tail_run: positive("distance in mm from saddle to tail", tail_run)?,
            tail_drop: (line.saddle_height - path.tail_height).as_mm(),
            behind: match path.behind_zero_fret {
                BehindZeroFret::Fixed => 0.0,
                BehindZeroFret::Sliding(length) => length.as_mm(),
            },
        })
    }

    fn front(&self) -> f64 {
        (self.front_run * self.front_run + self.front_rise * self.front_rise).sqrt()
    }

    fn tail(&self) -> f64 {
        (self.tail_run * self.tail_run + self.tail_drop * self.tail_drop).sqrt()
    }

    fn whole(&self) -> f64 {
        self.front() + self.tail() + self.behind
    }

    fn angles(&self) -> BreakAngles {
        BreakAngles {
            front: Angle::radians(math::atan2(self.front_rise, self.front_run)),
            tail: Angle::radians(math::atan2(self.tail_drop, self.tail_run)),
        }
    }
}

/// Length of the string from tail anchor to the far end of what may slide, after the saddle has travelled.
///
/// - **Units**: millimetres, inside [`Length`]; travel is positive toward the tail.
/// - **Errors**: [`MechanicsError::NotPositive`] when the saddle would pass the tail or the zero fret.
pub fn path_length(path: &StringPath, travel: Length) -> Result<Length, MechanicsError> {
    Ok(Length::mm(Pieces::new(path, travel)?.whole()))
}

/// Break angles over the crest after the saddle has travelled.
///
/// - **Units**: radians, inside [`Angle`].
/// - **Errors**: as for [`path_length`].
pub fn break_angles(path: &StringPath, travel: Length) -> Result<BreakAngles, MechanicsError> {
    Ok(Pieces::new(path, travel)?.angles())
}

/// Change of the open pitch when the saddle travels and the string slips freely over its crest.
///
/// - **Units**: cents, positive when the string goes sharp; travel in mm, positive toward the tail.
/// - **Accuracy**: exact for a linearly elastic string without friction.
/// - **Errors**: as for [`path_length`]; [`MechanicsError::Slack`].
/// - **Source**: derived: Hooke's law T = EA (L/U - 1) on the unstretched length U, Mersenne's law with the mass per length
///   thinned by the stretch.
pub fn slipping_drift(
    string: &StringModel,
    path: &StringPath,
    travel: Length,
) -> Result<f64, MechanicsError> {
    let (before, after) = (Pieces::new(path, Length::ZERO)?, Pieces::new(path, travel)?);
    let strain = strain(string);
    let strain_after = (1.0 + strain) * after.whole() / before.whole() - 1.0;
    pitch_change(&before, &after, strain, strain_after, travel)
}

/// Change of the open pitch when the saddle travels and friction drags the string along with it.
///
/// A saddle that moves toward the tail drags the string with it, so that the sounding part keeps more tension than the
/// part behind the crest; a saddle that moves forward does the reverse. Until their ratio reaches what the capstan law
/// allows, the string sticks. With [`slipping_drift`] this bounds what the builder hears.
///
/// - **Units**: cents; travel in mm, positive toward the tail; `friction` is the coefficient at the crest.
/// - **Accuracy**: exact for a string that starts with equal tension on both sides. What may slide beyond the zero fret
///   slides freely.
/// - **Errors**: as for [`slipping_drift`]; [`MechanicsError::OutsideRange`] for friction below zero or not below 2.
/// - **Source**: derived, with the capstan law T2 = T1 e^(friction angle). Groves and Kemp, Archives of Acoustics (2019),
///   abstract: below 0.26 for wound and below 0.17 for plain steel strings on an electric guitar's saddle.
pub fn dragged_drift(
    string: &StringModel,
    path: &StringPath,
    travel: Length,
    friction: f64,
) -> Result<f64, MechanicsError> {
    if !(0.0..2.0).contains(&friction) {
        let (quantity, above, below) = ("coefficient of friction", 0.0, 2.0);
        return Err(MechanicsError::OutsideRange { quantity, above, below, value: friction });
    }
    let (before, after) = (Pieces::new(path, Length::ZERO)?, Pieces::new(path, travel)?);
    let strain = strain(string);
    // The sounding part and what slides beyond the zero fret on one side, the part down to the tail on the other.
    let unstretched_front = (before.front() + before.behind) / (1.0 + strain);
    let unstretched_tail = before.tail() / (1.0 + strain);
    let stuck_front = (after.front() + after.behind) / unstretched_front - 1.0;
    let stuck_tail = after.tail() / unstretched_tail - 1.0;
    let grip = math::exp(friction * after.angles().turn().abs().as_radians());
    // Front over tail tension once the string slips; the side toward which the saddle moves loses.
    let ratio = match stuck_front.partial_cmp(&stuck_tail) {
        Some(Ordering::Greater) => grip,
        _ => 1.0 / grip,
    };
    let sticks = stuck_front > 0.0
        && stuck_tail > 0.0
        && stuck_front <= grip * stuck_tail
        && stuck_tail <= grip * stuck_front;
    let strain_after = if sticks {
        stuck_front
    } else {
        slipped_front_strain(&after, unstretched_front + unstretched_tail, ratio)
    };
    pitch_change(&before, &after, strain, strain_after, travel)
}

/// Strain of the sounding part when the strains on both sides of the crest stand in a ratio and no string is lost:
/// F/(1 + e) + B/(1 + e/ratio) = U, a quadratic in e.
fn slipped_front_strain(after: &Pieces, unstretched: f64, ratio: f64) -> f64 {
    let (front, tail) = (after.front() + after.behind, after.tail());
    let square = unstretched / ratio;
    let linear = unstretched * (1.0 + 1.0 / ratio) - front / ratio - tail;
    let constant = unstretched - front - tail;
    // The constant is negative while the string is stretched, so the larger root is the positive one; this form of it
    // loses no digits.
    let root = (linear * linear - 4.0 * square * constant).max(0.0).sqrt();
    -2.0 * constant / (linear + root)
}

/// Change of the open pitch for each millimetre of saddle travel, for small travel and a string that slips freely.
///
/// - **Units**: cents per mm, positive when a saddle moved toward the tail makes the string sharp.
/// - **Accuracy**: the exact derivative of [`slipping_drift`] at no travel.
/// - **Errors**: as for [`path_length`].
/// - **Source**: derived: (1200/ln 2) [(EA/T + 2) (cos a - cos b)/(2 L) - cos a/l].
pub fn drift_per_mm(string: &StringModel, path: &StringPath) -> Result<f64, MechanicsError> {
    let pieces = Pieces::new(path, Length::ZERO)?;
    let (cos_front, cos_tail) = (pieces.front_run / pieces.front(), pieces.tail_run / pieces.tail());
    let tightening = (string.stretch_ratio() + 2.0) * (cos_front - cos_tail) / (2.0 * pieces.whole());
    Ok(CENTS_PER_RELATIVE_CHANGE * (tightening - cos_front / pieces.front()))
}

/// Tension of the sounding part after the saddle has travelled and the string slipped freely.
///
/// - **Units**: newtons, inside [`Force`].
/// - **Errors**: as for [`slipping_drift`].
/// - **Source**: Hooke's law, as for [`slipping_drift`].
pub fn slipped_tension(
    string: &StringModel,
    path: &StringPath,
    travel: Length,
) -> Result<Force, MechanicsError> {
    let growth = path_length(path, travel)? / path_length(path, Length::ZERO)?;
    let strain_after = (1.0 + strain(string)) * growth - 1.0;
    if strain_after <= 0.0 {
        return Err(MechanicsError::Slack { travel });
    }
    Ok(Force::newtons(string.body().stretch_stiffness_n() * strain_after))
}

fn strain(string: &StringModel) -> f64 {
    1.0 / string.stretch_ratio()
}

fn pitch_change(
    before: &Pieces,
    after: &Pieces,
    strain: f64,
    strain_after: f64,
    travel: Length,
) -> Result<f64, MechanicsError> {
    if strain_after <= 0.0 {
        return Err(MechanicsError::Slack { travel });
    }
    let tension = strain_after / strain;
    let thinning = (1.0 + strain_after) / (1.0 + strain);
    Ok(cents((tension * thinning).sqrt() * before.front() / after.front()))
}

/// The worked case of the tests: 648 mm, zero fret at no height, crest at 10 mm, tail 70 mm behind at a given height.
#[cfg(test)]
pub(crate) fn worked_path(tail_height_mm: f64) -> StringPath {
    StringPath {
        line: crate::string_line::tests::zero_fret_line(5.0),
        tail_distance: Length::mm(70.0),
        tail_height: Length::mm(tail_height_mm),
        behind_zero_fret: BehindZeroFret::Fixed,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::string_model::tests::{E4, G3, plain, wound_d3};

    /// One row: tail angle and turn in degrees, then cents for +1, +2, +3 mm slipping and at friction 0.10, 0.17, 0.26.
    #[track_caller]
    fn check(string: &StringModel, tail_height_mm: f64, tail_deg: f64, turn_deg: f64, cents: [[f64; 3]; 4]) {
        let path = worked_path(tail_height_mm);
        let angles = break_angles(&path, Length::ZERO).expect("a sound path");
        assert!((angles.tail.as_degrees() - tail_deg).abs() < 6e-4, "found {:?}", angles.tail.as_degrees());
        assert!(
            (angles.turn().as_degrees() - turn_deg).abs() < 6e-4,
            "found {:?}",
            angles.turn().as_degrees()
        );
        for (column, expected) in cents.iter().enumerate() {
            for (millimetres, &expected) in [1.0, 2.0, 3.0].into_iter().zip(expected) {
                let travel = Length::mm(millimetres);
                let found = match column {
                    0 => slipping_drift(string, &path, travel),
                    _ => dragged_drift(string, &path, travel, [0.10, 0.17, 0.26][column - 1]),
                };
                let found = found.expect("a taut string");
                assert!(
                    (found - expected).abs() < 5.1e-3,
                    "column {column}, {millimetres} mm: found {found}, expected {expected}"
                );
            }
        }
    }

    // Computed at 50 digits (derived), printed to 0.01 cents.
    #[test]
    fn e4_tail_8() {
        let cents =
            [[-2.62, -5.23, -7.83], [-2.25, -4.86, -7.47], [-1.99, -4.60, -7.21], [-1.66, -4.27, -6.88]];
        check(&plain(0.010, E4), 8.0, 1.637, 2.521, cents);
    }
    #[test]
    fn e4_tail_5() {
        let cents =
            [[-2.24, -4.47, -6.68], [-1.51, -3.74, -5.95], [-1.00, -3.23, -5.44], [-0.35, -2.58, -4.79]];
        check(&plain(0.010, E4), 5.0, 4.086, 4.970, cents);
    }
    #[test]
    fn e4_tail_0() {
        let cents = [[-0.93, -1.80, -2.62], [0.41, -0.47, -1.29], [1.34, 0.46, -0.37], [2.51, 1.63, 0.80]];
        check(&plain(0.010, E4), 0.0, 8.130, 9.014, cents);
    }
    #[test]
    fn e4_tail_10_below() {
        let cents = [[4.01, 8.17, 12.46], [6.57, 10.72, 15.01], [8.31, 12.46, 16.75], [10.51, 14.65, 18.94]];
        check(&plain(0.010, E4), -10.0, 15.945, 16.829, cents);
    }
    #[test]
    fn e4_tail_20_below() {
        let cents =
            [[11.26, 22.67, 34.21], [15.05, 26.45, 37.99], [17.61, 29.01, 40.55], [20.81, 32.20, 43.74]];
        check(&plain(0.010, E4), -20.0, 23.199, 24.083, cents);
    }
    #[test]
    fn e4_tail_30_below() {
        let cents =
            [[19.78, 39.51, 59.20], [24.81, 44.55, 64.25], [28.20, 47.94, 67.63], [32.39, 52.12, 71.82]];
        check(&plain(0.010, E4), -30.0, 29.745, 30.629, cents);
    }
    #[test]
    fn d3_tail_8() {
        let cents =
            [[-2.57, -5.14, -7.70], [-2.20, -4.77, -7.33], [-1.95, -4.52, -7.08], [-1.62, -4.19, -6.75]];
        check(&wound_d3(), 8.0, 1.637, 2.521, cents);
    }
    #[test]
    fn d3_tail_0() {
        let cents = [[0.55, 1.19, 1.92], [1.89, 2.53, 3.25], [2.81, 3.45, 4.17], [3.98, 4.62, 5.34]];
        check(&wound_d3(), 0.0, 8.130, 9.014, cents);
    }
    #[test]
    fn d3_tail_20_below() {
        let cents =
            [[22.96, 45.83, 68.61], [26.73, 49.60, 72.38], [29.28, 52.15, 74.93], [32.47, 55.33, 78.11]];
        check(&wound_d3(), -20.0, 23.199, 24.083, cents);
    }
    #[test]
    fn d3_tail_30_below() {
        let cents =
            [[38.45, 75.96, 112.61], [43.47, 80.99, 117.64], [46.85, 84.36, 121.01], [51.02, 88.53, 125.18]];
        check(&wound_d3(), -30.0, 29.745, 30.629, cents);
    }

    #[track_caller]
    fn check_lengthening(tail_height_mm: f64, expected: f64) {
        // dL/dx of the same table: cos a - cos b, here by a small travel.
        let path = worked_path(tail_height_mm);
        let length = |travel_mm| path_length(&path, Length::mm(travel_mm)).expect("a sound path").as_mm();
        let found = (length(1e-3) - length(-1e-3)) / 2e-3;
        assert!(
            (found - expected).abs() < 6e-7,
            "tail at {tail_height_mm}: found {found}, expected {expected}"
        );
    }
    #[test]
    fn lengthening_tail_8() {
        check_lengthening(8.0, 0.000_289);
    }
    #[test]
    fn lengthening_tail_5() {
        check_lengthening(5.0, 0.002_422);
    }
    #[test]
    fn lengthening_tail_0() {
        check_lengthening(0.0, 0.009_931);
    }
    #[test]
    fn lengthening_tail_10_below() {
        check_lengthening(-10.0, 0.038_357);
    }
    #[test]
    fn lengthening_tail_20_below() {
        check_lengthening(-20.0, 0.080_736);
    }
    #[test]
    fn lengthening_tail_30_below() {
        check_lengthening(-30.0, 0.131_638);
    }

    #[track_caller]
    fn check_sliding(tail_height_mm: f64, expected_cents: f64) {
        let behind_zero_fret = BehindZeroFret::Sliding(Length::mm(100.0));
        let path = StringPath { behind_zero_fret, ..worked_path(tail_height_mm) };
        let found = slipping_drift(&plain(0.010, E4), &path, Length::mm(1.0)).expect("a taut string");
        assert!((found - expected_cents).abs() < 5.1e-4, "found {found}, expected {expected_cents}");
    }

    // 100 mm of freely sliding string behind the nut, +1 mm; computed at 50 digits (derived).
    #[test]
    fn sliding_behind_tail_8() {
        check_sliding(8.0, -2.624);
    }
    #[test]
    fn sliding_behind_tail_0() {
        check_sliding(0.0, -1.140);
    }
    #[test]
    fn sliding_behind_tail_20_below() {
        check_sliding(-20.0, 9.585);
    }

    #[test]
    fn no_friction_is_free_slipping() {
        let (string, path) = (plain(0.017, G3), worked_path(-12.0));
        for millimetres in [-3.0, -0.5, 0.5, 3.0] {
            let travel = Length::mm(millimetres);
            let free = slipping_drift(&string, &path, travel).expect("taut");
            let dragged = dragged_drift(&string, &path, travel, 0.0).expect("taut");
            assert!((free - dragged).abs() < 1e-9, "{millimetres} mm: {free} and {dragged}");
        }
    }

    #[test]
    fn a_string_that_sticks_keeps_its_own_stretch() {
        // A hundredth of a millimetre of travel is less than the grip allows, so the sounding part stretches alone: closed form
        // from Hooke and Mersenne.
        let (string, path, travel_mm) = (plain(0.010, E4), worked_path(-10.0), 0.01);
        let before = (648.0_f64 * 648.0 + 100.0).sqrt();
        let after = (648.01_f64 * 648.01 + 100.0).sqrt();
        let strain = 1.0 / string.stretch_ratio();
        let strain_after = (1.0 + strain) * after / before - 1.0;
        let expected =
            cents((strain_after / strain * (1.0 + strain_after) / (1.0 + strain)).sqrt() * before / after);
        let found = dragged_drift(&string, &path, Length::mm(travel_mm), 0.2).expect("taut");
        assert!((found - expected).abs() < 1e-9, "found {found}, expected {expected}");
    }

    #[test]
    fn tension_grows_with_the_path() {
        // Closed form: T1 = T0 + (EA/U) dL.
        let (string, path, travel) = (plain(0.010, E4), worked_path(-20.0), Length::mm(2.0));
        let length = |travel| path_length(&path, travel).expect("sound").as_mm();
        let unstretched = length(Length::ZERO) / (1.0 + 1.0 / string.stretch_ratio());
        let growth =
            string.body().stretch_stiffness_n() / unstretched * (length(travel) - length(Length::ZERO));
        let found = slipped_tension(&string, &path, travel).expect("taut").as_newtons();
        let expected = string.tension().as_newtons() + growth;
        assert!((found - expected).abs() < 1e-9, "found {found}, expected {expected}");
    }

    #[test]
    fn one_more_millimetre_is_one_more_derivative() {
        let (string, path) = (wound_d3(), worked_path(-4.0));
        let travel = Length::mm(1e-4);
        let forward = slipping_drift(&string, &path, travel).expect("taut");
        let back = slipping_drift(&string, &path, -travel).expect("taut");
        let (found, expected) = (drift_per_mm(&string, &path).expect("sound"), (forward - back) / 2e-4);
        assert!((found - expected).abs() < 1e-6, "found {found}, expected {expected}");
    }

    #[test]
    fn a_saddle_pushed_far_forward_leaves_the_string_slack() {
        let found = slipping_drift(&plain(0.017, G3), &worked_path(-30.0), Length::mm(-20.0));
        assert_eq!(found, Err(MechanicsError::Slack { travel: Length::mm(-20.0) }), "3 mm shorter is slack");
    }

    #[test]
    fn a_saddle_cannot_pass_the_tail() {
        let found = slipping_drift(&plain(0.017, G3), &worked_path(0.0), Length::mm(70.0));
        assert!(matches!(found, Err(MechanicsError::NotPositive { .. })), "found {found:?}");
    }

    #[test]
    fn a_bent_way_is_longer() {
        let at = |x: f64, y: f64, z: f64| [Length::mm(x), Length::mm(y), Length::mm(z)];
        let found = length_through(&[at(0.0, 0.0, 0.0), at(3.0, 4.0, 0.0), at(3.0, 4.0, 12.0)]).as_mm();
        assert!((found - 17.0).abs() < 1e-12, "found {found}");
    }

    proptest::proptest! {
        #[test]
        fn raising_the_tail_never_increases_the_break_angle(height_mm in -40.0..9.0_f64, rise_mm in 0.0..20.0_f64) {
            let turn = |height| break_angles(&worked_path(height), Length::ZERO).expect("sound").turn();
            proptest::prop_assert!(turn(height_mm + rise_mm) <= turn(height_mm), "raising by {rise_mm} from {height_mm}");
        }

        #[test]
        fn a_lower_tail_drifts_sharper(height_mm in -30.0..9.0_f64, drop_mm in 0.01..10.0_f64, travel_mm in 0.1..5.0_f64) {
            let drift = |height, travel| {
                slipping_drift(&plain(0.010, E4), &worked_path(height), Length::mm(travel)).unwrap_or(f64::NEG_INFINITY)
            };
            proptest::prop_assert!(drift(height_mm - drop_mm, travel_mm) > drift(height_mm, travel_mm), "toward the tail");
            proptest::prop_assert!(drift(height_mm - drop_mm, -travel_mm) <= drift(height_mm, -travel_mm), "forward");
        }

        #[test]
        fn friction_keeps_a_retreating_saddle_sharper(height_mm in -30.0..8.0_f64, friction in 0.01..0.5_f64) {
            let (string, path, travel) = (wound_d3(), worked_path(height_mm), Length::mm(1.5));
            let free = slipping_drift(&string, &path, travel).expect("taut");
            let dragged = dragged_drift(&string, &path, travel, friction).expect("taut");
            proptest::prop_assert!(dragged > free, "{dragged} is not above {free}");
        }
    }
}

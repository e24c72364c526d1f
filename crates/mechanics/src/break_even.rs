//! At which break angle does sliding the saddle leave the open string in tune?

use units::{Angle, Length};

use crate::{
    MechanicsError,
    drift::{StringPath, break_angles, drift_per_mm},
    root::crossing,
    string_model::StringModel,
};

/// The tail at which flattening and tightening cancel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BreakEven {
    /// How far the string falls from crest to tail.
    pub tail_angle: Angle,
    /// Height of the tail anchor that gives it, at the path's own tail distance.
    pub tail_height: Length,
}

/// Tail angle at which a small slide of the saddle does not change the open pitch of a string that slips freely.
///
/// - **Units**: radians inside [`Angle`], millimetres inside [`Length`].
/// - **Frame**: instrument frame, as for [`StringPath`]; the path's own tail height is not used.
/// - **Accuracy**: the root of the exact derivative, to the last bits; the thinning of the string counts, which the first
///   order leaves out (0.04 degrees).
/// - **Errors**: [`MechanicsError::NotPositive`] when saddle and tail do not lie apart; `None` where the string goes sharp
///   on a level run already or flat even at 80 degrees.
/// - **Source**: derived: (EA/T + 2) (cos a - cos b)/(2 L) = cos a/l.
pub fn break_even(string: &StringModel, path: &StringPath) -> Result<Option<BreakEven>, MechanicsError> {
    let crest = path.line.saddle_height;
    let tail_run = path.tail_distance - path.line.saddle_setback;
    let tail_at = |drop: Length| StringPath { tail_height: crest - drop, ..*path };
    drift_per_mm(string, path)?;
    let steepest = tail_run * STEEPEST.tan();
    let drop = crossing(0.0, steepest.as_mm(), |drop_mm| {
        drift_per_mm(string, &tail_at(Length::mm(drop_mm))).unwrap_or(f64::NAN)
    });
    drop.map(|drop_mm| {
        let path = tail_at(Length::mm(drop_mm));
        Ok(BreakEven { tail_angle: break_angles(&path, Length::ZERO)?.tail, tail_height: path.tail_height })
    })
    .transpose()
}

/// Nobody builds a steeper tail; a larger limit would find roots that no box has room for.
const STEEPEST: Angle = Angle::degrees(80.0);

#[cfg(test)]
mod tests {
    use units::math;

    use super::*;
    use crate::{
        drift::{slipping_drift, worked_path},
        string_model::tests::{E4, G3, plain, wound_d3},
    };

    #[test]
    fn e4_exact() {
        // Computed at 50 digits (derived): 10.121 degrees, tail at -2.4957 mm.
        let found = break_even(&plain(0.010, E4), &worked_path(0.0)).expect("a sound path").expect("a root");
        assert!(
            (found.tail_angle.as_degrees() - 10.121).abs() < 6e-4,
            "found {:?}",
            found.tail_angle.as_degrees()
        );
        assert!((found.tail_height.as_mm() - -2.4957).abs() < 2e-4, "found {:?}", found.tail_height);
    }

    #[test]
    fn e4_first_order() {
        // Leaving out the thinning, as the first order does, gives 10.157 degrees (derived); the exact root lies just below.
        let string = plain(0.010, E4);
        let found = break_even(&string, &worked_path(0.0)).expect("a sound path").expect("a root");
        let front = (648.0_f64 * 648.0 + 100.0).sqrt();
        let whole = front + 70.0 / found.tail_angle.cos();
        let cos_front = 648.0 / front;
        let cos_tail = cos_front * (1.0 - 2.0 * whole / (front * (string.stretch_ratio() + 1.0)));
        let first_order_deg = math::acos(cos_tail).to_degrees();
        assert!((first_order_deg - 10.157).abs() < 6e-4, "found {first_order_deg}");
    }

    #[track_caller]
    fn check_near(string: &StringModel, expected_deg: f64) {
        // Rounded to a tenth of a degree where they were computed (derived).
        let found = break_even(string, &worked_path(0.0)).expect("a sound path").expect("a root");
        assert!(
            (found.tail_angle.as_degrees() - expected_deg).abs() < 0.06,
            "found {:?}",
            found.tail_angle.as_degrees()
        );
    }

    #[test]
    fn plain_g3() {
        check_near(&plain(0.017, G3), 6.1);
    }
    #[test]
    fn wound_d() {
        check_near(&wound_d3(), 7.5);
    }

    #[test]
    fn the_pitch_stands_still_there() {
        let string = wound_d3();
        let even = break_even(&string, &worked_path(0.0)).expect("a sound path").expect("a root");
        let path = StringPath { tail_height: even.tail_height, ..worked_path(0.0) };
        let drift = slipping_drift(&string, &path, Length::mm(0.01)).expect("taut");
        assert!(drift.abs() < 1e-4, "still drifts by {drift} cents");
    }

    #[test]
    fn a_tail_in_front_of_the_saddle_is_refused() {
        let path = StringPath { tail_distance: Length::mm(-5.0), ..worked_path(0.0) };
        assert!(break_even(&wound_d3(), &path).is_err(), "the tail lies behind the saddle");
    }
}

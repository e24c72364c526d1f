//! How hard does a string press on saddle, nut or zero fret, and which way?

use units::{Angle, Force, Length, math};

use crate::MechanicsError;

/// A direction in space: a vector of length one.
///
/// Frame: instrument frame; x toward the tail, y toward the treble string, z up from the playing plane.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Direction([f64; 3]);

impl Direction {
    /// From one point toward another.
    ///
    /// - **Errors**: [`MechanicsError::NoDirection`] when the two are one.
    pub fn toward(from: [Length; 3], to: [Length; 3]) -> Result<Self, MechanicsError> {
        let along = [0, 1, 2].map(|axis| (to[axis] - from[axis]).as_mm());
        let length = math::hypot(math::hypot(along[0], along[1]), along[2]);
        if length > 0.0 {
            Ok(Self(along.map(|along| along / length)))
        } else {
            Err(MechanicsError::NoDirection)
        }
    }

    /// Its x, y and z.
    #[must_use]
    pub const fn components(self) -> [f64; 3] {
        self.0
    }
}

/// A force in space.
///
/// Frame: as for [`Direction`].
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct ForceVector {
    /// Toward the tail.
    pub x: Force,
    /// Toward the treble string.
    pub y: Force,
    /// Up.
    pub z: Force,
}

impl ForceVector {
    /// Its size.
    #[must_use]
    pub fn size(&self) -> Force {
        Force::newtons(math::hypot(
            math::hypot(self.x.as_newtons(), self.y.as_newtons()),
            self.z.as_newtons(),
        ))
    }

    /// How hard it presses down; negative when it lifts.
    #[must_use]
    pub fn down(&self) -> Force {
        -self.z
    }
}

impl std::iter::Sum for ForceVector {
    fn sum<I: Iterator<Item = Self>>(forces: I) -> Self {
        forces.fold(Self::default(), |sum, force| Self {
            x: sum.x + force.x,
            y: sum.y + force.y,
            z: sum.z + force.z,
        })
    }
}

/// Force of a string on what it bends over: saddle, nut or zero fret.
///
/// - **Shape**: tension and the two directions in which the string leaves the bearing in; the force on the bearing out.
/// - **Units**: newtons, inside [`Force`].
/// - **Frame**: that of the directions.
/// - **Accuracy**: exact without friction, when the tension is the same on both sides.
/// - **Source**: sum of the string's two pulls; its size is 2 T sin(turn/2).
#[must_use]
pub fn bearing_force(tension: Force, leaves: [Direction; 2]) -> ForceVector {
    let pull = |axis: usize| tension * (leaves[0].0[axis] + leaves[1].0[axis]);
    ForceVector { x: pull(0), y: pull(1), z: pull(2) }
}

/// Angle through which a string turns over a bearing, from the directions in which it leaves; zero where it runs straight.
///
/// - **Units**: radians, inside [`Angle`].
/// - **Accuracy**: within 1e-15 radians, small turns included.
/// - **Source**: sum and difference of the two directions stand to each other as the tangent of half the turn.
#[must_use]
pub fn turn(leaves: [Direction; 2]) -> Angle {
    let length = |sign: f64| {
        let [x, y, z] = [0, 1, 2].map(|axis| leaves[0].0[axis] + sign * leaves[1].0[axis]);
        math::hypot(math::hypot(x, y), z)
    };
    Angle::radians(2.0 * math::atan2(length(1.0), length(-1.0)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{
        drift::worked_path,
        string_model::{
            StringModel,
            tests::{E4, plain, wound_d3},
        },
    };

    fn at(x: f64, y: f64, z: f64) -> [Length; 3] {
        [Length::mm(x), Length::mm(y), Length::mm(z)]
    }

    /// The two directions in which the worked strings leave the saddle: 648 mm and 70 mm, crest at 10 mm.
    fn worked_leaves(tail_height_mm: f64) -> [Direction; 2] {
        let crest = at(648.0, 0.0, 10.0);
        let toward = |to| Direction::toward(crest, to).expect("apart");
        [toward(at(0.0, 0.0, 0.0)), toward(at(718.0, 0.0, tail_height_mm))]
    }

    #[track_caller]
    fn check(string: &StringModel, tail_height_mm: f64, expected_n: f64) {
        let found = bearing_force(string.tension(), worked_leaves(tail_height_mm)).down().as_newtons();
        assert!((found - expected_n).abs() < 6e-4, "found {found}, expected {expected_n}");
    }

    // Down-force on the saddle; computed at 50 digits (derived).
    #[test]
    fn e4_tail_8() {
        check(&plain(0.010, E4), 8.0, 3.193);
    }
    #[test]
    fn e4_tail_5() {
        check(&plain(0.010, E4), 5.0, 6.292);
    }
    #[test]
    fn e4_tail_0() {
        check(&plain(0.010, E4), 0.0, 11.386);
    }
    #[test]
    fn e4_tail_10_below() {
        check(&plain(0.010, E4), -10.0, 21.062);
    }
    #[test]
    fn e4_tail_20_below() {
        check(&plain(0.010, E4), -20.0, 29.715);
    }
    #[test]
    fn e4_tail_30_below() {
        check(&plain(0.010, E4), -30.0, 37.135);
    }
    #[test]
    fn d3_tail_8() {
        check(&wound_d3(), 8.0, 5.550);
    }
    #[test]
    fn d3_tail_0() {
        check(&wound_d3(), 0.0, 19.790);
    }
    #[test]
    fn d3_tail_20_below() {
        check(&wound_d3(), -20.0, 51.649);
    }
    #[test]
    fn d3_tail_30_below() {
        check(&wound_d3(), -30.0, 64.546);
    }

    #[test]
    fn turn_is_the_break_angle() {
        let found = turn(worked_leaves(-10.0));
        let expected = crate::drift::break_angles(&worked_path(-10.0), Length::ZERO).expect("sound").turn();
        assert!((found - expected).abs().as_radians() < 1e-14, "found {found:?}, expected {expected:?}");
    }

    #[test]
    fn size_is_twice_the_tension_times_the_sine_of_half_the_turn() {
        let leaves = [
            Direction::toward(at(0.0, 0.0, 0.0), at(-600.0, 3.0, -4.0)).expect("apart"),
            Direction::toward(at(0.0, 0.0, 0.0), at(40.0, -5.0, -9.0)).expect("apart"),
        ];
        let found = bearing_force(Force::newtons(80.0), leaves).size().as_newtons();
        let expected = 160.0 * (turn(leaves) * 0.5).sin();
        assert!((found - expected).abs() < 1e-11, "found {found}, expected {expected}");
    }

    #[test]
    fn one_point_has_no_direction() {
        let found = Direction::toward(at(1.0, 2.0, 3.0), at(1.0, 2.0, 3.0));
        assert_eq!(found, Err(MechanicsError::NoDirection), "the points are one");
    }
}

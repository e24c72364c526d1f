//! Does a floating saddle stand, or does the strings' push tip it or slide it?

use units::{Force, Length};

use crate::down_force::ForceVector;

/// A saddle that stands on the lid by nothing but the strings' push.
///
/// Frame: x toward the tail, measured from under the crest; the foot lies flat on the lid.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FloatingSaddle {
    /// Height of the crest above the foot.
    pub height: Length,
    /// Front edge of the foot, toward the zero fret: usually negative.
    pub foot_front: Length,
    /// Back edge of the foot, toward the tail: usually positive.
    pub foot_back: Length,
}

/// A way to fall.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tipping {
    /// Over the front edge, toward the zero fret.
    Forward,
    /// Over the back edge, toward the tail.
    Backward,
    /// The strings lift it off the lid.
    Lifted,
}

/// How a saddle stands under the strings' push.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Standing {
    /// Where the push's line meets the foot, from under the crest; `None` when the strings lift.
    pub push_at_foot: Option<Length>,
    /// Room between that place and the nearer edge of the foot; negative when it falls. Zero when the strings lift.
    pub margin: Length,
    /// Which way it falls, if it does.
    pub tips: Option<Tipping>,
    /// Push along the lid, positive toward the tail.
    pub along: Force,
    /// Least coefficient of friction that keeps it in place; infinite when the strings lift.
    pub friction_needed: f64,
}

impl Standing {
    /// Whether it slides on a lid of this coefficient of friction.
    #[must_use]
    pub fn slides(&self, friction: f64) -> bool {
        self.friction_needed > friction
    }
}

/// How a floating saddle stands under the sum of its strings' pushes at the crest.
///
/// - **Shape**: one saddle and one force in; where the push lands and what it asks of friction out.
/// - **Units**: millimetres, newtons.
/// - **Frame**: as for [`FloatingSaddle`]; the push's y is along the crest and tips nothing.
/// - **Accuracy**: exact for a rigid saddle and foot; its own weight is left out (below 0.2 N against tens).
/// - **Source**: statics: a block stands while the resultant passes through its foot, and keeps its place while the
///   resultant lies inside the cone of friction.
#[must_use]
pub fn standing(saddle: &FloatingSaddle, push: &ForceVector) -> Standing {
    let (along, down) = (push.x, push.down());
    if down <= Force::ZERO {
        let (margin, tips) = (Length::ZERO, Some(Tipping::Lifted));
        return Standing { push_at_foot: None, margin, tips, along, friction_needed: f64::INFINITY };
    }
    let lands = saddle.height * (along / down);
    let (to_front, to_back) = (lands - saddle.foot_front, saddle.foot_back - lands);
    let tips = if to_front < Length::ZERO {
        Some(Tipping::Forward)
    } else if to_back < Length::ZERO {
        Some(Tipping::Backward)
    } else {
        None
    };
    let sideways = units::math::hypot(along.as_newtons(), push.y.as_newtons());
    Standing {
        push_at_foot: Some(lands),
        margin: to_front.min(to_back),
        tips,
        along,
        friction_needed: sideways / down.as_newtons(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const SADDLE: FloatingSaddle =
        FloatingSaddle { height: Length::mm(10.0), foot_front: Length::mm(-4.0), foot_back: Length::mm(4.0) };

    fn push(x: f64, z: f64) -> ForceVector {
        ForceVector { x: Force::newtons(x), y: Force::ZERO, z: Force::newtons(z) }
    }

    #[track_caller]
    fn check(x_n: f64, z_n: f64, tips: Option<Tipping>, margin_mm: f64, friction: f64) {
        let found = standing(&SADDLE, &push(x_n, z_n));
        assert_eq!(found.tips, tips, "a push of {x_n}, {z_n} N");
        assert!(
            (found.margin.as_mm() - margin_mm).abs() < 1e-12,
            "found {:?}, expected {margin_mm}",
            found.margin
        );
        assert!((found.friction_needed - friction).abs() < 1e-12, "found {}", found.friction_needed);
    }

    // Closed form: the push lands at height times x over z.
    #[test]
    fn straight_down() {
        check(0.0, -40.0, None, 4.0, 0.0);
    }
    #[test]
    fn leaning_forward() {
        check(-10.0, -40.0, None, 1.5, 0.25);
    }
    #[test]
    fn tipping_forward() {
        check(-20.0, -40.0, Some(Tipping::Forward), -1.0, 0.5);
    }
    #[test]
    fn tipping_backward() {
        check(18.0, -40.0, Some(Tipping::Backward), -0.5, 0.45);
    }

    #[test]
    fn lifted() {
        let found = standing(&SADDLE, &push(1.0, 2.0));
        assert_eq!(
            (found.tips, found.push_at_foot),
            (Some(Tipping::Lifted), None),
            "nothing presses it down"
        );
        assert!(found.slides(10.0), "no friction holds what does not touch");
    }

    #[test]
    fn sliding_depends_on_the_lid() {
        let found = standing(&SADDLE, &push(-10.0, -40.0));
        assert!(found.slides(0.2) && !found.slides(0.3), "needs {}", found.friction_needed);
    }
}

//! How thick is the core of a wound string that nobody has measured?

use units::Length;

use crate::{MechanicsError, error::positive};

/// A value that is known only as a range.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Estimate<T> {
    /// What follows from the low end of the uncertain input.
    pub low: T,
    /// What follows from the most likely input.
    pub nominal: T,
    /// What follows from the high end of the uncertain input.
    pub high: T,
}

impl<T> Estimate<T> {
    /// Carries the range through a computation; `low` stays what the low input gave, even where the result falls.
    #[must_use]
    pub fn map<U>(self, mut compute: impl FnMut(T) -> U) -> Estimate<U> {
        Estimate { low: compute(self.low), nominal: compute(self.nominal), high: compute(self.high) }
    }

    /// Carries the range through a computation that may refuse.
    ///
    /// - **Errors**: the first refusal, in the order low, nominal, high.
    pub fn try_map<U, E>(self, mut compute: impl FnMut(T) -> Result<U, E>) -> Result<Estimate<U>, E> {
        Ok(Estimate { low: compute(self.low)?, nominal: compute(self.nominal)?, high: compute(self.high)? })
    }
}

impl<T: Copy> Estimate<T> {
    /// A value that was measured: a range of no width.
    #[must_use]
    pub const fn exact(value: T) -> Self {
        Self { low: value, nominal: value, high: value }
    }
}

/// Diameter of the round or hexagonal core of a single-wound steel string, from the diameter over the wrap.
///
/// A straight line through usual gauges, 0.206 mm plus 0.227 of the outer diameter, give or take a fifth; never
/// more than three quarters of the outer diameter.
///
/// - **Units**: millimetres, inside [`Length`].
/// - **Accuracy**: common practice, no source. The range covers the pairs 24/14, 26/14, 32/18, 36/18, 42/18 and 46/18
///   thousandths of an inch. Measure the bare core at the ball end where the answer matters: stiffness goes with its square.
/// - **Errors**: [`MechanicsError::NotPositive`].
pub fn estimate_core(diameter: Length) -> Result<Estimate<Length>, MechanicsError> {
    let diameter_mm = positive("diameter in mm", diameter.as_mm())?;
    let nominal_mm = 0.206 + 0.227 * diameter_mm;
    let bounded = |core_mm: f64| Length::mm(core_mm.min(0.75 * diameter_mm));
    Ok(Estimate {
        low: bounded(0.8 * nominal_mm),
        nominal: bounded(nominal_mm),
        high: bounded(1.2 * nominal_mm),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check_covers(diameter_in: f64, core_in: f64) {
        let estimate = estimate_core(Length::inches(diameter_in)).expect("a positive diameter");
        let core = Length::inches(core_in);
        assert!(
            estimate.low <= core && core <= estimate.high,
            "{diameter_in}/{core_in} lies outside {estimate:?}"
        );
    }

    // Usual pairs of gauge and core: common practice, no source.
    #[test]
    fn gauge_24() {
        check_covers(0.024, 0.014);
    }
    #[test]
    fn gauge_26() {
        check_covers(0.026, 0.014);
    }
    #[test]
    fn gauge_32() {
        check_covers(0.032, 0.018);
    }
    #[test]
    fn gauge_36() {
        check_covers(0.036, 0.018);
    }
    #[test]
    fn gauge_42() {
        check_covers(0.042, 0.018);
    }
    #[test]
    fn gauge_46() {
        check_covers(0.046, 0.018);
    }

    #[test]
    fn the_core_of_a_hair_still_leaves_room_for_a_wrap() {
        let estimate = estimate_core(Length::mm(0.1)).expect("a positive diameter");
        assert!(estimate.high < Length::mm(0.1), "found {estimate:?}");
    }
}

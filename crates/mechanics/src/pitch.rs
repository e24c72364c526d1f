//! How far apart are two pitches?

use units::math;

/// Cents in an octave divided by the natural logarithm of two: what a small relative change of frequency is in cents.
pub const CENTS_PER_RELATIVE_CHANGE: f64 = 1200.0 / std::f64::consts::LN_2;

/// The interval of a frequency ratio in cents, positive when the first of the two is the higher.
///
/// - **Units**: a plain ratio in, cents out (100 to the equal-tempered semitone).
/// - **Accuracy**: within 1e-12 cents for ratios near one.
/// - **Source**: definition.
#[must_use]
pub fn cents(ratio: f64) -> f64 {
    1200.0 * math::log2(ratio)
}

/// The frequency ratio of a number of equal-tempered semitones, which need not be whole.
///
/// - **Units**: semitones in, a plain ratio out.
/// - **Source**: definition.
#[must_use]
pub fn semitone_ratio(semitones: f64) -> f64 {
    math::exp2(semitones / 12.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_octave_is_1200_cents() {
        assert!((cents(2.0) - 1200.0).abs() < 1e-12, "found {}", cents(2.0));
    }

    #[test]
    fn seven_semitones_are_nearly_a_fifth() {
        // Closed form: 2^(7/12) = 1.498307076876681...
        assert!(
            (semitone_ratio(7.0) - 1.498_307_076_876_681_5).abs() < 1e-15,
            "found {}",
            semitone_ratio(7.0)
        );
    }
}

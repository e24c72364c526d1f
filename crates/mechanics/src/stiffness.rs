//! How much sharper than an ideal string does a stiff one sound?

use std::f64::consts::PI;

use crate::{pitch, string_model::StringModel};

/// Fletcher's coefficient of inharmonicity of a stiff string between pinned ends.
///
/// - **Units**: none.
/// - **Accuracy**: closed form; round solid string, or the core alone of a wound one.
/// - **Source**: H. Fletcher, J. Acoust. Soc. Am. 36, 203 (1964), from memory: B = pi^2 EI/(T L^2).
#[must_use]
pub fn pinned_inharmonicity(string: &StringModel) -> f64 {
    let end_share = string.stiffness_length() / string.sounding_length();
    PI * PI * end_share * end_share
}

/// How much sharper a partial is than that of an ideal string, both ends pinned.
///
/// - **Units**: cents; `partial` is 1 for the fundamental.
/// - **Source**: Fletcher (1964), from memory: f_n = n f sqrt(1 + B n^2).
#[must_use]
pub fn pinned_sharpness_cents(string: &StringModel, partial: u32) -> f64 {
    let n = f64::from(partial);
    0.5 * pitch::cents(1.0 + pinned_inharmonicity(string) * n * n)
}

/// How much sharper a partial is than that of an ideal string: clamped at the fret, pinned at the saddle.
///
/// - **Units**: cents; `partial` is 1 for the fundamental.
/// - **Accuracy**: second order in the share of the string that an end takes, which is below 0.01 here.
/// - **Source**: M. Anderson and R. Beausoleil, J. Acoust. Soc. Am. 156, 683 (2024), equation 3 (read in the authors'
///   manuscript).
#[must_use]
pub fn clamped_pinned_sharpness_cents(string: &StringModel, partial: u32) -> f64 {
    pitch::cents(clamped_pinned_factor(
        string.stiffness_length() / string.sounding_length(),
        f64::from(partial),
    ))
}

/// Frequency over that of the ideal string's same partial; `end_share` is sqrt(EI/T)/L.
///
/// **Source**: as for [`clamped_pinned_sharpness_cents`].
pub(crate) fn clamped_pinned_factor(end_share: f64, partial: f64) -> f64 {
    1.0 + end_share + (1.0 + 0.5 * PI * PI * partial * partial) * end_share * end_share
}

/// How much sharper a partial is than that of an ideal string, both ends clamped.
///
/// - **Units**: cents; `partial` is 1 for the fundamental.
/// - **Accuracy**: second order, as for [`clamped_pinned_sharpness_cents`].
/// - **Source**: P. Morse, Vibration and Sound (1936), as equation 2 of Anderson and Beausoleil (2024).
#[must_use]
pub fn clamped_sharpness_cents(string: &StringModel, partial: u32) -> f64 {
    let end_share = string.stiffness_length() / string.sounding_length();
    let n = f64::from(partial);
    pitch::cents(1.0 + 2.0 * end_share + (4.0 + 0.5 * PI * PI * n * n) * end_share * end_share)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::string_model::tests::{E4, G3, plain, wound_d3};

    #[track_caller]
    fn check(string: &StringModel, inharmonicity: f64, pinned_cents: f64, clamped_pinned_cents: f64) {
        let found = pinned_inharmonicity(string);
        assert!((found / inharmonicity - 1.0).abs() < 1e-5, "B: found {found}, expected {inharmonicity}");
        let found = pinned_sharpness_cents(string, 1);
        assert!((found - pinned_cents).abs() < 6e-5, "pinned: found {found}, expected {pinned_cents}");
        let found = clamped_pinned_sharpness_cents(string, 1);
        assert!(
            (found - clamped_pinned_cents).abs() < 6e-5,
            "clamped: found {found}, expected {clamped_pinned_cents}"
        );
    }

    // Computed at 50 digits from the same closed forms (derived).
    #[test]
    fn plain_10_at_e4() {
        check(&plain(0.010, E4), 1.342_97e-5, 0.0116, 2.0323);
    }
    #[test]
    fn plain_17_at_g3() {
        check(&plain(0.017, G3), 1.097_76e-4, 0.0950, 5.8781);
    }
    #[test]
    fn wound_32_at_d3() {
        check(&wound_d3(), 8.111_04e-5, 0.0702, 5.0401);
    }

    #[test]
    fn one_clamped_end_lies_between_none_and_two() {
        let string = plain(0.017, G3);
        for partial in 1..=6 {
            let pinned = pinned_sharpness_cents(&string, partial);
            let mixed = clamped_pinned_sharpness_cents(&string, partial);
            let clamped = clamped_sharpness_cents(&string, partial);
            assert!(pinned < mixed && mixed < clamped, "partial {partial}: {pinned}, {mixed}, {clamped}");
        }
    }
}

//! How is a number written so that it reads back the same everywhere?

/// A finite number rounded to at most `places` decimal places, without an exponent, trailing zeros or a minus zero.
pub(crate) fn decimal(value: f64, places: usize) -> String {
    assert!(value.is_finite(), "only finite numbers are written; they are checked before");
    let mut text = format!("{value:.places$}");
    if text.contains('.') {
        text.truncate(text.trim_end_matches('0').trim_end_matches('.').len());
    }
    if text == "-0" { String::from("0") } else { text }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(value: f64, places: usize, expected: &str) {
        assert_eq!(decimal(value, places), expected, "{value:?} to {places} places");
    }

    #[test]
    fn zeros_at_the_end_go() {
        check(12.5, 8, "12.5");
        check(100.0, 8, "100");
        check(100.0, 0, "100");
    }

    #[test]
    fn zero_has_no_sign() {
        check(-0.0, 8, "0");
        check(-1e-12, 8, "0");
    }

    #[test]
    fn small_and_large_have_no_exponent() {
        check(1e-7, 8, "0.0000001");
        check(-123_456_789.25, 8, "-123456789.25");
    }
}

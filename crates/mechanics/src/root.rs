//! Where does a function that falls (or rises) all the way cross zero?

/// The place in `low..high` where a monotone function changes sign, by bisection to the last bit.
///
/// `None` when it has the same sign at both ends. Infinite values are fine, so long as their sign is right.
pub(crate) fn crossing(low: f64, high: f64, value: impl Fn(f64) -> f64) -> Option<f64> {
    let (mut low, mut high) = (low, high);
    let sign_at_low = value(low).signum();
    if sign_at_low == value(high).signum() {
        return None;
    }
    // Each round halves the span; after 200 it is the spacing of the numbers themselves.
    for _ in 0..200 {
        let middle = 0.5 * (low + high);
        if middle <= low || middle >= high {
            break;
        }
        if value(middle).signum() == sign_at_low {
            low = middle;
        } else {
            high = middle;
        }
    }
    Some(0.5 * (low + high))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn finds_the_root_of_two() {
        let root = crossing(0.0, 2.0, |x| x * x - 2.0).expect("the sign changes");
        assert!((root - 2.0_f64.sqrt()).abs() < 1e-15, "found {root}");
    }

    #[test]
    fn says_when_there_is_none() {
        assert_eq!(crossing(0.0, 1.0, |x| x + 1.0), None, "x + 1 has no root there");
    }

    #[test]
    fn bears_infinite_values() {
        let jump = crossing(-1.0, 1.0, |x| if x < 0.25 { f64::NEG_INFINITY } else { 1.0 });
        assert!((jump.expect("the sign changes") - 0.25).abs() < 1e-15, "found {jump:?}");
    }
}

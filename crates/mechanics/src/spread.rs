//! How do the numbers of a sample spread, and what spreads them?

/// Mean of a sample; zero for an empty one.
///
/// Counted from the first number on, so that a sample of equal numbers has exactly their mean.
#[must_use]
pub fn mean(sample: &[f64]) -> f64 {
    let Some(first) = sample.first() else { return 0.0 };
    first + sample.iter().map(|number| number - first).sum::<f64>() / sample.len() as f64
}

/// Standard deviation of what a sample was drawn from; zero for fewer than two numbers.
///
/// - **Source**: definition, with one number less in the divisor.
#[must_use]
pub fn standard_deviation(sample: &[f64]) -> f64 {
    let mean = mean(sample);
    let squares: f64 = sample.iter().map(|number| (number - mean) * (number - mean)).sum();
    (squares / sample.len().saturating_sub(1).max(1) as f64).sqrt()
}

/// The number below which a share of a sample lies, straight lines between its members; zero for an empty one.
///
/// - **Shape**: a sample in any order and a share from 0 to 1 in; one number out.
/// - **Source**: the order statistics, the first at share 0 and the last at share 1.
#[must_use]
pub fn quantile(sample: &[f64], share: f64) -> f64 {
    let mut rising = sample.to_vec();
    rising.sort_by(f64::total_cmp);
    let Some(last) = rising.len().checked_sub(1) else { return 0.0 };
    let place = share.clamp(0.0, 1.0) * last as f64;
    // Between 0 and the last index.
    let below = place.floor() as usize;
    let above = (below + 1).min(last);
    rising[below] + (rising[above] - rising[below]) * (place - below as f64)
}

/// The share of a sample's variance that would go if one input were held perfectly.
///
/// Joint effects with other inputs count in full, so that the shares of all inputs add up to one only where inputs do not act on
/// one another, as in a sum.
///
/// - **Shape**: the sample, and the same sample with that input alone drawn anew, member by member; one share out.
/// - **Accuracy**: sampling, about the root of 2/n of the share; zero for a sample that does not spread.
/// - **Source**: M. Jansen, Computer Physics Communications 117, 35 (1999), from memory.
#[must_use]
pub fn share_of_variance(sample: &[f64], drawn_anew: &[f64]) -> f64 {
    let deviation = standard_deviation(sample);
    let squares: f64 = sample.iter().zip(drawn_anew).map(|(a, b)| (a - b) * (a - b)).sum();
    if squares == 0.0 || deviation == 0.0 {
        return 0.0;
    }
    squares / (2.0 * sample.len() as f64 * deviation * deviation)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::random::Random;

    #[track_caller]
    fn check_quantile(share: f64, expected: f64) {
        let found = quantile(&[4.0, 1.0, 3.0, 2.0, 5.0], share);
        assert!((found - expected).abs() < 1e-12, "share {share}: found {found}, expected {expected}");
    }

    #[test]
    fn the_median_is_the_middle() {
        check_quantile(0.5, 3.0);
    }
    #[test]
    fn the_ends_are_the_extremes() {
        check_quantile(0.0, 1.0);
        check_quantile(1.0, 5.0);
    }
    #[test]
    fn between_two_members_the_way_is_straight() {
        check_quantile(0.3, 2.2);
    }

    #[test]
    fn a_small_sample_by_hand() {
        // Mean 5, squares of the distances 9 + 1 + 1 + 9 = 20, over 3.
        let sample = [2.0, 4.0, 6.0, 8.0];
        assert!((mean(&sample) - 5.0).abs() < 1e-15, "found {}", mean(&sample));
        let found = standard_deviation(&sample);
        assert!((found - (20.0_f64 / 3.0).sqrt()).abs() < 1e-15, "found {found}");
    }

    #[test]
    fn nothing_spreads_by_nothing() {
        for found in [
            mean(&[]),
            standard_deviation(&[3.0]),
            quantile(&[], 0.5),
            share_of_variance(&[1.0, 1.0], &[1.0, 1.0]),
        ] {
            assert_eq!(found, 0.0, "an empty question has the answer zero");
        }
    }

    #[test]
    fn shares_of_a_sum_are_those_of_its_variances() {
        // y = 3 a + b: shares 9/10 and 1/10.
        let mut random = Random::new(11);
        let count = 20_000;
        let (mut y, mut with_a, mut with_b) = (Vec::new(), Vec::new(), Vec::new());
        for _ in 0..count {
            let [a, b, other_a, other_b] = std::array::from_fn(|_| random.normal());
            y.push(3.0 * a + b);
            with_a.push(3.0 * other_a + b);
            with_b.push(3.0 * a + other_b);
        }
        for (drawn_anew, expected) in [(with_a, 0.9), (with_b, 0.1)] {
            let found = share_of_variance(&y, &drawn_anew);
            // Four standard errors of the share, and of the variance that it is taken of.
            let error = 4.0 * expected * (4.0 / f64::from(count)).sqrt();
            assert!((found - expected).abs() < error, "found {found}, expected {expected} within {error}");
        }
    }
}

//! Which numbers stand for chance, the same on every machine and every day?

use units::math;

use crate::root::crossing;

/// A stream of pseudo-random numbers fixed by its seed.
///
/// **Source**: SplitMix64: G. Steele, D. Lea and C. Flood, Fast Splittable Pseudorandom Number Generators, OOPSLA 2014, constants
/// from memory and tested against its published first outputs (from memory). Normal numbers by G. Marsaglia's polar method (1964).
#[derive(Clone, Debug)]
pub struct Random {
    state: u64,
    spare_normal: Option<f64>,
}

impl Random {
    /// The stream of a seed.
    #[must_use]
    pub const fn new(seed: u64) -> Self {
        Self { state: seed, spare_normal: None }
    }

    /// One stream of many under a seed: each index has numbers of its own, whatever the order in which they are asked for.
    ///
    /// The start is mixed twice, so that neighbouring indices do not begin one step apart on the same sequence.
    #[must_use]
    pub fn stream(seed: u64, index: u64) -> Self {
        Self::new(Self::new(Self::new(seed).bits() ^ index).bits())
    }

    /// The next 64 bits.
    pub fn bits(&mut self) -> u64 {
        self.state = self.state.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.state;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    /// The next number of an even spread from 0 up to, not including, 1.
    pub fn unit(&mut self) -> f64 {
        // 53 bits are what an f64 holds.
        (self.bits() >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// The next number of a normal spread with mean 0 and standard deviation 1.
    pub fn normal(&mut self) -> f64 {
        if let Some(spare) = self.spare_normal.take() {
            return spare;
        }
        loop {
            let (x, y) = (2.0 * self.unit() - 1.0, 2.0 * self.unit() - 1.0);
            let square = x * x + y * y;
            if square > 0.0 && square < 1.0 {
                let stretch = (-2.0 * math::ln(square) / square).sqrt();
                self.spare_normal = Some(y * stretch);
                return x * stretch;
            }
        }
    }
}

/// Probability that a normal number with mean 0 and standard deviation 1 lies below a limit.
///
/// - **Accuracy**: within 1e-15.
/// - **Source**: definition, through the error function.
#[must_use]
pub fn normal_below(limit: f64) -> f64 {
    0.5 * (1.0 + math::erf(limit * std::f64::consts::FRAC_1_SQRT_2))
}

/// The limit below which a normal number with mean 0 and standard deviation 1 lies with a probability above 0 and below 1.
///
/// - **Accuracy**: within 1e-12 for probabilities from 1e-9 to 1 - 1e-9.
/// - **Errors**: not a number for any other probability.
/// - **Source**: [`normal_below`], turned round by bisection.
#[must_use]
pub fn normal_limit(probability: f64) -> f64 {
    crossing(-10.0, 10.0, |limit| normal_below(limit) - probability).unwrap_or(f64::NAN)
}

/// The limit below which the sum of squares of some independent normal numbers lies with a probability above 0 and below 1.
///
/// - **Accuracy**: within 1 % from two numbers on, for probabilities from 0.9 to 0.999; within 4 % for one.
/// - **Source**: E. Wilson and M. Hilferty (1931), from memory.
#[must_use]
pub fn squares_limit(numbers: usize, probability: f64) -> f64 {
    let part = 2.0 / (9.0 * numbers as f64);
    let root = 1.0 - part + normal_limit(probability) * part.sqrt();
    numbers as f64 * root * root * root
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn first_outputs_of_seed_zero() {
        // SplitMix64 from seed 0: from memory.
        let mut random = Random::new(0);
        let found = [random.bits(), random.bits(), random.bits()];
        assert_eq!(
            found,
            [0xe220_a839_7b1d_cdaf, 0x6e78_9e6a_a1b9_65f4, 0x06c4_5d18_8009_454f],
            "found {found:x?}"
        );
    }

    #[test]
    fn streams_share_no_numbers() {
        let mut seen = std::collections::BTreeSet::new();
        for (seed, index) in [(1, 0), (1, 1), (1, 2), (2, 0), (2, 1), (0, u64::MAX)] {
            let mut random = Random::stream(seed, index);
            for _ in 0..1000 {
                assert!(seen.insert(random.bits()), "stream {index} of seed {seed} repeats a number");
            }
        }
    }

    #[test]
    fn normal_numbers_have_normal_moments() {
        let mut random = Random::new(7);
        let count = 200_000;
        let (mut sum, mut squares, mut below) = (0.0, 0.0, 0);
        for _ in 0..count {
            let number = random.normal();
            sum += number;
            squares += number * number;
            below += u32::from(number < 1.0);
        }
        let count = f64::from(count);
        // Four standard errors each.
        assert!((sum / count).abs() < 4.0 / count.sqrt(), "mean {}", sum / count);
        assert!((squares / count - 1.0).abs() < 4.0 * (2.0 / count).sqrt(), "variance {}", squares / count);
        let (share, expected) = (f64::from(below) / count, normal_below(1.0));
        assert!(
            (share - expected).abs() < 4.0 * (expected * (1.0 - expected) / count).sqrt(),
            "below 1: {share}"
        );
    }

    #[test]
    fn normal_below_known_limits() {
        // Tables of the normal distribution: 0.975 at 1.959964, from memory.
        assert!((normal_below(1.959_964) - 0.975).abs() < 1e-7, "found {}", normal_below(1.959_964));
        assert!((normal_below(0.0) - 0.5).abs() < 1e-16, "found {}", normal_below(0.0));
    }

    #[track_caller]
    fn check_limit(found: f64, expected: f64, tolerance: f64) {
        assert!((found - expected).abs() < tolerance, "found {found}, expected {expected}");
    }

    // Tables of the normal and the chi-square distribution in any handbook; from memory.
    #[test]
    fn limits_of_one_normal_number() {
        check_limit(normal_limit(0.975), 1.959_964, 1e-6);
        check_limit(normal_limit(0.5), 0.0, 1e-12);
        check_limit(normal_limit(0.001), -3.090_232, 1e-6);
    }
    #[test]
    fn limits_of_sums_of_squares() {
        check_limit(squares_limit(1, 0.95), 3.841, 0.12);
        check_limit(squares_limit(10, 0.99), 23.209, 0.1);
        check_limit(squares_limit(30, 0.95), 43.773, 0.1);
    }
}

//! How is a written number kept exact until it becomes millimetres?
//!
//! Half of 25.4 mm is 12.7 mm and not a hair beside it: decimals, fractions and unit factors are multiplied as whole
//! numbers of 128 bits, and rounding happens once, to the nearest `f64`, at the end.

/// A fraction in lowest terms over a positive denominator.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Rational {
    numerator: i128,
    denominator: i128,
}

impl Rational {
    pub(crate) const ZERO: Self = Self { numerator: 0, denominator: 1 };

    /// `numerator / denominator`; `None` for a denominator that is not positive or a numerator that has no opposite.
    pub(crate) fn new(numerator: i128, denominator: i128) -> Option<Self> {
        if denominator <= 0 || numerator == i128::MIN {
            return None;
        }
        let shared = greatest_common_divisor(numerator.abs(), denominator);
        Some(Self { numerator: numerator / shared, denominator: denominator / shared })
    }

    /// The decimal `whole.fraction` times ten to the power `exponent`, from strings of digits; `None` past 128 bits.
    pub(crate) fn decimal(whole: &str, fraction: &str, exponent: i32) -> Option<Self> {
        let fraction = fraction.trim_end_matches('0');
        let mut digits = 0_i128;
        for digit in whole.bytes().chain(fraction.bytes()) {
            digits = digits.checked_mul(10)?.checked_add(i128::from(digit - b'0'))?;
        }
        if digits == 0 {
            return Some(Self::ZERO);
        }
        let places = exponent.checked_sub(i32::try_from(fraction.len()).ok()?)?;
        let power = 10_i128.checked_pow(places.unsigned_abs())?;
        if places < 0 { Self::new(digits, power) } else { Self::new(digits.checked_mul(power)?, 1) }
    }

    pub(crate) fn times(self, other: Self) -> Option<Self> {
        // Cancelling crosswise first keeps the products as small as they can be.
        let left = Self::new(self.numerator, other.denominator)?;
        let right = Self::new(other.numerator, self.denominator)?;
        let numerator = left.numerator.checked_mul(right.numerator)?;
        Self::new(numerator, left.denominator.checked_mul(right.denominator)?)
    }

    pub(crate) fn plus(self, other: Self) -> Option<Self> {
        let left = self.numerator.checked_mul(other.denominator)?;
        let right = other.numerator.checked_mul(self.denominator)?;
        Self::new(left.checked_add(right)?, self.denominator.checked_mul(other.denominator)?)
    }

    pub(crate) const fn negated(self) -> Self {
        Self { numerator: -self.numerator, denominator: self.denominator }
    }

    pub(crate) const fn is_below_one(self) -> bool {
        self.numerator < self.denominator
    }

    /// The nearest `f64`, ties to the even one; never a negative zero.
    pub(crate) fn to_nearest(self) -> f64 {
        if self.numerator == 0 {
            return 0.0;
        }
        let divisor = self.denominator.unsigned_abs();
        let mut quotient = self.numerator.unsigned_abs() / divisor;
        let mut remainder = self.numerator.unsigned_abs() % divisor;
        let mut scale = 1.0;
        // 55 bits hold the 53 of an `f64`, one to round by, and one that says whether anything follows.
        while quotient < 1 << 54 {
            remainder *= 2;
            quotient = quotient * 2 + u128::from(remainder >= divisor);
            remainder %= divisor;
            scale *= 0.5;
        }
        let size = (quotient | u128::from(remainder != 0)) as f64 * scale;
        if self.numerator < 0 { -size } else { size }
    }
}

const fn greatest_common_divisor(mut left: i128, mut right: i128) -> i128 {
    while right != 0 {
        (left, right) = (right, left % right);
    }
    left
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::Rational;

    #[track_caller]
    fn check(numerator: i128, denominator: i128, expected: f64) {
        let rational = Rational::new(numerator, denominator).expect("a sound fraction");
        assert_eq!(rational.to_nearest().to_bits(), expected.to_bits(), "{numerator}/{denominator}");
    }

    #[test]
    fn a_third_is_the_nearest_third() {
        check(1, 3, 1.0 / 3.0);
    }

    #[test]
    fn nothing_has_no_sign() {
        check(0, 7, 0.0);
        assert!(Rational::ZERO.negated().to_nearest().is_sign_positive(), "-0 is never made");
    }

    #[test]
    fn a_tie_goes_to_the_even_neighbour() {
        check((1 << 53) + 1, 1, 9_007_199_254_740_992.0);
        check((1 << 53) + 3, 1, 9_007_199_254_740_996.0);
        check(-((1 << 54) + 2), 2, -9_007_199_254_740_992.0);
    }

    #[test]
    fn a_hair_above_a_tie_goes_up() {
        check(((1 << 53) + 1) * (1 << 60) + 1, 1 << 60, 9_007_199_254_740_994.0);
    }

    #[test]
    fn the_largest_and_the_smallest_hold() {
        check(i128::MAX, 1, i128::MAX as f64);
        check(1, i128::MAX, 1.0 / i128::MAX as f64);
        check(i128::MAX, i128::MAX, 1.0);
    }

    #[test]
    fn past_128_bits_is_refused() {
        assert_eq!(Rational::decimal("1", "", 39), None, "1e39 is above 2^127");
        assert_eq!(Rational::decimal("1", "", -39), None, "1e-39 is below 2^-127");
        assert_eq!(Rational::decimal("1", "", i32::MIN), None, "no exponent overflows");
        assert_eq!(
            Rational::decimal("0", "", i32::MAX),
            Some(Rational::ZERO),
            "nothing is nothing at any power"
        );
    }

    proptest! {
        /// The standard library's decimal parser rounds correctly, by another method.
        #[test]
        fn decimals_round_as_the_standard_library_rounds(text in "[0-9]{0,12}[.][0-9]{1,18}", power in -6_i32..6) {
            let (whole, fraction) = text.split_once('.').expect("the pattern has a point");
            let expected: f64 = format!("{text}e{power}").parse().expect("a decimal");
            let ours = Rational::decimal(whole, fraction, power).expect("36 digits fit").to_nearest();
            prop_assert_eq!(ours.to_bits(), expected.to_bits(), "{}e{}: {} against {}", text, power, ours, expected);
        }
    }
}

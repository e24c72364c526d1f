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

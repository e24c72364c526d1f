//! How thick is a wire that is sold by its gauge number?

use std::fmt;

use crate::error::{QuantityError, shown};
use crate::{Length, math};

/// An American wire gauge (AWG) from 0 to 40; a larger number is a thinner wire.
///
/// The sizes above 0, written "2/0" or "00", are thicker than any fret and are refused.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct WireGauge(u8);

/// The thinnest gauge that is read.
const THINNEST: u8 = 40;

impl WireGauge {
    /// The gauge of this number, from 0 to 40.
    pub fn new(number: u8) -> Result<Self, QuantityError> {
        if number > THINNEST {
            return Err(QuantityError::NotAGauge { found: number.to_string() });
        }
        Ok(Self(number))
    }

    /// Reads "16 AWG", "AWG 16" and the same in small letters, with or without the space.
    ///
    /// - **Errors**: [`QuantityError::NotAGauge`] for anything else, the number alone ("16") among it, since that may be a
    ///   diameter.
    ///
    /// ```
    /// use units::WireGauge;
    /// assert_eq!(WireGauge::parse("AWG 16"), WireGauge::parse("16 awg"), "both orders are in use");
    /// ```
    pub fn parse(text: &str) -> Result<Self, QuantityError> {
        let refused = || QuantityError::NotAGauge { found: shown(text) };
        let folded = text.trim().to_ascii_lowercase();
        let digits =
            folded.strip_prefix("awg").or_else(|| folded.strip_suffix("awg")).ok_or_else(refused)?.trim();
        let is_plain = digits.bytes().all(|byte| byte.is_ascii_digit());
        // "00" is the gauge two above 0, not 0.
        let is_above_zero = digits.len() > 1 && digits.starts_with('0');
        if !is_plain || is_above_zero {
            return Err(refused());
        }
        digits.parse().ok().filter(|number| *number <= THINNEST).map(Self).ok_or_else(refused)
    }

    /// The gauge number.
    #[must_use]
    pub const fn number(self) -> u8 {
        self.0
    }

    /// Nominal diameter of the bare wire, `d = 0.005 in * 92^((36 - n) / 39)`.
    ///
    /// - **Units**: inside [`Length`].
    /// - **Accuracy**: closed form, not rounded; wire is sold to within about 1 %, and enamel adds to it.
    /// - **Source**: ASTM B258-02, which prints it rounded to 0.0001 in.
    ///
    /// ```
    /// let fret_wire = units::WireGauge::parse("16 AWG")?;
    /// assert_eq!(fret_wire.diameter().to_string(), "1.29 mm", "16 AWG is 0.0508 in");
    /// # Ok::<(), units::QuantityError>(())
    /// ```
    #[must_use]
    pub fn diameter(self) -> Length {
        Length::inches(0.005 * math::pow(92.0, (36.0 - f64::from(self.0)) / 39.0))
    }
}

/// As it stands on the spool: "16 AWG".
impl fmt::Display for WireGauge {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(formatter, "{} AWG", self.0)
    }
}

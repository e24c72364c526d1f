//! What can be wrong with a question about mechanics?

use units::Length;

/// Why a question has no answer.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum MechanicsError {
    /// A quantity that must be above zero is not.
    #[error("expected {quantity} above zero, found {value}")]
    NotPositive {
        /// What it is, with its unit.
        quantity: &'static str,
        /// What was found.
        value: f64,
    },
    /// A wound string whose core is as thick as the string.
    #[error("expected a core thinner than the string of {} mm, found {} mm", diameter.as_mm(), core.as_mm())]
    CoreNotThinner {
        /// Diameter of the whole string.
        diameter: Length,
        /// Diameter of its core.
        core: Length,
    },
    /// A wire diameter for which no strength is tabulated.
    #[error(
        "wire strength is tabulated from {} mm to {} mm, found a diameter of {} mm",
        thinnest.as_mm(), thickest.as_mm(), diameter.as_mm()
    )]
    OutsideStrengthTable {
        /// The diameter that was asked for.
        diameter: Length,
        /// The thinnest wire of the table.
        thinnest: Length,
        /// The thickest wire of the table.
        thickest: Length,
    },
    /// A list that must hold something is empty.
    #[error("expected at least one of {what}, found none")]
    Empty {
        /// What the list holds.
        what: &'static str,
    },
    /// Places along the instrument that must ascend do not.
    #[error("expected {what} in ascending order between zero fret and saddle, found {} mm after {} mm", found.as_mm(), after.as_mm())]
    OutOfOrder {
        /// What the places are of.
        what: &'static str,
        /// The place that comes too early.
        found: Length,
        /// The place before it.
        after: Length,
    },
    /// A string that has lost its tension.
    #[error("moving the saddle by {} mm leaves the string slack", travel.as_mm())]
    Slack {
        /// How far the saddle was moved, positive toward the tail.
        travel: Length,
    },
    /// Limits that leave no room between them.
    #[error("expected a lower limit below the upper one, found {} mm and {} mm", lowest.as_mm(), highest.as_mm())]
    NoRoom {
        /// The lower limit.
        lowest: Length,
        /// The upper limit.
        highest: Length,
    },
    /// Two points that give no direction because they are one.
    #[error("two points give a direction only when they lie apart")]
    NoDirection,
    /// A share or ratio outside the range in which it has a meaning.
    #[error("expected {quantity} above {above} and below {below}, found {value}")]
    OutsideRange {
        /// What it is.
        quantity: &'static str,
        /// The open lower end.
        above: f64,
        /// The open upper end.
        below: f64,
        /// What was found.
        value: f64,
    },
    /// A compression that the beam cannot carry.
    #[error("a compression of {force_n} N reaches the buckling load of {buckling_n} N")]
    Buckles {
        /// The compression in newtons.
        force_n: f64,
        /// The load at which the straight beam buckles, in newtons.
        buckling_n: f64,
    },
    /// Conditions that no amounts meet together.
    #[error("no amounts meet all conditions together")]
    Impossible,
}

/// Passes a positive, finite number on and refuses any other.
pub(crate) fn positive(quantity: &'static str, value: f64) -> Result<f64, MechanicsError> {
    if value > 0.0 && value.is_finite() {
        Ok(value)
    } else {
        Err(MechanicsError::NotPositive { quantity, value })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_positive_finite_numbers_pass() {
        assert_eq!(positive("x", 1.0), Ok(1.0), "one is positive");
        for value in [0.0, -1.0, f64::INFINITY, f64::NAN] {
            assert!(positive("x", value).is_err(), "{value} must be refused");
        }
    }
}

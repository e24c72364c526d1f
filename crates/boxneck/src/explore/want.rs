//! What must a plan hold?

use std::fmt;

use super::fault::ExploreFault;
use super::measure::{Better, PlanMeasure};
use super::measures::{measure_named, measures};

/// A condition on one measure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Want {
    /// The measure.
    pub measure: &'static PlanMeasure,
    /// On which side of the limit the value must lie; the limit itself holds.
    pub side: Side,
    /// The limit, in the measure's unit.
    pub limit: f64,
}

/// On which side of a limit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// The limit or more.
    AtLeast,
    /// The limit or less.
    AtMost,
}

impl Want {
    /// Reads a condition as people write it: "frets>=15", "drift <= 5 cents", "safe-action<=1/8 in".
    ///
    /// # Errors
    ///
    /// [`ExploreFault::Condition`] for what is no condition, a name that is no measure, or a limit in another unit.
    pub fn parse(text: &str) -> Result<Self, ExploreFault> {
        let fault = |why: String| ExploreFault::Condition { text: text.to_owned(), why };
        let sides = [(">=", Side::AtLeast), ("<=", Side::AtMost)];
        let split = sides.iter().find_map(|(sign, side)| Some((text.split_once(sign)?, *side)));
        let Some(((name, limit), side)) = split else {
            return Err(fault("expected a measure, >= or <=, and a limit; \"frets>=15\" works".into()));
        };
        let measure = named(name.trim()).map_err(fault)?;
        let Some(value) = measure.unit.parse(limit) else {
            let works = measure.unit.written(10.0);
            return Err(fault(format!(
                "expected {} as the limit, found \"{}\"; {works} works",
                unit(measure),
                limit.trim()
            )));
        };
        Ok(Self { measure, side, limit: value })
    }

    /// By how much a value misses, in grains of the measure; 0 where it holds, and without end where there is no value.
    #[must_use]
    pub fn missed_by(&self, value: Option<f64>) -> f64 {
        // Rounding of our own must not refuse a limit that is met.
        const HAIR: f64 = 1e-9;
        let Some(value) = value else { return f64::INFINITY };
        let short = match self.side {
            Side::AtLeast => self.limit - value,
            Side::AtMost => value - self.limit,
        };
        if short <= HAIR { 0.0 } else { short / self.measure.grain }
    }

    /// Whether it pulls toward the worse values of its measure, as a steepest break of at least something does.
    #[must_use]
    pub fn is_against_better(&self) -> bool {
        matches!(
            (self.side, self.measure.better),
            (Side::AtLeast, Better::Lower) | (Side::AtMost, Better::Higher)
        )
    }
}

impl fmt::Display for Want {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        let sign = match self.side {
            Side::AtLeast => ">=",
            Side::AtMost => "<=",
        };
        write!(formatter, "{} {sign} {}", self.measure.name, self.measure.unit.written(self.limit))
    }
}

/// The measure of a name, or a sentence that lists those there are.
pub(super) fn named(name: &str) -> Result<&'static PlanMeasure, String> {
    measure_named(name).ok_or_else(|| {
        let known: Vec<&str> = measures().iter().map(|measure| measure.name).collect();
        format!("there is no measure \"{name}\"; there are {}", known.join(", "))
    })
}

fn unit(measure: &PlanMeasure) -> String {
    match measure.unit.word() {
        "" => "a number".to_owned(),
        word => format!("a number of {word}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(text: &str, expected: &str) {
        let want = Want::parse(text).unwrap_or_else(|fault| panic!("{text}: {fault}"));
        assert_eq!(want.to_string(), expected, "{text}");
    }

    #[test]
    fn conditions_are_read_as_people_write_them() {
        check("frets>=15", "frets >= 15");
        check("drift <= 5 cents", "drift <= 5 cents");
        check("safe-action<=1/8 in", "safe-action <= 3.17 mm");
        check("free-of-buzz >= 95 %", "free-of-buzz >= 95 %");
        check("break-angle>=4 deg", "break-angle >= 4 deg");
    }

    #[track_caller]
    fn refused(text: &str, words: &str) {
        let fault = Want::parse(text).expect_err("no condition").to_string();
        assert!(fault.contains(words), "{text}: {fault}");
    }

    #[test]
    fn what_is_no_condition_is_refused_with_one_that_works() {
        refused("frets=15", "\"frets>=15\" works");
        refused("fretts>=15", "there is no measure \"fretts\"; there are frets");
        refused("drift<=5 mm", "expected a number of cents as the limit, found \"5 mm\"; 10 cents works");
        refused("frets>=many", "expected a number as the limit");
        refused("drift<=inf", "expected a number of cents");
    }

    #[test]
    fn a_limit_that_is_met_is_not_missed() {
        let want = Want::parse("drift<=5").expect("a condition");
        assert_eq!(want.missed_by(Some(5.0)), 0.0, "the limit holds");
        assert!((want.missed_by(Some(7.5)) - 2.5).abs() < 1e-12, "counted in grains");
        assert_eq!(want.missed_by(None), f64::INFINITY, "nothing to hold against it");
    }
}

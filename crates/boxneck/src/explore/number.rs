//! How is a number of a key written into a document?

use spec::{KeyInfo, KeyKind};
use units::{Length, LengthForm, LengthUnit};

/// How a number is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum NumberForm {
    Millimetres,
    Inches,
    Degrees,
    Count,
}

/// The finest difference that is written: beyond is rounding of our own.
const FINEST: f64 = 1e6;

impl NumberForm {
    /// As somebody has written it; where nobody has, or without a unit, as the document's own unit says.
    pub(super) fn of(info: &KeyInfo, written: Option<&str>, units: LengthUnit) -> Self {
        match info.kind {
            KeyKind::Angle => Self::Degrees,
            KeyKind::Count => Self::Count,
            _ => match written {
                Some(text) if text.contains("in") || text.contains('"') => Self::Inches,
                Some(text) if text.contains('m') => Self::Millimetres,
                _ if units == LengthUnit::Inch => Self::Inches,
                _ => Self::Millimetres,
            },
        }
    }

    /// A number as a person would write it, with its unit: in sixty-fourths of an inch where it is a whole number of them.
    pub(super) fn written(self, value: f64) -> String {
        match self {
            Self::Millimetres => format!("{} mm", rounded(value)),
            Self::Degrees => format!("{} deg", rounded(value)),
            Self::Count => format!("{value:.0}"),
            Self::Inches => {
                let sixtyfourths = value / 25.4 * 64.0;
                if (sixtyfourths - sixtyfourths.round()).abs() < 1e-6 {
                    Length::mm(value).written(LengthForm::Sixtyfourths).to_string()
                } else {
                    format!("{} in", rounded(value / 25.4))
                }
            }
        }
    }
}

fn rounded(value: f64) -> f64 {
    (value * FINEST).round() / FINEST + 0.0
}

/// The smallest step of those that people use that is not below one, and a whole number of clicks.
pub(super) fn nice_step(form: NumberForm, least: f64, click: f64) -> f64 {
    let doubled = || (0..12).map(|times| click * f64::from(1_u32 << times));
    let decades = || (0..6).flat_map(|decade| [1.0, 2.0, 5.0].map(|digit| click * digit * DECADES[decade]));
    let steps: Vec<f64> = if form == NumberForm::Inches { doubled().collect() } else { decades().collect() };
    // A range wider than all of them gets the largest; it is some hundred values then.
    steps.iter().copied().find(|step| *step >= least - 1e-9).unwrap_or(click * DECADES[5])
}

const DECADES: [f64; 6] = [1.0, 10.0, 100.0, 1e3, 1e4, 1e5];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_written_as_people_write_them() {
        assert_eq!(NumberForm::Inches.written(25.4 * 25.125), "25 1/8 in", "a whole number of sixty-fourths");
        assert_eq!(NumberForm::Inches.written(25.4 * 25.1), "25.1 in", "a decimal of an inch");
        assert_eq!(NumberForm::Millimetres.written(0.1 + 0.2), "0.3 mm", "no rounding noise");
        assert_eq!(NumberForm::Degrees.written(-0.0), "0 deg", "no negative zero");
        assert_eq!(NumberForm::Count.written(15.0), "15", "a whole number");
    }

    #[test]
    fn steps_are_those_of_a_rule() {
        assert_eq!(nice_step(NumberForm::Millimetres, 0.7, 0.1), 1.0, "a millimetre");
        assert_eq!(
            nice_step(NumberForm::Inches, 25.4 / 10.0, 25.4 / 64.0),
            25.4 / 8.0,
            "an eighth of an inch"
        );
        assert_eq!(nice_step(NumberForm::Count, 0.2, 1.0), 1.0, "one");
    }
}

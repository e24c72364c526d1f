//! How long is the scale bar, and how is it drawn?

use std::fmt::Write;

use units::{Length, LengthUnit};

use crate::number::decimal;
use crate::paper::page;

/// Pieces of light and dark, so that half of it and less can be read off.
const PIECES: usize = 4;
/// How thick it is.
const THICKNESS: f64 = 6.0;

/// A bar of a round length, at most `longest` page units long, with its upper left corner at a place.
pub(super) fn scale_bar(unit: LengthUnit, scale: f64, left: f64, top: f64, longest: f64) -> String {
    let (number, sign, one) = match unit {
        LengthUnit::Millimetre => (round_number(longest / scale), "mm", Length::mm(1.0)),
        LengthUnit::Inch => (round_number(longest / scale / 25.4), "in", Length::inches(1.0)),
    };
    let length = number * one.as_mm() * scale;
    let mut text = String::from("<g>\n<title>scale bar</title>\n");
    for piece in 0..PIECES {
        let shade = if piece % 2 == 0 { "bar-dark" } else { "bar-light" };
        let width = length / PIECES as f64;
        // Writing to a string cannot fail.
        let _ = writeln!(
            text,
            "<rect class=\"{shade}\" x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"/>",
            page(left + width * piece as f64),
            page(top + 8.0),
            page(width),
            page(THICKNESS),
        );
    }
    for (at, words) in [(0.0, String::from("0")), (length, format!("{} {sign}", decimal(number, 3)))] {
        let _ = writeln!(
            text,
            "<text class=\"label\" x=\"{}\" y=\"{}\">{words}</text>",
            page(left + at),
            page(top + 8.0 + THICKNESS + 16.0),
        );
    }
    text + "</g>\n"
}

/// The largest of 1, 2, 5, 10, 20, 50 and so on, up and down, that is not above a positive number.
fn round_number(most: f64) -> f64 {
    let mut decade = 1.0;
    while decade > most {
        decade /= 10.0;
    }
    while decade * 10.0 <= most {
        decade *= 10.0;
    }
    [5.0, 2.0].map(|digit| digit * decade).into_iter().find(|number| *number <= most).unwrap_or(decade)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(most: f64, expected: f64) {
        let found = round_number(most);
        assert!(
            (found - expected).abs() < 1e-9,
            "the round number up to {most} is {expected}, found {found}"
        );
    }

    #[test]
    fn bars_are_of_round_lengths() {
        check(260.0, 200.0);
        check(99.0, 50.0);
        check(1.0, 1.0);
        check(0.3, 0.2);
        check(5000.0, 5000.0);
    }
}

//! How are sizes worded in a drawing, and how wide are words at most?

use units::{Length, LengthUnit};

use crate::number::decimal;

/// The size of the letters, in millimetres: capitals and figures are then 2.3 mm high. Larger crowds small parts; smaller
/// is hard to read at a bench.
pub(super) const SIZE: f64 = 3.2;

/// The width of words in letters of [`SIZE`], in millimetres, in the widest of the usual sans-serif faces.
pub(super) fn width(words: &str) -> f64 {
    let letter = |letter: char| match letter {
        '.' | ',' | ':' | ';' | '\'' | '|' | ' ' | 'i' | 'l' | 'j' | 'I' => 0.36,
        '(' | ')' | '-' | '/' | 'f' | 't' | 'r' => 0.43,
        'm' | 'w' | 'M' | 'W' => 1.0,
        'A'..='Z' | '+' | '=' | 'Ø' => 0.85,
        _ if letter.is_ascii() => 0.65,
        // Other scripts may be as wide as they are high.
        _ => 1.05,
    };
    words.chars().map(letter).sum::<f64>() * SIZE
}

/// A size without its unit: millimetres to 0.01, inches to 0.001.
pub(super) fn size(length: Length, unit: LengthUnit) -> String {
    match unit {
        LengthUnit::Millimetre => decimal(length.as_mm(), 2),
        LengthUnit::Inch => decimal(length.as_inches(), 3),
    }
}

/// The size of a hole without its unit, as exactly as the layers' names tell it: 3.175 mm, 0.125 in.
pub(super) fn diameter(length: Length, unit: LengthUnit) -> String {
    match unit {
        LengthUnit::Millimetre => decimal(length.as_mm(), 3),
        LengthUnit::Inch => decimal(length.as_inches(), 4),
    }
}

//! How are words drawn with single strokes, so that a bit or a laser can follow them?
//!
//! Capital letters, figures and a few signs on a grid of our own: six steps high and mostly four wide, corners for
//! curves. Small letters are drawn as capitals, and what is not in the table as a question mark.

use geometry::{Path, Point2};
use units::Length;

/// How many steps of the grid a letter is high.
const HIGH: f64 = 6.0;
/// How many steps are between two letters.
const BETWEEN: f64 = 2.0;
/// How many steps a blank is wide.
const BLANK: f64 = 3.0;

/// One line a letter: its strokes, parted by `|`, each a row of corners of two figures, steps right and up. No stroke
/// touches itself, except that it may end where it began; no two share a stretch.
const LETTERS: &[(char, &str)] = &[
    ('A', "00 04 26 44 40|02 42"),
    ('B', "00 06|06 36 45 44 33 03|33 42 41 30 00"),
    ('C', "45 36 16 05 01 10 30 41"),
    ('D', "00 06|06 26 44 42 20 00"),
    ('E', "46 06 00 40|03 33"),
    ('F', "46 06 00|03 33"),
    ('G', "45 36 16 05 01 10 30 41 43 23"),
    ('H', "00 06|40 46|03 43"),
    ('I', "00 06"),
    ('J', "01 10 20 31 36"),
    ('K', "00 06|46 02|13 40"),
    ('L', "06 00 40"),
    ('M', "00 06 23 46 40"),
    ('N', "00 06 40 46"),
    ('O', "10 01 05 16 36 45 41 30 10"),
    ('P', "00 06 36 45 44 33|33 03"),
    ('Q', "10 01 05 16 36 45 41 30 10|22 40"),
    ('R', "00 06 36 45 44 33|33 03|23 40"),
    ('S', "01 10 30 41 42 33 13 04 05 16 36 45"),
    ('T', "06 46|26 20"),
    ('U', "06 01 10 30 41 46"),
    ('V', "06 20 46"),
    ('W', "06 10 34 50 66"),
    ('X', "00 46|06 40"),
    ('Y', "06 23 46|23 20"),
    ('Z', "06 46 00 40"),
    ('0', "10 01 05 16 36 45 41 30 10|12 34"),
    ('1', "05 16 10|00 20"),
    ('2', "05 16 36 45 44 00 40"),
    ('3', "05 16 36 45 44 33 13|33 42 41 30 10 01"),
    ('4', "30 36 02|02 42"),
    ('5', "46 06 03 33 42 41 30 10 01"),
    ('6', "45 36 16 05 01 10 30 41 42 33|33 03"),
    ('7', "06 46 10"),
    ('8', "13 04 05 16 36 45 44 33 13|13 02 01 10 30 41 42 33"),
    ('9', "01 10 30 41 45 36 16 05 04 13|13 43"),
    ('-', "03 33"),
    ('+', "03 43|25 21"),
    ('=', "02 42|04 44"),
    ('.', "00 01"),
    (',', "11 00"),
    (':', "01 02|04 05"),
    ('/', "00 46"),
    ('\'', "06 05"),
    ('"', "06 05|16 15"),
    ('(', "16 05 01 10"),
    (')', "06 15 11 00"),
    ('&', "40 05|05 16 25 24 01|01 10 20 42"),
    ('#', "10 16|30 36|02 42|04 44"),
    ('?', "05 16 36 45 44 22|20 21"),
];

/// The width of a line of words in letters of a height.
pub(crate) fn width(words: &str, height: Length) -> Length {
    let steps: f64 = letters(words).map(advance).sum();
    height * ((steps - BETWEEN).max(0.0) / HIGH)
}

/// The strokes of a line of words whose lower left corner is at the origin, in letters of a height.
pub(crate) fn strokes(words: &str, height: Length) -> Vec<Path> {
    let step = height.as_mm() / HIGH;
    let mut left = 0.0;
    let mut paths = Vec::new();
    for letter in letters(words) {
        for stroke in letter.into_iter().flat_map(|strokes| strokes.split('|')) {
            let corners = corners(stroke).map(|(x, y)| Point2::mm((left + x) * step, y * step));
            paths.push(Path::polyline(corners).expect("the strokes of the table are sound"));
        }
        left += advance(letter);
    }
    paths
}

/// The strokes of each letter; none for a blank.
fn letters(words: &str) -> impl Iterator<Item = Option<&'static str>> {
    let strokes_of = |letter: char| LETTERS.iter().find(|line| line.0 == letter).map(|line| line.1);
    words.chars().flat_map(char::to_uppercase).map(move |letter| {
        if letter.is_whitespace() { None } else { strokes_of(letter).or_else(|| strokes_of('?')) }
    })
}

/// How many steps on the next letter stands.
fn advance(letter: Option<&str>) -> f64 {
    let widest =
        |strokes: &str| strokes.split('|').flat_map(corners).map(|corner| corner.0).fold(0.0, f64::max);
    letter.map_or(BLANK, widest) + BETWEEN
}

fn corners(stroke: &str) -> impl Iterator<Item = (f64, f64)> {
    stroke.split(' ').map(|corner| {
        let mut figures = corner.chars().filter_map(|figure| figure.to_digit(10)).map(f64::from);
        let (x, y) = (figures.next(), figures.next());
        x.zip(y).expect("a corner of the table is two figures")
    })
}

#[cfg(test)]
mod tests {
    use geometry::{Bounds2, Datum, Drawing, Operation, Preflight};

    use super::*;

    const HEIGHT: Length = Length::mm(3.0);

    #[test]
    fn every_letter_can_be_engraved() {
        for (letter, _) in LETTERS {
            let operations = strokes(&letter.to_string(), HEIGHT).into_iter().map(Operation::Engrave);
            let drawing = Drawing {
                name: "letter".into(),
                title: "Letter".into(),
                datum: Datum { point: Point2::ORIGIN, meaning: "lower left".into() },
                operations: operations.collect(),
            };
            let faults = drawing.faults(&Preflight::default());
            assert!(faults.is_empty(), "the letter {letter}: {faults:?}");
        }
    }

    #[test]
    fn letters_differ() {
        for (place, (letter, strokes)) in LETTERS.iter().enumerate() {
            let twin = LETTERS[..place].iter().find(|(other, like)| other == letter || like == strokes);
            assert_eq!(twin, None, "the letter {letter} is there once");
        }
    }

    #[track_caller]
    fn check(words: &str, width_mm: f64) {
        let found = width(words, HEIGHT).as_mm();
        assert!((found - width_mm).abs() < 1e-12, "{words:?} is {width_mm} mm wide, found {found}");
    }

    #[test]
    fn width_is_that_of_the_strokes() {
        // Half a millimetre a step: A is four steps, W six, a gap two and a blank three with a gap on each side.
        check("A", 2.0);
        check("aw", 6.0);
        check("A A", 2.0 + 3.5 + 2.0);
        check("", 0.0);
        let bounds = strokes("LID 12", HEIGHT).iter().map(Path::bounds).reduce(Bounds2::union);
        let bounds = bounds.expect("there are strokes");
        let off = (bounds.max.x - width("LID 12", HEIGHT).as_mm()).abs();
        assert!(bounds.min == Point2::ORIGIN && off < 1e-12, "the strokes fill their width: {bounds:?}");
        assert!((bounds.max.y - 3.0).abs() < 1e-12, "and their height: {bounds:?}");
    }

    #[test]
    fn what_is_not_in_the_table_is_a_question_mark() {
        assert_eq!(strokes("弦", HEIGHT), strokes("?", HEIGHT), "a letter of another script");
        assert_eq!(strokes("lid", HEIGHT), strokes("LID", HEIGHT), "small letters");
    }
}

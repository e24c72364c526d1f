//! Is a note the frequency that the tables print, and is it written back as it was written?

use proptest::prelude::*;
use units::{Frequency, Pitch, QuantityError};

#[track_caller]
fn read(text: &str) -> Pitch {
    Pitch::parse(text).unwrap_or_else(|error| panic!("{text:?}: {error}"))
}

#[track_caller]
fn check_hertz(text: &str, expected: f64, tolerance: f64) {
    let found = read(text).frequency().as_hertz();
    let error = (found - expected).abs();
    assert!(error <= tolerance, "{text:?}: expected {expected} Hz within {tolerance}, found {found}");
}

/// `440 * 2^((m - 69) / 12)` computed at 50 digits from ISO 16:1975, printed to 0.0001 Hz.
#[test]
fn open_strings_as_tabulated() {
    check_hertz("E2", 82.4069, 0.000_05);
    check_hertz("A2", 110.0, 0.0);
    check_hertz("D3", 146.8324, 0.000_05);
    check_hertz("G3", 195.9977, 0.000_05);
    check_hertz("B3", 246.9417, 0.000_05);
    check_hertz("E4", 329.6276, 0.000_05);
    check_hertz("A4", 440.0, 0.0);
}

/// Closed form: a black key has two names.
#[test]
fn sharps_and_flats() {
    let same = |left: &str, right: &str| {
        assert_eq!(read(left).frequency(), read(right).frequency(), "{left} and {right} are one key");
    };
    same("F#3", "Gb3");
    same("F♯3", "G♭3");
    same("Cb4", "B3");
    same("B#3", "C4");
    same("E#2", "F2");
    same("bb3", "A#3");
    same("b3", "B3");
    check_hertz("A#4", 440.0 * 1.059_463_094_359_295_3, 1e-10);
}

#[test]
fn plain_frequencies() {
    check_hertz("98 Hz", 98.0, 0.0);
    check_hertz("98.5 Hz", 98.5, 0.0);
    check_hertz("98,5 hz", 98.5, 0.0);
    check_hertz(" 98hertz ", 98.0, 0.0);
}

#[track_caller]
fn check_text(text: &str, expected: &str) {
    assert_eq!(read(text).to_string(), expected, "{text:?}");
}

#[test]
fn written_back() {
    check_text("G2", "G2");
    check_text("f#3", "F#3");
    check_text("B♭3", "Bb3");
    check_text("98 Hz", "98 Hz");
    check_text("98.50 hz", "98.5 Hz");
}

#[track_caller]
fn check_transposed(text: &str, semitones: i32, expected: &str) {
    assert_eq!(read(text).transposed(semitones).to_string(), expected, "{text:?} moved by {semitones}");
}

#[test]
fn transposed_by_frets() {
    check_transposed("G2", 12, "G3");
    check_transposed("G2", 4, "B2");
    check_transposed("G2", 5, "C3");
    check_transposed("A2", -3, "F#2");
    check_transposed("Bb3", 5, "Eb4");
    check_transposed("Bb3", 0, "Bb3");
    check_transposed("Cb4", 0, "Cb4");
    check_transposed("98 Hz", 12, "196 Hz");
    check_transposed("98 Hz", -12, "49 Hz");
}

#[test]
fn transposed_beyond_all_hearing_stays_a_number() {
    for text in ["G2", "98 Hz"] {
        for semitones in [i32::MIN, i32::MAX] {
            let pitch = read(text).transposed(semitones).transposed(semitones);
            assert!(pitch.frequency().as_hertz() > 0.0, "{text} by {semitones} twice is {pitch}");
        }
    }
}

#[track_caller]
fn refuse(text: &str, expected_message: &str) {
    let error = Pitch::parse(text).expect_err("a text that is no pitch");
    assert_eq!(error.to_string(), expected_message, "{text:?}");
}

#[test]
fn refused_with_advice() {
    refuse("G", "expected a note with its octave, as in \"G3\", found \"G\"");
    refuse("F#", "expected a note with its octave, as in \"F#3\", found \"F#\"");
    refuse("98", "expected a unit after a frequency; write \"98 Hz\", found \"98\"");
    let not_a_pitch = |found: &str| {
        format!(
            "expected a note with its octave or a frequency, as in \"G2\", \"F#3\", \"Bb3\" or \"98 Hz\", found {found:?}"
        )
    };
    for text in ["", "H2", "G2 major", "F##3", "Gx", "G-", "do", "nan", "♯3"] {
        refuse(text, &not_a_pitch(text));
    }
    let out_of_range =
        |found: &str| format!("expected a pitch between 10 Hz and 20000 Hz, octaves 0 to 9, found {found:?}");
    for text in ["G10", "G-1", "A99999999999999999999", "0 Hz", "-98 Hz", "9.9 Hz", "1e30 Hz"] {
        refuse(text, &out_of_range(text));
    }
    refuse("98 kHz", "expected \"Hz\" after the number, as in \"98 Hz\", found \"khz\"");
}

#[test]
fn from_a_frequency() {
    let pitch = Pitch::from_frequency(Frequency::hertz(97.5)).expect("a string's frequency");
    assert_eq!(pitch.frequency(), Frequency::hertz(97.5), "kept as it is");
    let below = Pitch::from_frequency(Frequency::hertz(-1.0));
    assert!(matches!(below, Err(QuantityError::PitchOutOfRange { .. })), "found {below:?}");
}

proptest! {
    #[test]
    fn notes_come_back(text in "[A-G][#b]?[0-9]") {
        let pitch = Pitch::parse(&text).expect("a note");
        prop_assert_eq!(pitch.to_string(), text);
    }

    #[test]
    fn frequencies_come_back(hertz in 10.0_f64..20_000.0) {
        let pitch = Pitch::from_frequency(Frequency::hertz(hertz)).expect("in range");
        prop_assert_eq!(Pitch::parse(&pitch.to_string()), Ok(pitch));
    }

    /// Twelve semitones double the frequency, whatever the note.
    #[test]
    fn an_octave_doubles(text in "[A-G][#b]?[0-8]", semitones in -24_i32..24) {
        let pitch = Pitch::parse(&text).expect("a note").transposed(semitones);
        let ratio = pitch.transposed(12).frequency() / pitch.frequency();
        prop_assert!((ratio - 2.0).abs() <= 1e-14, "{} to {}: {}", pitch, pitch.transposed(12), ratio);
    }
}

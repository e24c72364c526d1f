//! Do the patterns that editors use agree with the parser?

use proptest::prelude::*;
use proptest::string::string_regex;
use schemars::{JsonSchema, schema_for};
use units::{Angle, Force, Length, LengthUnit, Pitch, QuantityError, WireGauge};

/// The schema's text at a key.
fn text_at<T: JsonSchema>(key: &str) -> String {
    let schema = schema_for!(T);
    schema.get(key).and_then(|value| value.as_str()).unwrap_or_else(|| panic!("no text at {key}")).to_owned()
}

/// Texts that the schema's pattern admits.
fn admitted<T: JsonSchema>() -> impl Strategy<Value = String> {
    let pattern = text_at::<T>("pattern");
    let bare =
        pattern.strip_prefix('^').and_then(|rest| rest.strip_suffix('$')).expect("an anchored pattern");
    string_regex(bare).expect("a regular expression")
}

/// What a pattern cannot say and the parser does.
const fn is_beyond_a_pattern(error: &QuantityError) -> bool {
    matches!(
        error,
        QuantityError::UnclearComma { .. }
            | QuantityError::UnclearFraction { .. }
            | QuantityError::ZeroDenominator { .. }
            | QuantityError::TooManyDigits { .. }
            | QuantityError::PitchOutOfRange { .. }
    )
}

/// The examples parse, and the description is there.
#[track_caller]
fn check<T: JsonSchema>(parse: impl Fn(&str) -> Result<(), QuantityError>, takes_numbers: bool) {
    let schema = schema_for!(T);
    let examples = schema.get("examples").and_then(|value| value.as_array()).expect("examples");
    for example in examples {
        let text = example.as_str().map_or_else(|| example.to_string(), str::to_owned);
        assert!(takes_numbers || example.is_string(), "{example} is no text");
        assert_eq!(parse(&text), Ok(()), "the example {text:?}");
    }
    let kinds = schema.get("type").map(ToString::to_string).expect("a type");
    assert_eq!(kinds.contains("number"), takes_numbers, "found {kinds}");
    assert!(text_at::<T>("description").ends_with('.'), "a sentence");
}

fn length(text: &str) -> Result<(), QuantityError> {
    Length::parse(text, LengthUnit::Inch).map(|_| ())
}
fn angle(text: &str) -> Result<(), QuantityError> {
    Angle::parse(text).map(|_| ())
}
fn force(text: &str) -> Result<(), QuantityError> {
    Force::parse(text).map(|_| ())
}
fn pitch(text: &str) -> Result<(), QuantityError> {
    Pitch::parse(text).map(|_| ())
}
fn gauge(text: &str) -> Result<(), QuantityError> {
    WireGauge::parse(text).map(|_| ())
}

#[test]
fn examples_parse() {
    check::<Length>(length, true);
    check::<Angle>(angle, true);
    check::<Force>(force, true);
    check::<Pitch>(pitch, false);
    check::<WireGauge>(gauge, false);
}

#[test]
fn the_units_are_two() {
    let schema = schema_for!(LengthUnit);
    assert_eq!(schema.get("enum").map(ToString::to_string).as_deref(), Some(r#"["mm","in"]"#), "mm and in");
}

/// Every admitted text is read, or refused for what no pattern can say.
fn agrees(text: &str, found: Result<(), QuantityError>) -> Result<(), TestCaseError> {
    if let Err(error) = found {
        prop_assert!(is_beyond_a_pattern(&error), "{:?}: {}", text, error);
    }
    Ok(())
}

proptest! {
    #[test]
    fn admitted_lengths_are_read(text in admitted::<Length>()) {
        agrees(&text, length(&text))?;
    }

    #[test]
    fn admitted_angles_are_read(text in admitted::<Angle>()) {
        agrees(&text, angle(&text))?;
    }

    #[test]
    fn admitted_forces_are_read(text in admitted::<Force>()) {
        agrees(&text, force(&text))?;
    }

    #[test]
    fn admitted_pitches_are_read(text in admitted::<Pitch>()) {
        agrees(&text, pitch(&text))?;
    }

    #[test]
    fn admitted_gauges_are_read(text in admitted::<WireGauge>()) {
        prop_assert_eq!(gauge(&text), Ok(()), "{:?}", text);
    }
}

//! Does any text at all make a parser panic, and do those that nearly parse?

use proptest::prelude::*;
use units::{Angle, Force, Frequency, Length, LengthUnit, Pitch, QuantityError, WireGauge};

/// Every parser on one text; what is read is finite, what is refused has a message on one line.
fn read_by_all(text: &str) -> Result<(), TestCaseError> {
    let values: [Result<f64, QuantityError>; 8] = [
        Length::parse(text, LengthUnit::Millimetre).map(Length::as_mm),
        Length::parse(text, LengthUnit::Inch).map(Length::as_mm),
        Length::from_decimal(text, LengthUnit::Inch).map(Length::as_mm),
        Angle::parse(text).map(Angle::as_radians),
        Force::parse(text).map(Force::as_newtons),
        Frequency::parse(text).map(Frequency::as_hertz),
        Pitch::parse(text).map(|pitch| pitch.frequency().as_hertz()),
        WireGauge::parse(text).map(|gauge| gauge.diameter().as_mm()),
    ];
    for value in values {
        match value {
            Ok(number) => {
                prop_assert!(number.is_finite(), "{:?} was read as {}", text, number);
                prop_assert!(number != 0.0 || number.is_sign_positive(), "{:?} was read as -0", text);
            }
            Err(error) => {
                let message = error.to_string();
                prop_assert!(!message.contains('\n') && message.len() < 1500, "{:?}: {}", text, message);
            }
        }
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2000))]

    #[test]
    fn any_text(text in any::<String>()) {
        read_by_all(&text)?;
    }

    #[test]
    fn nearly_a_quantity(text in "[-+−–]?[ 0-9.,/eE½⅞°\"'″#♭A-Gbinmz\u{2009}-]{0,14}( ?(in|mm|awg|hz|n|lbf|deg))?") {
        read_by_all(&text)?;
    }

    #[test]
    fn long_digits(text in "[0-9]{20,60}[.,/ ]?[0-9]{0,60}(e-?[0-9]{1,12})?( in| hz| n| deg)?") {
        read_by_all(&text)?;
    }
}

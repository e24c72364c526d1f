//! Which ways of writing a length are read, which are refused, and with what advice?

use proptest::prelude::*;
use units::{Length, LengthUnit, QuantityError};

/// Reads with bare millimetres and expects this very `f64`.
#[track_caller]
fn check(text: &str, expected_mm: f64) {
    let length =
        Length::parse(text, LengthUnit::Millimetre).unwrap_or_else(|error| panic!("{text:?}: {error}"));
    assert_eq!(length.as_mm().to_bits(), expected_mm.to_bits(), "{text:?} is {} mm", length.as_mm());
}

/// Reads with bare inches and expects this very `f64`.
#[track_caller]
fn check_in_inches(text: &str, expected_mm: f64) {
    let length = Length::parse(text, LengthUnit::Inch).unwrap_or_else(|error| panic!("{text:?}: {error}"));
    assert_eq!(length.as_mm().to_bits(), expected_mm.to_bits(), "{text:?} is {} mm", length.as_mm());
}

/// Expects the text to be refused with this message.
#[track_caller]
fn refuse(text: &str, expected_message: &str) {
    match Length::parse(text, LengthUnit::Millimetre) {
        Ok(length) => panic!("{text:?} was read as {} mm", length.as_mm()),
        Err(error) => assert_eq!(error.to_string(), expected_message, "{text:?}"),
    }
}

#[test]
fn an_inch_is_25_4_mm() {
    check("1 in", 25.4);
    check("1 inch", 25.4);
    check("2 inches", 50.8);
    check("1 IN", 25.4);
    check("1 in.", 25.4);
    check("1in", 25.4);
    check("1\"", 25.4);
    check("1''", 25.4);
    check("1″", 25.4);
    check("1 ”", 25.4);
    check("1′′", 25.4);
}

#[test]
fn fractions_of_an_inch() {
    check("25 1/2 in", 647.7);
    check("25-1/2\"", 647.7);
    check("25 1/2\"", 647.7);
    check("25  1/2 in", 647.7);
    check("25–1/2 in", 647.7);
    check("25½ in", 647.7);
    check("25 ½ in", 647.7);
    check("25-½\"", 647.7);
    check("25 1⁄2 in", 647.7);
    check("½\"", 12.7);
    check("3/8 in", 9.525);
    check("9/8 in", 28.575);
    check("⅞ in", 22.225);
    check("0 3/8 in", 9.525);
    check("1/3 in", 127.0 / 15.0);
}

#[test]
fn decimals() {
    check("25.5 in", 647.7);
    check(".010 in", 0.254);
    check("0.1 in", 2.54);
    check("648 mm", 648.0);
    check("648mm", 648.0);
    check("648 Millimetres", 648.0);
    check("64.8 cm", 648.0);
    check("0.648 m", 648.0);
    check("1e3 mm", 1000.0);
    check("1.5E-1 mm", 0.15);
    check("2.5e+1 mm", 25.0);
    check("0.30000000000000004 mm", 0.300_000_000_000_000_04);
    check("1.50000000000000000000000000000000000000000000000 mm", 1.5);
}

#[test]
fn signs() {
    check("-3 mm", -3.0);
    check("- 3 mm", -3.0);
    check("−3 mm", -3.0);
    check("+3 mm", 3.0);
    check("-25-1/2 in", -647.7);
    check("-½ in", -12.7);
    check("-0 mm", 0.0);
}

#[test]
fn spaces_of_every_width() {
    check("25\u{2009}1/2\u{a0}in", 647.7);
    check("648\u{202f}mm", 648.0);
    check("\u{2003}648 mm\t", 648.0);
}

#[test]
fn commas_that_can_only_be_decimal() {
    check("25,5 mm", 25.5);
    check("25,50 mm", 25.5);
    check("0,0625 in", 1.5875);
}

#[test]
fn sums_as_they_are_printed() {
    check("5/8 in + 0.11 mm", 15.985);
    check("25 1/2 in - 0.2 mm", 647.5);
    check("-5/8 in - 0.125 mm", -16.0);
}

#[test]
fn bare_numbers_take_the_documents_unit() {
    check("25.5", 25.5);
    check_in_inches("25.5", 647.7);
    check_in_inches("25 1/2", 647.7);
    check_in_inches("3/8", 9.525);
    check_in_inches("-½", -12.7);
    check_in_inches("10 mm", 10.0);
}

#[test]
fn commas_that_may_be_thousands() {
    const UNCLEAR: &str =
        "a comma in \"1,000 mm\" may mean a decimal or thousands; write \"1.000 mm\" or \"1000 mm\"";
    refuse("1,000 mm", UNCLEAR);
    refuse(
        "-0,125 in",
        "a comma in \"-0,125 in\" may mean a decimal or thousands; write \"-0.125 in\" or \"-0125 in\"",
    );
    let grouped = |written: &str, found: &str| {
        format!("expected a number without thousands marks; write {written:?}, found {found:?}")
    };
    refuse("1,000.5 mm", &grouped("1000.5 mm", "1,000.5 mm"));
    refuse("1.000,5 mm", &grouped("1000.5 mm", "1.000,5 mm"));
    refuse("1,000,000 mm", &grouped("1000000 mm", "1,000,000 mm"));
}

#[test]
fn points_that_are_not_decimal_points() {
    let unclear = |found: &str| {
        format!("expected one decimal point with digits after it, as in \"25.5 in\", found {found:?}")
    };
    for text in ["25. in", "1.2.3 mm", "1,2,3 mm", "25..5 in", ".", ",", "1,,000 mm", "1e3.5 mm"] {
        refuse(text, &unclear(text));
    }
}

#[test]
fn fractions_that_are_not_one_number() {
    let unclear = |found: &str| {
        format!(
            "expected one number, whole with a fraction below 1 at most, as in \"25 1/2 in\", found {found:?}"
        )
    };
    for text in [
        "25 5/4 in",
        "25 2/2 in",
        "25.5 1/2 in",
        "25 1 in",
        "1 000 mm",
        "25-1 in",
        "25 -1/2 in",
        "25- 1/2 in",
        "25 - 1/2 in",
        "25 + 1/2 in",
        "1/ in",
        "1 / 2 in",
        "1/2/3 in",
        "½½ in",
        "25.5½ in",
        "1/-2 in",
        "25--1/2 in",
    ] {
        refuse(text, &unclear(text));
    }
    refuse("1/0 in", "expected a denominator above 0, found \"1/0 in\"; write it like \"25 1/2 in\"");
}

#[test]
fn feet() {
    let feet = |found: &str| {
        format!("expected inches or millimetres, found feet in {found:?}; write \"15 in\" for 1 ft 3 in")
    };
    for text in ["1'-3\"", "1' 3\"", "1′ 3″", "1 ft", "1ft 3in", "2 feet", "1.5 foot", "1'"] {
        refuse(text, &feet(text));
    }
}

#[test]
fn other_units() {
    let unknown = |unit: &str| {
        format!(
            "expected \"in\", \"mm\", \"cm\" or \"m\" after the number, as in \"25 1/2 in\", found {unit:?}"
        )
    };
    refuse("25.5 thou", &unknown("thou"));
    refuse("16 AWG", &unknown("awg"));
    refuse("3 deg", &unknown("deg"));
    refuse("25 inn", &unknown("inn"));
    refuse("25 mm mm", &unknown("mm mm"));
    refuse("1e mm", &unknown("e mm"));
    refuse("1_000 mm", &unknown("_000 mm"));
    refuse("1 in + 2 mm + 3 mm", &unknown("mm + 3 mm"));
}

#[test]
fn no_number_at_all() {
    refuse("", "expected a length, as in \"25 1/2 in\", found nothing");
    refuse(" \u{2009} ", "expected a length, as in \"25 1/2 in\", found nothing");
    for text in ["mm", "-", "- -3 mm", "inf", "nan", "/2 in", "e3", "٣ mm", "half an inch"] {
        refuse(text, &format!("expected a length, as in \"25 1/2 in\", found {text:?}"));
    }
}

#[test]
fn more_digits_than_can_be_exact() {
    for text in ["1e39 mm", "1e-39 mm", "1e99999999999 mm", "1e-2147483648 mm", "1e38 m"] {
        refuse(
            text,
            &format!(
                "expected a number of up to 24 digits, exponent and all, as in \"25.5 in\", found {text:?}"
            ),
        );
    }
    let nines = "9".repeat(100_000);
    let error = Length::parse(&nines, LengthUnit::Inch).expect_err("100 000 digits");
    assert!(error.to_string().len() < 300, "a message stays readable: {error}");
}

#[test]
fn bare_document_numbers_are_exact() {
    let read = |text, unit| Length::from_decimal(text, unit).map(Length::as_mm);
    assert_eq!(read("25.5", LengthUnit::Inch), Ok(647.7), "inches");
    assert_eq!(read("1.1", LengthUnit::Inch), Ok(27.94), "1.1 * 25.4 in f64 is 27.940000000000001");
    assert_eq!(read("-3", LengthUnit::Millimetre), Ok(-3.0), "whole numbers");
    assert_eq!(read("+1.5e2", LengthUnit::Millimetre), Ok(150.0), "exponents");
    for text in ["", "inf", "nan", "25 1/2", "1/2", "3 mm", "1,5", "0x10", "-", "1-1"] {
        assert!(read(text, LengthUnit::Inch).is_err(), "{text:?} is no decimal");
    }
}

#[test]
fn the_two_units_by_name() {
    assert_eq!(LengthUnit::parse("mm"), Ok(LengthUnit::Millimetre), "millimetres");
    assert_eq!(LengthUnit::parse("in"), Ok(LengthUnit::Inch), "inches");
    assert_eq!(
        LengthUnit::parse("cm"),
        Err(QuantityError::NotALengthUnit { found: "cm".to_owned() }),
        "a document is in mm or in inches"
    );
}

proptest! {
    /// Numerator and denominator stay below 2^53, so that one division of `f64` is the correctly rounded answer.
    #[test]
    fn fractions_are_exact(whole in 0_u32..10_000, under in 1_u32..4096, share in 0.0_f64..1.0, dash: bool) {
        let over = ((f64::from(under) * share) as u32).min(under - 1);
        let numerator = (u64::from(whole) * u64::from(under) + u64::from(over)) * 127;
        let expected = numerator as f64 / f64::from(5 * under);
        let text = format!("{whole}{}{over}/{under} in", if dash { "-" } else { " " });
        let found = Length::parse(&text, LengthUnit::Millimetre).expect("a sound fraction").as_mm();
        prop_assert_eq!(found.to_bits(), expected.to_bits(), "{}: {} against {}", text, found, expected);
    }

    /// An inch is 127/5 mm: the same digits, counted in thousandths, divided once.
    #[test]
    fn decimal_inches_are_exact(thousandths in 0_u32..100_000_000) {
        let expected = f64::from(thousandths) * 127.0 / 5000.0;
        let text = format!("{}.{:03} in", thousandths / 1000, thousandths % 1000);
        let found = Length::parse(&text, LengthUnit::Millimetre).expect("a sound decimal").as_mm();
        prop_assert_eq!(found.to_bits(), expected.to_bits(), "{}: {} against {}", text, found, expected);
    }

    /// What a message tells a person to write is read, whatever marks they used.
    #[test]
    fn advice_is_read(text in "-?[0-9]{0,4}([.,][0-9]{1,4}){1,3}( mm| in)?") {
        let advice = match Length::parse(&text, LengthUnit::Millimetre) {
            Ok(_) => vec![],
            Err(QuantityError::UnclearComma { with_point, without, .. }) => vec![with_point, without],
            Err(QuantityError::GroupedDigits { plain, .. }) => vec![plain],
            Err(QuantityError::UnclearPoint { example, .. }) => vec![example.to_owned()],
            Err(error) => return Err(TestCaseError::fail(format!("{text:?}: {error}"))),
        };
        for better in advice {
            prop_assert!(Length::parse(&better, LengthUnit::Inch).is_ok(), "{:?}: advised {:?}", text, better);
        }
    }

    /// As many digits as the message promises, wherever the point is.
    #[test]
    fn twenty_four_digits_are_read(digits in "[0-9]{24}", point in 0_usize..24, unit in "in|mm|cm|m") {
        let (whole, fraction) = digits.split_at(point);
        let text = format!("{whole}.{fraction} {unit}");
        prop_assert!(Length::parse(&text, LengthUnit::Inch).is_ok(), "{:?}", text);
    }
}

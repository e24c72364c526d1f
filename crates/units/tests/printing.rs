//! Does a printed quantity say what it should, and come back within the error that it states?

use proptest::prelude::*;
use units::{Angle, Force, Frequency, Length, LengthForm, LengthUnit, Stress};

#[track_caller]
fn check(mm: f64, form: LengthForm, expected: &str) {
    assert_eq!(Length::mm(mm).written(form).to_string(), expected, "{mm} mm");
}

#[test]
fn millimetres_to_a_hundredth() {
    check(16.309, LengthForm::Millimetres, "16.31 mm");
    check(16.3, LengthForm::Millimetres, "16.3 mm");
    check(648.0, LengthForm::Millimetres, "648 mm");
    check(100.0, LengthForm::Millimetres, "100 mm");
    check(-3.0, LengthForm::Millimetres, "-3 mm");
    check(-0.001, LengthForm::Millimetres, "0 mm");
    check(-0.0, LengthForm::Millimetres, "0 mm");
    assert_eq!(Length::mm(16.309).to_string(), "16.31 mm", "the usual form");
}

#[test]
fn inches_to_a_thousandth() {
    check(647.7, LengthForm::DecimalInches, "25.5 in");
    check(16.31, LengthForm::DecimalInches, "0.642 in");
    check(0.254, LengthForm::DecimalInches, "0.01 in");
    check(-0.001, LengthForm::DecimalInches, "0 in");
}

#[test]
fn inches_to_a_sixtyfourth_and_the_rest() {
    check(647.7, LengthForm::Sixtyfourths, "25 1/2 in");
    check(254.0, LengthForm::Sixtyfourths, "10 in");
    check(9.525, LengthForm::Sixtyfourths, "3/8 in");
    check(15.985, LengthForm::Sixtyfourths, "5/8 in + 0.11 mm");
    check(15.765, LengthForm::Sixtyfourths, "5/8 in - 0.11 mm");
    check(15.878, LengthForm::Sixtyfourths, "5/8 in");
    check(-15.985, LengthForm::Sixtyfourths, "-5/8 in - 0.11 mm");
    check(25.4 * 63.0 / 64.0, LengthForm::Sixtyfourths, "63/64 in");
    check(0.1, LengthForm::Sixtyfourths, "0 in + 0.1 mm");
    check(-0.1, LengthForm::Sixtyfourths, "0 in - 0.1 mm");
    check(0.0, LengthForm::Sixtyfourths, "0 in");
    check(-0.0, LengthForm::Sixtyfourths, "0 in");
}

#[test]
fn the_other_quantities() {
    assert_eq!(Angle::degrees(3.0).to_string(), "3 deg", "whole degrees");
    assert_eq!(Angle::degrees(-12.46).to_string(), "-12.5 deg", "a tenth of a degree");
    assert_eq!(Angle::degrees(-0.01).to_string(), "0 deg", "no sign before nothing");
    assert_eq!(Force::newtons(72.59).to_string(), "72.6 N", "a tenth of a newton");
    assert_eq!(Frequency::hertz(97.9989).to_string(), "98 Hz", "a hundredth of a hertz");
    assert_eq!(Stress::megapascals(1432.64).to_string(), "1432.6 MPa", "a tenth of a megapascal");
    assert_eq!(LengthUnit::Inch.to_string(), "in", "as a document names it");
}

#[test]
fn columns_are_set_to_the_right() {
    assert_eq!(
        format!("{:>10}|{:4}|", Length::mm(16.31), LengthUnit::Inch),
        "  16.31 mm|  in|",
        "widths hold"
    );
    assert_eq!(format!("{:10.1}|", Length::mm(16.31)), "  16.31 mm|", "a precision cuts nothing off");
}

#[test]
fn the_largest_numbers_print() {
    for form in [LengthForm::Millimetres, LengthForm::DecimalInches, LengthForm::Sixtyfourths] {
        let text = Length::mm(f64::MAX).written(form).to_string();
        assert!(text.starts_with(char::is_numeric), "no panic, no infinity: {text}");
    }
}

/// Printed, parsed, compared; a binary hair is allowed beside the stated error.
fn comes_back(mm: f64, form: LengthForm, stated_error_mm: f64) -> Result<(), TestCaseError> {
    let text = Length::mm(mm).written(form).to_string();
    let back = Length::parse(&text, LengthUnit::Millimetre);
    let back = back.map_err(|error| TestCaseError::fail(format!("{text:?}: {error}")))?;
    let error = (back.as_mm() - mm).abs();
    prop_assert!(error <= stated_error_mm + 1e-9, "{} mm as {:?}: off by {}", mm, text, error);
    prop_assert!(!text.starts_with("-0 "), "{} mm as {:?}", mm, text);
    Ok(())
}

proptest! {
    #[test]
    fn millimetres_come_back(mm in -2000.0_f64..2000.0) {
        comes_back(mm, LengthForm::Millimetres, 0.005)?;
    }

    #[test]
    fn decimal_inches_come_back(mm in -2000.0_f64..2000.0) {
        comes_back(mm, LengthForm::DecimalInches, 0.0127)?;
    }

    #[test]
    fn sixtyfourths_come_back(mm in -2000.0_f64..2000.0) {
        comes_back(mm, LengthForm::Sixtyfourths, 0.005)?;
    }

    #[test]
    fn whole_sixtyfourths_show_no_rest(count in -6400_i32..6400) {
        let text = Length::inches(f64::from(count) / 64.0).written(LengthForm::Sixtyfourths).to_string();
        prop_assert!(text.ends_with(" in"), "{}/64 in as {:?}", count, text);
    }

    #[test]
    fn angles_come_back(degrees in -180.0_f64..180.0) {
        let text = Angle::degrees(degrees).to_string();
        let error = (Angle::parse(&text).expect("what we print").as_degrees() - degrees).abs();
        prop_assert!(error <= 0.05 + 1e-9, "{} degrees as {:?}: off by {}", degrees, text, error);
    }

    #[test]
    fn forces_come_back(newtons in -1000.0_f64..1000.0) {
        let text = Force::newtons(newtons).to_string();
        let error = (Force::parse(&text).expect("what we print").as_newtons() - newtons).abs();
        prop_assert!(error <= 0.05 + 1e-9, "{} N as {:?}: off by {}", newtons, text, error);
    }
}

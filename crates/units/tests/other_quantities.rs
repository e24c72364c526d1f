//! How are angles, forces and frequencies read?

use units::{Angle, Force, Frequency};

#[track_caller]
fn check_degrees(text: &str, expected: f64) {
    let found = Angle::parse(text).unwrap_or_else(|error| panic!("{text:?}: {error}"));
    assert_eq!(found, Angle::degrees(expected), "{text:?} is {} degrees", found.as_degrees());
}

#[test]
fn angles() {
    check_degrees("3 deg", 3.0);
    check_degrees("3°", 3.0);
    check_degrees("3 °", 3.0);
    check_degrees("-1.5 degrees", -1.5);
    check_degrees("2 1/2 deg", 2.5);
    check_degrees("1,5 deg", 1.5);
    check_degrees("1 Degree", 1.0);
    check_degrees("3", 3.0);
}

#[track_caller]
fn check_newtons(text: &str, expected: f64) {
    let found = Force::parse(text).unwrap_or_else(|error| panic!("{text:?}: {error}"));
    assert_eq!(found.as_newtons(), expected, "{text:?}");
}

/// The pound-force is 0.45359237 kg (international pound) times 9.80665 m/s² (standard gravity), both exact.
#[test]
fn forces() {
    check_newtons("12 N", 12.0);
    check_newtons("12", 12.0);
    check_newtons("12.5 newtons", 12.5);
    check_newtons("1 lbf", 4.448_221_615_260_5);
    check_newtons("2 lb", 8.896_443_230_521);
    check_newtons("10 lbs", 44.482_216_152_605);
}

#[track_caller]
fn check_hertz(text: &str, expected: f64) {
    let found = Frequency::parse(text).unwrap_or_else(|error| panic!("{text:?}: {error}"));
    assert_eq!(found.as_hertz(), expected, "{text:?}");
}

#[test]
fn frequencies() {
    check_hertz("98 Hz", 98.0);
    check_hertz("98.5 hertz", 98.5);
    check_hertz("98", 98.0);
}

#[track_caller]
fn check_message(found: Result<impl std::fmt::Debug, units::QuantityError>, expected: &str) {
    assert_eq!(found.expect_err("a text in the wrong unit").to_string(), expected, "the advice");
}

#[test]
fn wrong_units() {
    check_message(
        Angle::parse("3 mm"),
        "expected \"deg\" or \"°\" after the number, as in \"3 deg\", found \"mm\"",
    );
    check_message(
        Angle::parse("3'"),
        "expected \"deg\" or \"°\" after the number, as in \"3 deg\", found \"'\"",
    );
    check_message(
        Force::parse("3 kg"),
        "expected \"N\" or \"lbf\" after the number, as in \"12 N\", found \"kg\"",
    );
    check_message(Force::parse("much"), "expected a force, as in \"12 N\", found \"much\"");
    check_message(
        Frequency::parse("98 rpm"),
        "expected \"Hz\" after the number, as in \"98 Hz\", found \"rpm\"",
    );
    check_message(Angle::parse(""), "expected an angle, as in \"3 deg\", found nothing");
}

//! Is a gauge as thick as the standard's table says?

use units::WireGauge;

/// ASTM B258-02: the formula computed at 50 digits, to 1e-6 in; rounded to 0.0001 in as the standard tabulates it; and
/// in millimetres to 0.0001 mm.
#[track_caller]
fn check(number: u8, inches: f64, tabulated_inches: f64, mm: f64) {
    let diameter = WireGauge::new(number).expect("a gauge in range").diameter();
    let found = diameter.as_inches();
    assert!(
        (found - inches).abs() <= 5.1e-7,
        "{number} AWG: expected {inches} in within 5e-7, found {found}"
    );
    let rounded = (found * 10_000.0).round();
    assert_eq!(
        rounded,
        (tabulated_inches * 10_000.0).round(),
        "{number} AWG to four places, from {found} in"
    );
    let error = (diameter.as_mm() - mm).abs();
    assert!(error <= 5.1e-5, "{number} AWG: expected {mm} mm within 5e-5, found {}", diameter.as_mm());
}

#[test]
fn diameters_as_tabulated() {
    check(8, 0.128490, 0.1285, 3.2636);
    check(9, 0.114424, 0.1144, 2.9064);
    check(10, 0.101897, 0.1019, 2.5882);
    check(11, 0.090742, 0.0907, 2.3048);
    check(12, 0.080808, 0.0808, 2.0525);
    check(13, 0.071962, 0.0720, 1.8278);
    check(14, 0.064084, 0.0641, 1.6277);
    check(15, 0.057068, 0.0571, 1.4495);
    check(16, 0.050821, 0.0508, 1.2908);
    check(17, 0.045257, 0.0453, 1.1495);
    check(18, 0.040303, 0.0403, 1.0237);
    check(19, 0.035891, 0.0359, 0.9116);
    check(20, 0.031961, 0.0320, 0.8118);
    check(21, 0.028462, 0.0285, 0.7229);
    check(22, 0.025347, 0.0253, 0.6438);
    check(23, 0.022572, 0.0226, 0.5733);
    check(24, 0.020101, 0.0201, 0.5106);
}

/// Closed form: the two gauges that define the series are 36 (0.005 in) and 0000 (0.46 in, 39 steps thicker).
#[test]
fn gauge_36_is_five_thousandths() {
    check(36, 0.005, 0.0050, 0.127);
}

#[track_caller]
fn check_text(text: &str, number: u8) {
    let gauge = WireGauge::parse(text).unwrap_or_else(|error| panic!("{text:?}: {error}"));
    assert_eq!(gauge.number(), number, "{text:?}");
    assert_eq!(WireGauge::parse(&gauge.to_string()), Ok(gauge), "{gauge} comes back");
}

#[test]
fn written_either_way_round() {
    check_text("16 AWG", 16);
    check_text("AWG 16", 16);
    check_text("16 awg", 16);
    check_text("16AWG", 16);
    check_text(" awg16 ", 16);
    check_text("0 AWG", 0);
    check_text("40 AWG", 40);
}

#[test]
fn refused() {
    for text in [
        "",
        "16",
        "AWG",
        "41 AWG",
        "256 AWG",
        "-1 AWG",
        "16.5 AWG",
        "00 AWG",
        "2/0 AWG",
        "AWG 16 AWG",
        "16 SWG",
    ] {
        let error = WireGauge::parse(text).expect_err("a text that is no gauge");
        let expected = format!("expected a wire gauge from 0 to 40, as in \"16 AWG\", found {text:?}");
        assert_eq!(error.to_string(), expected, "{text:?}");
    }
    assert!(WireGauge::new(41).is_err(), "41 is thinner than the table");
}

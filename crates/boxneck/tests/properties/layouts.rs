//! Are the frets where equal temperament wants them, and the strings on the neck?

use boxneck::fit::Severity;
use boxneck::spec::Spec;
use boxneck::units::Length;
use proptest::prelude::*;

use crate::random_document::{config, instrument, spec};

/// The twelfth root of two (its decimal expansion is in every table of constants; OEIS A010774).
const SEMITONE: f64 = 1.059_463_094_359_295_3;

proptest! {
    #![proptest_config(config(200))]

    #[test]
    fn frets_are_in_equal_temperament(instrument in instrument()) {
        let scale_length = instrument.spec().scale.length.as_mm();
        let text = instrument.document().source();
        let (mut before, mut rest_before) = (0, scale_length);
        for fret in &instrument.layout().frets().frets {
            let rest = scale_length - fret.x.as_mm();
            let steps = i32::from(fret.semitone) - before;
            prop_assert!(steps > 0, "frets rise\n{text}");
            let ratio = rest_before / rest;
            let wanted = times(SEMITONE, steps);
            prop_assert!(
                (ratio / wanted - 1.0).abs() < 1e-9,
                "{steps} semitones divide the rest by {wanted} within 1e-9, found {ratio}\n{text}"
            );
            let station = scale_length * (1.0 - 1.0 / times(SEMITONE, i32::from(fret.semitone)));
            prop_assert!(
                (fret.x.as_mm() - station).abs() < 1e-6,
                "fret {} at {station} mm within 1e-6 mm, found {}\n{text}",
                fret.number,
                fret.x.as_mm()
            );
            (before, rest_before) = (i32::from(fret.semitone), rest);
        }
    }

    #[test]
    fn strings_stay_on_the_neck_or_a_check_says_so(instrument in instrument()) {
        let (layout, text) = (instrument.layout(), instrument.document().source());
        let told = instrument
            .findings()
            .iter()
            .any(|finding| finding.check.id == "string-edge" && finding.severity == Severity::Fail);
        let mut off = false;
        for string in layout.strings() {
            let stations = layout.frets().frets.iter().map(|fret| fret.x).chain([Length::ZERO]);
            for x in stations {
                let half = layout.neck().width(x).as_mm() / 2.0;
                let outside = string.underside(x).y.as_mm().abs() + string.diameter.as_mm() / 2.0;
                off |= outside > half + 1e-9;
            }
        }
        prop_assert!(!off || told, "a string leaves the neck and no check fails\n{text}");
    }

    #[test]
    fn strings_do_not_cross_on_their_way_to_the_posts(instrument in instrument()) {
        let (layout, text) = (instrument.layout(), instrument.document().source());
        let way = |index: usize| {
            let string = &layout.strings()[index];
            [string.nut, string.post].map(|place| (place.x.as_mm(), place.y.as_mm()))
        };
        for left in 0..layout.strings().len() {
            for right in left + 1..layout.strings().len() {
                prop_assert!(!cross(way(left), way(right)), "strings {left} and {right} cross\n{text}");
            }
        }
    }

    #[test]
    fn a_longer_scale_moves_every_fret_in_proportion(spec in spec(), factor in 1.0..3.0_f64) {
        let longer = Spec {
            scale: boxneck::spec::Scale { length: spec.scale.length * factor, ..spec.scale.clone() },
            ..Spec::clone(&spec)
        };
        if let (Ok(short), Ok(long)) = (boxneck::layout::layout(&spec), boxneck::layout::layout(&longer)) {
            for (short, long) in short.frets().frets.iter().zip(&long.frets().frets) {
                let (found, expected) = (long.x.as_mm(), short.x.as_mm() * factor);
                prop_assert!(
                    (found - expected).abs() < 1e-9,
                    "fret {} at {expected} mm within 1e-9, found {found}\n{}",
                    short.number,
                    spec.document().source()
                );
            }
        }
    }
}

/// A factor, so many times.
fn times(factor: f64, count: i32) -> f64 {
    (0..count).map(|_| factor).product()
}

type Flat = (f64, f64);

/// Whether two segments have a point in common that is an end of neither.
fn cross(a: [Flat; 2], b: [Flat; 2]) -> bool {
    let side = |line: [Flat; 2], point: Flat| {
        (line[1].0 - line[0].0) * (point.1 - line[0].1) - (line[1].1 - line[0].1) * (point.0 - line[0].0)
    };
    side(a, b[0]) * side(a, b[1]) < 0.0 && side(b, a[0]) * side(b, a[1]) < 0.0
}

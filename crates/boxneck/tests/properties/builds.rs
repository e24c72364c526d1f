//! Does every instrument that no check fails become files, and always the same ones?

use std::collections::BTreeSet;

use boxneck::fit::Severity;
use boxneck::{MakeOptions, files};
use proptest::prelude::*;

use crate::random_document::{config, instrument, made, sound_instrument};

proptest! {
    #![proptest_config(config(60))]

    #[test]
    fn an_instrument_that_no_check_fails_can_be_made(instrument in sound_instrument()) {
        let text = instrument.document().source();
        let built = files(&instrument, &MakeOptions::default());
        prop_assert!(built.is_ok(), "no check fails, and yet: {}\n{text}", built.unwrap_err());
        let built = built.expect("checked above");
        let paths: BTreeSet<&str> = built.iter().map(|file| file.path.as_str()).collect();
        prop_assert_eq!(paths.len(), built.len(), "every file has a name of its own\n{}", text);
        prop_assert!(built.iter().all(|file| !file.bytes.is_empty()), "no file is empty\n{text}");
    }

    #[test]
    fn whatever_a_check_says_nothing_panics(instrument in instrument()) {
        // A fault is an answer; only a panic is none.
        let _ = files(&instrument, &MakeOptions::default());
        prop_assert!(!instrument.findings().is_empty(), "something was looked at");
    }

    #[test]
    fn a_part_that_is_missing_is_told(instrument in instrument()) {
        let parts = instrument.parts();
        let made: BTreeSet<&str> = parts.parts.iter().map(|part| part.name).collect();
        let spec = instrument.spec();
        let expected = [
            ("neck", true),
            ("nut", true),
            ("saddle", true),
            ("lid", true),
            ("box-walls", true),
            ("fretboard", spec.fretboard.thickness.as_mm() > 0.0),
            ("heel-block", instrument.layout().heel().is_some()),
            ("tail-block", spec.tail.kind == boxneck::spec::TailKind::Block),
            ("coupon-printed", true),
            (
                "coupon-routed",
                spec.neck.joint == boxneck::spec::Joint::Through
                    || spec.saddle.kind == boxneck::spec::SaddleKind::LetIn,
            ),
        ];
        let missing = expected.iter().filter(|(name, wanted)| *wanted && !made.contains(name)).count();
        let text = instrument.document().source();
        prop_assert_eq!(missing, parts.faults.len(), "one fault a missing part\n{}", text);
        prop_assert!(
            missing == 0 || instrument.worst() == Severity::Fail,
            "a part that cannot be made is a failing finding\n{text}"
        );
        let lacks = |coupon: bool| {
            let of = |name: &str| name.starts_with("coupon") == coupon;
            expected.iter().any(|(name, wanted)| *wanted && of(name) && !made.contains(name))
        };
        prop_assert!(!lacks(true) || lacks(false), "a coupon can be made where the parts can\n{text}");
        for (name, wanted) in expected {
            prop_assert!(wanted || !made.contains(name), "there is no {name} in this plan\n{text}");
        }
    }
}

proptest! {
    #![proptest_config(config(15))]

    #[test]
    fn the_same_document_gives_the_same_bytes(instrument in sound_instrument()) {
        let text = instrument.document().source();
        let again = made(text).expect("it was accepted before");
        let options = MakeOptions::default();
        let (first, second) = (files(&instrument, &options), files(&again, &options));
        prop_assert!(
            matches!((&first, &second), (Ok(first), Ok(second)) if first == second),
            "two builds differ\n{text}"
        );
    }
}

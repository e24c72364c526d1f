//! Is an override the same as an edit of the text?

use boxneck::spec::Document;
use proptest::prelude::*;

use crate::random_document::{config, key_by_key, spec_of, text};

proptest! {
    #![proptest_config(config(200))]

    #[test]
    fn no_text_makes_the_reader_panic(text in text()) {
        let read = Document::parse(text.as_bytes()).read();
        prop_assert!(
            read.value().is_some() != read.diagnostics().iter().any(|told| told.severity == boxneck::spec::Severity::Error),
            "a specification or an error, never both\n{text}"
        );
    }

    #[test]
    fn an_override_is_an_edit(expected in spec_of(key_by_key()), chosen in any::<prop::sample::Index>()) {
        let text = expected.document().source();
        let lines: Vec<&str> = text.lines().collect();
        // A list of sections is overridden item by item.
        let plain = |line: &&&str| !line.starts_with("strings = ") && !line.starts_with("box.holes = ");
        let candidates: Vec<&&str> = lines.iter().filter(plain).collect();
        prop_assume!(!candidates.is_empty());
        let taken = *candidates[chosen.index(candidates.len())];
        let (key, value) = taken.split_once(" = ").expect("a line of a key and a value");
        let rest: String = lines.iter().filter(|line| **line != taken).map(|line| format!("{line}\n")).collect();
        let overridden = Document::parse(rest.as_bytes()).with_override(key, value.trim_matches('"'));
        let read = overridden.read();
        prop_assert_eq!(
            read.value(),
            Some(&*expected),
            "{} as an override of\n{}",
            taken,
            rest
        );
    }
}

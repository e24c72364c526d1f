//! Does anything that a stranger may hand over end the program, or get lost without a word?
//!
//! Sound texts are mangled: cut, repeated, spliced with others, their numbers made extreme, bytes put in that no text has. Each
//! result is read as a document, a roster, a measured file, a stock list or a brought outline, and must be refused with words or
//! understood. `PROPTEST_CASES=200000 cargo test --workspace --test mangled` goes on for long; what it finds is kept in
//! `tests/corpus/`, which is read every time.

mod mangle;
mod texts;

use boxneck::batch::Roster;
use boxneck::spec::{Diagnostic, Document};
use boxneck::{Instrument, MeasuredFormat, layout, measured, setup};
use proptest::prelude::*;
use proptest::test_runner::{Config, RngSeed};

use mangle::mangled;
use texts::{Kind, kept};

/// The same texts in every run, unless more or others are asked for.
fn config() -> Config {
    let fixed = std::env::var_os("PROPTEST_RNG_SEED").is_none();
    let counted = std::env::var_os("PROPTEST_CASES").is_none();
    let default = Config { failure_persistence: None, ..Config::default() };
    Config {
        cases: if counted { 400 } else { default.cases },
        rng_seed: if fixed { RngSeed::Fixed(31) } else { default.rng_seed },
        ..default
    }
}

/// That what is refused is refused with words, each fault with its own.
fn has_words(faults: &[Diagnostic]) -> Result<(), TestCaseError> {
    prop_assert!(!faults.is_empty(), "a refusal has a reason");
    for fault in faults {
        prop_assert!(!fault.message.is_empty(), "a fault at {:?} has words", fault.place);
    }
    Ok(())
}

fn read_document(bytes: &[u8]) -> Result<(), TestCaseError> {
    match Document::parse(bytes).read().into_result() {
        Err(faults) => has_words(&faults),
        Ok((spec, _)) => {
            let text = spec.to_document_text();
            let again = Document::parse(text.as_bytes()).read().into_result();
            prop_assert!(
                again.is_ok_and(|(again, _)| again == spec),
                "what is understood can be written down:\n{text}"
            );
            // What cannot be laid out is told in words too; it may not end the program.
            let told = layout::layout(&spec).map_or_else(|fault| fault.to_string(), |_| "laid out".into());
            prop_assert!(!told.is_empty(), "a refusal has a reason");
            Ok(())
        }
    }
}

fn read_roster(bytes: &[u8]) -> Result<(), TestCaseError> {
    let roster = Roster::parse(bytes);
    prop_assert!(
        !roster.rows().is_empty() || !roster.faults().is_empty(),
        "rows, or a reason why there are none"
    );
    for fault in roster.faults() {
        prop_assert!(!fault.message.is_empty(), "a fault has words: {fault:?}");
    }
    Ok(())
}

fn read_measured(bytes: &[u8]) -> Result<(), TestCaseError> {
    let instrument = Instrument::of(&Document::parse(b"")).expect("the default instrument is sound");
    let file = Document::parse(bytes);
    for format in [MeasuredFormat::Toml, MeasuredFormat::Csv] {
        match measured(&instrument, &file, format).into_result() {
            Err(faults) => has_words(&faults)?,
            Ok((readings, _)) => {
                let told =
                    setup(&instrument, &readings).map_or_else(|fault| fault.to_string(), |_| "set up".into());
                prop_assert!(!told.is_empty(), "a refusal has a reason");
            }
        }
    }
    Ok(())
}

fn read_stock(bytes: &[u8]) -> Result<(), TestCaseError> {
    Document::parse(bytes).read_stock().into_result().map_or_else(|faults| has_words(&faults), |_| Ok(()))
}

fn read_outline(bytes: &[u8]) -> Result<(), TestCaseError> {
    let naming = Document::parse(b"[headstock]\noutline = \"brought.dxf\"\noutline_units = \"mm\"\n");
    let document = naming.with_file("brought.dxf", Ok(bytes.to_vec()));
    document.read().into_result().map_or_else(|faults| has_words(&faults), |_| Ok(()))
}

fn read(kind: Kind, bytes: &[u8]) -> Result<(), TestCaseError> {
    match kind {
        Kind::Document => read_document(bytes),
        Kind::Roster => read_roster(bytes),
        Kind::Measured => read_measured(bytes),
        Kind::Stock => read_stock(bytes),
        Kind::Outline => read_outline(bytes),
    }
}

#[test]
fn what_was_found_once_is_read_every_time() {
    for kind in Kind::ALL {
        let kept = kept(kind);
        assert!(!kept.is_empty(), "there are texts of {kind:?} to begin from");
        for (name, bytes) in kept {
            read(kind, &bytes).unwrap_or_else(|fault| panic!("{name}: {fault}"));
        }
    }
}

proptest! {
    #![proptest_config(config())]

    #[test]
    fn documents(text in mangled(Kind::Document)) {
        read_document(&text.0)?;
    }

    #[test]
    fn rosters(text in mangled(Kind::Roster)) {
        read_roster(&text.0)?;
    }

    #[test]
    fn measured_files(text in mangled(Kind::Measured)) {
        read_measured(&text.0)?;
    }

    #[test]
    fn stock_lists(text in mangled(Kind::Stock)) {
        read_stock(&text.0)?;
    }

    #[test]
    fn outlines(text in mangled(Kind::Outline)) {
        read_outline(&text.0)?;
    }
}

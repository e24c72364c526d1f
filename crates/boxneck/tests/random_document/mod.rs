//! What do documents look like that nobody thought of?
//!
//! [`text`] draws one line a key over every key that the reader knows. Most keys are left out or take a value that a
//! builder might write; a key of a wild document may take any value that the reader allows for it alone. A draw shrinks
//! to fewer keys, so that what fails is shown by a short document. Since chance seldom hits a plan that all the checks let pass,
//! one draw in four changes a little of a plan that works.

mod lists;
mod near;
mod realistic;
mod tail;

use boxneck::spec::{Document, KeyInfo, KeyKind, Quantity, Spec, keys};
use boxneck::{Instrument, Refusal};
use proptest::prelude::*;
use proptest::strategy::Union;
use proptest::test_runner::{Config, RngSeed};

/// How often a key stands in a document at all.
const GIVEN: f64 = 0.6;

/// The same documents in every run; `PROPTEST_CASES` asks for more of them and `PROPTEST_RNG_SEED` for others.
pub fn config(cases: u32) -> Config {
    let fixed = std::env::var_os("PROPTEST_RNG_SEED").is_none();
    let counted = std::env::var_os("PROPTEST_CASES").is_none();
    let default = Config { failure_persistence: None, ..Config::default() };
    Config {
        cases: if counted { cases } else { default.cases },
        rng_seed: if fixed { RngSeed::Fixed(29) } else { default.rng_seed },
        max_global_rejects: u32::MAX,
        ..default
    }
}

/// The text of any document, sound or not: key by key, or near a plan that works.
pub fn text() -> impl Strategy<Value = String> {
    prop_oneof![3 => key_by_key(), 1 => near::text()]
}

/// Every key by lot, a line each: three of four documents keep to what a builder might write, one in four is wild.
pub fn key_by_key() -> impl Strategy<Value = String> {
    let wildness = prop_oneof![12 => Just(0.0), 3 => Just(0.04), 1 => Just(0.25)];
    (wildness, 1..=6_usize, any::<bool>()).prop_flat_map(|(wildness, strings, given)| {
        let lines: Vec<_> = keys()
            .iter()
            .filter_map(|key| line(key, wildness, strings))
            .map(|line| prop::option::weighted(GIVEN, line).boxed())
            .chain(given.then(|| lists::strings(strings, wildness).prop_map(Some).boxed()))
            .chain(
                [lists::holes(wildness), tail::lines(wildness)]
                    .map(|lines| prop::option::weighted(GIVEN, lines).boxed()),
            )
            .collect();
        lines.prop_map(|lines| lines.into_iter().flatten().collect())
    })
}

/// What was made of a document; a failing test shows the document's text alone.
pub struct Drawn<Made> {
    document: Document,
    made: Made,
}

impl<Made> Drawn<Made> {
    /// The document that it was made of.
    pub fn document(&self) -> &Document {
        &self.document
    }
}

impl<Made> std::ops::Deref for Drawn<Made> {
    type Target = Made;

    fn deref(&self) -> &Made {
        &self.made
    }
}

impl<Made> std::fmt::Debug for Drawn<Made> {
    fn fmt(&self, formatter: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(formatter, "\n{}", self.document.source())
    }
}

/// An instrument that can be laid out; draws that are refused are drawn again.
pub fn instrument() -> impl Strategy<Value = Drawn<Instrument>> {
    text().prop_filter_map("the document is refused", |text| {
        let made = made(&text).ok()?;
        Some(Drawn { document: made.document().clone(), made })
    })
}

/// An instrument that no check fails.
pub fn sound_instrument() -> impl Strategy<Value = Drawn<Instrument>> {
    instrument().prop_filter("a check fails", |instrument| instrument.worst() < boxneck::fit::Severity::Fail)
}

/// What a document says that can be read.
pub fn spec() -> impl Strategy<Value = Drawn<Spec>> {
    spec_of(text())
}

/// What those of such texts say that can be read.
pub fn spec_of(texts: impl Strategy<Value = String>) -> impl Strategy<Value = Drawn<Spec>> {
    texts.prop_filter_map("the document is refused", |text| {
        let document = Document::parse(text.as_bytes());
        let made = document.read().into_result().ok()?.0;
        Some(Drawn { document, made })
    })
}

/// The instrument of a text.
pub fn made(text: &str) -> Result<Instrument, Refusal> {
    Instrument::of(&Document::parse(text.as_bytes()))
}

/// One line of the document: a dotted key and its value.
fn line(key: &'static KeyInfo, wildness: f64, strings: usize) -> Option<BoxedStrategy<String>> {
    if !stands_alone(key) || tail::KEYS.contains(&key.path.as_str()) {
        return None;
    }
    let path = key.path.clone();
    Some(value(key, wildness, strings)?.prop_map(move |value| format!("{path} = {value}\n")).boxed())
}

/// Whether a key is not one of a list's items.
fn stands_alone(key: &KeyInfo) -> bool {
    !key.path.contains(".N.")
}

/// A value as TOML writes it.
fn value(key: &'static KeyInfo, wildness: f64, strings: usize) -> Option<BoxedStrategy<String>> {
    let quoted = |word: &str| format!("\"{word}\"");
    let choice = || {
        let words: Vec<String> = key.choices.iter().map(|word| quoted(word)).collect();
        prop::sample::select(words).boxed()
    };
    let number = || mostly(realistic::range(&key.path, strings), allowed(key), wildness);
    Some(match key.kind {
        KeyKind::Length => number().prop_map(|value| format!("\"{value} mm\"")).boxed(),
        KeyKind::Angle => number().prop_map(|value| format!("\"{value} deg\"")).boxed(),
        KeyKind::Count => number().prop_map(|value| format!("{}", value.round())).boxed(),
        KeyKind::LengthPair => {
            (number(), number()).prop_map(|(a, b)| format!("[\"{a} mm\", \"{b} mm\"]")).boxed()
        }
        KeyKind::Choice | KeyKind::Wood | KeyKind::WrapMaterial => choice(),
        KeyKind::Wire => prop_oneof![
            (12..=20_u8).prop_map(|gauge| format!("\"{gauge} AWG\"")),
            number().prop_map(|value| format!("\"{value} mm\"")),
        ]
        .boxed(),
        KeyKind::BoardRadius => {
            prop_oneof![Just(quoted("flat")), number().prop_map(|value| format!("\"{value} mm\""))].boxed()
        }
        KeyKind::FretPattern => {
            let list = prop::collection::btree_set(1..=36_u8, 4..16)
                .prop_map(|list| format!("{:?}", list.into_iter().collect::<Vec<_>>()));
            prop_oneof![4 => choice(), 1 => list].boxed()
        }
        KeyKind::Text => Just(quoted("Drawn by lot")).boxed(),
        _ => return None,
    })
}

/// The limits of a key, in millimetres, degrees or pieces.
fn allowed(key: &KeyInfo) -> (f64, f64) {
    let plain = |quantity| match quantity {
        Quantity::Length(length) => length.as_mm(),
        Quantity::Angle(angle) => angle.as_degrees(),
        Quantity::Count(count) => f64::from(count),
    };
    let range = key.range.unwrap_or_else(|| panic!("{} is a number and has limits", key.path));
    (plain(range.least), plain(range.most))
}

/// A number to two places, from the usual range or, seldom, from the whole of what is allowed.
fn mostly(usual: Option<(f64, f64)>, allowed: (f64, f64), wildness: f64) -> BoxedStrategy<f64> {
    let hundredths = |(least, most): (f64, f64)| {
        ((least * 100.0).ceil() as i32..=(most * 100.0).floor() as i32)
            .prop_map(|number| f64::from(number) / 100.0)
            .boxed()
    };
    let usual = hundredths(usual.unwrap_or(allowed));
    let wild = (wildness * 100.0) as u32;
    if wild == 0 {
        return usual;
    }
    Union::new_weighted(vec![(100 - wild, usual), (wild, hundredths(allowed))]).boxed()
}

//! What do documents look like that change a little of a plan that works?

use boxneck::spec::{Document, KeyInfo, keys};
use proptest::prelude::*;
use proptest::strategy::Union;

use super::{stands_alone, value};

/// The plans to begin from.
const PLANS: [&str; 4] = [
    include_str!("../../../../specs/porch-three-string.toml"),
    include_str!("../../../../specs/kitchen-four-string.toml"),
    include_str!("../../../../specs/left-hand-six.toml"),
    include_str!("../../../../specs/meadow-diatonic.toml"),
];

/// How many keys are changed at the most.
const CHANGES: usize = 3;

/// One of the plans with up to three keys set to what a builder might write.
pub fn text() -> BoxedStrategy<String> {
    let changes = prop::collection::vec(change(), 0..=CHANGES);
    (prop::sample::select(&PLANS[..]), changes)
        .prop_filter_map("a value has no place in the plan", |(plan, changes)| {
            let lay_over =
                |document: Document, (key, value): &(String, String)| document.with_override(key, value);
            changes.iter().fold(Document::parse(plan.as_bytes()), lay_over).to_text()
        })
        .boxed()
}

/// A dotted key and a value for it, as a spreadsheet's cell holds it.
fn change() -> BoxedStrategy<(String, String)> {
    let of_key = |key: &'static KeyInfo| {
        let cell = |value: String| value.replace(['[', ']', '"'], "");
        Some(value(key, 0.0, 3)?.prop_map(move |value| (key.path.clone(), cell(value))).boxed())
    };
    Union::new(keys().iter().filter(|key| stands_alone(key)).filter_map(of_key)).boxed()
}

//! Plans that are broken on purpose: for every check one or more that it does not let pass, and that its cures can mend.

mod assembly;
mod building;
mod first;
mod playing;

use spec::Document;

/// A plan with some values changed.
fn plan(text: &str, changes: &[(&str, &str)]) -> Document {
    let start = Document::parse(text.as_bytes());
    changes.iter().fold(start, |document, (key, value)| document.with_override(key, value))
}

/// The check that a plan breaks, and the plan.
pub fn broken() -> Vec<(&'static str, Document)> {
    [first::first(), playing::playing(), building::building(), assembly::assembly()].concat()
}

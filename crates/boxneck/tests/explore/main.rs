//! Are plans searched as closed forms say, and are answers the same on any number of threads?

mod answers;
mod closed_forms;
mod questions;

use boxneck::explore::{Answer, Axis, Base, ExploreFault, Question, Want, explore};
use boxneck::layout::playing::Player;
use boxneck::spec::Document;

/// A question in the words of the command line.
#[derive(Clone, Copy, Default)]
struct Words<'a> {
    vary: &'a [&'a str],
    want: &'a [&'a str],
    best: &'a [&'a str],
    lock: &'a [&'a str],
    plans: Option<usize>,
}

fn ask(document: &str, words: Words<'_>) -> Result<Answer, ExploreFault> {
    let base = Base::of(&Document::parse(document.as_bytes()))?;
    let usual = Question::default();
    let question = Question {
        axes: words.vary.iter().map(|text| Axis::parse(&base, text)).collect::<Result<_, _>>()?,
        wants: words.want.iter().map(|text| Want::parse(text)).collect::<Result<_, _>>()?,
        best: words.best.iter().map(|name| Question::measure(name)).collect::<Result<_, _>>()?,
        locks: words.lock.iter().map(ToString::to_string).collect(),
        plans: words.plans.unwrap_or(usual.plans),
        ..usual
    };
    explore(&base, &question, &Player::default())
}

#[track_caller]
fn answered(document: &str, words: Words<'_>) -> Answer {
    ask(document, words).unwrap_or_else(|fault| panic!("{:?} has an answer: {fault}", words.vary))
}

/// The document of the folder `specs`.
fn of_specs(name: &str) -> String {
    let path = format!("{}/../../specs/{name}.toml", env!("CARGO_MANIFEST_DIR"));
    std::fs::read_to_string(path).expect("the document is there")
}

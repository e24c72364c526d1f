//! Are the random documents worth drawing?

use boxneck::fit::Severity;
use proptest::prelude::*;
use proptest::strategy::ValueTree;
use proptest::test_runner::TestRunner;

use crate::random_document::{config, made, text};

const DRAWS: usize = 400;

#[test]
fn most_random_documents_describe_an_instrument() {
    let mut runner = TestRunner::new(config(1));
    let (mut accepted, mut sound) = (0, 0);
    for _ in 0..DRAWS {
        let text = text().new_tree(&mut runner).expect("a text can always be drawn").current();
        if let Ok(instrument) = made(&text) {
            accepted += 1;
            sound += usize::from(instrument.worst() < Severity::Fail);
        }
    }
    assert!(
        accepted * 10 > DRAWS * 3,
        "more than 3 in 10 of {DRAWS} documents describe an instrument, found {accepted}"
    );
    assert!(sound * 20 > DRAWS, "more than 1 in 20 of {DRAWS} fail no check, found {sound}");
}

//! Does `check --mend` write a copy that is cured, and leave the original alone?

use boxneck_tests::{call, repository};

fn low_tail() -> String {
    std::fs::read_to_string(repository().join("specs/runaway-low-tail.toml")).expect("a document of specs/")
}

#[test]
fn a_mended_copy_stands_beside_the_original() {
    let folder = tempfile::tempdir().expect("a folder to work in");
    let (original, copy) = (folder.path().join("low.toml"), folder.path().join("low.mended.toml"));
    std::fs::write(&original, low_tail()).expect("a document");
    let called = call(folder.path(), &["check", "--mend", "low.toml"]);
    assert!(called.stdout.contains("tail.hole_height: 4 mm -> "), "the change is told: {}", called.stdout);
    assert_eq!(std::fs::read_to_string(&original).ok(), Some(low_tail()), "the original is left alone");

    let mended = std::fs::read_to_string(&copy).expect("a copy beside it");
    let comments = |text: &str| text.matches('#').count();
    assert_eq!(comments(&mended), comments(&low_tail()), "the comments stay");
    assert_eq!(mended.lines().count(), low_tail().lines().count(), "the layout stays");
    let checked = call(folder.path(), &["check", "low.mended.toml"]);
    assert_eq!(checked.code, Some(0), "{}", checked.stdout);
    for cured in ["break-over-saddle", "saddle-drift"] {
        assert!(called.stdout.contains(cured), "{cured} was there: {}", called.stdout);
        assert!(!checked.stdout.contains(cured), "{cured} is cured: {}", checked.stdout);
    }
}

#[test]
fn a_file_that_is_there_is_written_over_only_when_told() {
    let folder = tempfile::tempdir().expect("a folder to work in");
    let (original, copy) = (folder.path().join("low.toml"), folder.path().join("low.mended.toml"));
    std::fs::write(&original, low_tail()).expect("a document");
    std::fs::write(&copy, "mine").expect("another file");
    let refused = call(folder.path(), &["check", "--mend", "low.toml"]);
    assert_eq!(refused.code, Some(2), "{}", refused.stderr);
    assert!(refused.stderr.contains("low.mended.toml"), "says which: {}", refused.stderr);
    assert_eq!(std::fs::read_to_string(&copy).ok().as_deref(), Some("mine"), "left alone");

    let in_place = call(folder.path(), &["check", "--mend", "--in-place", "low.toml"]);
    assert_eq!(in_place.code, Some(0), "{}", in_place.stderr);
    assert_ne!(
        std::fs::read_to_string(&original).ok(),
        Some(low_tail()),
        "told to, it writes over the original"
    );
    assert_eq!(call(folder.path(), &["check", "--in-place", "low.toml"]).code, Some(2), "in place of what?");
}

#[test]
fn programs_read_the_mends_too() {
    let folder = tempfile::tempdir().expect("a folder to work in");
    std::fs::write(folder.path().join("low.toml"), low_tail()).expect("a document");
    let called = call(folder.path(), &["check", "--mend", "--format", "json", "low.toml"]);
    let record: serde_json::Value = serde_json::from_str(called.stdout.trim()).expect("one object");
    let changes = record["mended"]["changes"].as_array().expect("a list of changes");
    assert!(changes.iter().any(|change| change["key"] == "tail.hole_height"), "{changes:?}");
    let remedies = record["layout"]["remedies"].as_array().expect("a list of remedies");
    assert!(remedies.iter().any(|remedy| remedy["id"] == "saddle-drift"), "{remedies:?}");
}

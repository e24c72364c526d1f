//! Is every bad document refused with its codes, and does a refusal leave nothing behind?

use std::path::{Path, PathBuf};

use boxneck_tests::{call, repository};

/// `not-utf8.toml` cannot name its code itself.
const NOT_TEXT: (&str, &str) = ("not-utf8.toml", "S001");

fn corpus() -> Vec<PathBuf> {
    let entries =
        std::fs::read_dir(repository().join("tests/bad")).expect("there is a corpus of bad documents");
    let paths = entries.map(|entry| entry.expect("an entry of the corpus").path());
    let mut found: Vec<PathBuf> =
        paths.filter(|path| path.extension().is_some_and(|ending| ending == "toml")).collect();
    found.sort();
    found
}

/// The codes that the first line of a bad document says, in order.
fn expected_codes(path: &Path) -> Vec<String> {
    if path.ends_with(NOT_TEXT.0) {
        return vec![NOT_TEXT.1.into()];
    }
    let bytes = std::fs::read(path).expect("a document of the corpus");
    let first = bytes.split(|byte| *byte == b'\n').next().unwrap_or_default();
    let first = String::from_utf8_lossy(first).into_owned();
    let codes =
        first.strip_prefix("# expects:").unwrap_or_else(|| panic!("{} expects nothing", path.display()));
    codes.split_whitespace().map(str::to_owned).collect()
}

/// The codes in the heads of diagnostics, `error[S011]: ...`, in the order in which they are told.
fn told_codes(text: &str) -> Vec<String> {
    let after =
        text.lines().filter_map(|line| line.split_once("[S").filter(|(before, _)| is_severity(before)));
    after.filter_map(|(_, rest)| rest.split_once(']').map(|(digits, _)| format!("S{digits}"))).collect()
}

fn is_severity(word: &str) -> bool {
    matches!(word, "error" | "warning")
}

fn is_empty(folder: &Path) -> bool {
    std::fs::read_dir(folder).expect("a folder of the test").next().is_none()
}

/// Calls a command on a document in an empty folder and checks the refusal.
#[track_caller]
fn check_refused(command: &str, document: &Path) {
    let folder = tempfile::tempdir().expect("a folder to work in");
    let path = document.to_str().expect("the corpus has plain names");
    let called = call(folder.path(), &[command, path]);
    let name = document.display();
    assert_eq!(
        called.code,
        Some(2),
        "{command} {name}: a wrong document is exit code 2; said {}",
        called.stderr
    );
    assert_eq!(
        called.stdout, "",
        "{command} {name}: there is no result, so nothing is said on standard output"
    );
    assert_eq!(
        told_codes(&called.stderr),
        expected_codes(document),
        "{command} {name}: the codes that are told"
    );
    assert!(is_empty(folder.path()), "{command} {name}: a refusal writes nothing");
}

#[test]
fn the_corpus_is_there() {
    assert!(corpus().len() >= 40, "{} bad documents found, the other tests would be idle", corpus().len());
}

#[test]
fn make_refuses_every_bad_document() {
    for document in corpus() {
        check_refused("make", &document);
    }
}

#[test]
fn check_refuses_every_bad_document() {
    for document in corpus() {
        check_refused("check", &document);
    }
}

#[test]
fn a_refusal_leaves_an_earlier_build_as_it_was() {
    let folder = tempfile::tempdir().expect("a folder to work in");
    let document = folder.path().join("porch.toml");
    let good = "name = \"Porch\"\n";
    std::fs::write(&document, good).expect("a document");
    let first = call(folder.path(), &["make", "porch.toml", "-o", "made"]);
    assert!(matches!(first.code, Some(0 | 1)), "the defaults can be made: {}", first.stderr);
    let manifest = folder.path().join("made/porch/manifest.json");
    let before = std::fs::read(&manifest).expect("a build has a manifest");
    std::fs::write(&document, format!("{good}[scale]\nlength = \"64 mm\"\n")).expect("a document");
    let second = call(folder.path(), &["make", "porch.toml", "-o", "made"]);
    assert_eq!(second.code, Some(2), "64 mm is no scale length: {}", second.stderr);
    assert_eq!(
        std::fs::read(&manifest).expect("the earlier manifest"),
        before,
        "the earlier build is untouched"
    );
    let left: Vec<_> = std::fs::read_dir(folder.path().join("made")).expect("the output folder").collect();
    assert_eq!(left.len(), 1, "no staging folder remains");
}

#[test]
fn a_missing_document_is_the_machines_fault_and_writes_nothing() {
    let folder = tempfile::tempdir().expect("a folder to work in");
    let called = call(folder.path(), &["make", "nowhere.toml"]);
    assert!(matches!(called.code, Some(2 | 3)), "no such document: {:?}, {}", called.code, called.stderr);
    assert!(called.stderr.contains("nowhere.toml"), "the message names the file: {}", called.stderr);
    assert!(is_empty(folder.path()), "nothing is written");
}

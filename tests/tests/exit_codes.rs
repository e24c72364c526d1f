//! Do exit codes and streams tell the truth to scripts?

use std::io::Read;
use std::path::Path;
use std::process::{Command, Stdio};

use boxneck_tests::{Call, call, program, repository};

/// A folder with one document in it.
fn folder_with(document: &str) -> tempfile::TempDir {
    let folder = tempfile::tempdir().expect("a folder to work in");
    std::fs::write(folder.path().join("instrument.toml"), document).expect("a document");
    folder
}

#[track_caller]
fn check(document: &str, arguments: &[&str], expected: i32) -> Call {
    let folder = folder_with(document);
    let called = call(folder.path(), arguments);
    assert_eq!(called.code, Some(expected), "{arguments:?}: {}{}", called.stdout, called.stderr);
    called
}

/// Sound by its keys, and nothing of it will play: more frets are wanted than the neck has room for.
const FAILING: &str = "name = \"Too many frets\"\n[scale]\nlength = \"25 in\"\nfrets = 36\n";

fn sound() -> String {
    std::fs::read_to_string(repository().join("specs/porch-three-string.toml"))
        .expect("the first document of specs/")
}

#[test]
fn what_holds_is_0() {
    check(&sound(), &["check", "instrument.toml"], 0);
    check(&sound(), &["make", "instrument.toml", "-o", "made"], 0);
}

#[test]
fn a_failing_finding_is_1_and_makes_nothing_unless_asked_to() {
    let folder = folder_with(FAILING);
    let checked = call(folder.path(), &["check", "instrument.toml"]);
    assert_eq!(checked.code, Some(1), "36 frets do not fit: {}{}", checked.stdout, checked.stderr);
    assert!(checked.stdout.contains("frets-reached"), "the finding says its name: {}", checked.stdout);
    let made = call(folder.path(), &["make", "instrument.toml", "-o", "made"]);
    assert_eq!(made.code, Some(1), "{}", made.stderr);
    assert!(!folder.path().join("made/too-many-frets").exists(), "with a failure nothing is made");
    let anyway = call(folder.path(), &["make", "instrument.toml", "-o", "made", "--anyway"]);
    assert_eq!(anyway.code, Some(1), "made, and still failing: {}", anyway.stderr);
    let manifest = std::fs::read_to_string(folder.path().join("made/too-many-frets/manifest.json"));
    let manifest = manifest.expect("--anyway makes the files");
    assert!(manifest.contains("\"made_despite_failures\": true"), "the manifest is marked: {manifest}");
}

#[test]
fn a_wrong_call_is_2() {
    for arguments in [
        &["make"][..],
        &["mkae", "instrument.toml"],
        &["make", "instrument.toml", "--formats", "exe"],
        &["make", "instrument.toml", "--paper", "a5"],
        &["make", "instrument.toml", "--measured-mark", "99.8"],
        &["make", "instrument.toml", "--measured-mark", "90,100"],
        &["make", "instrument.toml", "--measured-mark", "99.8,wide"],
        &["make", "instrument.toml", "--only", "banjo", "-o", "made"],
        &["check", "instrument.toml", "--format", "xml"],
    ] {
        let called = check(&sound(), arguments, 2);
        assert_eq!(called.stdout, "", "{arguments:?}: talk goes to standard error");
        assert_ne!(called.stderr, "", "{arguments:?}: and says why");
    }
}

#[test]
fn a_machine_that_refuses_is_3() {
    // A path through a regular file can be made by nobody, not even by root.
    let folder = folder_with(&sound());
    std::fs::write(folder.path().join("file"), "in the way").expect("a file");
    let called = call(folder.path(), &["make", "instrument.toml", "-o", "file/made"]);
    assert_eq!(called.code, Some(3), "{}{}", called.stdout, called.stderr);
    assert_eq!(
        std::fs::read_to_string(folder.path().join("file")).expect("the file"),
        "in the way",
        "it is untouched"
    );
    assert_eq!(std::fs::read_dir(folder.path()).expect("the folder").count(), 2, "nothing else is left");
}

#[test]
fn a_folder_of_somebody_elses_is_never_replaced() {
    let folder = folder_with("name = \"Mine\"\n");
    let foreign = folder.path().join("made/mine");
    std::fs::create_dir_all(&foreign).expect("a folder");
    std::fs::write(foreign.join("diary.txt"), "dear").expect("a file");
    let called = call(folder.path(), &["make", "instrument.toml", "-o", "made"]);
    assert!(matches!(called.code, Some(2 | 3)), "{:?}: {}", called.code, called.stderr);
    assert_eq!(std::fs::read_dir(&foreign).expect("the folder").count(), 1, "nothing was added to it");
    assert_eq!(
        std::fs::read_to_string(foreign.join("diary.txt")).expect("the file"),
        "dear",
        "nor changed in it"
    );
}

#[test]
fn files_of_the_builder_in_a_build_are_carried_over_and_stale_ones_go() {
    let folder = folder_with("name = \"Mine\"\n[fretboard]\nthickness = \"6 mm\"\n");
    let first = call(folder.path(), &["make", "instrument.toml", "-o", "made", "--anyway"]);
    assert!(matches!(first.code, Some(0 | 1)), "{}", first.stderr);
    let build = folder.path().join("made/mine");
    let board = build.join("drawings/fretboard_mm.dxf");
    assert!(board.exists(), "a board of some thickness is drawn");
    std::fs::write(build.join("notes.txt"), "glued on Monday").expect("a file of the builder");
    std::fs::write(folder.path().join("instrument.toml"), "name = \"Mine\"\n").expect("a document");
    let second = call(folder.path(), &["make", "instrument.toml", "-o", "made", "--anyway"]);
    assert!(matches!(second.code, Some(0 | 1)), "{}", second.stderr);
    assert!(!board.exists(), "a drawing that is no longer made does not stay");
    let notes = std::fs::read_to_string(build.join("notes.txt"));
    assert_eq!(notes.ok().as_deref(), Some("glued on Monday"), "what is not ours stays");
}

#[test]
fn new_never_overwrites() {
    let folder = tempfile::tempdir().expect("a folder to work in");
    let first = call(folder.path(), &["new", "mine.toml"]);
    assert_eq!(first.code, Some(0), "{}", first.stderr);
    let document = folder.path().join("mine.toml");
    let begun = std::fs::read_to_string(&document).expect("a new document");
    let checked = call(folder.path(), &["check", "mine.toml"]);
    assert_eq!(checked.code, Some(0), "a new document holds as it is: {}{}", checked.stdout, checked.stderr);
    std::fs::write(&document, "# precious\n").expect("the document");
    let second = call(folder.path(), &["new", "mine.toml"]);
    assert!(matches!(second.code, Some(2 | 3)), "{:?}: {}", second.code, second.stderr);
    let kept = std::fs::read_to_string(&document).expect("the document");
    assert_eq!(kept, "# precious\n", "what was there is there still");
    assert!(begun.contains('#'), "a new document explains its keys");
}

#[test]
fn json_is_one_object_a_line_with_a_version() {
    for (document, code) in [(sound(), 0), (FAILING.to_owned(), 1)] {
        let called = check(&document, &["check", "instrument.toml", "--format", "json"], code);
        check_json_lines(&called.stdout);
    }
    let made = check(&sound(), &["make", "instrument.toml", "-o", "made", "--format", "json"], 0);
    check_json_lines(&made.stdout);
    // What keeps a build from being made is a result too.
    let held_back = check(FAILING, &["make", "instrument.toml", "-o", "made", "--format", "json"], 1);
    check_json_lines(&held_back.stdout);
    let refused = check("colour = \"red\"\n", &["check", "instrument.toml", "--format", "json"], 2);
    let spoken = format!("{}{}", refused.stdout, refused.stderr);
    let line =
        spoken.lines().find(|line| line.contains("S006")).unwrap_or_else(|| panic!("S006 is told: {spoken}"));
    check_json_lines(line);
}

#[track_caller]
fn check_json_lines(text: &str) {
    assert_ne!(text, "", "there is a result");
    for line in text.lines() {
        let object: serde_json::Value = serde_json::from_str(line)
            .unwrap_or_else(|fault| panic!("{line:?} is not one JSON object: {fault}"));
        let version = object.get("version").unwrap_or_else(|| panic!("no version in {line}"));
        assert!(version.is_u64() || version.is_string(), "the version is a plain value: {line}");
    }
}

#[test]
fn results_and_talk_do_not_mix() {
    let called = check(&sound(), &["schema"], 0);
    let schema: Result<serde_json::Value, _> = serde_json::from_str(&called.stdout);
    assert!(schema.is_ok(), "standard output holds the schema and nothing else");
    assert_eq!(called.stderr, "", "there is nothing to talk about");
}

#[test]
fn no_colour_and_no_control_characters_off_a_terminal() {
    for arguments in [&["check", "instrument.toml"][..], &["make", "instrument.toml", "-o", "made"]] {
        let called = check(&sound(), arguments, 0);
        let strange = |text: &str| text.chars().any(|letter| letter.is_control() && letter != '\n');
        assert!(!strange(&called.stdout) && !strange(&called.stderr), "{arguments:?}: {called:?}");
    }
}

#[test]
fn a_closed_pipe_is_a_quiet_success() {
    // The reader goes away after the first bytes, as `head` does; the schema is larger than what a pipe may buffer or
    // is written after the reader has gone.
    let folder = folder_with(&sound());
    for arguments in [&["schema"][..], &["check", "instrument.toml"]] {
        let mut child = Command::new(program())
            .args(arguments)
            .current_dir(folder.path())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .expect("the program was built just before");
        drop(child.stdout.take());
        let mut stderr = String::new();
        child.stderr.take().expect("a pipe").read_to_string(&mut stderr).expect("the program speaks UTF-8");
        let status = child.wait().expect("the program ends");
        assert_eq!(status.code(), Some(0), "{arguments:?}: {stderr}");
        assert_eq!(stderr, "", "{arguments:?} says nothing about it");
    }
}

#[test]
fn every_document_of_the_project_is_checked_in_one_call() {
    let documents = std::fs::read_dir(repository().join("specs")).expect("there are documents");
    let paths: Vec<String> = documents
        .map(|entry| entry.expect("an entry of specs/").path())
        .filter(|path| path.extension().is_some_and(|ending| ending == "toml"))
        .map(|path| path.to_str().expect("a plain name").to_owned())
        .collect();
    let arguments: Vec<&str> = std::iter::once("check").chain(paths.iter().map(String::as_str)).collect();
    let called = call(Path::new("."), &arguments);
    assert_eq!(called.code, Some(0), "{}{}", called.stdout, called.stderr);
}

#[test]
fn one_bad_document_does_not_keep_the_others_from_being_made() {
    let folder = folder_with(&sound());
    std::fs::write(folder.path().join("bad.toml"), "colour = \"red\"\n").expect("a document");
    let called = call(folder.path(), &["make", "bad.toml", "instrument.toml", "-o", "made"]);
    assert_eq!(called.code, Some(2), "partial success is not success: {}", called.stderr);
    assert!(called.stderr.contains("S006"), "the bad one says why: {}", called.stderr);
    assert!(folder.path().join("made/porch-three-string/manifest.json").exists(), "the good one is made");
}

//! Does `setup` read what people write, and tell every fault of it at once?

use std::path::Path;

use boxneck_tests::{Call, call, repository};

const PORCH: &str = "specs/porch-three-string.toml";

fn set_up(name: &str, text: &str, more: &[&str]) -> Call {
    let folder = tempfile::tempdir().expect("a folder to work in");
    let file = folder.path().join(name);
    std::fs::write(&file, text).expect("what was measured");
    let plan = repository().join(PORCH).display().to_string();
    let named = Path::new(name).display().to_string();
    let arguments: Vec<&str> =
        ["setup", &plan, "--measured", &named].into_iter().chain(more.iter().copied()).collect();
    call(folder.path(), &arguments)
}

/// Holds a file of measurements against what must be said of it.
#[track_caller]
fn check_refused(name: &str, text: &str, expected: &[&str]) {
    let said = set_up(name, text, &[]);
    assert_eq!(said.code, Some(2), "{}{}", said.stdout, said.stderr);
    assert!(said.stdout.is_empty(), "nothing is said of an instrument: {}", said.stdout);
    for words in expected {
        assert!(said.stderr.contains(words), "expected {words:?} in {}", said.stderr);
    }
}

#[test]
fn nothing_measured_is_said_to_be_expected() {
    for name in ["nothing.toml", "nothing.csv"] {
        let said = set_up(name, "", &[]);
        assert!(said.code < Some(2), "{}{}", said.stdout, said.stderr);
        assert!(said.stdout.contains("measured: 0 readings"), "{}", said.stdout);
    }
}

#[test]
fn toml_and_csv_say_the_same() {
    let toml = "units = \"mm\"\n[fret_heights]\n3 = 1.35\n[[string_heights]]\nfret = 12\nheights = [2.9, 2.8, \"0.11 in\"]\n\
        [[tuner]]\nstring = 1\ncents = { 0 = -1, 12 = 4.5 }\n[[buzz]]\nstring = 2\nfret = 1\n[errors]\nfret_heights = \"0.02 mm\"\n";
    let csv = "what,string,fret,over,value,error\nfret height,,3,,1.35 mm,0.02 mm\nstring height,3,12,,2.9 mm,\n\
        string height,2,12,,2.8 mm,\nstring height,1,12,,0.11 in,\ntuner,1,0,,-1,\ntuner,1,12,,+4.5 cents,\nbuzz,2,1,,,\n";
    let [toml, csv] = [("a.toml", toml), ("a.csv", csv)].map(|(name, text)| set_up(name, text, &[]));
    assert!(toml.code < Some(2), "{}", toml.stderr);
    assert!(toml.stdout.contains("measured: 7 readings"), "{}", toml.stdout);
    assert_eq!(toml.stdout, csv.stdout, "whichever way it is written");
}

#[test]
fn every_fault_of_a_toml_file_is_told_with_what_works() {
    let text = "[fret_heighs]\n1 = 1.3\n[fret_heights]\n40 = \"1.3 mm\"\n2 = \"30 mm\"\n[[string_heights]]\nheights = [1]\n\
        [[string_heights]]\nfret = 12\nheights = [\"1 mm\"]\n[tail]\nheight = \"high\"\n[[tuner]]\nstring = 7\ncents = { 0 = 1 }\n";
    check_refused(
        "faults.toml",
        text,
        &[
            "did you mean fret_heights?",
            "expected a fret between 1 and 18, found 40",
            "must lie between 0 mm and 10 mm",
            "the nearest value that works is 10 mm",
            "expected a fret, found none",
            "expected 3 values, one a string, or two for the outer strings, found 1",
            "tail.height",
            "expected a string between 1 and 3, found 7",
        ],
    );
}

#[test]
fn every_fault_of_a_csv_file_is_told_with_what_works() {
    let text = "what,strin,fret,value\nstring hight,1,12,2.8 mm\nfret height,,0,1.3 mm\ntuner,1,12,sharp\nrelief,,7,\n";
    check_refused(
        "faults.csv",
        text,
        &[
            "did you mean string?",
            "did you mean \"string height\"?",
            "expected a fret between 1 and 18, found 0",
            "row 4",
            "row 5: expected something in the column \"value\"",
        ],
    );
}

#[test]
fn a_file_that_is_not_there_is_a_wrong_call() {
    let plan = repository().join(PORCH).display().to_string();
    let folder = tempfile::tempdir().expect("a folder to work in");
    let said = call(folder.path(), &["setup", &plan, "--measured", "none.toml"]);
    assert_eq!(said.code, Some(2), "{}", said.stderr);
    assert!(said.stderr.contains("none.toml"), "it is named: {}", said.stderr);
}

#[test]
fn what_contradicts_the_rest_is_named_and_the_outcome_fails() {
    let text = "units = \"mm\"\n[[string_heights]]\nfret = 12\nheights = [2.8, 5.8, 2.8]\n";
    let said = set_up("slip.toml", text, &[]);
    assert_eq!(said.code, Some(1), "{}{}", said.stdout, said.stderr);
    assert!(
        said.stdout.contains("the height of string 2 over fret 12: read 5.80 mm, the others say 2.8"),
        "{}",
        said.stdout
    );
}

#[test]
fn the_page_is_written_whole_beside_what_is_said() {
    let folder = tempfile::tempdir().expect("a folder to work in");
    std::fs::write(folder.path().join("read.csv"), "what,fret,value\nfret height,3,1.5 mm\n")
        .expect("a reading");
    let plan = repository().join(PORCH).display().to_string();
    let said = call(folder.path(), &["setup", &plan, "--measured", "read.csv", "--page", "setup.html"]);
    assert!(said.code < Some(2), "{}", said.stderr);
    let page = std::fs::read_to_string(folder.path().join("setup.html")).expect("it was written");
    assert!(page.starts_with("<!DOCTYPE html>") && page.trim_end().ends_with("</html>"), "a whole page");
    for words in [
        "the height of fret 3",
        "What to do",
        "the neck&#39;s set against the box",
        "What does not fit",
        "From above and from the side, to scale",
        "How it will play",
        "Cautions",
    ] {
        assert!(page.replace("&apos;", "&#39;").replace('\'', "&#39;").contains(words), "it says {words}");
    }
}

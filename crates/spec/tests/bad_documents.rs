//! Is every faulty document refused with the faults that it has, and with mends that work?

use std::collections::BTreeSet;
use std::path::PathBuf;
use std::time::{Duration, Instant};

use spec::{CODES, Code, Diagnostic, Document, Origin, Severity};

/// The corpus that stands beside the crates: name and bytes of each document, in the order of names.
fn corpus() -> Vec<(String, Vec<u8>)> {
    let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../tests/bad");
    let entries = std::fs::read_dir(&folder).expect("the corpus is a folder");
    let mut cases: Vec<(String, Vec<u8>)> = entries
        .map(|entry| entry.expect("an entry of the corpus").path())
        .filter(|path| path.extension().is_some_and(|extension| extension == "toml"))
        .map(|path| {
            let name = path.file_stem().expect("a file has a name").to_string_lossy().into_owned();
            (name, std::fs::read(&path).expect("a document of the corpus"))
        })
        .collect();
    cases.sort();
    assert!(cases.len() > 40, "the corpus has its cases, found {}", cases.len());
    cases
}

/// A document with the files of the corpus that it names.
fn document(bytes: &[u8]) -> Document {
    let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../tests/bad");
    let start = Document::parse(bytes);
    start.files().iter().fold(start, |document, name| {
        document.with_file(name, std::fs::read(folder.join(name)).map_err(|fault| fault.to_string()))
    })
}

fn diagnostics(bytes: &[u8]) -> Vec<Diagnostic> {
    document(bytes).read().diagnostics().to_vec()
}

fn texts(diagnostics: &[Diagnostic]) -> Vec<&'static str> {
    diagnostics.iter().map(|diagnostic| diagnostic.code.text()).collect()
}

#[track_caller]
fn check(document: &str, expected: &[&str]) {
    let found = diagnostics(document.as_bytes());
    assert_eq!(texts(&found), expected, "codes of {document:?}: {found:#?}");
}

#[test]
fn the_corpus_is_refused_as_it_says() {
    for (name, bytes) in corpus() {
        let expected: Vec<String> = match std::str::from_utf8(&bytes) {
            Ok(text) => {
                let codes = text.lines().next().and_then(|line| line.strip_prefix("# expects: "));
                codes
                    .unwrap_or_else(|| panic!("{name} says what it expects"))
                    .split(' ')
                    .map(str::to_owned)
                    .collect()
            }
            Err(_) => vec!["S001".to_owned()],
        };
        let found = diagnostics(&bytes);
        assert_eq!(texts(&found), expected, "codes of {name}: {found:#?}");
        assert!(document(&bytes).read().value().is_none(), "{name} describes no instrument");
    }
}

#[test]
fn messages_are_in_style_and_spans_lie_in_the_text() {
    for (name, bytes) in corpus() {
        let document = document(&bytes);
        for diagnostic in document.read().diagnostics() {
            let message = &diagnostic.message;
            assert!(!message.ends_with(['.', '!']), "{name}: no final stop in {message:?}");
            assert!(message.chars().next().is_some_and(|first| !first.is_uppercase()), "{name}: {message:?}");
            let says =
                ["expected", "must lie", "fraction", "comma"].iter().any(|word| message.contains(word));
            assert!(says, "{name}: {message:?} says what was expected");
            let forms = ["as in", ", as ", "\" or \"", "; write \""];
            let helps = !diagnostic.hints.is_empty() || forms.iter().any(|form| message.contains(form));
            assert!(helps, "{name}: {message:?} names a value that works");
            if let Some(span) = diagnostic.place.span() {
                assert!(document.source().get(span.clone()).is_some(), "{name}: {span:?} lies in the text");
            }
        }
    }
}

#[test]
fn every_edit_that_is_offered_removes_the_fault() {
    let mut offered = 0;
    for (name, bytes) in corpus() {
        let document = Document::parse(&bytes);
        for diagnostic in document.read().diagnostics() {
            for edit in diagnostic.hints.iter().filter_map(|hint| hint.edit.as_ref()) {
                offered += 1;
                let mended = document.with_override(&edit.key, &edit.value).read();
                let again: Vec<&Diagnostic> = mended
                    .diagnostics()
                    .iter()
                    .filter(|other| {
                        other.place.key == diagnostic.place.key && other.severity == Severity::Error
                    })
                    .collect();
                assert_eq!(again, Vec::<&Diagnostic>::new(), "{name}: {edit:?} mends {}", diagnostic.message);
            }
        }
    }
    assert!(offered > 20, "edits are offered, found {offered}");
}

#[test]
fn every_code_is_produced() {
    let mut produced: BTreeSet<Code> = BTreeSet::new();
    for (_, bytes) in corpus() {
        produced.extend(diagnostics(&bytes).iter().map(|diagnostic| diagnostic.code));
    }
    let bad_override = Document::parse(b"").with_override("strings.9.pitch", "G3").read();
    produced.extend(bad_override.diagnostics().iter().map(|diagnostic| diagnostic.code));
    for document in [ASSUMED_WRAP, NO_EFFECT] {
        produced.extend(diagnostics(document.as_bytes()).iter().map(|diagnostic| diagnostic.code));
    }
    for (code, text, meaning) in CODES {
        assert!(produced.contains(code), "{text} ({meaning}) is produced by a test");
    }
}

const ASSUMED_WRAP: &str = "[[strings]]\npitch = \"G2\"\ndiameter = \"0.036 in\"\ncore = \"0.017 in\"\n";
const NO_EFFECT: &str = "[neck]\nsection = \"square\"\nedge_radius = \"5 mm\"\n";

#[test]
fn notes_and_warnings_leave_the_instrument() {
    let read = Document::parse(ASSUMED_WRAP.as_bytes()).read();
    assert_eq!(texts(read.diagnostics()), ["S072"], "a wrap is assumed and told");
    let spec = read.value().expect("a note is no error");
    assert_eq!(spec.strings[0].wrap.map(|wrap| wrap.name()), Some("phosphor bronze"), "the assumed wrap");

    let read = Document::parse(NO_EFFECT.as_bytes()).read();
    assert_eq!(texts(read.diagnostics()), ["S071"], "a key without effect");
    assert!(read.value().is_some(), "a warning is no error");
    check("[neck]\nsection = \"square\"\nedge_radius = 0.125\n", &[]);
}

#[test]
fn hints_name_what_was_meant() {
    #[track_caller]
    fn check_hint(document: &str, expected: &str) {
        let found = diagnostics(document.as_bytes());
        let hints: Vec<&str> =
            found.iter().flat_map(|fault| &fault.hints).map(|hint| hint.text.as_str()).collect();
        assert!(
            hints.iter().any(|hint| hint.contains(expected)),
            "expected {expected:?} among the hints {hints:?}"
        );
    }
    check_hint("[neck]\nthicknes = 1\n", "did you mean thickness?");
    check_hint("[scale]\nfrom_tail_end = 1\n", "did you mean saddle.from_tail_end?");
    check_hint("[neck]\nthickness = 3/4 in\n", "thickness = \"3/4 in\"");
    check_hint("[neck]\nthickness = \"0.75\"\n", "write \"0.75 in\"");
    check_hint(
        "units = \"in\"\n[scale]\nlength = 648\n",
        "a bare number is read as inches; write \"648 mm\"",
    );
    check_hint("[neck]\nwood = \"hard mapel\"\n", "hard maple");
    check_hint("[neck]\njoint = \"trough\"\n", "did you mean \"through\"?");
    check_hint("[scale]\npattern = [4, 2, 2]\n", "[2, 4]");
    check_hint("[scale]\nlength = 2024-05-01\n", "in quotes");
    check_hint("[[strings]]\npitch = \"G3\"\ndiametre = 1\n", "or is diametre meant?");
    check_hint("fret = { kind = \"seated wire\" }\n", "did you mean frets");
}

#[test]
fn a_byte_order_mark_and_carriage_returns_are_no_fault() {
    check("\u{feff}name = \"Porch\"\r\n[neck]\r\nthickness = \"3/4 in\"\r\n", &[]);
}

#[test]
fn faults_on_other_lines_are_told_beside_a_fault_of_syntax() {
    let found = diagnostics(b"[neck]\nwood = \"granite\"\nthickness = 3/4 in\n");
    assert!(texts(&found).starts_with(&["S014", "S004"]), "both lines, found {found:#?}");
}

#[track_caller]
fn check_refused_quickly(what: &str, bytes: &[u8], expected: &str) {
    let begin = Instant::now();
    let found = diagnostics(bytes);
    let spent = begin.elapsed();
    assert!(
        texts(&found).contains(&expected),
        "{what}: expected {expected}, found {:?}",
        &texts(&found)[..found.len().min(5)]
    );
    assert!(found.len() <= spec::limits::FAULTS_TOLD + 1, "{what}: found {} faults", found.len());
    // Generous for a slow machine and an unoptimised build; quadratic work on 256 kB takes minutes.
    assert!(spent < Duration::from_secs(10), "{what}: took {spent:?}");
}

#[test]
fn hostile_documents_are_refused_quickly() {
    let repeated = |text: &str, bytes: usize| text.repeat(bytes / text.len() + 1)[..bytes].to_owned();
    let full = 250_000;
    check_refused_quickly("one byte too many", &vec![b' '; spec::limits::DOCUMENT_BYTES + 1], "S002");
    check_refused_quickly("100,000 brackets", format!("a = {}", "[".repeat(100_000)).as_bytes(), "S003");
    check_refused_quickly(
        "100,000 closed brackets",
        format!("a = {}{}", "[".repeat(100_000), "]".repeat(100_000)).as_bytes(),
        "S003",
    );
    check_refused_quickly("100,000 braces", format!("a = {}", "{a=".repeat(80_000)).as_bytes(), "S003");
    check_refused_quickly(
        "a key of 100,000 parts",
        format!("{}a = 1", "a.".repeat(100_000)).as_bytes(),
        "S003",
    );
    check_refused_quickly(
        "a header of 100,000 parts",
        format!("[{}a]", "a.".repeat(100_000)).as_bytes(),
        "S003",
    );
    check_refused_quickly("60,000 strings", repeated("[[strings]]\n", full).as_bytes(), "S002");
    check_refused_quickly(
        "30,000 keys",
        (0..25_000).map(|key| format!("k{key}=1\n")).collect::<String>().as_bytes(),
        "S002",
    );
    check_refused_quickly("one key many times", repeated("a=1\n", full).as_bytes(), "S005");
    check_refused_quickly("nothing but quotes", repeated("\"", full).as_bytes(), "S004");
    check_refused_quickly("a long key", format!("{} = 1", "k".repeat(full)).as_bytes(), "S006");
    check_refused_quickly("a long word", format!("handed = \"{}\"", "r".repeat(full)).as_bytes(), "S002");
    check_refused_quickly(
        "a long number",
        format!("[scale]\nlength = {}", "9".repeat(full)).as_bytes(),
        "S012",
    );
    check_refused_quickly(
        "a long list",
        format!("[scale]\npattern = [{}]", "1,".repeat(full / 2)).as_bytes(),
        "S002",
    );
    check_refused_quickly("many lines of nonsense", repeated("= = =\n", full).as_bytes(), "S004");
}

#[test]
fn faults_of_overrides_name_the_override() {
    #[track_caller]
    fn check_override(key: &str, value: &str, expected: &str) {
        let found =
            Document::parse(b"units = \"in\"\n").with_override(key, value).read().diagnostics().to_vec();
        assert_eq!(texts(&found), [expected], "{key}={value}: {found:#?}");
        let origin = Origin::Override { key: key.to_owned(), value: value.to_owned() };
        assert_eq!(found[0].place.origin, origin, "{key}={value} names the override");
    }
    check_override("neck.thickness", "19", "S011");
    check_override("neck.thicknes", "19 mm", "S006");
    check_override("neck", "19 mm", "S008");
    check_override("strings.5.pitch", "G3", "S021");
    check_override("strings.zwei.pitch", "G3", "S021");
    check_override("name.first", "Ann", "S008");
    check_override("neck..thickness", "19 mm", "S021");
    check_override("", "19 mm", "S021");
    check_override("strings.2.pitch", "", "S010");
    check_override("neck.thickness", "nan", "S012");
    check_override("box.holes.1.diameter", "wide", "S010");
}

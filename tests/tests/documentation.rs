//! Do the pages of `docs/` that are made from the code say what the code says?
//!
//! `BLESS=1 cargo test --workspace --test documentation` writes them anew.

use std::collections::BTreeSet;
use std::fmt::Write;

use boxneck::batch::limits as roster;
use boxneck::fit;
use boxneck::spec;
use boxneck_tests::repository;
use serde_json::Value;

/// Compares a page with what it should say; writes it where that is asked for.
#[track_caller]
fn check(page: &str, expected: &str) {
    let path = repository().join("docs").join(page);
    if std::env::var_os("BLESS").is_some_and(|value| value == "1") {
        std::fs::write(&path, expected)
            .unwrap_or_else(|fault| panic!("docs/{page} cannot be written: {fault}"));
    }
    let found =
        std::fs::read_to_string(&path).unwrap_or_else(|fault| panic!("docs/{page} cannot be read: {fault}"));
    assert!(
        found == expected,
        "docs/{page} does not say what the code says: write it anew with BLESS=1 and read the difference"
    );
}

/// The checks that name a key among those that may cure them.
fn cured_by(key: &str) -> Vec<String> {
    let checks = fit::checks().filter(|check| check.cures.contains(&key));
    checks.map(|check| format!("`{}`", check.id)).collect()
}

/// What the schema says of a table and of the keys in it, one section after the other.
fn sections(page: &mut String, listed: &mut BTreeSet<String>, name: &str, table: &Value) {
    let properties = table["properties"].as_object().expect("a table has keys");
    let nested = |value: &Value| value.get("properties").or(value["items"].get("properties")).is_some();
    let said = |value: &Value| value["description"].as_str().unwrap_or_default().replace('|', "\\|");
    let title = if name.is_empty() { "At the top".to_owned() } else { format!("`{name}`") };
    let _ = write!(
        page,
        "\n## {title}\n\n{}\n\n| key | what it says | turned to cure |\n| --- | --- | --- |\n",
        said(table)
    );
    for (key, value) in properties.iter().filter(|(_, value)| !nested(value)) {
        let path = if name.is_empty() { key.clone() } else { format!("{name}.{key}") };
        let _ = writeln!(page, "| `{key}` | {} | {} |", said(value), cured_by(&path).join(", "));
        listed.insert(path);
    }
    for (key, value) in properties.iter().filter(|(_, value)| nested(value)) {
        let path = if name.is_empty() { key.clone() } else { format!("{name}.{key}") };
        match value.get("items") {
            Some(item) => sections(page, listed, &format!("{path}.N"), item),
            None => sections(page, listed, &path, value),
        }
    }
}

#[test]
fn every_key_is_on_the_page_of_keys() {
    let mut page = String::from(
        "# The keys of a document\n\n\
         Made from the code. N is the number of a list's item, counted from 1: `strings.2.pitch`. Lengths are numbers in the\n\
         document's `units`, or texts with a unit of their own. `boxneck schema` prints the same for editors.\n",
    );
    let mut listed = BTreeSet::new();
    sections(&mut page, &mut listed, "", &spec::schema());
    let known: BTreeSet<String> = spec::keys().iter().map(|key| key.path.clone()).collect();
    let lists: BTreeSet<String> = known.difference(&listed).cloned().collect();
    let are_lists = lists.iter().all(|path| listed.iter().any(|key| key.starts_with(&format!("{path}.N."))));
    assert!(are_lists, "what the schema leaves out of the keys is lists alone: {lists:?}");
    assert!(listed.is_subset(&known), "the schema has no key that the reader does not know");
    check("keys.md", &page);
}

#[test]
fn every_check_is_on_the_page_of_checks() {
    let mut page = String::from(
        "# What is checked\n\n\
         Made from the code. The keys are those that the search for a mend turns, in this order.\n\n\
         | check | what it measures | keys that may cure it |\n| --- | --- | --- |\n",
    );
    for check in fit::checks() {
        let cures: Vec<String> = check.cures.iter().map(|key| format!("`{key}`")).collect();
        let _ = writeln!(page, "| `{}` | {} | {} |", check.id, check.measures, cures.join(", "));
    }
    check("checks.md", &page);
}

#[test]
fn every_limit_is_on_the_page_of_limits() {
    let documents = [
        ("bytes of a document, a measured file or a stock list", spec::limits::DOCUMENT_BYTES),
        ("lists and tables within one another", spec::limits::NESTING_DEPTH),
        ("items of a list", spec::limits::LIST_ITEMS),
        ("keys of a table", spec::limits::TABLE_KEYS),
        ("characters of the instrument's name", spec::limits::NAME_CHARACTERS),
        ("characters of any other value", spec::limits::VALUE_CHARACTERS),
        ("strings", spec::limits::STRINGS),
        ("openings of the box", spec::limits::HOLES),
        ("semitones in a fret pattern", spec::limits::SEMITONES.into()),
        ("kinds of boards, and of sheets, in a stock list", spec::limits::STOCK_ITEMS),
        ("boards or sheets of one kind", spec::limits::STOCK_COUNT.into()),
        ("overrides of one document", spec::limits::OVERRIDES),
        ("faults told of one document; the rest are counted", spec::limits::FAULTS_TOLD),
        ("bytes of a drawing that a document names", spec::limits::FILE_BYTES),
    ];
    let rosters = [
        ("bytes of a roster", roster::ROSTER_BYTES),
        ("rows", roster::ROWS),
        ("columns", roster::COLUMNS),
        ("cells", roster::CELLS),
        ("characters of a cell", roster::CELL_CHARACTERS),
        ("characters of a student's name", roster::STUDENT_CHARACTERS),
        ("characters of a note, or of a base's name", roster::NOTE_CHARACTERS),
        ("instruments that one row asks for", roster::QUANTITY as usize),
    ];
    let mut page = String::from(
        "# How large may a file be?\n\n\
         Made from the code. What is larger is refused, with the limit in the message, before any work is done on it, and no more of a\n\
         file is read than tells that it is too large. The range of every value is on the page of [keys](keys.md).\n",
    );
    for (title, rows) in [("Documents", documents.as_slice()), ("Rosters", rosters.as_slice())] {
        let _ = write!(page, "\n## {title}\n\n| what | at most |\n| --- | ---: |\n");
        for (what, most) in rows {
            let _ = writeln!(page, "| {what} | {most} |");
        }
    }
    check("limits.md", &page);
}

#[test]
fn every_crate_is_in_the_table_of_crates() {
    let developers =
        std::fs::read_to_string(repository().join("DEVELOPERS.md")).expect("it stands at the root");
    let folders = std::fs::read_dir(repository().join("crates")).expect("the crates");
    for folder in folders {
        let name = folder.expect("a folder").file_name().to_string_lossy().into_owned();
        let has_row = developers.lines().any(|line| line.starts_with(&format!("| `{name}` |")));
        assert!(has_row, "DEVELOPERS.md has a row for crates/{name}");
    }
}

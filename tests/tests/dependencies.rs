//! Do the crates depend on each other one way only, does every module say what it is for, and is every code used once?

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

use boxneck_tests::repository;

/// Which of our crates each crate may use, by their folders: itself never, and nothing that stands below it. The plan of
/// the project, as its architecture states it.
const MAY_USE: [(&str, &[&str]); 11] = [
    ("units", &[]),
    ("geometry", &["units"]),
    ("mechanics", &["units"]),
    ("import", &["units", "geometry"]),
    ("spec", &["units", "geometry", "import"]),
    ("layout", &["units", "geometry", "spec", "mechanics"]),
    ("parts", &["units", "spec", "mechanics", "layout", "geometry"]),
    ("fit", &["units", "spec", "mechanics", "layout", "geometry", "parts"]),
    ("export", &["units", "geometry"]),
    ("boxneck", &["units", "geometry", "mechanics", "spec", "layout", "parts", "fit", "export"]),
    ("cli", &["boxneck"]),
];

/// The trades of the lower crates: words that name what they must not know.
const TRADE_WORDS: [&str; 5] = ["fret", "saddle", "headstock", "tuner", "guitar"];

fn crates() -> PathBuf {
    repository().join("crates")
}

fn folders() -> BTreeSet<String> {
    let entries = std::fs::read_dir(crates()).expect("the repository has crates");
    entries.map(|entry| entry.expect("a folder").file_name().to_string_lossy().into_owned()).collect()
}

/// Every `.rs` file below a folder.
fn sources(folder: &Path) -> Vec<PathBuf> {
    let mut found = Vec::new();
    let Ok(entries) = std::fs::read_dir(folder) else { return found };
    for path in entries.map(|entry| entry.expect("an entry of a folder").path()) {
        if path.is_dir() {
            found.extend(sources(&path));
        } else if path.extension().is_some_and(|ending| ending == "rs") {
            found.push(path);
        }
    }
    found.sort();
    found
}

fn text(path: &Path) -> String {
    std::fs::read_to_string(path).unwrap_or_else(|fault| panic!("{} cannot be read: {fault}", path.display()))
}

/// The folders of our crates that a crate's manifest names under some headings, and nothing else.
fn uses(folder: &str, headings: &[&str]) -> BTreeSet<String> {
    let manifest: toml::Table =
        text(&crates().join(folder).join("Cargo.toml")).parse().expect("a manifest is TOML");
    let names =
        headings.iter().filter_map(|heading| manifest.get(*heading)?.as_table()).flat_map(toml::Table::keys);
    let ours = folders();
    names
        .map(|name| name.trim_start_matches("boxneck-").to_owned())
        .filter(|name| ours.contains(name))
        .collect()
}

#[test]
fn every_crate_has_its_line() {
    let listed: BTreeSet<String> = MAY_USE.iter().map(|(folder, _)| (*folder).to_owned()).collect();
    assert_eq!(listed, folders(), "the table of crates and the folders under crates/");
}

#[test]
fn dependencies_point_one_way() {
    for (folder, allowed) in MAY_USE {
        // What only tests use may point anywhere that does not close a circle; Cargo sees to that.
        for used in uses(folder, &["dependencies", "build-dependencies"]) {
            assert!(
                allowed.contains(&used.as_str()),
                "crates/{folder} uses {used}, it may use {allowed:?} only: move the code to where its words belong"
            );
        }
    }
}

#[test]
fn the_table_itself_points_one_way() {
    for (place, (folder, allowed)) in MAY_USE.iter().enumerate() {
        for used in *allowed {
            let there = MAY_USE.iter().position(|(name, _)| name == used);
            assert!(
                there.is_some_and(|there| there < place),
                "{folder} may use {used}, which stands below it"
            );
        }
    }
}

#[test]
fn every_module_says_what_it_is_for() {
    let places =
        folders().into_iter().map(|folder| crates().join(folder)).chain([repository().join("tests")]);
    for path in places.flat_map(|place| sources(&place)) {
        let first = text(&path).lines().next().unwrap_or_default().to_owned();
        assert!(first.starts_with("//! "), "{} begins with {first:?}, expected a module doc", path.display());
    }
}

#[test]
fn files_stay_small_enough_to_read() {
    for path in folders().into_iter().flat_map(|folder| sources(&crates().join(folder))) {
        let lines = text(&path).lines().count();
        assert!(
            lines <= 600,
            "{} has {lines} lines, at most 600 are allowed: look for a seam",
            path.display()
        );
    }
}

#[test]
fn lower_crates_know_no_guitars() {
    for path in ["units", "geometry", "import", "export"]
        .iter()
        .flat_map(|folder| sources(&crates().join(folder).join("src")))
    {
        let code = code_of(&text(&path)).to_lowercase();
        for word in TRADE_WORDS {
            assert!(!code.contains(word), "{} says {word:?} in its code", path.display());
        }
    }
}

/// The text without its comments and without the tests at its end, which may take their examples from the trade.
fn code_of(text: &str) -> String {
    let code = text.split("#[cfg(test)]").next().unwrap_or_default();
    code.lines().filter(|line| !line.trim_start().starts_with("//")).collect::<Vec<_>>().join("\n")
}

/// Texts that look like a diagnostic's code: a letter and three digits, in quotes.
fn codes_in(text: &str, letter: char) -> Vec<String> {
    let is_code = |piece: &&str| {
        piece.len() == 4 && piece.starts_with(letter) && piece[1..].bytes().all(|byte| byte.is_ascii_digit())
    };
    text.split('"').skip(1).step_by(2).filter(is_code).map(str::to_owned).collect()
}

#[test]
fn every_code_of_a_diagnostic_is_declared_once() {
    let declared = codes_in(&code_of(&text(&crates().join("spec/src/code.rs"))), 'S');
    assert!(
        declared.len() >= 30,
        "the table of codes was not found where it was, {} codes read",
        declared.len()
    );
    let mut count: BTreeMap<&str, usize> = BTreeMap::new();
    for code in &declared {
        *count.entry(code).or_default() += 1;
    }
    for (code, times) in count {
        assert_eq!(times, 1, "{code} stands {times} times in the table of codes");
    }
}

#[test]
fn every_check_has_an_id_of_its_own() {
    let mut seen: BTreeMap<String, PathBuf> = BTreeMap::new();
    for path in sources(&crates().join("fit/src")) {
        for after in text(&path).split("id: \"").skip(1) {
            let id = after.split('"').next().unwrap_or_default().to_owned();
            if let Some(other) = seen.insert(id.clone(), path.clone()) {
                panic!("{id} is the id of {} and of {}", other.display(), path.display());
            }
        }
    }
    assert!(!seen.is_empty(), "no check was found in crates/fit");
}

//! Does the tutorial do what it says?
//!
//! Its files are written, its commands run and what they print held against what it shows. Its pictures are what its instrument's
//! build holds: `BLESS=1 cargo test --workspace --test tutorial` copies them anew.

use std::path::Path;

use boxneck_tests::{call, repository};

/// A fenced block: what stands behind its opening fence, and its lines.
struct Block<'a> {
    kind: &'a str,
    lines: Vec<&'a str>,
}

fn blocks(text: &str) -> Vec<Block<'_>> {
    let mut blocks = Vec::new();
    let mut lines = text.lines();
    while let Some(line) = lines.next() {
        if let Some(kind) = line.strip_prefix("```") {
            let lines = lines.by_ref().take_while(|line| *line != "```").collect();
            blocks.push(Block { kind, lines });
        }
    }
    blocks
}

/// Whether a line is as it is shown; `...` at its end stands for the rest of it.
fn is_as_shown(printed: &str, shown: &str) -> bool {
    match shown.strip_suffix("...") {
        Some(start) => printed.starts_with(start),
        None => printed == shown,
    }
}

/// Holds what was printed against what is shown: every line that is shown is there, and between two lines nothing is left out
/// unless `...` says so.
#[track_caller]
fn compare(command: &str, printed: &str, shown: &[&str]) {
    let mut rest = printed.lines();
    let mut may_skip = false;
    for line in shown {
        if *line == "..." {
            may_skip = true;
            continue;
        }
        let next = if may_skip { rest.find(|printed| is_as_shown(printed, line)) } else { rest.next() };
        may_skip = false;
        assert!(
            next.is_some_and(|printed| is_as_shown(printed, line)),
            "`{command}` does not print {line:?} there, it prints:\n{printed}"
        );
    }
    assert!(may_skip || rest.next().is_none(), "`{command}` prints more than is shown:\n{printed}");
}

#[test]
fn it_does_what_it_says() {
    let page = repository().join("docs/tutorial.md");
    let text = std::fs::read_to_string(&page).expect("docs/tutorial.md");
    let folder = tempfile::tempdir().expect("a folder");
    let mut commands = 0;
    for block in blocks(&text) {
        match block.kind.split_once(' ') {
            Some(("toml", name)) => {
                std::fs::write(folder.path().join(name), block.lines.join("\n"))
                    .expect("a file of the reader's");
            }
            _ => {
                assert_eq!(block.kind, "console", "a block is a file to write or a command to give");
                let command = block.lines[0].strip_prefix("$ boxneck ").expect("a command of ours");
                let arguments: Vec<&str> = command.split(' ').collect();
                let done = call(folder.path(), &arguments);
                compare(command, &done.stdout, &block.lines[1..]);
                commands += 1;
            }
        }
    }
    assert!(commands >= 4, "check, mend, make and set up: {commands} commands were run");
    pictures(&text, &folder.path().join("outputs/first-three-string"));
}

/// Every picture that the page shows is one of the build, to the byte.
fn pictures(text: &str, build: &Path) {
    let names: Vec<&str> = text
        .split("](tutorial/")
        .skip(1)
        .filter_map(|rest| rest.split_once(')'))
        .map(|(name, _)| name)
        .collect();
    assert!(!names.is_empty(), "the page shows pictures");
    for name in names {
        let made =
            [build.join(name), build.join("drawings").join(name)].into_iter().find(|path| path.exists());
        let made = std::fs::read(made.unwrap_or_else(|| panic!("{name} is in the build"))).expect("readable");
        let kept = repository().join("docs/tutorial").join(name);
        if std::env::var_os("BLESS").is_some_and(|value| value == "1") {
            std::fs::write(&kept, &made).expect("docs/tutorial can be written");
        }
        let found = std::fs::read(&kept).unwrap_or_else(|fault| panic!("docs/tutorial/{name}: {fault}"));
        assert!(
            found == made,
            "docs/tutorial/{name} is no longer what the program draws: BLESS=1 copies it anew"
        );
    }
}

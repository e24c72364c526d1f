//! Does `boxneck batch` keep its word to scripts, whatever interrupts it?

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::Duration;

use boxneck_tests::{call, program, repository};

/// Five students, four documents: what is made of each is small.
const CLASS: &str = "student;handed;neck.thickness;note\r\nAnna;;;\r\nBo;left;;=1+1\r\nAnna;;19,5 mm;\r\nCy;;;\r\n\
                     Zo\u{eb};;18,5 mm;\r\n";

/// A folder with a roster and its base.
fn folder_with(roster: &str) -> tempfile::TempDir {
    let folder = tempfile::tempdir().expect("a folder to work in");
    fs::write(folder.path().join("class.csv"), roster).expect("a roster");
    let porch =
        fs::read_to_string(repository().join("specs/porch-three-string.toml")).expect("a document of specs/");
    // With level frets nothing warns, and no search for mends takes its time.
    let calm = porch.replace("height_scatter = \"0.08 mm\"", "height_scatter = \"0.01 mm\"");
    fs::write(folder.path().join("porch.toml"), calm).expect("a base");
    folder
}

/// A batch of the roster into `made`, of cut lists and records alone.
const QUICK: [&str; 8] = ["batch", "class.csv", "--base", "porch.toml", "--formats", "csv", "-o", "made"];

/// Every file below a folder with its bytes, hidden ones too.
fn tree(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let mut files = BTreeMap::new();
    let mut folders = vec![folder.to_owned()];
    while let Some(inside) = folders.pop() {
        for entry in fs::read_dir(inside).into_iter().flatten() {
            let path = entry.expect("an entry").path();
            if path.is_dir() {
                folders.push(path);
            } else {
                let name = path.strip_prefix(folder).expect("below it").to_string_lossy().into_owned();
                files.insert(name, fs::read(&path).expect("a file"));
            }
        }
    }
    files
}

#[track_caller]
fn check_tree(found: &Path, expected: &Path) {
    let (found, expected) = (tree(found), tree(expected));
    assert!(!expected.is_empty(), "something was made");
    let names = |tree: &BTreeMap<String, Vec<u8>>| tree.keys().cloned().collect::<Vec<_>>();
    assert_eq!(names(&found), names(&expected), "the same files");
    let differing: Vec<&String> = found.keys().filter(|name| found[*name] != expected[*name]).collect();
    assert_eq!(differing, Vec::<&String>::new(), "the same bytes");
}

/// The class as it is made when nothing happens.
fn undisturbed() -> tempfile::TempDir {
    let folder = folder_with(CLASS);
    let made = call(folder.path(), &QUICK);
    assert_eq!(made.code, Some(0), "{}{}", made.stdout, made.stderr);
    folder
}

#[test]
fn every_row_has_its_line_and_its_folder() {
    let folder = undisturbed();
    for student in ["anna", "bo", "anna-2", "cy", "zoe", "class"] {
        assert!(folder.path().join("made").join(student).join("manifest.json").exists(), "{student}");
    }
    let again = call(folder.path(), &QUICK);
    let lines: Vec<&str> = again.stdout.lines().collect();
    assert_eq!(lines.len(), 5, "a line a row: {}", again.stdout);
    assert!(
        lines[4].starts_with("row 6 (Zo\u{eb}): made/zoe: up to date"),
        "in their order: {}",
        again.stdout
    );
    let json = call(folder.path(), &[&QUICK[..], &["--format", "json"]].concat());
    for (line, row) in json.stdout.lines().zip(2..) {
        let record: serde_json::Value = serde_json::from_str(line).expect("an object a line");
        assert_eq!((record["row"].as_u64(), record["version"].as_u64()), (Some(row), Some(1)), "{line}");
    }
}

#[test]
fn the_exit_status_is_that_of_the_worst_row() {
    for (roster, expected) in [
        ("student,scale.frets\nA,\n", 0),
        ("student,scale.frets\nA,36\nB,\n", 1),
        ("student,scale.frets\nA,many\nB,36\n", 2),
        ("student,scale.fretz\nA,12\n", 2),
        ("", 2),
    ] {
        let folder = folder_with(roster);
        let made = call(folder.path(), &QUICK);
        assert_eq!(made.code, Some(expected), "{roster:?}: {}{}", made.stdout, made.stderr);
    }
    let folder = folder_with(CLASS);
    for arguments in [
        &["batch"][..],
        &["batch", "nobody.csv"],
        &["batch", "class.csv", "--base", "nobody.toml"],
        &["batch", "class.csv", "--base", "porch.toml", "--shard", "3/2"],
        &["batch", "class.csv", "--base", "porch.toml", "--formats", "exe"],
        &["batch", "class.csv", "--merge", "made"],
        &["batch", "class.csv"],
        &["batch", "--merge", "."],
    ] {
        let called = call(folder.path(), arguments);
        assert_eq!(called.code, Some(2), "{arguments:?}: {}{}", called.stdout, called.stderr);
        assert_ne!(called.stderr, "", "{arguments:?}: and says why");
    }
}

#[test]
fn killed_at_any_moment_it_leaves_nothing_by_halves_and_goes_on() {
    let expected = undisturbed();
    let folder = folder_with(CLASS);
    let made = folder.path().join("made");
    // A plain generator from a fixed seed: the moments differ by machine in any case.
    let mut chance: u64 = 0x9e37_79b9_7f4a_7c15;
    for _ in 0..50 {
        chance = chance.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        let mut child = Command::new(program())
            .args(QUICK)
            .current_dir(folder.path())
            .stdin(Stdio::null())
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .expect("the program was built just before");
        std::thread::sleep(Duration::from_micros((chance >> 33) % 150_000));
        child.kill().expect("it was ours");
        let is_whole = child.wait().expect("it ended").success();
        if is_whole {
            check_tree(&made, &expected.path().join("made"));
            fs::remove_dir_all(&made).expect("ours");
            continue;
        }
        for entry in fs::read_dir(&made).into_iter().flatten() {
            let path = entry.expect("an entry").path();
            let name = path.file_name().expect("a name").to_string_lossy().into_owned();
            if name.starts_with('.') {
                continue;
            }
            let (found, whole) = (tree(&path), tree(&expected.path().join("made").join(&name)));
            assert!(found == whole, "{name} is there by halves: {:?}", found.keys());
        }
    }
    let finished = call(folder.path(), &QUICK);
    assert_eq!(finished.code, Some(0), "{}{}", finished.stdout, finished.stderr);
    check_tree(&made, &expected.path().join("made"));
}

#[cfg(unix)]
#[test]
fn a_file_that_the_disk_does_not_take_is_3_and_the_rest_is_made_later() {
    let expected = undisturbed();
    let folder = folder_with(CLASS);
    // Files may grow to 32 blocks of 512 or 1024 bytes; the record of a layout is larger.
    let limited = format!("trap '' XFSZ; ulimit -f 32; exec '{}' {}", program().display(), QUICK.join(" "));
    let made = Command::new("sh")
        .args(["-c", &limited])
        .current_dir(folder.path())
        .stdin(Stdio::null())
        .output()
        .expect("a shell");
    let told = String::from_utf8_lossy(&made.stderr);
    assert_eq!(made.status.code(), Some(3), "{told}");
    assert!(told.contains("cannot write") && told.contains("the same command makes the rest"), "{told}");
    let left: Vec<String> = tree(&folder.path().join("made")).into_keys().collect();
    assert_eq!(left, Vec::<String>::new(), "nothing by halves");
    let finished = call(folder.path(), &QUICK);
    assert_eq!(finished.code, Some(0), "{}{}", finished.stdout, finished.stderr);
    check_tree(&folder.path().join("made"), &expected.path().join("made"));
}

#[test]
fn a_place_that_cannot_be_written_is_3() {
    let folder = folder_with(CLASS);
    fs::write(folder.path().join("file"), "in the way").expect("a file");
    let mut arguments = QUICK;
    arguments[7] = "file/made";
    let called = call(folder.path(), &arguments);
    assert_eq!(called.code, Some(3), "{}{}", called.stdout, called.stderr);
    assert_eq!(fs::read_to_string(folder.path().join("file")).expect("the file"), "in the way", "untouched");
}

#[test]
fn threads_time_zone_language_and_place_change_nothing() {
    let expected = undisturbed();
    let variables = [
        ("RAYON_NUM_THREADS", "1", "UTC", "C"),
        ("RAYON_NUM_THREADS", "8", "Pacific/Auckland", "tr_TR.UTF-8"),
    ];
    for (name, threads, zone, language) in variables {
        let (folder, elsewhere) = (folder_with(CLASS), tempfile::tempdir().expect("a folder"));
        let path = |name: &str| folder.path().join(name);
        let made = Command::new(program())
            .args(["batch", "--formats", "csv"])
            .args([path("class.csv").as_os_str(), "--base".as_ref(), path("porch.toml").as_os_str()])
            .args(["-o".as_ref(), path("made").as_os_str()])
            .envs([(name, threads), ("TZ", zone), ("LANG", language), ("LC_ALL", language)])
            .current_dir(elsewhere.path())
            .stdin(Stdio::null())
            .output()
            .expect("the program was built just before");
        assert_eq!(made.status.code(), Some(0), "{}", String::from_utf8_lossy(&made.stderr));
        check_tree(&path("made"), &expected.path().join("made"));
    }
}

#[test]
fn shards_merged_are_a_single_run() {
    let expected = undisturbed();
    let folder = folder_with(CLASS);
    for shard in ["1/3", "2/3", "3/3"] {
        let made = call(folder.path(), &[&QUICK[..], &["--shard", shard]].concat());
        assert_eq!(made.code, Some(0), "{shard}: {}{}", made.stdout, made.stderr);
    }
    let merged = call(folder.path(), &["batch", "--merge", "made", "-o", "made", "--formats", "csv"]);
    assert_eq!(merged.code, Some(0), "{}{}", merged.stdout, merged.stderr);
    check_tree(&folder.path().join("made"), &expected.path().join("made"));
}

#[test]
fn rows_that_went_are_told_and_pruned_on_request() {
    let folder = undisturbed();
    fs::write(folder.path().join("class.csv"), "student\nAnna\n").expect("a shorter roster");
    let told = call(folder.path(), &QUICK);
    assert!(told.stderr.contains("bo: made by an earlier roster"), "{}", told.stderr);
    assert!(folder.path().join("made/bo").exists(), "it is there still");
    let pruned = call(folder.path(), &[&QUICK[..], &["--prune"]].concat());
    assert_eq!(pruned.code, Some(0), "{}{}", pruned.stdout, pruned.stderr);
    let mut left: Vec<String> = fs::read_dir(folder.path().join("made"))
        .expect("a folder")
        .map(|entry| entry.expect("an entry").file_name().to_string_lossy().into_owned())
        .collect();
    left.sort();
    assert_eq!(left, ["anna", "class"], "what the roster has");
}

#[test]
fn the_class_of_the_project_is_sound() {
    let place = tempfile::tempdir().expect("a folder");
    let roster = repository().join("specs/class/spring.csv");
    let roster = roster.to_str().expect("a plain name");
    let made = place.path().join("made");
    let output = made.to_str().expect("a plain name");
    let called = call(place.path(), &["batch", roster, "--formats", "csv", "-o", output]);
    assert_eq!(called.code, Some(0), "{}{}", called.stdout, called.stderr);
    assert_eq!(called.stdout.lines().count(), 24, "{}", called.stdout);
}

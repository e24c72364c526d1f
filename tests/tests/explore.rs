//! Does `explore` answer what a builder asks, and leave plans that can be made?

use boxneck_tests::{Call, call, repository};
use serde_json::Value;

fn spec(name: &str) -> String {
    repository().join("specs").join(name).display().to_string()
}

fn record(called: &Call) -> Value {
    serde_json::from_str(called.stdout.trim())
        .unwrap_or_else(|fault| panic!("one object: {fault}: {called:?}"))
}

#[test]
fn fifteen_wrapped_frets_with_this_box_and_this_heel() {
    let folder = tempfile::tempdir().expect("a folder to work in");
    let plan = "# my box\nname = \"Short\"\nunits = \"mm\"\n[scale]\nlength = 560 # from an old one\nfrets = 12\n[heel]\nreach = 30\n\
                [saddle]\nfrom_tail_end = 45\n";
    std::fs::write(folder.path().join("short.toml"), plan).expect("a document");
    let asked = [
        "explore",
        "short.toml",
        "--want",
        "wrapped-frets>=15",
        "--lock",
        "box",
        "--lock",
        "heel",
        "-o",
        "out",
    ];
    let called = call(folder.path(), &asked);
    assert_eq!(called.code, Some(0), "{}{}", called.stdout, called.stderr);
    let best = folder.path().join("out/short-plans/plan-1.toml");
    let written = std::fs::read_to_string(&best).expect("the best plan as a document");
    assert!(written.starts_with("# my box\n"), "comments stay:\n{written}");
    let checked = call(folder.path(), &["check", "--format", "json", "out/short-plans/plan-1.toml"]);
    assert_eq!(checked.code, Some(0), "the plan holds: {}", checked.stderr);
    let frets = &record(&checked)["layout"]["frets"];
    assert!(frets["wrapped"].as_u64().is_some_and(|frets| frets >= 15), "{frets}");
    for file in ["plans.csv", "plans.html", "manifest.json"] {
        assert!(folder.path().join("out/short-plans").join(file).exists(), "{file} is there");
    }
}

#[test]
fn a_plan_with_brought_outlines_can_be_made_where_it_is_written() {
    let folder = tempfile::tempdir().expect("a folder to work in");
    let asked = [
        "explore",
        &spec("attic-paddle-and-leaves.toml"),
        "--vary",
        "action.height=2.8 mm..3.2 mm:0.2 mm",
        "--want",
        "action<=3.2 mm",
        "-o",
        "out",
    ];
    let called = call(folder.path(), &asked);
    assert_eq!(called.code, Some(0), "{}{}", called.stdout, called.stderr);
    let made = call(folder.path(), &["make", "out/attic-paddle-and-leaves-plans/plan-1.toml", "-o", "made"]);
    assert_eq!(made.code, Some(0), "its headstock and its leaves lie beside it: {}", made.stderr);
}

/// The lowest action of a document for 19 of 20 instruments, its frets as they are.
fn lowest_action(name: &str) -> (Call, Value) {
    let folder = tempfile::tempdir().expect("a folder to work in");
    let (file, want) = (spec(name), "free-of-buzz>=95 %");
    let asked = ["explore", &file, "--want", want, "--best", "action", "--lock", "frets", "--format", "json"];
    let called = call(folder.path(), &asked);
    let answer = record(&called)["answer"].clone();
    assert_eq!(answer["keys_are_suggested"], true, "nobody named a key");
    (called, answer)
}

#[test]
fn the_lowest_action_for_nineteen_of_twenty() {
    let (called, answer) = lowest_action("travel-short-four.toml");
    assert_eq!(called.code, Some(0), "{}{}", called.stdout, called.stderr);
    let best = &answer["told"][0];
    assert_eq!(best["holds"], true, "{best}");
    let [action, safe] =
        ["action", "safe-action"].map(|name| best["values"][name].as_f64().expect("a number"));
    assert!(action >= safe - 1e-9 && action <= safe + 0.1, "{action} mm, where the draw needs {safe} mm");
}

#[test]
fn wires_too_uneven_for_any_action_are_told_so() {
    let (called, answer) = lowest_action("uneven-wires.toml");
    assert_eq!(called.code, Some(1), "{}", called.stderr);
    let clash = answer["clashes"][0]["conditions"].as_array().expect("a clash");
    assert!(clash.iter().any(|condition| condition["want"] == "free-of-buzz >= 95 %"), "{clash:?}");
    assert!(
        clash.iter().any(|condition| condition["check"].is_string()),
        "and what it would break: {clash:?}"
    );
}

#[test]
fn the_measures_are_listed() {
    let folder = tempfile::tempdir().expect("a folder to work in");
    let listed = call(folder.path(), &["explore", "--list"]);
    assert_eq!(listed.code, Some(0), "{}", listed.stderr);
    let help = call(folder.path(), &["explore", "--help"]);
    for name in ["frets", "safe-action", "drift", "break-angle", "relief", "load", "wood", "fails"] {
        assert!(listed.stdout.contains(&format!("\n  {name} ")), "{name} is listed:\n{}", listed.stdout);
        assert!(help.stdout.contains(name), "{name} stands in the help");
    }
    let json = call(folder.path(), &["explore", "--list", "--format", "json"]);
    assert!(record(&json)["measures"].as_array().is_some_and(|list| list.len() > 10), "for programs too");
}

#[test]
fn a_question_that_cannot_be_answered_is_refused() {
    let folder = tempfile::tempdir().expect("a folder to work in");
    let file = spec("porch-three-string.toml");
    for (asked, words) in [
        (["--want", "fretts>=15"], "there is no measure \"fretts\""),
        (["--vary", "neck.thickness=1 mm..20 mm"], "between 6 mm and 60 mm"),
        (["--best", "beauty"], "there is no measure \"beauty\""),
        (["--lock", "heal"], "no such key or section"),
    ] {
        let called = call(folder.path(), &["explore", &file, asked[0], asked[1]]);
        assert_eq!(called.code, Some(2), "{asked:?}: {}", called.stdout);
        assert!(called.stderr.contains(words), "{asked:?}: {}", called.stderr);
    }
    assert_eq!(call(folder.path(), &["explore"]).code, Some(2), "of which document?");
    assert_eq!(
        call(folder.path(), &["explore", "nowhere.toml", "--want", "frets>=1"]).code,
        Some(2),
        "no such file"
    );
}

#[test]
fn nothing_that_holds_is_told_with_its_reasons() {
    let folder = tempfile::tempdir().expect("a folder to work in");
    let file = spec("porch-three-string.toml");
    let asked = ["explore", &file, "--vary", "heel.reach=20 mm..60 mm:10 mm", "--want", "wrapped-frets>=30"];
    let called = call(folder.path(), &asked);
    assert_eq!(called.code, Some(1), "{}", called.stderr);
    assert!(called.stdout.contains("no plan holds: wrapped-frets >= 30"), "{}", called.stdout);
    assert!(called.stdout.contains("nearest: wrapped-frets"), "{}", called.stdout);
}

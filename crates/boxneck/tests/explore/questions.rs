//! Are questions that cannot be answered refused with what works?

use boxneck::explore::{Axis, Base, measures};
use boxneck::spec::{Document, key_at};

use super::{Words, answered, ask};

const PLAN: &str =
    "units = \"in\"\n[tail]\nhole_height = \"4 mm\"\n[scale]\nlength = \"25 in\"\nfrets = 12\n";

#[track_caller]
fn values(text: &str, expected: &[&str]) {
    let base = Base::of(&Document::parse(PLAN.as_bytes())).expect("a sound document");
    let axis = Axis::parse(&base, text).unwrap_or_else(|fault| panic!("{text}: {fault}"));
    assert_eq!(axis.values, expected, "{text}");
}

#[test]
fn values_are_written_as_people_write_them() {
    values(
        "scale.length=25 in..25 1/2 in:1/8 in",
        &["25 in", "25 1/8 in", "25 1/4 in", "25 3/8 in", "25 1/2 in"],
    );
    values("scale.length=25..25.2:0.1", &["25 in", "25.1 in", "25.2 in"]);
    values("tail.hole_height=3.8 mm..4.1 mm", &["3.8 mm", "3.9 mm", "4 mm", "4.1 mm"]);
    values("neck.back_angle=0 deg..1 deg:0.25 deg", &["0 deg", "0.25 deg", "0.5 deg", "0.75 deg", "1 deg"]);
    values("scale.frets=12..14", &["12", "13", "14"]);
    values("neck.wood=ash|red oak", &["ash", "red oak"]);
    values("strings.1.pitch=G2..A2", &["G2", "G#2", "A2"]);
    values("frets.wire=14 AWG|16 AWG", &["14 AWG", "16 AWG"]);
}

#[track_caller]
fn refused(words: Words<'_>, expected: &[&str]) {
    let Err(fault) = ask(PLAN, words) else { panic!("{:?} has no answer", words.vary) };
    let told = fault.to_string();
    for part in expected {
        assert!(told.contains(part), "expected \"{part}\" in: {told}");
    }
}

#[track_caller]
fn vary_refused(text: &str, expected: &[&str]) {
    refused(Words { vary: &[text], ..Words::default() }, expected);
}

#[test]
fn keys_values_and_limits_are_named() {
    vary_refused(
        "neck.thickness=1 mm..20 mm",
        &["--vary", "neck.thickness", "6 mm", "60 mm", "found 1 mm", "6 mm works"],
    );
    vary_refused(
        "neck.thicknes=10 mm..20 mm",
        &["there is no key \"neck.thicknes\"", "did you mean thickness?"],
    );
    vary_refused("neck.thickness=20 mm..10 mm", &["the smaller value first", "10 mm..20 mm works"]);
    vary_refused("neck.thickness=10 mm..20 mm:0 mm", &["a step above 0"]);
    vary_refused("scale.length=200 mm..1200 mm:0.01 mm", &["at most 10000 values", "100001", "works"]);
    vary_refused("neck.wood=hard maple..ash", &["with | between"]);
    vary_refused("neck.wood=ash|stone", &["neck.wood", "stone"]);
    vary_refused("neck.wood=ash|ash", &["each value once"]);
    vary_refused("strings=1..3", &["there is no key \"strings\" with a value"]);
    vary_refused("neck.thickness", &["expected a key, = and its values"]);
    vary_refused("scale.frets=12..many", &["expected a whole number, found \"many\""]);
}

#[test]
fn locks_and_frets_that_contradict_are_refused() {
    let vary = &["heel.reach=10 mm..20 mm:5 mm"];
    refused(Words { vary, lock: &["heel"], ..Words::default() }, &["--lock heel.reach", "varied as well"]);
    refused(Words { vary, lock: &["heal"], ..Words::default() }, &["--lock heal", "no such key or section"]);
    let want = &["frets>=15"];
    refused(
        Words { vary, want, lock: &["scale.frets"], ..Words::default() },
        &["--lock scale.frets", "asks for 12"],
    );
    refused(Words { vary, want: &["frets>=40"], ..Words::default() }, &["frets >= 40", "36"]);
    refused(
        Words {
            want: &["frets>=12"],
            lock: &["heel", "frets", "saddle", "box", "scale"],
            ..Words::default()
        },
        &["are locked"],
    );
    refused(Words::default(), &["nothing is asked"]);
}

#[test]
fn what_makes_no_instrument_is_counted_and_not_told() {
    // A headstock is cut from the neck, and cannot be thicker.
    let words = Words { vary: &["headstock.thickness=10 mm..26 mm:2 mm"], ..Words::default() };
    let answer = answered("units = \"mm\"\n[neck]\nthickness = 20\n", words);
    assert!(answer.refused > 0, "the thickest are refused");
    assert!(answer.told.iter().all(|told| answer.plans[told.plan].is_instrument), "and none of them is told");
}

#[test]
fn names_of_measures_are_words_and_their_keys_are_there() {
    for (place, measure) in measures().iter().enumerate() {
        assert!(
            measure.name.chars().all(|letter| letter.is_ascii_lowercase() || letter == '-'),
            "{}",
            measure.name
        );
        assert!(
            measures()[..place].iter().all(|other| other.name != measure.name),
            "{} is there once",
            measure.name
        );
        for key in measure.keys() {
            assert!(key_at(key).is_some(), "{}: there is a key {key}", measure.name);
        }
        for check in measure.checks {
            assert!(
                boxneck::fit::checks().any(|other| other.id == *check),
                "{}: check {check}",
                measure.name
            );
        }
    }
}

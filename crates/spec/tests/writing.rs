//! Does a changed document read as what was meant, and look as the person left it?

use proptest::prelude::*;
use spec::{Document, KeyKind, Quantity, keys};

const PORCH: &str = include_str!("../../../specs/porch-three-string.toml");
const MEADOW: &str = include_str!("../../../specs/meadow-diatonic.toml");

fn changed(text: &str, changes: &[(&str, &str)]) -> Document {
    let start = Document::parse(text.as_bytes());
    changes.iter().fold(start, |document, (key, value)| document.with_override(key, value))
}

/// Written out and read again it is the same instrument.
#[track_caller]
fn check(text: &str, changes: &[(&str, &str)]) -> String {
    let document = changed(text, changes);
    let written = document.to_text().expect("a sound document can be written");
    let expected = document.read().into_result().expect("the changes are sound").0;
    let found = Document::parse(written.as_bytes()).read().into_result();
    let found = found.unwrap_or_else(|faults| panic!("{faults:#?} in\n{written}")).0;
    assert_eq!(found, expected, "written out:\n{written}");
    written
}

#[test]
fn one_line_changes_and_its_comment_stays() {
    let written = check(PORCH, &[("tail.hole_height", "6.4 mm")]);
    let (before, after): (Vec<&str>, Vec<&str>) = (PORCH.lines().collect(), written.lines().collect());
    assert_eq!(before.len(), after.len(), "no line comes or goes");
    let changed: Vec<(&&str, &&str)> =
        before.iter().zip(&after).filter(|(before, after)| before != after).collect();
    assert_eq!(changed.len(), 1, "one line changes: {changed:?}");
    let (before, after) = changed[0];
    assert!(after.contains("\"6.4 mm\""), "the new value: {after}");
    let comment = |line: &str| line.split_once('#').map(|(_, comment)| comment.to_owned());
    assert!(comment(before).is_some() && comment(before) == comment(after), "its comment: {after}");
}

#[test]
fn what_is_left_out_is_added() {
    check("", &[("neck.thickness", "22 mm"), ("strings.2.pitch", "E3"), ("box.holes.1.at", "60 mm, 30 mm")]);
    check("units = \"in\"\n", &[("scale.frets", "12"), ("saddle.thickness", "0.3")]);
    check(PORCH, &[("strings.4.pitch", "B3"), ("strings.4.diameter", "0.012 in")]);
}

#[test]
fn lists_and_words_keep_their_kinds() {
    check(MEADOW, &[("scale.pattern", "2, 4, 5, 7"), ("scale.frets", "4"), ("handed", "left")]);
    check(PORCH, &[("name", "007"), ("print.bed", "200 mm, 180 mm")]);
    check(
        "strings = [{ pitch = \"G3\", diameter = \"0.017 in\" }]",
        &[("strings.1.pitch", "A3"), ("strings.2.pitch", "D3"), ("strings.2.diameter", "0.024 in")],
    );
}

#[test]
fn a_cell_without_a_unit_keeps_the_documents() {
    let written = check("units = \"in\"\n", &[("box.wall", "3/16"), ("box.holes.1.at", "2; 1 1/2")]);
    assert!(written.contains("\"3/16 in\""), "a fraction of the document's unit: {written}");
    check("units = \"mm\"\n", &[("neck.thickness", "19,5"), ("print.bed", "[200, \"8 in\"]")]);
    check("", &[("frets.wire", "1/16"), ("fretboard.thickness", "1/4"), ("fretboard.radius", "12 1/2")]);
}

#[test]
fn whole_lists_and_their_items_change() {
    for holes in [
        "none",
        "[]",
        "[{ purpose = \"jack\", face = \"tail end\", at = [\"0 mm\", \"25 mm\"], diameter = \"9.5 mm\" }]",
    ] {
        for text in [PORCH, "", "[box]\nholes = []\n"] {
            let written = check(text, &[("box.holes", holes)]);
            let spec = Document::parse(written.as_bytes()).read().into_result().expect("sound").0;
            assert_eq!(spec.body.holes.len(), usize::from(holes.contains("jack")), "{holes} in\n{written}");
        }
    }
    let same = check(PORCH, &[("strings.7", "none")]);
    assert_eq!(same, PORCH, "there is no seventh to take out");
    let string = "{ pitch = \"B3\", diameter = \"0.013 in\" }";
    let listed = "strings = [{ pitch = \"G3\", diameter = \"0.017 in\" }]";
    for text in [PORCH, "", listed] {
        let before = changed(text, &[]).read().into_result().expect("sound").0.strings.len();
        let next = format!("strings.{}", before + 1);
        check(text, &[(&next, string)]);
        check(text, &[("strings.1", string)]);
        let written = check(text, &[(&next, string), ("strings.1", "none")]);
        let spec = Document::parse(written.as_bytes()).read().into_result().expect("sound").0;
        assert_eq!(spec.strings.len(), before, "one came and one went:\n{written}");
    }
}

#[test]
fn what_is_no_section_is_refused() {
    for (key, value, told) in [
        ("strings", "three", "expected \"none\" or a list of sections"),
        ("strings.1", "G3", "expected \"none\" or a section"),
        ("box.holes", "[1, 2", "expected \"none\" or a list of sections"),
        ("box.holes", "[]\nname = 3", "expected \"none\" or a list of sections"),
    ] {
        let faults = changed(PORCH, &[(key, value)]).read().into_result().expect_err("refused");
        assert!(faults.iter().any(|fault| fault.message.contains(told)), "{key} = {value}: {faults:#?}");
    }
}

#[test]
fn dotted_keys_and_inline_sections_are_found() {
    check("units = \"mm\"\nneck.thickness = 22\n", &[("neck.thickness", "25"), ("neck.width_at_nut", "40")]);
    check(
        "units = \"mm\"\ntail = { distance = 40, hole_height = 5 } # as built\n",
        &[("tail.distance", "42.5")],
    );
}

#[test]
fn what_is_no_document_is_not_written() {
    assert_eq!(changed("name = \"half", &[("name", "x")]).to_text(), None, "torn text");
    assert_eq!(changed("neck = 3\n", &[("neck.thickness", "3 mm")]).to_text(), None, "no place for it");
}

#[test]
fn what_stands_at_a_key_is_told_as_it_was_written() {
    let document = Document::parse(PORCH.as_bytes());
    let at = |key: &str| document.written_at(key);
    assert_eq!(at("neck.thickness").as_deref(), Some("3/4 in"), "a text");
    assert_eq!(at("headstock.tuner_rows").as_deref(), Some("2"), "a number");
    assert_eq!(at("strings.3.pitch").as_deref(), Some("G3"), "an item of a list");
    assert_eq!(at("neck.wobble"), None, "what is not there");
    assert_eq!(at("neck"), None, "a section");
    assert_eq!(
        changed(PORCH, &[("neck.thickness", "22 mm")]).written_at("neck.thickness").as_deref(),
        Some("22 mm"),
        "an override"
    );
}

proptest! {
    /// Any key that has limits, at its least, its most or half way: what the document then means is what is written.
    #[test]
    fn any_change_reads_as_it_was_meant(place in 0_usize..200, share in 0.0..=1.0_f64, text in prop_oneof![Just(PORCH), Just(MEADOW), Just("")]) {
        let ranged: Vec<_> = keys().iter().filter(|key| key.range.is_some() && key.kind != KeyKind::Sections && key.kind != KeyKind::LengthPair).collect();
        let key = ranged[place % ranged.len()];
        let range = key.range.expect("only keys with limits were kept");
        let between = match (range.least, range.most) {
            (Quantity::Length(least), Quantity::Length(most)) => Quantity::Length(least + (most - least) * share),
            (Quantity::Angle(least), Quantity::Angle(most)) => Quantity::Angle(least + (most - least) * share),
            (least, _) => least,
        };
        let document = changed(text, &[(&key.path.replace(".N.", ".1."), &between.to_string())]);
        let written = document.to_text().expect("a sound text can be written");
        let (meant, again) = (document.read(), Document::parse(written.as_bytes()).read());
        prop_assert_eq!(meant.value(), again.value(), "{}", written);
    }
}

//! Does a document mean what it says: defaults, units, overrides, and the way back to text?

use proptest::prelude::*;
use spec::{Document, KeyKind, Opening, Quantity, Spec, key_at, keys};
use units::{Angle, Length, LengthUnit};

fn read(document: &Document) -> Spec {
    match document.read().into_result() {
        Ok((spec, _)) => spec,
        Err(faults) => panic!("expected a sound document, found {faults:#?}"),
    }
}

fn document(text: &str) -> Document {
    Document::parse(text.as_bytes())
}

#[track_caller]
fn check_thickness(text: &str, expected_mm: f64) {
    assert_eq!(read(&document(text)).neck.thickness, Length::mm(expected_mm), "neck.thickness of {text:?}");
}

#[test]
fn lengths_are_read_exactly() {
    check_thickness("units = \"in\"\n[neck]\nthickness = 0.75", 19.05);
    check_thickness("units = \"mm\"\n[neck]\nthickness = 19.05", 19.05);
    check_thickness("units = \"mm\"\n[neck]\nthickness = 19", 19.0);
    check_thickness("units = \"mm\"\n[neck]\nthickness = 0x13", 19.0);
    check_thickness("units = \"mm\"\n[neck]\nthickness = \"3/4 in\"", 19.05);
    check_thickness("neck.thickness = \"19.05 mm\"\nunits = \"in\"", 19.05);
    check_thickness("neck = { thickness = 1_9.0_5 }\nunits = \"mm\"", 19.05);
}

#[track_caller]
fn check_override(key: &str, value: &str, expected: impl Fn(&Spec) -> bool) {
    let spec = read(&document("units = \"in\"\n").with_override(key, value));
    assert!(expected(&spec), "{key}={value} gives {spec:#?}");
}

#[test]
fn overrides_change_one_value() {
    check_override("neck.thickness", "19 mm", |spec| spec.neck.thickness == Length::mm(19.0));
    check_override("neck.thickness", "0.75", |spec| spec.neck.thickness == Length::mm(19.05));
    check_override("neck.thickness", "7/8", |spec| spec.neck.thickness == Length::mm(22.225));
    check_override("scale.frets", "15", |spec| spec.scale.frets == 15);
    check_override("name", "1984", |spec| spec.name == "1984");
    check_override("units", "mm", |spec| spec.units == LengthUnit::Millimetre);
    check_override("neck.back_angle", "2", |spec| spec.neck.back_angle == Angle::degrees(2.0));
    check_override("strings.2.pitch", "C3", |spec| {
        spec.strings.len() == 3 && spec.strings[1].pitch.to_string() == "C3" && spec.strings[1].core.is_some()
    });
    check_override("box.holes.1.diameter", "3/4", |spec| {
        spec.body.holes[0].opening == spec::Opening::Round { diameter: Length::mm(19.05) }
    });
    check_override("print.bed", "180 mm, 170 mm", |spec| {
        spec.print.bed == [Length::mm(180.0), Length::mm(170.0)]
    });
    check_override("scale.pattern", "[2, 4, 5, 7]", |spec| spec.scale.frets == 4);
    check_override("frets.wire", "14 AWG", |spec| spec.frets.wire.to_string() == "14 AWG");
}

#[test]
fn overrides_leave_the_document_alone() {
    let before = document("[[strings]]\npitch = \"G3\"\ndiameter = \"0.017 in\"\n");
    let after = before.with_override("strings.2.pitch", "D3").with_override("strings.2.diameter", "0.5 mm");
    assert_eq!(read(&before).strings.len(), 1, "the document before the override");
    assert_eq!(read(&after).strings.len(), 2, "an item past the end extends the list");
    let again = after.with_override("strings.2.pitch", "E3");
    assert_eq!(read(&again).strings[1].pitch.to_string(), "E3", "the last override of a key counts");
}

#[test]
fn an_override_mends_a_faulty_value() {
    let faulty = document("[neck]\nthickness = \"thick\"\n");
    assert!(faulty.read().value().is_none(), "faulty as it stands");
    assert_eq!(
        read(&faulty.with_override("neck.thickness", "20 mm")).neck.thickness,
        Length::mm(20.0),
        "mended"
    );
}

#[test]
fn every_default_is_accepted_as_an_override() {
    for key in keys() {
        let Some(default) = &key.default else { continue };
        let spec = read(&document("").with_override(&key.path.replace(".N.", ".1."), default));
        assert_eq!(spec, Spec::default(), "{} = {default}", key.path);
    }
}

#[test]
fn a_list_of_strings_or_holes_replaces_the_default_one() {
    let spec = read(&document("[box]\nholes = []\n"));
    assert_eq!(spec.body.holes, [], "no holes when the list says so");
    assert_eq!(Spec::default().body.holes.len(), 1, "one hole when nobody says");
}

#[test]
fn the_number_of_frets_follows_the_pattern() {
    #[track_caller]
    fn check(pattern: &str, expected: u8) {
        let spec = read(&document(&format!("[scale]\npattern = {pattern}\n")));
        assert_eq!(spec.scale.frets, expected, "frets of {pattern}");
    }
    check("\"chromatic\"", 18);
    check("\"diatonic\"", 10);
    check("[2, 4, 5, 7, 9, 10, 12]", 7);
}

#[test]
fn tolerances_follow_what_the_parts_are_made_with() {
    #[track_caller]
    fn check(text: &str, neck_set_mm: f64, fret_place_mm: f64) {
        let spec = read(&document(&format!("[tolerances]\n{text}\n")));
        let found = [spec.tolerances.neck_set, spec.tolerances.fret_place].map(Length::as_mm);
        assert_eq!(found, [neck_set_mm, fret_place_mm], "neck_set and fret_place of {text:?}");
    }
    check("", 0.8, 0.25);
    check("made_with = \"router\"", 0.4, 0.08);
    check("made_with = \"printer\"", 0.6, 0.2);
    check("made_with = \"router\"\nneck_set = \"0.7 mm\"", 0.7, 0.08);
}

#[test]
fn keys_are_found_by_the_paths_that_people_write() {
    assert_eq!(key_at("strings.2.pitch").map(|key| key.kind), Some(KeyKind::Pitch), "an item's key");
    assert_eq!(key_at("box.holes.1.at").map(|key| key.required), Some(true), "a required key");
    assert_eq!(key_at("strings.0.pitch"), None, "items count from 1");
    assert_eq!(key_at("neck"), None, "a section is no key");
    let thickness = key_at("neck.thickness").expect("a key");
    let range = thickness.range.expect("a length has limits");
    assert_eq!(range.least, Quantity::Length(Length::mm(6.0)), "the least thickness");
    assert_eq!(range.most.to_string(), "60 mm", "as an override takes it");
}

#[test]
fn places_point_at_what_is_to_blame() {
    #[track_caller]
    fn check(text: &str, key: &str, pointed_at: &str) {
        let document = document(text);
        let read = document.read();
        let place = &read.diagnostics()[0].place;
        let span = place.span().expect("the fault stands in the text");
        assert_eq!(
            (place.key.as_str(), &document.source()[span]),
            (key, pointed_at),
            "the place in {text:?}"
        );
    }
    check("[neck]\nthickness = 3\n", "neck.thickness", "3");
    check("[neck]\nthicknes = 3\n", "neck.thicknes", "thicknes");
    check("[[strings]]\npitch = \"H2\"\ndiameter = 0.017", "strings.1.pitch", "\"H2\"");
    check("[box]\nholes = [{ at = [1, 2], diameter = \"1 kg\" }]", "box.holes.1.diameter", "\"1 kg\"");
    check("[saddle]\nfrom_tail_end = \"11 in\"", "saddle.from_tail_end", "\"11 in\"");
}

#[test]
fn canonical_text_names_every_key() {
    let text = Spec::default().to_document_text();
    for key in keys() {
        let name = key.name();
        let written = text.lines().any(|line| {
            line.starts_with(&format!("{name} = "))
                || line.contains(&format!(".{name}]]"))
                || line == format!("[[{name}]]")
        });
        let absent = match key.path.strip_prefix("box.holes.N.") {
            Some(name) => ["length", "width", "depth", "outline", "outline_units"].contains(&name),
            None => key.path.starts_with("plank.") || key.path.starts_with("headstock.outline"),
        };
        assert!(written || absent, "{} stands in the canonical text:\n{text}", key.path);
    }
    assert_eq!(read(&document(&text)), Spec::default(), "and reads back");
    assert_eq!(read(&document(&text)).to_document_text(), text, "letter for letter");
}

/// A drawing of a rectangle, which does not state its unit.
fn rectangle_of(width: u32, height: u32) -> Vec<u8> {
    let corners = [(0, 0), (width, 0), (width, height), (0, height)];
    let corners: String = corners.iter().map(|(x, y)| format!("10\n{x}\n20\n{y}\n")).collect();
    format!("0\nSECTION\n2\nENTITIES\n0\nLWPOLYLINE\n70\n1\n{corners}0\nENDSEC\n0\nEOF\n").into_bytes()
}

#[test]
fn outlines_are_read_from_files_that_are_given() {
    let text = "[headstock]\noutline = \"head.dxf\"\noutline_units = \"mm\"\n\
                [[box.holes]]\nat = [2, 1.75]\noutline = \"holes/slot.dxf\"\noutline_units = \"in\"\n";
    let bare = document(text);
    assert_eq!(bare.files(), ["head.dxf", "holes/slot.dxf"], "the files that are named");
    let given = |document: Document| {
        document
            .with_file("head.dxf", Ok(rectangle_of(120, 44)))
            .with_file("holes/slot.dxf", Ok(rectangle_of(2, 1)))
    };
    let spec = read(&given(bare.clone()));
    assert_eq!(spec.headstock.length.as_mm(), 120.0, "as long as it is drawn");
    let head = spec.headstock.outline.as_ref().expect("a drawn headstock");
    assert_eq!(head.joint().as_mm(), 44.0, "the edge by which it is joined");
    let bounds = head.outline.bounds();
    assert_eq!(
        [bounds.min.x, bounds.max.x, bounds.min.y, bounds.max.y],
        [-120.0, 0.0, -22.0, 22.0],
        "its place"
    );
    let Opening::Drawn { outline, .. } = &spec.body.holes[0].opening else { panic!("{:?}", spec.body.holes) };
    let bounds = outline.outline.bounds();
    assert_eq!(
        [bounds.min.x, bounds.max.x, bounds.min.y, bounds.max.y],
        [-25.4, 25.4, -12.7, 12.7],
        "in inches"
    );

    let again = spec.to_document_text();
    assert_eq!(read(&given(document(&again))), spec, "the canonical text reads back");
    let given = given(bare);
    let listed: Vec<&str> = given.given_files().map(|(name, _)| name).collect();
    assert_eq!(listed, ["head.dxf", "holes/slot.dxf"], "what was given");
}

#[test]
fn names_that_lead_elsewhere_are_not_asked_for() {
    for name in [
        "../head.dxf",
        "/head.dxf",
        "a//head.dxf",
        "C:/head.dxf",
        "a\\head.dxf",
        ".head.dxf",
        "head.toml",
        "./head.dxf",
    ] {
        let document = document(&format!("[headstock]\noutline = '{name}'\n"));
        assert_eq!(document.files(), Vec::<String>::new(), "{name} is not asked for");
        let given = document.with_file(name, Ok(rectangle_of(120, 44)));
        let codes: Vec<&str> = given.read().diagnostics().iter().map(|fault| fault.code.text()).collect();
        assert_eq!(codes, ["S022"], "{name} is refused though it is given");
    }
}

#[test]
fn a_headstock_is_joined_to_a_neck_that_is_narrower() {
    let drawn = document("[headstock]\noutline = \"head.dxf\"\noutline_units = \"mm\"\n")
        .with_file("head.dxf", Ok(rectangle_of(120, 44)));
    let head = read(&drawn).headstock.outline.expect("a drawn headstock");
    let ys = |width: f64| -> Vec<f64> {
        let joined = head.joined_to(Length::mm(width)).expect("room for the neck");
        joined.vertices().iter().filter(|vertex| vertex.point.x == 0.0).map(|vertex| vertex.point.y).collect()
    };
    assert_eq!(ys(44.0), [-22.0, 22.0], "as wide as the neck");
    assert_eq!(ys(43.96), [-21.98, 21.98], "all but as wide: the corners are put on the neck's edges");
    assert_eq!(ys(40.0), [-22.0, -20.0, 20.0, 22.0], "wider: it keeps its shoulders");
}

#[test]
fn canonical_text_keeps_what_may_be_left_out() {
    let spec = read(&document(
        "[plank]\nlength = \"900 mm\"\nwidth = \"40 mm\"\nthickness = \"20 mm\"\n\
         [[box.holes]]\nat = [2, 1.75]\nlength = 1\nwidth = 2\ndepth = \"9 mm\"\n",
    ));
    assert_eq!(spec.plank.length, Some(Length::mm(900.0)), "the plank in hand");
    assert_eq!(spec.body.holes[0].depth, Some(Length::mm(9.0)), "what hangs in the opening");
    assert_eq!(read(&document(&spec.to_document_text())), spec, "and reads back");
}

/// A value within the limits of a key, as an override takes it, at a fraction of the way.
fn value_within(key: &spec::KeyInfo, fraction: f64) -> Option<String> {
    let range = key.range?;
    Some(match (range.least, range.most) {
        (Quantity::Length(least), Quantity::Length(most)) if key.kind == KeyKind::LengthPair => {
            format!(
                "{}, {most}",
                Quantity::Length(least + (most - least) * fraction),
                most = Quantity::Length(most)
            )
        }
        (Quantity::Length(least), Quantity::Length(most)) => {
            Quantity::Length(least + (most - least) * fraction).to_string()
        }
        (Quantity::Angle(least), Quantity::Angle(most)) => {
            format!("{} deg", (least + (most - least) * fraction).as_degrees())
        }
        (Quantity::Count(least), Quantity::Count(most)) if key.kind == KeyKind::Count => {
            (f64::from(least) + f64::from(most - least) * fraction).round().to_string()
        }
        _ => return None,
    })
}

/// Lines that look like a document, right and wrong ones.
fn line() -> impl Strategy<Value = String> {
    let keys: Vec<String> = keys().iter().map(|key| key.path.replace(".N.", ".1.")).collect();
    let value = prop_oneof![
        Just("\"3/4 in\"".to_owned()),
        Just("[1, 2, 3]".to_owned()),
        Just("{ a = 1 }".to_owned()),
        Just("nan".to_owned()),
        Just("1e308".to_owned()),
        Just("-0.0".to_owned()),
        Just("2024-05-01".to_owned()),
        Just("[[[]]]".to_owned()),
        Just("\"flat\"".to_owned()),
        Just("\"16 AWG\"".to_owned()),
        "\"[ -~]{0,20}\"",
        "-?[0-9]{1,40}(\\.[0-9]{1,5})?",
    ];
    prop_oneof![
        (proptest::sample::select(keys), value).prop_map(|(key, value)| format!("{key} = {value}")),
        Just("[[strings]]".to_owned()),
        Just("[[box.holes]]".to_owned()),
        Just("[neck]".to_owned()),
        "[ -~]{0,30}",
    ]
}

proptest! {
    #[test]
    fn an_override_means_what_the_document_would(
        key in proptest::sample::select(keys()),
        fraction in 0.0..=1.0_f64,
    ) {
        let value = value_within(&key, fraction).filter(|_| key.kind == KeyKind::Length && !key.path.contains(".N."));
        if let (Some(value), Some((section, name))) = (value, key.path.split_once('.')) {
            let overridden = document("").with_override(&key.path, &value).read();
            let written = document(&format!("[{section}]\n{name} = \"{value}\"\n")).read();
            prop_assert_eq!(overridden.value(), written.value(), "{} = {}", key.path, value);
        }
    }

    #[test]
    fn bytes_never_panic(bytes in proptest::collection::vec(any::<u8>(), 0..400)) {
        let read = Document::parse(&bytes).read();
        prop_assert!(read.value().is_some() || !read.diagnostics().is_empty(), "an instrument or a reason");
    }

    #[test]
    fn lines_never_panic(lines in proptest::collection::vec(line(), 0..30)) {
        let document = Document::parse(lines.join("\n").as_bytes());
        let read = document.read();
        for diagnostic in read.diagnostics() {
            if let Some(span) = diagnostic.place.span() {
                prop_assert!(document.source().get(span.clone()).is_some(), "{:?} lies in the text", span);
            }
        }
    }

    #[test]
    fn overrides_never_panic(key in "[a-z_.0-9]{0,40}", value in "\\PC{0,40}") {
        let read = Document::parse(b"").with_override(&key, &value).read();
        prop_assert!(read.value().is_some() || !read.diagnostics().is_empty(), "an instrument or a reason");
    }

    #[test]
    fn any_override_of_a_known_key_never_panics(
        key in proptest::sample::select(keys()),
        value in "[ -~]{0,20}",
    ) {
        let read = Document::parse(b"").with_override(&key.path.replace(".N.", ".1."), &value).read();
        prop_assert!(read.value().is_some() || !read.diagnostics().is_empty(), "an instrument or a reason");
    }

    #[test]
    fn values_in_range_come_back_from_the_canonical_text(
        chosen in proptest::collection::vec((proptest::sample::select(keys()), 0.0..=1.0_f64), 1..8),
    ) {
        let mut document = Document::parse(b"");
        for (key, fraction) in &chosen {
            if let Some(value) = value_within(key, *fraction) {
                document = document.with_override(&key.path.replace(".N.", ".1."), &value);
            }
        }
        let read = document.read();
        for fault in read.diagnostics() {
            // In range, so that only contradictions and keys beside one another are left.
            prop_assert!(fault.code.text() > "S019", "{fault}");
        }
        if let Some(spec) = read.value() {
            let text = spec.to_document_text();
            let again = Document::parse(text.as_bytes()).read();
            prop_assert_eq!(again.value(), Some(spec), "through\n{}", text);
        }
    }
}

//! Do solids meet as they are meant to, and is it seen by a hair when they do not?

use fit::{Assembly, Meeting};
use parts::Thing;
use spec::{BoxFace, Document};
use units::Length;

const PORCH: &str = include_str!("../../../specs/porch-three-string.toml");

fn assembly(document: &Document) -> Assembly {
    let (spec, _) = document.read().into_result().unwrap_or_else(|faults| panic!("unsound: {faults:#?}"));
    let layout = layout::layout(&spec).unwrap_or_else(|fault| panic!("cannot be laid out: {fault}"));
    Assembly::new(&layout, &parts::parts(&layout))
}

fn meetings(assembly: &Assembly) -> impl Iterator<Item = &Meeting> {
    assembly.contacts().iter().chain(assembly.clearances())
}

#[test]
fn every_document_of_the_shelf_meets_as_it_is_meant_to() {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../../specs");
    for entry in std::fs::read_dir(folder).expect("specs/ stands at the root") {
        let path = entry.expect("readable").path();
        if path.extension().is_none_or(|extension| extension != "toml") {
            continue;
        }
        let text = std::fs::read_to_string(&path).expect("readable");
        let start = Document::parse(text.as_bytes());
        let document = start.files().iter().fold(start, |document, name| {
            let path = format!("{folder}/{name}");
            document.with_file(name, std::fs::read(path).map_err(|fault| fault.to_string()))
        });
        let assembly = assembly(&document);
        let wrong: Vec<&Meeting> =
            meetings(&assembly).filter(|meeting| meeting.wrong_by() > Length::ZERO).collect();
        assert!(wrong.is_empty(), "{}: {wrong:#?}", path.display());
        let contacts = assembly.contacts().len();
        assert!(contacts >= 10, "{}: {contacts} contacts are looked at", path.display());
    }
}

#[test]
fn what_two_instruments_share_is_what_each_finds_alone() {
    let before = Document::parse(PORCH.as_bytes());
    let known = assembly(&before);
    assert!(meetings(&known).count() > 100, "all of it is worked out");
    for (key, value) in [
        ("name", "Attic"),
        ("action.height", "3 mm"),
        ("tail.hole_height", "9 mm"),
        ("neck.back_angle", "1.5 deg"),
        ("frets.height_scatter", "0.02 mm"),
        ("scale.length", "600 mm"),
        ("neck.thickness", "21 mm"),
        ("handed", "left"),
        ("tail.distance", "20 mm"),
    ] {
        let changed = before.with_override(key, value);
        let (alone, beside) = (assembly(&changed), assembly(&changed).sharing_with(&known));
        let [alone, beside] =
            [&alone, &beside].map(|assembly| meetings(assembly).cloned().collect::<Vec<_>>());
        assert_eq!(alone, beside, "{key} = {value}");
    }
}

/// The air between two things of the porch guitar with some values changed, within a hundredth of a millimetre.
#[track_caller]
fn check(changes: &[(&str, &str)], pair: [Thing; 2], expected_mm: f64) {
    let start = Document::parse(PORCH.as_bytes());
    let document = changes.iter().fold(start, |document, (key, value)| document.with_override(key, value));
    let assembly = assembly(&document);
    let found = meetings(&assembly).find(|meeting| meeting.pair == pair);
    let found = found
        .unwrap_or_else(|| panic!("{} and {} are not looked at under {changes:?}", pair[0], pair[1]))
        .air
        .as_mm();
    assert!(
        (found - expected_mm).abs() <= 0.01,
        "{} and {} under {changes:?}: expected {expected_mm} mm, found {found} mm",
        pair[0],
        pair[1]
    );
}

const LID: Thing = Thing::Face(BoxFace::Lid);
const NECK_END: Thing = Thing::Face(BoxFace::NeckEnd);

#[test]
fn the_neck_has_the_drawings_air_in_its_notch() {
    check(&[("print.clearance", "0.3 mm")], [Thing::Neck, NECK_END], 0.3);
    check(&[("print.clearance", "0 mm")], [Thing::Neck, NECK_END], 0.0);
}

#[test]
fn the_tongue_has_its_recess_under_the_lid() {
    check(&[("neck.tongue_recess", "1.7 mm")], [Thing::Neck, LID], 1.7);
}

/// Where the neck meets the slanting end of the box it is as thick as elsewhere, so that a rounded one lies on its heel there.
#[test]
fn a_heel_lies_on_a_round_neck() {
    let text = r#"
units = "in"
scale.frets = 11
neck.width_at_nut = "30.2 mm"
neck.width_at_box = "31.17 mm"
neck.thickness = "24.43 mm"
neck.section = "oval"
neck.edge_radius = "6.27 mm"
neck.back_angle = "2.15 deg"
neck.tongue_recess = "0.01 mm"
heel.reach = "20.85 mm"
frets.kind = "wrapped wire"
frets.seat_depth = "0.22 mm"
frets.height_scatter = "0.01 mm"
frets.past_heel = "seated"
zero_fret.crown_height = "1.5 mm"
zero_fret.crown_width = "2.43 mm"
zero_fret.slot_width = "0.67 mm"
zero_fret.slot_depth = "1.12 mm"
nut.thickness = "4.03 mm"
nut.edge_margin = "3.24 mm"
nut.slot_clearance = "0.04 mm"
box.length = "267.01 mm"
box.width = "171.05 mm"
box.depth = "57.04 mm"
box.wall = "6.37 mm"
box.lid = "4.86 mm"
box.lid_wood = "black walnut"
box.holes = []
"#;
    let assembly = assembly(&Document::parse(text.as_bytes()));
    let met = assembly.contacts().iter().find(|meeting| meeting.pair == [Thing::Heel, Thing::Neck]);
    assert_eq!(met.map(|meeting| meeting.air), Some(Length::ZERO), "the heel lies on the neck");
}

#[test]
fn wire_lies_on_the_neck_and_its_board() {
    check(&[], [Thing::Fret(5), Thing::Neck], 0.0);
    check(&[("frets.seat_depth", "0.2 mm")], [Thing::Fret(5), Thing::Neck], 0.0);
    let crowned = [("fretboard.thickness", "6 mm"), ("fretboard.radius", "300 mm")];
    check(&crowned, [Thing::Fret(5), Thing::Fretboard], 0.0);
    check(&crowned, [Thing::ZeroFret, Thing::Fretboard], 0.0);
}

/// The air between the block and a saddle 12 mm thick, its rear half its thickness behind its middle.
#[track_caller]
fn check_tail(distance_mm: f64) {
    let distance = format!("{distance_mm} mm");
    let changes =
        [("tail.distance", &*distance), ("tail.hole_height", "6 mm"), ("saddle.thickness", "12 mm")];
    let start = Document::parse(PORCH.as_bytes());
    let document = changes.iter().fold(start, |document, (key, value)| document.with_override(key, value));
    let (spec, _) = document.read().into_result().expect("sound");
    let shift = layout::layout(&spec).expect("laid out").saddle().shift.as_mm();
    check(&changes, [Thing::TailBlock, Thing::Saddle], distance_mm - 6.0 - shift);
}

#[test]
fn a_tail_block_keeps_the_distance_that_the_plan_gives() {
    check_tail(12.0);
}

#[test]
fn an_overlap_is_as_deep_as_it_must_be_undone() {
    check_tail(5.0);
}

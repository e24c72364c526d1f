//! Does everything solid lie where it belongs once the instrument is built?

use std::collections::BTreeSet;

use geometry::Bounds3;
use layout::Layout;
use parts::{Placed, Thing};
use spec::{BoxFace, Document};
use units::{ChordTolerance, Length};

/// Where the documents lie that come along.
const SHELF: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../../specs");

const TOLERANCE: ChordTolerance = ChordTolerance::new(Length::mm(0.005));

/// The layout of a document; the files that it names lie in the shelf.
fn laid_out(text: &str) -> Layout {
    let start = Document::parse(text.as_bytes());
    let document = start.files().iter().fold(start, |document, name| {
        let path = format!("{SHELF}/{name}");
        document.with_file(name, std::fs::read(path).map_err(|fault| fault.to_string()))
    });
    let (spec, _) = document.read().into_result().unwrap_or_else(|faults| panic!("unsound: {faults:#?}"));
    layout::layout(&spec).unwrap_or_else(|fault| panic!("cannot be laid out: {fault}"))
}

fn placed(layout: &Layout) -> Vec<Placed> {
    let set = parts::parts(layout);
    assert!(set.faults.is_empty(), "no part may fail: {:?}", set.faults);
    parts::placed(layout, &set, TOLERANCE)
}

fn bounds(placed: &[Placed], thing: Thing) -> Bounds3 {
    let found = placed.iter().find(|placed| placed.thing == thing);
    let mesh = found.unwrap_or_else(|| panic!("there is a {thing}")).mesh(TOLERANCE);
    mesh.unwrap_or_else(|fault| panic!("{thing}: {fault}")).bounds().expect("a mesh has points")
}

/// Every document of the shelf, by its name.
fn shelf() -> Vec<(String, String)> {
    let entries = std::fs::read_dir(SHELF).expect("specs/ stands at the root");
    let mut documents: Vec<(String, String)> = entries
        .map(|entry| entry.expect("readable").path())
        .filter(|path| path.extension().is_some_and(|extension| extension == "toml"))
        .map(|path| (path.display().to_string(), std::fs::read_to_string(&path).expect("readable")))
        .collect();
    documents.sort();
    assert!(documents.len() >= 8, "the shelf holds its documents");
    documents
}

#[test]
fn everything_of_every_document_is_closed_and_there_once() {
    for (name, text) in shelf() {
        let layout = laid_out(&text);
        let placed = parts::placed(&layout, &parts::parts(&layout), TOLERANCE);
        for placed in &placed {
            let mesh =
                placed.mesh(TOLERANCE).unwrap_or_else(|fault| panic!("{name}, {}: {fault}", placed.thing));
            assert!(mesh.volume() > 0.0, "{name}: {} has an inside", placed.thing);
        }
        let things: BTreeSet<Thing> = placed.iter().map(|placed| placed.thing).collect();
        assert_eq!(things.len(), placed.len(), "{name}: each thing once");
        let strings = layout.strings().len();
        // Lid and walls, neck, nut, saddle, zero fret, and for each string itself, its post and its tuner.
        let least = 5 + 4 + layout.frets().frets.len() + strings * 3;
        assert!(placed.len() >= least, "{name}: at least {least} things, found {}", placed.len());
    }
}

/// The box stands level under a neck without a back angle: 254 mm by 178 mm by 51 mm, walls 6 mm, lid 3 mm.
const BOX: &str =
    "units = \"mm\"\nbox.length = 254\nbox.width = 178\nbox.depth = 51\nbox.wall = 6\nbox.lid = 3\n";

#[track_caller]
fn check_face(face: BoxFace, extra: &str, x: [f64; 2], y: [f64; 2], z: [f64; 2]) {
    let layout = laid_out(&format!("{BOX}{extra}"));
    let found = bounds(&placed(&layout), Thing::Face(face));
    let (start, lid) = (layout.frame().neck_end_x.as_mm(), layout.frame().lid_z.as_mm());
    let expected = [[x[0] + start, x[1] + start], y, [z[0] + lid, z[1] + lid]];
    let found = [[found.min.x, found.max.x], [found.min.y, found.max.y], [found.min.z, found.max.z]];
    for (axis, (found, expected)) in
        ["x", "y", "z"].iter().zip(found.iter().flatten().zip(expected.iter().flatten()))
    {
        assert!((found - expected).abs() < 1e-9, "{face:?}, {axis}: expected {expected}, found {found}");
    }
}

#[test]
fn lid_and_walls_make_a_box() {
    check_face(BoxFace::Lid, "", [0.0, 254.0], [-89.0, 89.0], [-3.0, 0.0]);
    check_face(BoxFace::NeckEnd, "", [0.0, 6.0], [-89.0, 89.0], [-51.0, -3.0]);
    check_face(BoxFace::TailEnd, "", [248.0, 254.0], [-89.0, 89.0], [-51.0, -3.0]);
    check_face(BoxFace::BassSide, "", [6.0, 248.0], [-89.0, -83.0], [-51.0, -3.0]);
    check_face(BoxFace::TrebleSide, "", [6.0, 248.0], [83.0, 89.0], [-51.0, -3.0]);
    check_face(BoxFace::BassSide, "handed = \"left\"", [6.0, 248.0], [83.0, 89.0], [-51.0, -3.0]);
}

/// The volume of a face in cubic millimetres, within what the facets of its holes lose.
#[track_caller]
fn check_volume(face: BoxFace, extra: &str, expected: f64) {
    let layout = laid_out(&format!("{BOX}{extra}"));
    let placed = placed(&layout);
    let plate = placed.iter().find(|placed| placed.thing == Thing::Face(face)).expect("a face of the box");
    let found = plate.mesh(TOLERANCE).expect("a mesh").volume();
    assert!((found - expected).abs() < 1.0, "{face:?}: expected {expected} mm3, found {found}");
}

#[test]
fn openings_go_through_their_faces() {
    let hole = |face: &str, size: &str| {
        format!(
            "neck.joint = \"butt\"\nbox.holes = [{{ purpose = \"pickup\", face = \"{face}\", at = [60, 25], {size} }}]"
        )
    };
    let on_end = "\ntail.hole_height = -5\ntail.distance = 75";
    let rectangle = hole("lid", "length = 40, width = 10") + on_end;
    check_volume(BoxFace::Lid, &rectangle, (254.0 * 178.0 - 400.0) * 3.0);
    let round = 25.0 * std::f64::consts::PI;
    check_volume(BoxFace::TailEnd, &hole("tail end", "diameter = 10"), (178.0 * 48.0 - round) * 6.0);
    check_volume(BoxFace::BassSide, &hole("bass side", "diameter = 10"), (242.0 * 48.0 - round) * 6.0);
    let let_in = "neck.joint = \"butt\"\nbox.holes = []\nsaddle.kind = \"let in\"\nsaddle.thickness = 8\nsaddle.spread = 33\nprint.clearance = 0.5";
    let pocketed = 254.0 * 178.0 * 3.0 - 9.0 * 44.0 * 1.5;
    check_volume(BoxFace::Lid, &format!("{let_in}{on_end}\nrouter.corner_relief = \"none\""), pocketed);
    // Each corner's dogbone is half a circle of the bit's radius, 2 mm, less the right-angled triangle on its diameter.
    let bites = 4.0 * (2.0 * std::f64::consts::PI - 4.0) * 1.5;
    check_volume(BoxFace::Lid, &format!("{let_in}{on_end}\nrouter.bit = 4"), pocketed - bites);
}

/// The lowest and the highest `z` of the first fret's wire, 1.2 mm thick, under a flat playing plane.
#[track_caller]
fn check_fret(extra: &str, expected: [f64; 2]) {
    let layout = laid_out(&format!(
        "units = \"mm\"\nfrets.wire = 1.2\nneck.thickness = 19\nneck.section = \"square\"\n{extra}"
    ));
    let found = bounds(&placed(&layout), Thing::Fret(1));
    let [low, high] = expected;
    assert!(
        (found.min.z - low).abs() < 0.006 && (found.max.z - high).abs() < 0.006,
        "{extra:?}: expected {low} to {high}, found {} to {}",
        found.min.z,
        found.max.z
    );
}

#[test]
fn wire_lies_on_the_playing_plane_or_in_its_seat() {
    check_fret("", [-20.2, 1.2]);
    check_fret("frets.seat_depth = 0.3", [-20.2, 0.9]);
    check_fret("frets.kind = \"seated wire\"\nfrets.seat_depth = 0.5", [-0.5, 0.7]);
    check_fret("fretboard.thickness = 5\nheel.depth = 60\n", [-25.2, 1.2]);
    // The tang fills nine tenths of a slot 1.6 mm deep; the crown is as high as the zero fret's.
    check_fret(
        "frets.kind = \"fret wire\"\nzero_fret.slot_depth = 1.6\nzero_fret.crown_height = 1.4",
        [-1.44, 1.4],
    );
}

// Bytes must not depend on the order in which a triangulation finds what is nearly one point.
#[test]
fn the_same_neck_has_the_same_triangles_every_time() {
    let layout = laid_out(include_str!("oval_at_the_headstock.toml"));
    let coarse = ChordTolerance::new(Length::mm(0.05));
    let set = parts::parts(&layout);
    let placed = parts::placed(&layout, &set, coarse);
    let neck = placed.iter().find(|placed| placed.thing == Thing::Neck).expect("there is a neck");
    let once = neck.mesh(coarse).expect("closed");
    for turn in 0..40 {
        assert_eq!(neck.mesh(coarse).as_ref(), Ok(&once), "the same solid again, turn {turn}");
    }
}

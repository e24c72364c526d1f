//! Do the jigs fit their printer, and are their marks and bores where the instrument wants them?

use geometry::{Drawing, Operation};
use layout::Layout;
use parts::{Part, Process};
use spec::Document;
use units::{ChordTolerance, Length};

const TOLERANCE: ChordTolerance = ChordTolerance::new(Length::mm(0.01));

fn laid_out(text: &str) -> Layout {
    let document = Document::parse(format!("units = \"mm\"\n{text}").as_bytes());
    let (spec, _) = document.read().into_result().unwrap_or_else(|faults| panic!("unsound: {faults:#?}"));
    layout::layout(&spec).unwrap_or_else(|fault| panic!("cannot be laid out: {fault}"))
}

fn jigs(layout: &Layout) -> Vec<Part> {
    let set = parts::parts(layout);
    assert!(set.faults.is_empty(), "no part may fail: {:?}", set.faults);
    set.parts.into_iter().filter(|part| part.name.starts_with("fret-jig")).collect()
}

/// Where a drawing has its saw cuts.
fn slots(drawing: &Drawing) -> Vec<f64> {
    let place = |operation: &Operation| match operation {
        Operation::Slot { path, .. } => Some(path.bounds().min.x),
        _ => None,
    };
    drawing.operations.iter().filter_map(place).collect()
}

fn drills(drawing: &Drawing) -> Vec<(f64, f64)> {
    let place = |operation: &Operation| match operation {
        Operation::Drill { circle, .. } => Some((circle.center.x, circle.center.y)),
        _ => None,
    };
    drawing.operations.iter().filter_map(place).collect()
}

#[track_caller]
fn check_jig(text: &str, bed: f64, sections: usize) {
    let layout = laid_out(text);
    let jigs = jigs(&layout);
    assert_eq!(jigs.len(), sections, "sections of {text:?}");
    let mut marked = vec![0.0];
    for jig in &jigs {
        assert_eq!(jig.quantity, 0, "{} is no part of the instrument", jig.name);
        let solid = jig.solid.as_ref().expect("a jig is printed");
        assert_eq!(solid.process, Process::Printed, "{}", jig.name);
        let lying = solid.lying(TOLERANCE).expect("a closed mesh");
        assert!(lying.mesh.volume() > 0.0, "{} has an inside", jig.name);
        assert!(lying.size[0].as_mm() <= bed - 10.0 + 1e-9, "{} is {} long", jig.name, lying.size[0]);
        assert!((lying.size[2].as_mm() - 8.0).abs() < 1e-9, "plate and fence, found {}", lying.size[2]);
        let found = slots(&jig.drawings[0]);
        assert_eq!(found.first(), marked.last(), "{} begins where the one before ends", jig.name);
        marked.extend(&found[1..]);
    }
    let stations: Vec<f64> =
        std::iter::once(0.0).chain(layout.frets().frets.iter().map(|fret| fret.x.as_mm())).collect();
    assert_eq!(marked, stations, "every station once, by its distance from the zero fret");
}

#[test]
fn a_jig_is_cut_where_the_bed_ends() {
    check_jig("", 220.0, 3);
    check_jig("[print]\nbed = [300, 300]\n", 300.0, 2);
    check_jig("[print]\nbed = [180, 500]\n", 500.0, 1);
    check_jig("[neck]\nwidth_at_nut = 40\nwidth_at_box = 52\n", 220.0, 3);
    check_jig("handed = \"left\"\n", 220.0, 3);
}

#[test]
fn a_bed_that_is_too_small_makes_no_jig() {
    assert!(jigs(&laid_out("[print]\nbed = [60, 60]\n")).is_empty(), "more than six pieces help nobody");
}

#[test]
fn the_tail_guide_has_a_bore_a_string_where_the_tail_has_it() {
    for (text, up) in [
        ("[tail]\nhole_height = 6\n", 6.0),
        // 63.5 mm from the saddle line to the end of the box, which the ledge's side of the block lies on.
        ("[tail]\nhole_height = -8\ndistance = 75\n[neck]\ntail_overhang = 0\n", 75.0 - 63.5),
    ] {
        let layout = laid_out(text);
        let set = parts::parts(&layout);
        let guide = set.parts.iter().find(|part| part.name == "tail-drill-guide").expect("there is a guide");
        let found = drills(&guide.drawings[0]);
        let expected: Vec<(f64, f64)> =
            layout.tail().bores.iter().map(|bore| (bore.across.as_mm(), up)).collect();
        assert_eq!(found.len(), expected.len(), "a bore a string of {text:?}");
        for (found, expected) in found.iter().zip(&expected) {
            let off = (found.0 - expected.0).abs().max((found.1 - expected.1).abs());
            assert!(off < 1e-9, "{text:?}: {found:?}, expected {expected:?}");
        }
        let lying = guide.solid.as_ref().expect("printed").lying(TOLERANCE).expect("a closed mesh");
        assert!(lying.mesh.volume() > 0.0, "it has an inside");
    }
}

#[test]
fn the_guide_of_a_stick_is_seen_from_below() {
    let layout = laid_out(
        "[tail]\nkind = \"string through\"\nhole_height = -8\ndistance = 75\n[neck]\ntail_overhang = 40\n",
    );
    let set = parts::parts(&layout);
    let guide = set.parts.iter().find(|part| part.name == "tail-drill-guide").expect("there is a guide");
    for (found, string) in drills(&guide.drawings[0]).iter().zip(layout.strings()) {
        let expected = (-string.tail.y.as_mm(), (layout.neck().tail_end_x - string.tail.x).as_mm());
        let off = (found.0 - expected.0).abs().max((found.1 - expected.1).abs());
        assert!(off < 1e-9, "{found:?}, expected {expected:?}");
    }
}

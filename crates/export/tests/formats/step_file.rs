//! Does the STEP file have a sound header, and the same entities every time?

use boxneck_export::step::{StepOptions, write};
use truck_modeling::{Point3, Rad, Solid, Vector3, builder};

use crate::golden;

/// A cylinder of radius 5 mm and height 10 mm on the origin.
fn cylinder() -> Solid {
    let vertex = builder::vertex(Point3::new(5.0, 0.0, 0.0));
    let circle = builder::rsweep(&vertex, Point3::new(0.0, 0.0, 0.0), Vector3::unit_z(), Rad(7.0));
    let disc = builder::try_attach_plane(&[circle]).expect("a circle is flat");
    builder::tsweep(&disc, Vector3::new(0.0, 0.0, 10.0))
}

fn text() -> String {
    write("tail block's pin", &cylinder(), &StepOptions::default()).expect("the cylinder can be written")
}

#[test]
fn the_header_is_as_it_was() {
    let text = text();
    let end = text.find("#16 = ").expect("the solid follows the product");
    golden::check("header.step", &text[..end]);
}

#[test]
fn the_solid_is_named_after_the_part() {
    assert!(text().contains("MANIFOLD_SOLID_BREP('tail block''s pin', #"), "the solid has a name");
    assert!(text().contains("PRODUCT('tail block''s pin','tail block''s pin','',"), "the product has a name");
}

#[test]
fn the_caller_gives_the_time() {
    let options = StepOptions { time_stamp: "2026-03-04T05:06:07".into(), ..StepOptions::default() };
    let text = write("pin", &cylinder(), &options).expect("the cylinder can be written");
    assert!(
        text.contains("FILE_NAME('pin.step', '2026-03-04T05:06:07', (''), (''), "),
        "the time is in the header"
    );
}

#[test]
fn entities_are_the_same_every_time() {
    // Each solid is made anew: its edges get other numbers inside the kernel.
    let first = text();
    for _ in 0..8 {
        assert_eq!(text(), first, "the same solid made again gives the same file");
    }
}

#[test]
fn every_reference_names_an_entity_once() {
    let text = text();
    let names: Vec<_> = text.lines().filter_map(|line| line.strip_prefix('#')?.split_once(" = ")).collect();
    let mut defined = std::collections::BTreeSet::new();
    for (number, _) in &names {
        assert!(defined.insert(*number), "#{number} is there once");
    }
    for (number, words) in &names {
        for reference in words.split('#').skip(1) {
            let digits: String = reference.chars().take_while(char::is_ascii_digit).collect();
            assert!(defined.contains(digits.as_str()), "#{digits}, named by #{number}, is there");
        }
    }
}

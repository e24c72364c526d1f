//! The lists of a random document: its strings and the openings of its box.

use boxneck::spec::key_at;
use proptest::prelude::*;

use super::{allowed, mostly};

/// A usual set, bass to treble: pitch, diameter and core in thousandths of an inch.
const USUAL: [(&str, u32, Option<u32>); 6] = [
    ("E2", 46, Some(18)),
    ("A2", 36, Some(17)),
    ("D3", 26, Some(15)),
    ("G3", 17, None),
    ("B3", 13, None),
    ("E4", 10, None),
];

const NOTES: [&str; 8] = ["C2", "E2", "G2", "A2", "D3", "G3", "B3", "E4"];

/// The `strings` line: neighbours from the usual set, or strings of any diameter in any order.
pub fn strings(count: usize, wildness: f64) -> BoxedStrategy<String> {
    let usual = (0..=USUAL.len() - count).prop_map(move |first| {
        let one = |(pitch, diameter, core): &(&str, u32, Option<u32>)| {
            let core = core.map_or(String::new(), |core| format!(", core = \"0.{core:03} in\""));
            format!("{{ pitch = \"{pitch}\", diameter = \"0.{diameter:03} in\"{core} }}")
        };
        USUAL[first..first + count].iter().map(one).collect::<Vec<_>>()
    });
    let diameter = mostly(Some((0.2, 1.4)), limits("strings.1.diameter"), wildness);
    let any = (prop::sample::select(&NOTES[..]), diameter)
        .prop_map(|(pitch, diameter)| format!("{{ pitch = \"{pitch}\", diameter = \"{diameter} mm\" }}"));
    prop_oneof![4 => usual, 1 => prop::collection::vec(any, count)]
        .prop_map(|items| format!("strings = [{}]\n", items.join(", ")))
        .boxed()
}

/// The `box.holes` line: up to three openings, most of them round.
pub fn holes(wildness: f64) -> BoxedStrategy<String> {
    let faces = &["lid", "lid", "tail end", "neck end", "bass side", "treble side"][..];
    let purposes = &["sound", "jack", "pot", "pickup"][..];
    let first = mostly(Some((20.0, 180.0)), limits("box.holes.1.at"), wildness);
    let second = mostly(Some((15.0, 50.0)), limits("box.holes.1.at"), wildness);
    let size = || mostly(Some((5.0, 30.0)), limits("box.holes.1.diameter"), wildness);
    let hole = (
        prop::sample::select(faces),
        prop::sample::select(purposes),
        (first, second),
        prop_oneof![
            4 => size().prop_map(|size| format!("diameter = \"{size} mm\"")),
            1 => (size(), size()).prop_map(|(a, b)| format!("length = \"{a} mm\", width = \"{b} mm\"")),
        ],
    )
        .prop_map(|(face, purpose, (first, second), size)| {
            format!("{{ purpose = \"{purpose}\", face = \"{face}\", at = [\"{first} mm\", \"{second} mm\"], {size} }}")
        });
    prop::collection::vec(hole, 0..=3)
        .prop_map(|items| format!("box.holes = [{}]\n", items.join(", ")))
        .boxed()
}

fn limits(path: &str) -> (f64, f64) {
    allowed(key_at(path).unwrap_or_else(|| panic!("{path} is a key")))
}

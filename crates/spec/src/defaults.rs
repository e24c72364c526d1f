//! What does a document mean that leaves its lists out?
//!
//! The defaults of single keys stand where they are read; the lists that are whole sections stand here, written as a
//! document writes them.

use std::sync::{Arc, LazyLock};

use crate::document::{Document, Node, NodeOrigin, Value};

/// Three strings in open G at 71 to 76 N each over a scale length of 25 in (the tension is
/// `mass per length * (2 * scale length * frequency)^2`), and one sound hole in the lid beside the neck.
const LISTS: &str = r#"
[[strings]]
pitch = "G2"
diameter = "0.036 in"
core = "0.017 in"
wrap = "phosphor bronze"

[[strings]]
pitch = "D3"
diameter = "0.024 in"
core = "0.014 in"
wrap = "phosphor bronze"

[[strings]]
pitch = "G3"
diameter = "0.017 in"

[[box.holes]]
purpose = "sound"
face = "lid"
at = ["2 in", "1 1/2 in"]
diameter = "1 in"
"#;

/// The default of a list of sections in words.
pub(crate) fn in_words(key: &str) -> Option<&'static str> {
    match key {
        "strings" => Some("three strings in open G: G2, D3 and G3 of 0.036 in, 0.024 in and 0.017 in"),
        "box.holes" => Some("one sound hole of 1 in in the lid; an empty list for none"),
        _ => None,
    }
}

static TREE: LazyLock<Node> =
    LazyLock::new(|| Document::parse(LISTS.as_bytes()).root().at_origin(&NodeOrigin::Default));

/// The default of a list of sections at a dotted key; empty where there is none.
pub(crate) fn list(key: &str) -> &'static [Arc<Node>] {
    let (above, name) = key.rsplit_once('.').unwrap_or(("", key));
    let sections = above.split('.').filter(|section| !section.is_empty());
    let below = |node: &'static Node, step: &str| match &node.value {
        Value::Table(table) => table.get(step).map(|(_, node)| &**node),
        _ => None,
    };
    let section = sections.into_iter().try_fold(&*TREE, below);
    match section.and_then(|section| below(section, name)).map(|node| &node.value) {
        Some(Value::List(items)) => items,
        _ => &[],
    }
}

#[cfg(test)]
mod tests {
    use units::{Length, Pitch};

    use crate::instrument::{Spec, StringSpec};

    /// `mass per length * (2 * scale length * frequency)^2` with the close-wound model: wire of diameter
    /// `(diameter - core) / 2` laid round the core in a helix of that pitch.
    fn tension_n(string: &StringSpec, scale_length: Length) -> f64 {
        let pi = std::f64::consts::PI;
        let steel = crate::stock::string_steel().density.as_kg_per_m3();
        let diameter = string.diameter.as_metres();
        let mass_per_length = match (string.core, string.wrap) {
            (Some(core), Some(wrap)) => {
                let core = core.as_metres();
                let wire = (diameter - core) / 2.0;
                let turn = units::math::hypot(pi * (core + wire), wire) / wire;
                steel * pi * core * core / 4.0 + wrap.density().as_kg_per_m3() * pi * wire * wire / 4.0 * turn
            }
            _ => steel * pi * diameter * diameter / 4.0,
        };
        let speed = 2.0 * scale_length.as_metres() * string.pitch.frequency().as_hertz();
        mass_per_length * speed * speed
    }

    #[test]
    fn the_formula_gives_the_published_string() {
        // 0.032 in over a 0.018 in core, D3 at 648 mm, wrap of plated steel: 126.1723 N (worked by hand at 50 digits).
        let string = StringSpec {
            pitch: Pitch::parse("D3").expect("a note"),
            diameter: Length::inches(0.032),
            core: Some(Length::inches(0.018)),
            wrap: Some(crate::stock::WrapMaterial::named("plated steel").expect("a wrap")),
        };
        let found = tension_n(&string, Length::mm(648.0));
        assert!((found - 126.1723).abs() < 0.001, "expected 126.1723 N within 0.001 N, found {found} N");
    }

    #[test]
    fn every_default_list_is_told_in_words() {
        for key in crate::keys().iter().filter(|key| key.kind == crate::KeyKind::Sections) {
            assert!(!super::list(&key.path).is_empty(), "{} has a default list", key.path);
            assert!(key.default_rule.is_some(), "{} says what its default is", key.path);
        }
    }

    #[test]
    fn the_default_strings_share_the_load() {
        let spec = Spec::default();
        assert_eq!(spec.strings.len(), 3, "strings");
        for string in &spec.strings {
            let tension = tension_n(string, spec.scale.length);
            assert!(
                (60.0..=80.0).contains(&tension),
                "{}: expected 60 N to 80 N, found {tension} N",
                string.pitch
            );
        }
    }
}

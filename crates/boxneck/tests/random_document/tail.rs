//! How are the strings held? Four keys that make sense together only.

use boxneck::spec::key_at;
use proptest::prelude::*;

use super::{allowed, mostly};

/// The keys that [`lines`] writes.
pub const KEYS: [&str; 4] = ["neck.joint", "tail.kind", "tail.hole_height", "tail.distance"];

/// From one number to another.
type Limits = (f64, f64);

/// The usual ways: a block on the lid, a block on the tail end, strings through the stick; wild ones in any mixture.
/// Each is the joints that go with it, and the limits of hole height and distance in millimetres: behind the box low and
/// far enough for the strings to pass over the lid's edge.
const WAYS: [(&str, &[&str], Limits, Limits); 3] = [
    ("block", &["through", "butt"], (2.0, 6.0), (20.0, 32.0)),
    ("block", &["butt", "through"], (-5.0, -1.0), (85.0, 110.0)),
    ("string through", &["through"], (-4.0, -1.0), (75.0, 100.0)),
];

/// Their four lines.
pub fn lines(wildness: f64) -> BoxedStrategy<String> {
    prop::sample::select(&WAYS[..])
        .prop_flat_map(move |(kind, joints, height, distance)| {
            let number = |path, usual| {
                let key = key_at(path).unwrap_or_else(|| panic!("{path} is a key"));
                mostly(Some(usual), allowed(key), wildness)
            };
            let joint = prop::sample::select(joints);
            (joint, number("tail.hole_height", height), number("tail.distance", distance)).prop_map(
                move |(joint, height, distance)| {
                    format!(
                        "neck.joint = \"{joint}\"\ntail.kind = \"{kind}\"\n\
                         tail.hole_height = \"{height} mm\"\ntail.distance = \"{distance} mm\"\n"
                    )
                },
            )
        })
        .boxed()
}

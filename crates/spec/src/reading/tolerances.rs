//! How well each dimension is held.

use std::ops::RangeInclusive;

use units::Length;

use super::keys::{Keys, mm};
use crate::choice::Choice;
use crate::instrument::{MadeWith, Tolerances};

pub(super) fn tolerances(keys: &mut Keys<'_, '_>) -> Tolerances {
    let made_with = keys.choice("made_with", MadeWith::HandTools);
    // One standard deviation in millimetres with hand tools, a router, a printer: common practice, no source.
    let mut held = |key, usual: [f64; 3], most| held(keys, key, made_with, usual, mm(0.0)..=mm(most));
    Tolerances {
        made_with,
        neck_set: held("neck_set", [0.8, 0.4, 0.6], 5.0),
        zero_fret_height: held("zero_fret_height", [0.06, 0.03, 0.05], 1.0),
        fret_place: held("fret_place", [0.25, 0.08, 0.2], 1.0),
        saddle_height: held("saddle_height", [0.3, 0.1, 0.12], 2.0),
        saddle_place: held("saddle_place", [0.5, 0.4, 0.4], 5.0),
        tail_height: held("tail_height", [0.5, 0.2, 0.2], 5.0),
        tail_distance: held("tail_distance", [1.0, 0.5, 0.5], 10.0),
        // Common practice, no source.
        string_diameter: keys.length("string_diameter", "0.003 mm", mm(0.0)..=mm(0.02)),
    }
}

/// A length whose default, in millimetres for each word of [`MadeWith`], depends on what the parts are made with.
fn held(
    keys: &mut Keys<'_, '_>,
    key: &'static str,
    made_with: MadeWith,
    usual: [f64; 3],
    range: RangeInclusive<Length>,
) -> Length {
    let by_maker = MadeWith::CHOICES.iter().zip(usual);
    let rule: Vec<String> =
        by_maker.clone().map(|((word, _), usual)| format!("{usual} mm with \"{word}\"")).collect();
    let own = by_maker.clone().find(|((_, maker), _)| *maker == made_with);
    let (_, default) = own.expect("every value stands in its table of words; a test walks them");
    keys.length_by_rule(key, mm(default), rule.join(", "), range)
}

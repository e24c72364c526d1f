//! Is a left-handed instrument the exact mirror of the right-handed one?

use boxneck::geometry::{Bounds2, Drawing};
use boxneck::layout::{Layout, Place};
use boxneck::units::{ChordTolerance, Length};
use boxneck::{Instrument, spec::Document};
use proptest::prelude::*;

use crate::random_document::{config, spec};

const CHORD: ChordTolerance = ChordTolerance::new(Length::mm(0.02));

fn both_hands(document: &Document) -> Option<[Instrument; 2]> {
    let hand = |hand| Instrument::of(&document.with_override("handed", hand)).ok();
    Some([hand("right")?, hand("left")?])
}

proptest! {
    #![proptest_config(config(60))]

    #[test]
    fn layouts_differ_in_the_sign_of_y_alone(spec in spec()) {
        if let Some([right, left]) = both_hands(spec.document()) {
            let (found, expected) = (numbers(left.layout()), numbers(right.layout()));
            prop_assert_eq!(found.0, expected.0, "along and up\n{}", spec.document().source());
            let negated: Vec<f64> = expected.1.iter().map(|y| -y).collect();
            prop_assert_eq!(found.1, negated, "across\n{}", spec.document().source());
        }
    }

    #[test]
    fn drawings_are_mirrored(spec in spec()) {
        if let Some([right, left]) = both_hands(spec.document()) {
            let drawings = |instrument: &Instrument| -> Vec<Drawing> {
                instrument.parts().parts.iter().flat_map(|part| part.drawings.clone()).collect()
            };
            let (right, left) = (drawings(&right), drawings(&left));
            prop_assert_eq!(right.len(), left.len(), "as many drawings\n{}", spec.document().source());
            for (right, left) in right.iter().zip(&left) {
                prop_assert!(
                    is_mirrored(right, left),
                    "{} must be the mirror image within 1e-9 mm\n{}",
                    right.name,
                    spec.document().source()
                );
            }
        }
    }

    #[test]
    fn solids_are_mirrored(spec in spec()) {
        if let Some([right, left]) = both_hands(spec.document()) {
            let parts = |instrument: &Instrument| instrument.parts().parts.clone();
            for (right, left) in parts(&right).iter().zip(&parts(&left)) {
                let (Some(right_solid), Some(left_solid)) = (&right.solid, &left.solid) else { continue };
                let (Ok(a), Ok(b)) = (right_solid.body.mesh(CHORD), left_solid.body.mesh(CHORD)) else {
                    continue;
                };
                let apart = (a.volume() - b.volume()).abs() / a.volume();
                prop_assert!(
                    apart < 1e-9,
                    "{}: the volumes differ by {apart} of the whole\n{}",
                    right.name,
                    spec.document().source()
                );
                let (a, b) = (a.bounds().expect("it has points"), b.bounds().expect("it has points"));
                // A jig that hooks over either edge of the neck is one for both hands.
                let across = if right.name.starts_with("fret-jig") {
                    [a.min.y - b.min.y, a.max.y - b.max.y]
                } else {
                    [a.min.y + b.max.y, a.max.y + b.min.y]
                };
                let gaps = [
                    a.min.x - b.min.x, a.max.x - b.max.x, a.min.z - b.min.z, a.max.z - b.max.z,
                    across[0], across[1],
                ];
                prop_assert!(
                    gaps.iter().all(|gap| gap.abs() < 1e-9),
                    "{}: the bounds are mirrored within 1e-9 mm, found {gaps:?}\n{}",
                    right.name,
                    spec.document().source()
                );
            }
        }
    }
}

/// What a mirror leaves as it is, and what it negates.
fn numbers(layout: &Layout) -> (Vec<f64>, Vec<f64>) {
    let (mut kept, mut negated) = (Vec::new(), Vec::new());
    let mut place = |place: Place| {
        kept.extend([place.x.as_mm(), place.z.as_mm()]);
        negated.push(place.y.as_mm());
    };
    for string in layout.strings() {
        let run = [string.post, string.nut, string.zero_fret, string.saddle, string.tail];
        run.into_iter().for_each(&mut place);
    }
    layout.tuners().iter().for_each(|tuner| place(tuner.bore));
    layout.nut().slots.iter().for_each(|slot| {
        place(slot.front);
        place(slot.rear);
    });
    kept.extend(layout.strings().iter().flat_map(|string| &string.actions).map(|action| action.as_mm()));
    kept.extend(layout.saddle().crests.iter().map(|crest| crest.above.as_mm()));
    negated.extend(layout.saddle().crests.iter().map(|crest| crest.across.as_mm()));
    negated.extend(layout.tail().bores.iter().map(|bore| bore.across.as_mm()));
    negated.extend(layout.tail().screws.iter().map(|screw| screw.across.as_mm()));
    kept.extend(layout.frets().frets.iter().map(|fret| fret.x.as_mm()));
    (kept, negated)
}

/// Whether one drawing is the other, mirrored in its first axis, its second, or neither (a view from the side), with
/// the operations in any order.
fn is_mirrored(right: &Drawing, left: &Drawing) -> bool {
    let bounds = |drawing: &Drawing, signs: [f64; 2]| -> Vec<[f64; 4]> {
        let mut all: Vec<[f64; 4]> =
            drawing.operations.iter().map(|operation| turned(operation.bounds(), signs)).collect();
        all.sort_by(|a, b| {
            a.iter()
                .zip(b)
                .map(|(a, b)| a.total_cmp(b))
                .find(|o| o.is_ne())
                .unwrap_or(std::cmp::Ordering::Equal)
        });
        all
    };
    let mirrored = bounds(left, [1.0, 1.0]);
    [[1.0, -1.0], [-1.0, 1.0], [1.0, 1.0]].iter().any(|signs| {
        let original = bounds(right, *signs);
        original.len() == mirrored.len() && original == mirrored
    })
}

/// Bounds after a mirror, rounded to 1e-6 mm, so that sums in another order are equal.
fn turned(bounds: Bounds2, signs: [f64; 2]) -> [f64; 4] {
    let ends = |a: f64, b: f64, sign: f64| [a.min(b) * sign, a.max(b) * sign];
    let [a, b] = ends(bounds.min.x, bounds.max.x, signs[0]);
    let [c, d] = ends(bounds.min.y, bounds.max.y, signs[1]);
    // Adding zero turns a negative zero into a positive one.
    [a.min(b), c.min(d), a.max(b), c.max(d)].map(|value| (value * 1e6).round() / 1e6 + 0.0)
}

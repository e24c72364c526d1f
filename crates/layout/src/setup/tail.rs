//! Do the open strings run away when the saddle is slid, and how far must the string holes move to keep them?

use units::Length;

use crate::built::{Built, Deviations};
use crate::instrument::Layout;
use crate::playing::advice;

/// The drift, in cents for each millimetre, up to which the holes stay where they are: a builder tunes it away in passing. Common
/// practice, no source.
const DRIFT_CENTS: f64 = 6.0;

/// How much of the drift must go for the holes to be moved.
const WORTH_MOVING: f64 = 0.3;

/// How far the string holes move up; nothing where they can stay, or where no height is better.
pub(super) fn holes_move(layout: &Layout, deviations: &Deviations, built: &Built) -> Option<Length> {
    let worst = built.strings.iter().map(|string| string.drift_cents_per_mm.abs()).fold(0.0, f64::max);
    if worst <= DRIFT_CENTS {
        return None;
    }
    let paths: Vec<_> = built.strings.iter().map(|string| (string.model, string.path)).collect();
    let advice = advice(layout, &paths)?;
    let is_better = advice.worst_cents < worst * (1.0 - WORTH_MOVING);
    is_better.then(|| advice.hole_height - (layout.spec().tail.hole_height + deviations.tail_height))
}

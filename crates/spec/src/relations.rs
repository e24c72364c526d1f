//! Which values contradict one another?
//!
//! Only what makes no instrument at all is refused here, and only between keys that were themselves read without fault.
//! Whether an instrument plays, and whether its parts meet, is not asked.

mod body;
mod neck;
mod playing;
mod without_effect;

use units::Length;

use crate::code::Code;
use crate::diagnostic::Diagnostic;
use crate::instrument::Spec;
use crate::key::{Quantity, key_at};
use crate::reading::Reader;

/// Tells every contradiction between keys that were themselves read without fault.
pub(crate) fn check(spec: &Spec, reader: &mut Reader<'_>) {
    playing::check(spec, reader);
    neck::check(spec, reader);
    body::check(spec, reader);
    without_effect::check(spec, reader);
}

/// How a length must lie to its limit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Side {
    /// Smaller than the limit.
    Below,
    /// Smaller than the limit, or equal to it.
    AtMost,
    /// Larger than the limit.
    Above,
}

/// A length that must lie on one side of a limit that other keys set.
struct Relation<'r> {
    code: Code,
    key: &'r str,
    found: Length,
    side: Side,
    limit: Length,
    /// What the limit is, in words and key names.
    because: &'r str,
    /// The keys that set the limit.
    others: &'r [&'r str],
}

/// Tells where the relation does not hold.
fn require(reader: &mut Reader<'_>, relation: &Relation<'_>) {
    let Relation { code, key, found, side, limit, because, others } = relation;
    let (holds, words) = match side {
        Side::Below => (found < limit, "less than"),
        Side::AtMost => (found <= limit, "at most"),
        Side::Above => (found > limit, "more than"),
    };
    if holds || !others.iter().chain([key]).all(|key| reader.is_sound(key)) {
        return;
    }
    let [limit_shown, found_shown] =
        [*limit, *found].map(|length| Quantity::Length(length).shown(reader.units()));
    let message = format!("{key}: expected {words} {limit_shown}, {because}; found {found_shown}");
    let mut fault = Diagnostic::error(*code, reader.place_of(key), message);
    for other in *others {
        fault = fault.label(reader.place_of(other), "which sets the limit");
    }
    fault = match value_that_works(key, *side, *limit) {
        Some(value) => fault.hint_edit(format!("write {key} = \"{value}\""), (*key).to_owned(), value),
        None => fault,
    };
    reader.tell(fault.hint(format!("or change {}", others.join(" or "))));
}

/// The limit itself or a length on a half millimetre beside it, where the key allows it.
fn value_that_works(key: &str, side: Side, limit: Length) -> Option<String> {
    let half_steps = limit.as_mm() * 2.0;
    let works = match side {
        Side::AtMost => limit,
        Side::Below if limit > Length::mm(1.0) => Length::mm((half_steps.ceil() - 1.0) / 2.0),
        Side::Below => limit * 0.5,
        Side::Above => Length::mm((half_steps.floor() + 1.0) / 2.0),
    };
    let range = key_at(key)?.range?;
    let quantity = Quantity::Length(works);
    (range.least <= quantity && quantity <= range.most).then(|| quantity.to_string())
}

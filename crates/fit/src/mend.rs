//! Which key, changed as little as can be, cures what does not hold?
//!
//! Nothing is guessed: each change is laid over the document, the instrument is worked out anew, and every check is made
//! again. What is told as a mend has cured its check and has broken none that held.

mod dial;
mod search;
mod trial;

use std::fmt;

use spec::Document;

use crate::finding::{Check, Concern, Finding, Severity};
use crate::subject::Subject;
pub use dial::click;
use search::{Cure, nearest_cure, some_turns};
use trial::{Aim, Before};

/// How many mends are told of a check that fails: the one that a builder would rather make, and another where that will not
/// do. A warning gets one.
const TOLD: usize = 2;

/// How many turns of one key are worked out in full beside a second one. More finds narrower windows; each costs as much as
/// a single key.
const PAIRS_TRIED: usize = 3;

/// A key and what to write there.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Change {
    /// The dotted key.
    pub key: String,
    /// What stands there, or the default that stands for it.
    pub from: String,
    /// What to write instead, as [`Document::with_override`] takes it.
    pub to: String,
}

impl fmt::Display for Change {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(formatter, "{}: {} -> {}", self.key, self.from, self.to)
    }
}

/// Changes that cure a check together.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Mend {
    /// The changes, in the order in which they were found; mostly one.
    pub changes: Vec<Change>,
}

impl Mend {
    /// The document with the changes made.
    #[must_use]
    pub fn applied_to(&self, document: &Document) -> Document {
        let start = document.clone();
        self.changes.iter().fold(start, |document, change| document.with_override(&change.key, &change.to))
    }
}

impl fmt::Display for Mend {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (place, change) in self.changes.iter().enumerate() {
            let and = if place == 0 { "" } else { " and " };
            write!(formatter, "{and}{change}")?;
        }
        Ok(())
    }
}

/// What can be done about one check that does not hold.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Remedy {
    /// The check.
    pub check: Check,
    /// What cures it, the change that a builder would rather make first; nothing where no change does.
    pub mends: Vec<Mend>,
    /// Where nothing cures it: the checks that would break for every change that does, by their ids.
    pub at_odds: Vec<&'static str>,
    /// Whether the search ended before all was tried, because too much of the plan is broken.
    pub is_cut_short: bool,
}

/// A sound document with all that the checks found of it.
#[derive(Clone, Copy, Debug)]
pub struct Patient<'a> {
    /// The document.
    pub document: &'a Document,
    /// The instrument that it describes.
    pub subject: &'a Subject,
    /// What every check found.
    pub findings: &'a [Finding],
}

/// The checks that warn or fail, in the order of the bench.
#[must_use]
pub fn broken_checks(findings: &[Finding]) -> Vec<Check> {
    let mut broken: Vec<Check> = Vec::new();
    for finding in findings.iter().filter(|finding| finding.severity > Severity::Note) {
        if !broken.contains(&finding.check) {
            broken.push(finding.check);
        }
    }
    broken
}

/// What can be done about one check that warns or fails.
///
/// Tries the check's own keys in their order. Of each it takes the smallest change, on a grid of sizes as people write them, that
/// lets the check hold everywhere without breaking another that held. Where a change cures this check and breaks one other,
/// that other's keys are tried beside it; where none cures it though it fails, two of its own keys are tried together.
///
/// - **Cost**: some hundred layouts, shared among the checks that are broken; the parts and the buzz are worked out for promising
///   changes alone. A search that would take more is cut short, and says so.
#[must_use]
pub fn remedy(patient: &Patient<'_>, check: &Check) -> Remedy {
    let before = Before::of(patient);
    let told = if before.is_failing(check.id) { TOLD } else { 1 };
    let mut mends: Vec<Mend> = Vec::new();
    let mut spoiled: Vec<(Change, &'static str)> = Vec::new();
    for key in check.cures {
        if mends.len() == told {
            break;
        }
        if key.contains(".N.") {
            mends.extend(item_by_item(&before, check, key));
            continue;
        }
        let Cure { change, spoils } = nearest_cure(&before, &Aim::whole(check), patient.document, key);
        mends.extend(change.map(|change| Mend { changes: vec![change] }));
        spoiled.extend(spoils);
    }
    if mends.is_empty() {
        mends.extend(
            spoiled.iter().find_map(|(change, broken)| with_a_second(&before, check, change, broken)),
        );
    }
    if mends.is_empty() && before.is_failing(check.id) {
        mends.extend(two_of_its_own(&before, check));
    }
    let mut at_odds: Vec<&'static str> = Vec::new();
    if mends.is_empty() {
        for (_, broken) in spoiled {
            if !at_odds.contains(&broken) {
                at_odds.push(broken);
            }
        }
    }
    Remedy { check: *check, mends, at_odds, is_cut_short: before.is_cut_short() }
}

/// One change for every string or opening that the check complains of; where it does not say which, of the first item that
/// cures it.
fn item_by_item(before: &Before<'_>, check: &Check, key: &str) -> Option<Mend> {
    let numbered = |item: usize| key.replace(".N.", &format!(".{item}."));
    let mut changes: Vec<Change> = Vec::new();
    let mut document = before.document().clone();
    for concern in before.complaints(check.id) {
        let Some(item) = before.item_of(concern) else {
            let mut items = 1..=before.items_of(key);
            let whole = Aim::whole(check);
            let change = items
                .find_map(|item| nearest_cure(before, &whole, before.document(), &numbered(item)).change)?;
            return Some(Mend { changes: vec![change] });
        };
        let change = nearest_cure(before, &Aim::about(check, concern), &document, &numbered(item)).change?;
        document = document.with_override(&change.key, &change.to);
        changes.push(change);
    }
    let holds = !changes.is_empty() && before.spoiled_by(&Aim::whole(check), &document).is_ok();
    holds.then_some(Mend { changes })
}

/// A change that cures, and one that makes good what the first breaks.
fn with_a_second(before: &Before<'_>, check: &Check, first: &Change, broken: &str) -> Option<Mend> {
    let document = before.document().with_override(&first.key, &first.to);
    let second = crate::checks::checks().find(|check| check.id == broken)?;
    let both = Aim::whole(check).and(second);
    second.cures.iter().filter(|key| **key != first.key && !key.contains(".N.")).find_map(|key| {
        let change = nearest_cure(before, &both, &document, key).change?;
        Some(Mend { changes: vec![first.clone(), change] })
    })
}

/// Two of the check's own keys, each turned as little as the other lets it.
///
/// Only some turns of both are tried, to see whether there is a cure at all; then each is turned back as far as it goes.
fn two_of_its_own(before: &Before<'_>, check: &Check) -> Option<Mend> {
    let aim = Aim::whole(check);
    let document = before.document();
    let keys: Vec<&str> = check.cures.iter().copied().filter(|key| !key.contains(".N.")).collect();
    let pairs = keys
        .iter()
        .enumerate()
        .flat_map(|(place, one)| keys[place + 1..].iter().map(move |other| [*one, *other]));
    pairs.into_iter().find_map(|[one, other]| {
        let cures = |first: &Change, second: &Change| {
            let both = Mend { changes: vec![first.clone(), second.clone()] }.applied_to(document);
            before.reaches(&aim, &both)
        };
        let seconds = some_turns(document, other);
        let hopeful = some_turns(document, one)
            .into_iter()
            .filter(|first| seconds.iter().any(|second| cures(first, second)));
        hopeful.take(PAIRS_TRIED).find_map(|first| {
            let beside_first = document.with_override(&first.key, &first.to);
            let second = nearest_cure(before, &aim, &beside_first, other).change?;
            let beside_second = document.with_override(&second.key, &second.to);
            let first = nearest_cure(before, &aim, &beside_second, one).change.unwrap_or(first);
            Some(Mend { changes: vec![first, second] })
        })
    })
}

/// A document with every mend that was found for it.
#[derive(Clone, Debug)]
pub struct Mended {
    /// The mended document.
    pub document: Document,
    /// What was changed, every key once.
    pub changes: Vec<Change>,
    /// What the checks find of it.
    pub findings: Vec<Finding>,
}

/// Mends a document as far as it can be mended: failures first, then warnings, each with the first mend of its check.
///
/// Every step cures a check and breaks nothing that held, so that it ends. A check that no change cures is left as it is.
#[must_use]
pub fn mended(patient: &Patient<'_>) -> Mended {
    let mut state = Mended {
        document: patient.document.clone(),
        changes: Vec::new(),
        findings: patient.findings.to_vec(),
    };
    let mut subject = patient.subject.clone();
    let mut given_up: Vec<&'static str> = Vec::new();
    while let Some(check) = worst_check(&state.findings, &given_up) {
        let patient = Patient { document: &state.document, subject: &subject, findings: &state.findings };
        let mend = remedy(&patient, &check).mends.into_iter().next();
        let found =
            mend.and_then(|mend| Some((trial::subject(&mend.applied_to(&state.document), &subject)?, mend)));
        let Some((mended, mend)) = found else {
            given_up.push(check.id);
            continue;
        };
        state = Mended {
            document: mend.applied_to(&state.document),
            changes: mend.changes.into_iter().fold(state.changes, together),
            findings: crate::checks::findings(&mended),
        };
        subject = mended;
    }
    state
}

/// A change after others: a key that is changed again goes from where it first stood to where it stands last.
fn together(mut changes: Vec<Change>, change: Change) -> Vec<Change> {
    match changes.iter_mut().find(|before| before.key == change.key) {
        Some(before) => before.to = change.to,
        None => changes.push(change),
    }
    changes
}

fn worst_check(findings: &[Finding], given_up: &[&'static str]) -> Option<Check> {
    let open = findings
        .iter()
        .filter(|finding| finding.severity > Severity::Note && !given_up.contains(&finding.check.id));
    // The last of equals wins, so that the order is turned round: the bench's first comes first.
    open.rev().max_by_key(|finding| finding.severity).map(|finding| finding.check)
}

/// Whether two findings, of two plans, are about the same thing: a string stays the same when it is tuned to another note.
fn is_same(one: &Concern, other: &Concern) -> bool {
    match (one, other) {
        (Concern::String { number, .. }, Concern::String { number: other, .. }) => number == other,
        _ => one == other,
    }
}

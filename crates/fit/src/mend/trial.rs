//! What becomes of the checks when the document says something else?

use std::cell::Cell;

use spec::Document;

use super::{Patient, is_same};
use crate::checks::{checks, findings_of};
use crate::finding::{Check, Concern, Finding, Severity};
use crate::subject::Subject;

/// What is to hold in the end.
#[derive(Clone, Debug)]
pub(super) struct Aim<'a> {
    checks: Vec<&'a Check>,
    /// Where only this complaint is to go.
    about: Option<&'a Concern>,
}

impl<'a> Aim<'a> {
    /// The check holds everywhere.
    pub(super) fn whole(check: &'a Check) -> Self {
        Self { checks: vec![check], about: None }
    }

    /// The check holds for one thing.
    pub(super) fn about(check: &'a Check, concern: &'a Concern) -> Self {
        Self { checks: vec![check], about: Some(concern) }
    }

    /// Another check holds too.
    pub(super) fn and(mut self, check: &'a Check) -> Self {
        self.checks.push(check);
        self
    }

    /// Whether it is reached: only the checks that it names are made.
    pub(super) fn is_reached(&self, subject: &Subject) -> bool {
        let told = self.checks.iter().flat_map(|check| findings_of(check.id, subject));
        self.holds(told.collect::<Vec<_>>().iter())
    }

    fn holds<'f>(&self, findings: impl Iterator<Item = &'f Finding>) -> bool {
        let mut of_concern = findings.filter(|finding| {
            self.checks.iter().any(|check| check.id == finding.check.id)
                && self.about.is_none_or(|about| is_same(about, &finding.concern))
        });
        of_concern.all(|finding| finding.severity <= Severity::Note)
    }
}

/// How things stood before any change, and what may still be spent on finding one.
#[derive(Debug)]
pub(super) struct Before<'a> {
    patient: Patient<'a>,
    left: Cell<u32>,
}

/// What the search for mends of a whole plan may take, in layouts of six strings: about a second and a half on one core. Larger
/// keeps a builder waiting before a plan that is broken everywhere; smaller misses cures of plans with a few faults.
const WHOLE_EFFORT: u32 = 6000;

/// What one check gets of it at least: one key at all its places.
const LEAST_EFFORT: u32 = 100;

impl<'a> Before<'a> {
    /// The checks that are broken share what may be spent.
    pub(super) fn of(patient: &Patient<'a>) -> Self {
        let broken = super::broken_checks(patient.findings).len().max(1) as u32;
        Self { patient: *patient, left: Cell::new((WHOLE_EFFORT / broken).max(LEAST_EFFORT)) }
    }

    /// Whether there was no more to spend, so that something may not have been tried.
    pub(super) fn is_cut_short(&self) -> bool {
        self.left.get() == 0
    }

    /// Whether the aim is reached with a changed document; counts what that takes.
    pub(super) fn reaches(&self, aim: &Aim<'_>, document: &Document) -> bool {
        let Some(subject) = self.subject(document) else { return false };
        let is_reached = aim.is_reached(&subject);
        self.spend(&subject);
        is_reached
    }

    fn spend(&self, subject: &Subject) {
        self.left.set(self.left.get().saturating_sub(subject.effort()));
    }

    pub(super) const fn document(&self) -> &'a Document {
        self.patient.document
    }

    /// Whether one check fails, and does not only warn.
    pub(super) fn is_failing(&self, id: &str) -> bool {
        let mut findings = self.patient.findings.iter();
        findings.any(|finding| finding.check.id == id && finding.severity == Severity::Fail)
    }

    /// What one check complains of.
    pub(super) fn complaints(&self, id: &str) -> impl Iterator<Item = &'a Concern> {
        let findings = self.patient.findings.iter();
        let of_check =
            findings.filter(move |finding| finding.check.id == id && finding.severity > Severity::Note);
        of_check.map(|finding| &finding.concern)
    }

    /// The number of the document's list item that a concern is about.
    pub(super) fn item_of(&self, concern: &Concern) -> Option<usize> {
        match concern {
            Concern::String { number, .. } | Concern::Tuner(number) => {
                let (spec, _) = self.patient.document.read().into_result().ok()?;
                (spec.strings.len() + 1).checked_sub(usize::from(number.0))
            }
            Concern::Opening { number, .. } => Some(*number),
            _ => None,
        }
    }

    /// How many items the list has that a key with an N in it is about.
    pub(super) fn items_of(&self, key: &str) -> usize {
        let Ok((spec, _)) = self.patient.document.read().into_result() else { return 0 };
        if key.starts_with("strings.") { spec.strings.len() } else { spec.body.holes.len() }
    }

    /// The instrument of a changed document; `None` where there is none, or nothing is left to spend on it.
    fn subject(&self, document: &Document) -> Option<Subject> {
        if self.is_cut_short() {
            return None;
        }
        subject(document, self.patient.subject)
    }

    /// Makes every check on a changed document.
    ///
    /// # Errors
    ///
    /// The first check that is not reached though it should be, or that held before and holds no more; nothing where the
    /// document describes no instrument, or where there is no more to spend.
    pub(super) fn spoiled_by(&self, aim: &Aim<'_>, document: &Document) -> Result<(), Option<&'static str>> {
        let Some(subject) = self.subject(document) else { return Err(None) };
        let spoiled = checks().find(|check| {
            let told = findings_of(check.id, &subject);
            told.iter().any(|finding| finding.severity > self.severity_of(finding)) || !aim.holds(told.iter())
        });
        self.spend(&subject);
        spoiled.map_or(Ok(()), |check| Err(Some(check.id)))
    }

    /// How bad the same thing was; what was not told of may be worth a note.
    fn severity_of(&self, finding: &Finding) -> Severity {
        let same = self.patient.findings.iter().filter(|before| {
            before.check.id == finding.check.id && is_same(&before.concern, &finding.concern)
        });
        same.map(|before| before.severity).max().unwrap_or(Severity::Note).max(Severity::Note)
    }
}

/// The instrument of a document that says little else than that of another; `None` where it describes none.
pub(super) fn subject(document: &Document, like: &Subject) -> Option<Subject> {
    let (spec, _) = document.read().into_result().ok()?;
    let layout = layout::layout(&spec).ok()?;
    Some(like.changed_to(layout))
}

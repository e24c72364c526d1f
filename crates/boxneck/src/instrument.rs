//! What is there to know about one instrument before any file is made?

use std::sync::OnceLock;

use fit::{Finding, Mended, Patient, Remedy, Severity, Subject};
use layout::playing::{Player, Playing};
use layout::{Layout, LayoutFault};
use parts::PartSet;
use rayon::prelude::*;
use spec::{Diagnostic, Document, Spec};

use crate::side_by_side::{both, has_the_cores};

/// An instrument, laid out. Its parts, what the checks find and what can be done about it are worked out when they are first asked for,
/// and kept.
#[derive(Clone, Debug)]
pub struct Instrument {
    document: Document,
    warnings: Vec<Diagnostic>,
    subject: Subject,
    findings: OnceLock<Vec<Finding>>,
    remedies: OnceLock<Vec<Remedy>>,
}

/// A document that describes no instrument.
#[derive(Clone, Debug, thiserror::Error)]
#[non_exhaustive]
pub enum Refusal {
    /// The document is at fault: everything that is wrong with it.
    #[error("the document has {} faults", .0.len())]
    Document(Vec<Diagnostic>),
    /// The document is sound, and still cannot be laid out.
    #[error(transparent)]
    Layout(#[from] LayoutFault),
}

impl Instrument {
    /// Reads a document and lays the instrument out.
    ///
    /// # Errors
    ///
    /// [`Refusal`], with every fault of the document in one go.
    pub fn of(document: &Document) -> Result<Self, Refusal> {
        Self::played_by(document, &Player::default())
    }

    /// The same in the hands of a player of one's own.
    ///
    /// # Errors
    ///
    /// As for [`Instrument::of`].
    pub fn played_by(document: &Document, player: &Player) -> Result<Self, Refusal> {
        let (spec, warnings) = document.read().into_result().map_err(Refusal::Document)?;
        let layout = layout::layout(&spec)?;
        let subject = Subject::new(layout, *player);
        let (findings, remedies) = (OnceLock::new(), OnceLock::new());
        Ok(Self { document: document.clone(), warnings, subject, findings, remedies })
    }

    /// The instrument of a document that calls it otherwise and says nothing else, without working anything out again; `None`
    /// where the document says something else.
    #[must_use]
    pub fn called_as_in(&self, document: &Document) -> Option<Self> {
        let (spec, warnings) = document.read().into_result().ok()?;
        let name = spec.name.clone();
        let is_like = Spec { name: self.spec().name.clone(), ..spec } == *self.spec();
        is_like.then(|| Self {
            document: document.clone(),
            warnings,
            subject: self.subject.clone().renamed(name),
            findings: self.findings.clone(),
            remedies: self.remedies.clone(),
        })
    }

    /// The document that it was read from.
    #[must_use]
    pub fn document(&self) -> &Document {
        &self.document
    }

    /// What the document says, complete.
    #[must_use]
    pub fn spec(&self) -> &Spec {
        self.subject.layout().spec()
    }

    /// What is worth knowing about the document though it is sound.
    #[must_use]
    pub fn warnings(&self) -> &[Diagnostic] {
        &self.warnings
    }

    /// The instrument as the checks see it.
    pub(crate) const fn subject(&self) -> &Subject {
        &self.subject
    }

    /// Where everything goes.
    #[must_use]
    pub fn layout(&self) -> &Layout {
        self.subject.layout()
    }

    /// How it will play.
    #[must_use]
    pub fn playing(&self) -> &Playing {
        self.subject.playing()
    }

    /// Its parts, and those that could not be made.
    #[must_use]
    pub fn parts(&self) -> &PartSet {
        self.subject.parts()
    }

    /// What the checks found, those that hold included.
    #[must_use]
    pub fn findings(&self) -> &[Finding] {
        self.findings.get_or_init(|| {
            // What the checks ask for that takes longest, side by side.
            let assembly = self.subject.assembly();
            let air = || (assembly.clearances(), self.playing().buzz());
            both(has_the_cores(), || assembly.contacts(), air);
            fit::findings(&self.subject)
        })
    }

    /// What can be done about every check that warns or fails, in the order of the bench; searched for on all cores when it is
    /// first asked for.
    #[must_use]
    pub fn remedies(&self) -> &[Remedy] {
        self.remedies.get_or_init(|| {
            let broken = fit::broken_checks(self.findings());
            broken.par_iter().map(|check| fit::remedy(&self.patient(), check)).collect()
        })
    }

    /// The document, mended as far as it can be.
    #[must_use]
    pub fn mended(&self) -> Mended {
        fit::mended(&self.patient())
    }

    fn patient(&self) -> Patient<'_> {
        Patient { document: &self.document, subject: &self.subject, findings: self.findings() }
    }

    /// The worst finding's severity.
    #[must_use]
    pub fn worst(&self) -> Severity {
        self.findings().iter().map(|finding| finding.severity).max().unwrap_or(Severity::Pass)
    }
}

//! What is wrong with a document, as data that others can show?
//!
//! A [`Diagnostic`] says what was expected, what was found and where, and proposes a mend. It is not drawn here: the
//! byte spans point into [`Document::source`](crate::Document::source).

use std::ops::Range;

use crate::code::Code;

/// How bad it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Severity {
    /// Worth knowing.
    Note,
    /// Probably not what was meant.
    Warning,
    /// No instrument can be read.
    Error,
}

impl Severity {
    /// The word for it: "note", "warning" or "error".
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Note => "note",
            Self::Warning => "warning",
            Self::Error => "error",
        }
    }
}

/// Where a value came from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Origin {
    /// These bytes of the document's text.
    Source(Range<usize>),
    /// An override, as a column of a spreadsheet or an option of the command line.
    Override {
        /// The dotted key as given.
        key: String,
        /// The value as given.
        value: String,
    },
    /// Nobody wrote it: the default.
    Default,
}

/// A value's place: its key and its origin.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Place {
    /// Dotted key, list items counted from 1: "strings.2.pitch"; empty for the document as a whole.
    pub key: String,
    /// Where the value came from.
    pub origin: Origin,
}

impl Place {
    /// The bytes of the document's text, where the value stands there.
    #[must_use]
    pub fn span(&self) -> Option<Range<usize>> {
        match &self.origin {
            Origin::Source(span) => Some(span.clone()),
            Origin::Override { .. } | Origin::Default => None,
        }
    }
}

/// Another place that a diagnostic speaks of.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Label {
    /// Where.
    pub place: Place,
    /// What to know about it.
    pub text: String,
}

/// A change to the document.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Edit {
    /// Dotted key.
    pub key: String,
    /// The value as [`Document::with_override`](crate::Document::with_override) takes it.
    pub value: String,
}

/// A way out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Hint {
    /// The proposal in words.
    pub text: String,
    /// The same as a change that can be applied, where there is one.
    pub edit: Option<Edit>,
}

/// One thing that is wrong, or worth knowing, about a document.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{}[{code}]: {message}", .severity.word())]
pub struct Diagnostic {
    /// How bad it is.
    pub severity: Severity,
    /// Its stable code.
    pub code: Code,
    /// Expected before found, lower case, no final stop.
    pub message: String,
    /// The value that is to blame.
    pub place: Place,
    /// Other places that matter to it.
    pub labels: Vec<Label>,
    /// Ways out, the best first.
    pub hints: Vec<Hint>,
}

impl Diagnostic {
    /// An error with neither labels nor hints yet.
    pub(crate) fn error(code: Code, place: Place, message: impl Into<String>) -> Self {
        let message = message.into();
        Self { severity: Severity::Error, code, message, place, labels: Vec::new(), hints: Vec::new() }
    }

    /// The same with another severity.
    pub(crate) fn severity(mut self, severity: Severity) -> Self {
        self.severity = severity;
        self
    }

    /// The same with a proposal in words.
    pub(crate) fn hint(mut self, text: impl Into<String>) -> Self {
        self.hints.push(Hint { text: text.into(), edit: None });
        self
    }

    /// The same with a proposal that can be applied.
    pub(crate) fn hint_edit(mut self, text: impl Into<String>, key: String, value: String) -> Self {
        self.hints.push(Hint { text: text.into(), edit: Some(Edit { key, value }) });
        self
    }

    /// The same, pointing at another place as well.
    pub(crate) fn label(mut self, place: Place, text: impl Into<String>) -> Self {
        self.labels.push(Label { place, text: text.into() });
        self
    }
}

/// A value and what there is to say about it: warnings survive beside a value, errors leave none.
#[derive(Clone, Debug, PartialEq)]
pub struct Checked<T> {
    value: Option<T>,
    diagnostics: Vec<Diagnostic>,
}

impl<T> Checked<T> {
    /// The value, kept only where no diagnostic is an error.
    pub(crate) fn new(value: T, diagnostics: Vec<Diagnostic>) -> Self {
        let sound = diagnostics.iter().all(|diagnostic| diagnostic.severity < Severity::Error);
        Self { value: sound.then_some(value), diagnostics }
    }

    /// The value, where there is no error.
    #[must_use]
    pub const fn value(&self) -> Option<&T> {
        self.value.as_ref()
    }

    /// What there is to say, in the order of the document's text.
    #[must_use]
    pub fn diagnostics(&self) -> &[Diagnostic] {
        &self.diagnostics
    }

    /// The value and its warnings.
    ///
    /// # Errors
    ///
    /// All diagnostics, where one of them is an error.
    pub fn into_result(self) -> Result<(T, Vec<Diagnostic>), Vec<Diagnostic>> {
        match self.value {
            Some(value) => Ok((value, self.diagnostics)),
            None => Err(self.diagnostics),
        }
    }
}

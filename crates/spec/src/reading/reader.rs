//! What reading keeps while it goes along: faults, the place where it stands, the record of what was asked.

use std::collections::BTreeSet;
use std::fmt::Write as _;

use units::LengthUnit;

use crate::code::Code;
use crate::diagnostic::{Diagnostic, Origin, Place};
use crate::document::{Document, Node, NodeOrigin, Value};
use crate::key::KeyInfo;
use crate::limits;

/// One step of a dotted key.
#[derive(Clone, Copy, Debug)]
pub(super) enum Step {
    /// A section or key.
    Key(&'static str),
    /// An item of a list, from 1.
    Item(usize),
    /// Any item, while recording.
    AnyItem,
}

/// The state of one reading.
pub(crate) struct Reader<'d> {
    document: Option<&'d Document>,
    /// Every key that a document of this kind can have.
    pub(super) known: fn() -> &'static [KeyInfo],
    pub(super) units: LengthUnit,
    path: Vec<Step>,
    diagnostics: Vec<Diagnostic>,
    /// Dotted keys that were not read as written: relations between keys leave them alone.
    faulty: BTreeSet<String>,
    record: Option<Vec<KeyInfo>>,
}

impl<'d> Reader<'d> {
    /// A reading of this document, which can have these keys, beginning with the faults that it has already.
    pub(super) fn of(document: &'d Document, known: fn() -> &'static [KeyInfo]) -> Self {
        let diagnostics = document.faults().to_vec();
        let mut reader = Self { document: Some(document), known, ..Self::recording() };
        reader.record = None;
        reader.faulty =
            diagnostics.iter().map(|fault| fault.place.key.clone()).filter(|key| !key.is_empty()).collect();
        reader.diagnostics = diagnostics;
        reader
    }

    /// A reading of no document, which records what is asked for.
    pub(super) fn recording() -> Self {
        Self {
            document: None,
            known: || &[],
            units: LengthUnit::Inch,
            path: Vec::new(),
            diagnostics: Vec::new(),
            faulty: BTreeSet::new(),
            record: Some(Vec::new()),
        }
    }

    /// What is read; nothing while recording.
    pub(super) const fn document(&self) -> Option<&'d Document> {
        self.document
    }

    pub(super) const fn is_recording(&self) -> bool {
        self.record.is_some()
    }

    pub(super) fn note(&mut self, key: KeyInfo) {
        if let Some(record) = &mut self.record {
            record.push(key);
        }
    }

    pub(super) fn into_record(self) -> Vec<KeyInfo> {
        self.record.unwrap_or_default()
    }

    pub(super) fn enter(&mut self, step: Step) {
        self.path.push(step);
    }

    pub(super) fn leave(&mut self) {
        self.path.pop();
    }

    /// The dotted key of `key` in the section that is being read; of the section itself for an empty key.
    pub(super) fn dotted(&self, key: &str) -> String {
        let mut dotted = String::new();
        for step in &self.path {
            let point = if dotted.is_empty() { "" } else { "." };
            // Writing to a string cannot fail.
            let _ = match step {
                Step::Key(name) => write!(dotted, "{point}{name}"),
                Step::Item(item) => write!(dotted, "{point}{item}"),
                Step::AnyItem => write!(dotted, "{point}N"),
            };
        }
        if !key.is_empty() {
            let point = if dotted.is_empty() { "" } else { "." };
            let _ = write!(dotted, "{point}{key}");
        }
        dotted
    }

    /// The place of a key with this origin.
    pub(super) fn place(&self, key: String, origin: &NodeOrigin) -> Place {
        let origin = self.document.map_or(Origin::Default, |document| document.origin(origin));
        Place { key, origin }
    }

    /// Keeps a fault of a key, which is faulty from now on: nothing is concluded from its value.
    pub(super) fn tell_misreading(&mut self, fault: Diagnostic) {
        self.faulty.insert(fault.place.key.clone());
        self.tell(fault);
    }

    /// Keeps a diagnostic.
    pub(crate) fn tell(&mut self, diagnostic: Diagnostic) {
        self.diagnostics.push(diagnostic);
    }

    /// Whether this key and the sections that it stands in were read as written.
    pub(crate) fn is_sound(&self, key: &str) -> bool {
        let parents = key.match_indices('.').map(|(point, _)| &key[..point]);
        !parents.chain(std::iter::once(key)).any(|key| self.faulty.contains(key))
    }

    /// Whether anything stands at this dotted key.
    pub(crate) fn is_given(&self, key: &str) -> bool {
        self.node(key).is_some()
    }

    /// Whether what is written at this dotted key is the default, letter for letter or as the canonical text has it.
    pub(crate) fn is_default(&self, key: &str) -> bool {
        let (Some(node), Some(default)) =
            (self.node(key), crate::key::key_at(key).and_then(|key| key.default.as_ref()))
        else {
            return false;
        };
        let written = super::written::Written::at(node);
        written.is_same_as(default, self.units)
    }

    /// The unit of bare numbers.
    pub(crate) const fn units(&self) -> LengthUnit {
        self.units
    }

    /// The place of a dotted key, or of the default that stands for it.
    pub(crate) fn place_of(&self, key: &str) -> Place {
        let origin = self.node(key).map_or(&NodeOrigin::Default, |node| &node.origin);
        self.place(key.to_owned(), origin)
    }

    fn node(&self, key: &str) -> Option<&'d Node> {
        let mut node = self.document?.root();
        for step in key.split('.') {
            node = match &node.value {
                Value::Table(table) => &table.get(step)?.1,
                Value::List(items) => items.get(step.parse::<usize>().ok()?.checked_sub(1)?)?,
                _ => return None,
            };
        }
        Some(node)
    }

    /// What there is to say, in the order of the text; what an unreadable line makes of its neighbours is left out.
    pub(super) fn into_diagnostics(self) -> Vec<Diagnostic> {
        let mut diagnostics = self.diagnostics;
        if let Some(document) = self.document.filter(|document| document.is_torn()) {
            let torn: BTreeSet<usize> = document
                .faults()
                .iter()
                .filter_map(|fault| Some(line_of(document.source(), fault.place.span()?.start)))
                .collect();
            let kept = document.faults().len();
            let mut index = 0;
            diagnostics.retain(|diagnostic| {
                index += 1;
                let line = diagnostic.place.span().map(|span| line_of(document.source(), span.start));
                index <= kept || !line.is_some_and(|line| torn.contains(&line))
            });
        }
        diagnostics.sort_by_key(|diagnostic| diagnostic.place.span().map_or(usize::MAX, |span| span.start));
        if diagnostics.len() > limits::FAULTS_TOLD {
            let message =
                format!("expected at most {} faults, found {}", limits::FAULTS_TOLD, diagnostics.len());
            // Errors before warnings, so that no fault is dropped in favour of a note.
            diagnostics.sort_by_key(|diagnostic| std::cmp::Reverse(diagnostic.severity));
            diagnostics.truncate(limits::FAULTS_TOLD);
            let place = Place { key: String::new(), origin: Origin::Default };
            diagnostics.push(Diagnostic::error(Code::TooLarge, place, message).hint("mend these first"));
        }
        diagnostics
    }
}

/// Where the line of a position begins: as good as its number.
fn line_of(source: &str, position: usize) -> usize {
    source
        .as_bytes()
        .get(..position)
        .and_then(|before| before.iter().rposition(|byte| *byte == b'\n'))
        .map_or(0, |at| at + 1)
}

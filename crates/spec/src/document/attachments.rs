//! Which files does a document name, and what is in those that were found?
//!
//! Nothing is opened here: whoever has files gives their bytes, or says why there are none.

use std::collections::BTreeMap;
use std::sync::{Arc, OnceLock};

use geometry::Outline;
use import::ImportFault;
use units::LengthUnit;

use super::{Document, Node, Value};
use crate::key::{KeyKind, keys};
use crate::limits;

/// The files that were given, by the names that the document has for them.
#[derive(Clone, Debug, Default)]
pub(super) struct Attachments(BTreeMap<Arc<str>, Arc<Attachment>>);

/// What is in a file, or why that is not known.
#[derive(Debug)]
struct Attachment {
    content: Result<Vec<u8>, String>,
    /// The outline in it, as drawn in the file's own unit, in millimetres and in inches; read once, because a search for
    /// mends reads the document a thousand times.
    outlines: [OnceLock<Result<Outline, ImportFault>>; 3],
}

/// Why a file that the document names gives no outline.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum AttachedFault {
    /// The file was not given, and why not.
    NotGiven(String),
    /// What is in it is no outline.
    Import(ImportFault),
}

impl Document {
    /// The files that the document names, each once, in the order of their names: plain paths below the document's own
    /// folder, with `/` between. Other names are left out; [`Document::read`] tells them.
    #[must_use]
    pub fn files(&self) -> Vec<String> {
        let mut names = Vec::new();
        for key in keys().iter().filter(|key| key.kind == KeyKind::OutlineFile) {
            let steps: Vec<&str> = key.path.split('.').collect();
            collect(self.root(), &steps, &mut names);
        }
        names.retain(|name| is_plain(name));
        names.sort();
        names.dedup();
        names
    }

    /// The same document with what is in a file that it names, or with the reason why that cannot be had.
    #[must_use]
    pub fn with_file(mut self, name: &str, content: Result<Vec<u8>, String>) -> Self {
        let attachment = Attachment { content, outlines: [const { OnceLock::new() }; 3] };
        self.attachments.0.insert(Arc::from(name), Arc::new(attachment));
        self
    }

    /// The files that the document names that were given and could be had, in the order of their names.
    pub fn given_files(&self) -> impl Iterator<Item = (&str, &[u8])> {
        let named = self.files();
        let given =
            self.attachments.0.iter().filter(move |(name, _)| named.iter().any(|named| **named == ***name));
        given.filter_map(|(name, attachment)| Some((&**name, attachment.content.as_deref().ok()?)))
    }

    /// The outline in a file, read in a unit or in the file's own.
    pub(crate) fn outline_in(&self, name: &str, unit: Option<LengthUnit>) -> Result<Outline, AttachedFault> {
        let not_given = || AttachedFault::NotGiven("nobody looked for it".to_owned());
        let attachment = self.attachments.0.get(name).ok_or_else(not_given)?;
        let content = attachment.content.as_ref().map_err(|why| AttachedFault::NotGiven(why.clone()))?;
        let place = match unit {
            None => 0,
            Some(LengthUnit::Millimetre) => 1,
            Some(LengthUnit::Inch) => 2,
        };
        let outline = attachment.outlines[place].get_or_init(|| import::outline(content, unit));
        outline.clone().map_err(AttachedFault::Import)
    }
}

/// Whether a name leads to a file in the document's folder or below it, on every system.
pub(crate) fn is_plain(name: &str) -> bool {
    let part = |part: &str| {
        !part.is_empty()
            && !part.starts_with('.')
            && !part.ends_with(['.', ' '])
            && !part.contains(|letter: char| letter.is_control() || "\\:*?\"<>|".contains(letter))
    };
    name.chars().count() <= limits::VALUE_CHARACTERS
        && name.split('/').all(part)
        && name.to_ascii_lowercase().ends_with(".dxf")
}

/// The texts at the end of some steps, N being every item of a list.
fn collect(node: &Node, steps: &[&str], found: &mut Vec<String>) {
    match (&node.value, steps) {
        (Value::Text(text) | Value::Loose(text), []) => found.push(text.to_string()),
        (Value::List(items), ["N", rest @ ..]) => items.iter().for_each(|item| collect(item, rest, found)),
        (Value::Table(table), [step, rest @ ..]) => {
            if let Some((_, node)) = table.get(*step) {
                collect(node, rest, found);
            }
        }
        _ => {}
    }
}

//! What did the person write, and where does each value stand?
//!
//! A [`Document`] is the text as a tree that remembers places, with overrides laid over it. It knows TOML and the limits
//! on input; it does not know what an instrument is. Its faults are kept with it, to be told together with those that
//! reading finds.

mod attachments;
mod overriding;
mod parsing;
mod tree;
mod writing;

use std::sync::Arc;

use crate::diagnostic::{Checked, Diagnostic, Origin};
use crate::instrument::Spec;
use crate::stock_list::StockList;

pub(crate) use attachments::{AttachedFault, is_plain};
pub(crate) use tree::{Node, NodeOrigin, Table, Value, loose_items, shortened};

/// A document: its text, its values with their places, and the overrides laid over them.
///
/// Cloning and overriding are cheap: what is not changed is shared.
#[derive(Clone, Debug)]
pub struct Document {
    source: Arc<str>,
    root: Arc<Node>,
    overrides: Vec<Override>,
    faults: Vec<Diagnostic>,
    /// The tree may lack what stands after a fault of syntax.
    torn: bool,
    attachments: attachments::Attachments,
}

/// A value given beside the document.
#[derive(Clone, Debug, PartialEq, Eq)]
struct Override {
    key: String,
    value: String,
}

impl Document {
    /// The document in these bytes; faults of encoding, size and syntax are kept and told by [`Document::read`].
    ///
    /// Takes time in proportion to the bytes, and refuses more than [`limits::DOCUMENT_BYTES`](crate::limits).
    #[must_use]
    pub fn parse(bytes: &[u8]) -> Self {
        parsing::parse(bytes)
    }

    /// The text into which the spans of diagnostics point; bytes that are not UTF-8 are shown as U+FFFD.
    #[must_use]
    pub fn source(&self) -> &str {
        &self.source
    }

    /// The instrument that the document describes, with every fault that can be found in one go.
    #[must_use]
    pub fn read(&self) -> Checked<Spec> {
        crate::reading::read(self)
    }

    /// The stock that the document lists, with every fault that can be found in one go.
    #[must_use]
    pub fn read_stock(&self) -> Checked<StockList> {
        crate::reading::read_stock(self)
    }

    /// The same document with one value changed: `key` is dotted, list items count from 1 ("strings.2.pitch"); `value`
    /// is written as in a spreadsheet cell: a bare number is in the document's unit, text needs no quotes.
    ///
    /// An item one past the end of a list extends it. A list of sections is emptied by "none" and an item of it taken out
    /// ("strings.4" = "none", whether it is there or not); it is replaced by what a document would write in one line, "[{ pitch = \"G3\", ... }]", and an
    /// item by "{ ... }". Whatever is wrong with key or value is told by
    /// [`Document::read`], and names the override.
    #[must_use]
    pub fn with_override(&self, key: &str, value: &str) -> Self {
        let mut document = self.clone();
        overriding::lay_over(&mut document, key, value);
        document
    }

    /// The text with the overrides written into it; comments, order and layout stay as the person has them.
    ///
    /// `None` where the text is no TOML, or an override has no place in it: [`Document::read`] then tells why.
    #[must_use]
    pub fn to_text(&self) -> Option<String> {
        writing::with_overrides_written(self)
    }

    /// What stands at a dotted key, as [`Document::with_override`] takes it; `None` where the document leaves it to its
    /// default, or where it is a section or a list of sections.
    #[must_use]
    pub fn written_at(&self, key: &str) -> Option<String> {
        let mut steps = key.split('.');
        let node = steps.try_fold(self.root(), |node, step| match &node.value {
            Value::Table(table) => table.get(step).map(|(_, node)| &**node),
            Value::List(items) => items.get(step.parse::<usize>().ok()?.checked_sub(1)?).map(|node| &**node),
            _ => None,
        });
        as_cell(node?)
    }

    /// The table at the root.
    pub(crate) fn root(&self) -> &Node {
        &self.root
    }

    /// What was wrong before reading.
    pub(crate) fn faults(&self) -> &[Diagnostic] {
        &self.faults
    }

    /// Whether values may be missing because of a fault of syntax.
    pub(crate) fn is_torn(&self) -> bool {
        self.torn
    }

    /// Where a node came from, for people.
    pub(crate) fn origin(&self, origin: &NodeOrigin) -> Origin {
        match origin {
            NodeOrigin::Source(span) => Origin::Source(span.start as usize..span.end as usize),
            NodeOrigin::Override(index) => match self.overrides.get(*index as usize) {
                Some(Override { key, value }) => Origin::Override { key: key.clone(), value: value.clone() },
                None => Origin::Default,
            },
            NodeOrigin::Default => Origin::Default,
        }
    }
}

/// A value as a spreadsheet's cell holds it; a list is its items with commas between.
fn as_cell(node: &Node) -> Option<String> {
    match &node.value {
        Value::Text(text) | Value::Loose(text) | Value::Number(text) | Value::Date(text) => {
            Some(text.to_string())
        }
        Value::Truth(truth) => Some(truth.to_string()),
        Value::List(items) => {
            let cells: Option<Vec<String>> = items.iter().map(|item| as_cell(item)).collect();
            Some(cells?.join(", "))
        }
        Value::Table(_) => None,
    }
}

//! The values of a document with their places.

use std::collections::BTreeMap;
use std::ops::Range;
use std::sync::Arc;

/// A value and where it came from.
#[derive(Clone, Debug)]
pub(crate) struct Node {
    pub(crate) value: Value,
    pub(crate) origin: NodeOrigin,
}

impl Node {
    /// The same value as if all of it came from `origin`.
    pub(crate) fn at_origin(&self, origin: &NodeOrigin) -> Self {
        let value = match &self.value {
            Value::Table(table) => Value::Table(
                table
                    .iter()
                    .map(|(key, (_, node))| (key.clone(), (origin.clone(), Arc::new(node.at_origin(origin)))))
                    .collect(),
            ),
            Value::List(items) => {
                Value::List(items.iter().map(|item| Arc::new(item.at_origin(origin))).collect())
            }
            other => other.clone(),
        };
        Self { value, origin: origin.clone() }
    }
}

/// Where a value came from.
#[derive(Clone, Debug)]
pub(crate) enum NodeOrigin {
    /// Bytes of the source; the limit on its size keeps them within `u32`.
    Source(Range<u32>),
    /// The override of this index.
    Override(u32),
    /// A default.
    Default,
}

/// What a document can say.
#[derive(Clone, Debug)]
pub(crate) enum Value {
    /// A string.
    Text(Arc<str>),
    /// Text of an override, which may be any of the others: a bare number and a word look alike in a cell.
    Loose(Arc<str>),
    /// A number, as written: decimals are read from their digits, not from a rounded binary number.
    Number(Arc<str>),
    /// `true` or `false`.
    Truth(bool),
    /// A date or a time.
    Date(Arc<str>),
    /// A list.
    List(Vec<Arc<Node>>),
    /// A section.
    Table(Table),
}

/// A section: its keys, each with its value and with the place of the key itself.
pub(crate) type Table = BTreeMap<Arc<str>, (NodeOrigin, Arc<Node>)>;

impl Value {
    /// What it is, for a message: "the number 3", "a list".
    pub(crate) fn description(&self) -> String {
        match self {
            Self::Text(text) | Self::Loose(text) => format!("\"{}\"", shortened(text)),
            Self::Number(digits) => format!("the number {}", shortened(digits)),
            Self::Truth(truth) => truth.to_string(),
            Self::Date(date) => format!("the date {}", shortened(date)),
            Self::List(items) if items.is_empty() => "an empty list".to_owned(),
            Self::List(_) => "a list".to_owned(),
            Self::Table(_) => "a section".to_owned(),
        }
    }
}

/// The items of a list as a cell holds it, in brackets or parted by commas or semicolons; `None` where it is no list.
pub(crate) fn loose_items(text: &str) -> Option<Vec<&str>> {
    let text = text.trim();
    let inner = text.strip_prefix('[').and_then(|text| text.strip_suffix(']'));
    if inner.is_none() && !text.contains([',', ';']) {
        return None;
    }
    let inner = inner.unwrap_or(text).trim().trim_end_matches([',', ';']);
    if inner.is_empty() {
        return Some(Vec::new());
    }
    let item = |item| str::trim(str::trim_matches(str::trim(item), ['"', '\'']));
    Some(inner.split([',', ';']).take(crate::limits::LIST_ITEMS + 1).map(item).collect())
}

/// At most 40 characters of a text, without control characters, so that a message stays readable.
pub(crate) fn shortened(text: &str) -> String {
    let mut readable: String =
        text.chars().take(40).map(|letter| if letter.is_control() { '\u{fffd}' } else { letter }).collect();
    if text.chars().nth(40).is_some() {
        readable.push('\u{2026}');
    }
    readable
}

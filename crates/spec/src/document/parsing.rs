//! From bytes to the tree.

use std::ops::Range;
use std::sync::Arc;

use toml::de::{DeArray, DeTable, DeValue};

use super::attachments::Attachments;
use super::tree::shortened;
use super::{Document, Node, NodeOrigin, Table, Value};
use crate::code::Code;
use crate::diagnostic::{Diagnostic, Origin, Place};
use crate::limits;

/// How a document is mended that goes too deep.
const LESS_DEEP: &str = "a value is a number, a text or a list of these, as bed = [\"220 mm\", \"220 mm\"]";

/// The document in these bytes, with its faults.
pub(super) fn parse(bytes: &[u8]) -> Document {
    if bytes.len() > limits::DOCUMENT_BYTES {
        let message =
            format!("expected a document of at most {} bytes, found {}", limits::DOCUMENT_BYTES, bytes.len());
        let fault = Diagnostic::error(Code::TooLarge, whole_document(), message)
            .hint("one document describes one instrument; a class of them is a roster beside one document");
        return refused("", fault);
    }
    match std::str::from_utf8(bytes) {
        Ok(source) => parse_text(source),
        Err(error) => {
            let start = error.valid_up_to();
            let source = String::from_utf8_lossy(bytes);
            let place = place(start..start + '\u{fffd}'.len_utf8());
            let message =
                format!("expected UTF-8 text, found byte 0x{:02x}", bytes.get(start).copied().unwrap_or(0));
            let fault = Diagnostic::error(Code::NotText, place, message)
                .hint("save the document as UTF-8 in the editor, without other encodings");
            refused(&source, fault)
        }
    }
}

/// A document of which nothing could be read.
fn refused(source: &str, fault: Diagnostic) -> Document {
    let root = Node { value: Value::Table(Table::new()), origin: NodeOrigin::Source(0..0) };
    Document {
        source: Arc::from(source),
        root: Arc::new(root),
        overrides: Vec::new(),
        faults: vec![fault],
        torn: true,
        attachments: Attachments::default(),
    }
}

/// The document in this text.
fn parse_text(source: &str) -> Document {
    let (table, errors) = DeTable::parse_recoverable(source);
    let mut faults: Vec<Diagnostic> =
        errors.iter().take(limits::FAULTS_TOLD).map(|error| fault_of_syntax(source, error)).collect();
    let torn = faults.iter().any(|fault| fault.code != Code::DuplicateKey);
    let mut planting = Planting { faults: &mut faults };
    let root = planting.table(table.get_ref(), 0);
    let origin = NodeOrigin::Source(0..0);
    Document {
        source: Arc::from(source),
        root: Arc::new(Node { value: Value::Table(root), origin }),
        overrides: Vec::new(),
        faults,
        torn,
        attachments: Attachments::default(),
    }
}

/// A list or a section in one line, as the value of a key; every part of it comes from `origin`. The parser's complaint
/// where it is none.
pub(super) fn inline(text: &str, origin: &NodeOrigin) -> Result<Value, String> {
    if text.len() > limits::INLINE_BYTES {
        return Err(format!("expected at most {} bytes, found {}", limits::INLINE_BYTES, text.len()));
    }
    let source = format!("value = {text}");
    let table = DeTable::parse(&source).map_err(|error| lower_first(error.message()))?;
    let mut faults = Vec::new();
    let planted = Planting { faults: &mut faults }.table(table.get_ref(), 0);
    match (planted.get("value"), planted.len(), faults.first()) {
        (Some((_, node)), 1, None) => Ok(node.at_origin(origin).value),
        (_, _, Some(fault)) => Err(fault.message.clone()),
        _ => Err("expected one value".to_owned()),
    }
}

/// Builds the tree within the limits.
struct Planting<'f> {
    faults: &'f mut Vec<Diagnostic>,
}

impl Planting<'_> {
    fn table(&mut self, table: &DeTable<'_>, depth: usize) -> Table {
        let mut planted = Table::new();
        for (index, (key, value)) in table.iter().enumerate() {
            if index == limits::TABLE_KEYS {
                let message = format!(
                    "expected at most {} keys in a section, found {}",
                    limits::TABLE_KEYS,
                    table.len()
                );
                self.faults.push(Diagnostic::error(Code::TooLarge, place(key.span()), message));
                break;
            }
            let name: Arc<str> = Arc::from(shortened_key(key.get_ref()));
            let node = self.value(value.get_ref(), value.span(), depth + 1);
            planted.insert(name, (origin(key.span()), Arc::new(node)));
        }
        planted
    }

    fn list(&mut self, list: &DeArray<'_>, span: Range<usize>, depth: usize) -> Vec<Arc<Node>> {
        if list.len() > limits::LIST_ITEMS {
            let message =
                format!("expected at most {} items in a list, found {}", limits::LIST_ITEMS, list.len());
            self.faults.push(Diagnostic::error(Code::TooLarge, place(span), message));
        }
        list.iter()
            .take(limits::LIST_ITEMS)
            .map(|item| Arc::new(self.value(item.get_ref(), item.span(), depth + 1)))
            .collect()
    }

    fn value(&mut self, value: &DeValue<'_>, span: Range<usize>, depth: usize) -> Node {
        let origin = origin(span.clone());
        if depth > limits::NESTING_DEPTH {
            let message = format!(
                "expected at most {} levels of lists and sections, found more",
                limits::NESTING_DEPTH
            );
            self.faults.push(Diagnostic::error(Code::TooDeep, place(span), message).hint(LESS_DEEP));
            return Node { value: Value::Truth(false), origin };
        }
        let value = match value {
            DeValue::String(text) => Value::Text(Arc::from(text.as_ref())),
            DeValue::Integer(number) if number.radix() == 10 => Value::Number(Arc::from(number.as_str())),
            DeValue::Integer(number) => match u64::from_str_radix(number.as_str(), number.radix()) {
                Ok(number) => Value::Number(Arc::from(number.to_string())),
                Err(_) => Value::Number(Arc::from("inf")),
            },
            DeValue::Float(number) => Value::Number(Arc::from(number.as_str())),
            DeValue::Boolean(truth) => Value::Truth(*truth),
            DeValue::Datetime(date) => Value::Date(Arc::from(date.to_string())),
            DeValue::Array(list) => Value::List(self.list(list, span, depth)),
            DeValue::Table(table) => Value::Table(self.table(table, depth)),
        };
        Node { value, origin }
    }
}

/// A key of readable length; a longer one is unknown in any case.
fn shortened_key(key: &str) -> String {
    if key.chars().nth(limits::VALUE_CHARACTERS).is_some() { shortened(key) } else { key.to_owned() }
}

/// What the parser complains about, in our words where they say more.
fn fault_of_syntax(source: &str, error: &toml::de::Error) -> Diagnostic {
    let span = error.span().unwrap_or(0..0);
    let place = place(span.clone());
    let message = error.message();
    if message.contains("duplicate key") {
        let key = source.get(span).unwrap_or_default();
        return Diagnostic::error(
            Code::DuplicateKey,
            place,
            format!("expected each key once, found {} again", shortened(key)),
        )
        .hint("keep one of the two lines");
    }
    if message.contains("recurs") {
        let message =
            format!("expected at most {} levels of lists and sections, found more", limits::NESTING_DEPTH);
        return Diagnostic::error(Code::TooDeep, place, message).hint(LESS_DEEP);
    }
    let fault = Diagnostic::error(
        Code::Syntax,
        place,
        format!("expected TOML, found a fault: {}", lower_first(message)),
    );
    match unquoted_value(source, span.start) {
        Some(line) => {
            fault.hint(format!("a value with letters, a unit or a fraction stands in quotes: {line}"))
        }
        None => {
            fault.hint("a line holds one value, as thickness = \"3/4 in\", or opens a section, as [neck]")
        }
    }
}

/// The line at `position` with its value put in quotes, where that would mend it.
fn unquoted_value(source: &str, position: usize) -> Option<String> {
    let start = source.get(..position)?.rfind('\n').map_or(0, |newline| newline + 1);
    let line = source.get(start..)?.lines().next()?;
    let (key, value) = line.split_once('=')?;
    let value = value.split('#').next()?.trim();
    let bare =
        value.chars().next()?.is_alphanumeric() && !value.contains(['"', '\'', '[', ']', '{', '}', '=']);
    (bare && value.len() <= limits::VALUE_CHARACTERS).then(|| format!("{} = \"{value}\"", key.trim()))
}

/// A message as a part of ours.
fn lower_first(message: &str) -> String {
    let mut letters = message.chars();
    match letters.next() {
        Some(first) => first.to_lowercase().chain(letters).collect(),
        None => "unreadable".to_owned(),
    }
}

fn origin(span: Range<usize>) -> NodeOrigin {
    // The limit on the document's size keeps every place within u32.
    NodeOrigin::Source(span.start as u32..span.end as u32)
}

fn place(span: Range<usize>) -> Place {
    Place { key: String::new(), origin: Origin::Source(span) }
}

fn whole_document() -> Place {
    place(0..0)
}

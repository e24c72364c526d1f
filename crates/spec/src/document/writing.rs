//! How does a changed document look on paper?
//!
//! The person's own text stays as it is, comments, order and layout; only the overridden values are written anew.

use std::str::FromStr as _;
use std::sync::Arc;

use toml_edit::{
    Array, ArrayOfTables, DocumentMut, InlineTable, Item, Table as Section, TableLike, Value as Written,
};

use super::{Document, Node, Value};
use crate::key::{KeyKind, key_at};

/// The source with its overrides written into it; `None` where the source is no TOML or an override found no place.
pub(super) fn with_overrides_written(document: &Document) -> Option<String> {
    let mut page = DocumentMut::from_str(&document.source).ok()?;
    for change in &document.overrides {
        let steps: Vec<&str> = change.key.split('.').map(str::trim).collect();
        write(page.as_table_mut(), &steps, "", &value(&change.key, &change.value))?;
    }
    Some(page.to_string())
}

/// Writes a value at the end of the steps, making the sections on the way that are missing.
fn write(section: &mut dyn TableLike, steps: &[&str], above: &str, value: &Written) -> Option<()> {
    let (step, rest) = steps.split_first()?;
    let path = if above.is_empty() { (*step).to_owned() } else { format!("{above}.{step}") };
    if rest.is_empty() {
        let changed = with_decoration_of(section.get(step), value.clone());
        section.insert(step, Item::Value(changed));
        return Some(());
    }
    let item = section.entry(step).or_insert_with(|| missing(&path));
    match item {
        Item::ArrayOfTables(items) => {
            let (number, rest) = rest.split_first()?;
            let index = number.parse::<usize>().ok()?.checked_sub(1)?;
            if index == items.len() {
                items.push(Section::new());
            }
            write(items.get_mut(index)?, rest, &format!("{path}.{number}"), value)
        }
        Item::Value(Written::Array(items)) => {
            let (number, rest) = rest.split_first()?;
            let index = number.parse::<usize>().ok()?.checked_sub(1)?;
            if index == items.len() {
                items.push(InlineTable::new());
            }
            write(items.get_mut(index)?.as_inline_table_mut()?, rest, &format!("{path}.{number}"), value)
        }
        item => write(item.as_table_like_mut()?, rest, &path, value),
    }
}

/// A value in the place of another keeps the space and the comment round it.
fn with_decoration_of(before: Option<&Item>, mut value: Written) -> Written {
    if let Some(before) = before.and_then(Item::as_value) {
        *value.decor_mut() = before.decor().clone();
    }
    value
}

/// What stands in the place of a section or a list that the text leaves out: a list begins as its default.
fn missing(path: &str) -> Item {
    let default = crate::defaults::list(path);
    if default.is_empty() {
        return Item::Table(Section::new());
    }
    let sections = default.iter().map(|node| match &node.value {
        Value::Table(table) => {
            table.iter().map(|(key, (_, node))| (key.to_string(), Item::Value(plain(node)))).collect()
        }
        _ => Section::new(),
    });
    Item::ArrayOfTables(sections.collect::<ArrayOfTables>())
}

/// A default as it is written; the defaults of lists hold texts and lists of them.
fn plain(node: &Arc<Node>) -> Written {
    match &node.value {
        Value::List(items) => Written::Array(items.iter().map(plain).collect::<Array>()),
        Value::Text(text) | Value::Loose(text) | Value::Number(text) | Value::Date(text) => (&**text).into(),
        Value::Truth(truth) => (*truth).into(),
        Value::Table(_) => InlineTable::new().into(),
    }
}

/// The text of a cell as TOML: what is read as a number is written as one, all else between quotes.
fn value(key: &str, text: &str) -> Written {
    let kind = key_at(key).map(|key| key.kind);
    let single = |text: &str| match (kind, text.parse::<i64>(), text.parse::<f64>()) {
        (Some(KeyKind::Text | KeyKind::Pitch), _, _) => Written::from(text),
        (_, Ok(whole), _) => whole.into(),
        (_, _, Ok(number)) if number.is_finite() => number.into(),
        _ => text.into(),
    };
    match kind {
        Some(KeyKind::LengthPair | KeyKind::FretPattern) if text.contains(',') => {
            Written::Array(text.split(',').map(|item| single(item.trim())).collect::<Array>())
        }
        _ => single(text.trim()),
    }
}

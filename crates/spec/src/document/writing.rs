//! How does a changed document look on paper?
//!
//! The person's own text stays as it is, comments, order and layout; only the overridden values are written anew.

use std::str::FromStr as _;
use std::sync::Arc;

use toml_edit::{
    Array, ArrayOfTables, DocumentMut, InlineTable, Item, Table as Section, TableLike, Value as Written,
};

use units::LengthUnit;

use super::overriding::{NONE, SectionsKey};
use super::{Document, Node, Value, loose_items};
use crate::key::{KeyKind, key_at};

/// The source with its overrides written into it; `None` where the source is no TOML or an override found no place.
pub(super) fn with_overrides_written(document: &Document) -> Option<String> {
    let mut page = DocumentMut::from_str(&document.source).ok()?;
    let units = document.written_at("units").and_then(|units| LengthUnit::parse(&units).ok());
    let units = units.unwrap_or(LengthUnit::Inch);
    for change in &document.overrides {
        let steps: Vec<&str> = change.key.split('.').map(str::trim).collect();
        let text = change.value.trim();
        let change = match SectionsKey::at(&steps.join(".")) {
            Some(SectionsKey::List) if text == NONE => Change::Put(Array::new().into()),
            Some(SectionsKey::Item) if text == NONE => Change::TakeOut,
            Some(_) => Change::Put(Written::from_str(text).ok()?),
            None => Change::Put(value(&change.key, &change.value, units)),
        };
        write(page.as_table_mut(), &steps, "", &change)?;
    }
    Some(page.to_string())
}

/// What is done at the end of the steps.
enum Change {
    /// This is written there.
    Put(Written),
    /// The item goes.
    TakeOut,
}

/// Changes what stands at the end of the steps, making the sections on the way that are missing.
fn write(section: &mut dyn TableLike, steps: &[&str], above: &str, change: &Change) -> Option<()> {
    let (step, rest) = steps.split_first()?;
    let path = if above.is_empty() { (*step).to_owned() } else { format!("{above}.{step}") };
    if rest.is_empty() {
        let Change::Put(value) = change else { return None };
        let changed = with_decoration_of(section.get(step), value.clone());
        section.insert(step, Item::Value(changed));
        return Some(());
    }
    let item = section.entry(step).or_insert_with(|| missing(&path));
    if !matches!(item, Item::ArrayOfTables(_) | Item::Value(Written::Array(_))) {
        return write(item.as_table_like_mut()?, rest, &path, change);
    }
    let (number, rest) = rest.split_first()?;
    let index = number.parse::<usize>().ok()?.checked_sub(1)?;
    let path = format!("{path}.{number}");
    match (item, rest.is_empty().then_some(change)) {
        (Item::ArrayOfTables(items), Some(Change::TakeOut)) if index < items.len() => {
            items.remove(index);
        }
        (Item::Value(Written::Array(items)), Some(Change::TakeOut)) if index < items.len() => {
            items.remove(index);
        }
        (_, Some(Change::TakeOut)) => {}
        (Item::ArrayOfTables(items), Some(Change::Put(value))) => {
            let mut section = value.as_inline_table()?.clone().into_table();
            if let Some(before) = items.get(index) {
                *section.decor_mut() = before.decor().clone();
                section.set_position(before.position());
            }
            let mut sections: Vec<Section> = items.iter().cloned().collect();
            sections.splice(index..(index + 1).min(sections.len()), [section]);
            *items = sections.into_iter().collect();
        }
        (Item::Value(Written::Array(items)), Some(Change::Put(value))) if index == items.len() => {
            items.push(value.clone());
        }
        (Item::Value(Written::Array(items)), Some(Change::Put(value))) => {
            items.replace(index, value.clone());
        }
        (Item::ArrayOfTables(items), None) => {
            if index == items.len() {
                items.push(Section::new());
            }
            write(items.get_mut(index)?, rest, &path, change)?;
        }
        (Item::Value(Written::Array(items)), None) => {
            if index == items.len() {
                items.push(InlineTable::new());
            }
            write(items.get_mut(index)?.as_inline_table_mut()?, rest, &path, change)?;
        }
        _ => return None,
    }
    Some(())
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

/// The text of a cell as TOML: what is read as a number is written as one, all else between quotes; a length without a
/// unit, as a fraction is written in a cell, gets the document's.
fn value(key: &str, text: &str, units: LengthUnit) -> Written {
    let kind = key_at(key).map(|key| key.kind);
    let is_length =
        matches!(kind, Some(KeyKind::Length | KeyKind::LengthPair | KeyKind::Wire | KeyKind::BoardRadius));
    let single = |text: &str| match (kind, text.parse::<i64>(), text.parse::<f64>()) {
        (Some(KeyKind::Text | KeyKind::Pitch), _, _) => Written::from(text),
        (_, Ok(whole), _) => whole.into(),
        (_, _, Ok(number)) if number.is_finite() => number.into(),
        _ if is_length && text.ends_with(|last: char| last.is_ascii_digit()) => {
            format!("{text} {}", units.symbol()).into()
        }
        _ => text.into(),
    };
    match (kind, loose_items(text)) {
        (Some(KeyKind::LengthPair | KeyKind::FretPattern), Some(items)) => {
            Written::Array(items.into_iter().map(single).collect::<Array>())
        }
        _ => single(text.trim()),
    }
}

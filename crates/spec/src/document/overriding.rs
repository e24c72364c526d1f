//! How does one value change without reading the text again?
//!
//! A list of sections changes as a whole too: "none" empties it, or takes an item out where the key names one; what
//! stands in brackets or braces is read as in the document.

use super::{Document, Node, NodeOrigin, Override, Table, Value, parsing, shortened};
use crate::code::Code;
use crate::diagnostic::{Diagnostic, Origin, Place};
use crate::key::{KeyKind, key_at};
use crate::limits;
use std::sync::Arc;

/// Lays one value over the tree, or keeps the fault that hinders it.
pub(super) fn lay_over(document: &mut Document, key: &str, value: &str) {
    let index = document.overrides.len();
    let fault = |message: String| {
        let origin = Origin::Override { key: key.to_owned(), value: value.to_owned() };
        Diagnostic::error(Code::BadOverride, Place { key: key.to_owned(), origin }, message)
    };
    if index >= limits::OVERRIDES {
        let message = format!("expected at most {} overrides, found more", limits::OVERRIDES);
        document.faults.push(fault(message));
        return;
    }
    document.overrides.push(Override { key: key.to_owned(), value: value.to_owned() });
    // The limit on overrides keeps the index within u32.
    let origin = NodeOrigin::Override(index as u32);
    let steps: Vec<&str> = key.split('.').map(str::trim).collect();
    let well_formed = key.len() <= limits::VALUE_CHARACTERS
        && steps.len() <= limits::NESTING_DEPTH
        && steps.iter().all(|step| !step.is_empty());
    if !well_formed {
        let message = format!(
            "expected a dotted key, as \"neck.thickness\" or \"strings.2.pitch\", found \"{}\"",
            shortened(key)
        );
        document.faults.push(fault(message));
        return;
    }
    let placed = change(&steps.join("."), value, &origin)
        .and_then(|change| place_value(Arc::make_mut(&mut document.root), &steps, "", &change, &origin));
    if let Err(message) = placed {
        document.faults.push(fault(message));
    }
}

/// What an override does to its place.
enum Change {
    /// This stands there from now on.
    Put(Value),
    /// The item goes, and those after it move up.
    TakeOut,
}

/// What a value means at a key.
fn change(key: &str, value: &str, origin: &NodeOrigin) -> Result<Change, String> {
    let text = value.trim();
    let expected = |form: &str| {
        format!("expected \"{NONE}\" or {form} as a document writes it, found \"{}\"", shortened(text))
    };
    let sections = |written: &str| parsing::inline(text, origin).map_err(|_| expected(written));
    match SectionsKey::at(key) {
        None => Ok(Change::Put(Value::Loose(Arc::from(value)))),
        Some(SectionsKey::List) if text == NONE => Ok(Change::Put(Value::List(Vec::new()))),
        Some(SectionsKey::Item) if text == NONE => Ok(Change::TakeOut),
        Some(SectionsKey::List) => {
            let form = "a list of sections, [{ ... }, { ... }],";
            match sections(form)? {
                list @ Value::List(_) => Ok(Change::Put(list)),
                _ => Err(expected(form)),
            }
        }
        Some(SectionsKey::Item) => {
            let form = "a section, { ... },";
            match sections(form)? {
                table @ Value::Table(_) => Ok(Change::Put(table)),
                _ => Err(expected(form)),
            }
        }
    }
}

/// The word for a list without items, and for an item that is not there.
pub(super) const NONE: &str = "none";

/// A key that names a list of sections, or one of its items.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum SectionsKey {
    /// The list: "strings".
    List,
    /// An item: "strings.4".
    Item,
}

impl SectionsKey {
    /// What a dotted key names, where it is one of the two.
    pub(super) fn at(key: &str) -> Option<Self> {
        let is_list = |key: &str| key_at(key).is_some_and(|info| info.kind == KeyKind::Sections);
        if is_list(key) {
            return Some(Self::List);
        }
        let (list, item) = key.rsplit_once('.')?;
        (is_list(list) && item.bytes().all(|byte| byte.is_ascii_digit())).then_some(Self::Item)
    }
}

/// Changes what stands at the end of the steps, making what is missing on the way.
fn place_value(
    node: &mut Node,
    steps: &[&str],
    above: &str,
    change: &Change,
    origin: &NodeOrigin,
) -> Result<(), String> {
    let Some((step, rest)) = steps.split_first() else {
        if let Change::Put(value) = change {
            *node = Node { value: value.clone(), origin: origin.clone() };
        }
        return Ok(());
    };
    let path = if above.is_empty() { (*step).to_owned() } else { format!("{above}.{step}") };
    match &mut node.value {
        Value::Table(table) => {
            let name: Arc<str> = Arc::from(*step);
            let entry =
                table.entry(name).or_insert_with(|| (origin.clone(), Arc::new(missing(&path, rest, origin))));
            place_value(Arc::make_mut(&mut entry.1), rest, &path, change, origin)
        }
        Value::List(items) => {
            let number = step.parse::<usize>().ok().filter(|number| *number > 0);
            let number = number.ok_or_else(|| {
                format!("expected the number of an item of {above}, from 1, found \"{step}\"")
            })?;
            if rest.is_empty() && matches!(change, Change::TakeOut) {
                if number <= items.len() {
                    items.remove(number - 1);
                }
                return Ok(());
            }
            if number > items.len() + 1 || number > limits::LIST_ITEMS {
                return Err(format!(
                    "expected an item of {above} between 1 and {}, found {number}",
                    (items.len() + 1).min(limits::LIST_ITEMS)
                ));
            }
            if number == items.len() + 1 {
                items.push(Arc::new(missing(&path, rest, origin)));
            }
            place_value(Arc::make_mut(&mut items[number - 1]), rest, &path, change, origin)
        }
        other => Err(format!("expected a section at {above}, found {}", other.description())),
    }
}

/// What stands at a path that the document does not have: a default list, an empty section, or the value's place.
fn missing(path: &str, rest: &[&str], origin: &NodeOrigin) -> Node {
    let default = crate::defaults::list(path);
    let value = if rest.is_empty() {
        Value::Truth(false)
    } else if default.is_empty() {
        Value::Table(Table::new())
    } else {
        Value::List(default.to_vec())
    };
    Node { value, origin: origin.clone() }
}

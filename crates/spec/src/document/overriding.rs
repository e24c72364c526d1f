//! How does one value change without reading the text again?

use super::{Document, Node, NodeOrigin, Override, Table, Value, shortened};
use crate::code::Code;
use crate::diagnostic::{Diagnostic, Origin, Place};
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
    if let Err(message) = place_value(Arc::make_mut(&mut document.root), &steps, "", value, &origin) {
        document.faults.push(fault(message));
    }
}

/// Puts the value at the end of the steps, making what is missing on the way.
fn place_value(
    node: &mut Node,
    steps: &[&str],
    above: &str,
    value: &str,
    origin: &NodeOrigin,
) -> Result<(), String> {
    let Some((step, rest)) = steps.split_first() else {
        *node = Node { value: Value::Loose(Arc::from(value)), origin: origin.clone() };
        return Ok(());
    };
    let path = if above.is_empty() { (*step).to_owned() } else { format!("{above}.{step}") };
    match &mut node.value {
        Value::Table(table) => {
            let name: Arc<str> = Arc::from(*step);
            let entry =
                table.entry(name).or_insert_with(|| (origin.clone(), Arc::new(missing(&path, rest, origin))));
            place_value(Arc::make_mut(&mut entry.1), rest, &path, value, origin)
        }
        Value::List(items) => {
            let number = step.parse::<usize>().ok().filter(|number| *number > 0);
            let number = number.ok_or_else(|| {
                format!("expected the number of an item of {above}, from 1, found \"{step}\"")
            })?;
            if number > items.len() + 1 || number > limits::LIST_ITEMS {
                return Err(format!(
                    "expected an item of {above} between 1 and {}, found {number}",
                    (items.len() + 1).min(limits::LIST_ITEMS)
                ));
            }
            if number == items.len() + 1 {
                items.push(Arc::new(missing(&path, rest, origin)));
            }
            place_value(Arc::make_mut(&mut items[number - 1]), rest, &path, value, origin)
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

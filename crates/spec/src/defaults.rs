//! What does a document mean that leaves its lists out?
//!
//! The defaults of single keys stand where they are read; the lists that are whole sections stand here, written as a
//! document writes them.

use std::sync::{Arc, LazyLock};

use crate::document::{Document, Node, NodeOrigin, Table, Value};

/// Three strings in open G at about 65 to 80 N each over a scale length of 25 in (the tension is
/// `mass per length * (2 * scale length * frequency)^2`), and one sound hole in the lid beside the neck.
const LISTS: &str = r#"
[[strings]]
pitch = "G2"
diameter = "0.036 in"
core = "0.017 in"
wrap = "phosphor bronze"

[[strings]]
pitch = "D3"
diameter = "0.024 in"
core = "0.014 in"
wrap = "phosphor bronze"

[[strings]]
pitch = "G3"
diameter = "0.017 in"

[[box.holes]]
purpose = "sound"
face = "lid"
at = ["2 in", "1 1/2 in"]
diameter = "1 in"
"#;

static TREE: LazyLock<Table> = LazyLock::new(|| {
    let document = Document::parse(LISTS.as_bytes());
    match &document.root().value {
        Value::Table(table) => as_default_table(table),
        _ => Table::new(),
    }
});

/// The default of a list of sections at a dotted key; empty where there is none.
pub(crate) fn list(key: &str) -> &'static [Arc<Node>] {
    let mut table = &*TREE;
    for step in key.split('.') {
        match table.get(step).map(|(_, node)| &node.value) {
            Some(Value::Table(inner)) => table = inner,
            Some(Value::List(items)) => return items,
            _ => return &[],
        }
    }
    &[]
}

fn as_default_table(table: &Table) -> Table {
    let entries = table.iter();
    entries.map(|(key, (_, node))| (key.clone(), (NodeOrigin::Default, Arc::new(as_default(node))))).collect()
}

fn as_default(node: &Node) -> Node {
    let value = match &node.value {
        Value::Table(table) => Value::Table(as_default_table(table)),
        Value::List(items) => Value::List(items.iter().map(|item| Arc::new(as_default(item))).collect()),
        other => other.clone(),
    };
    Node { value, origin: NodeOrigin::Default }
}

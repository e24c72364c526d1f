//! Sections within sections, and lists of them.

use std::sync::Arc;

use super::keys::{Asking, Keys};
use super::reader::{Reader, Step};
use crate::code::Code;
use crate::diagnostic::Diagnostic;
use crate::document::{Node, NodeOrigin, Table, Value};
use crate::key::{KeyInfo, KeyKind, KeyRange, Quantity};

impl<'d> Keys<'_, 'd> {
    /// A section of its own, read by `read`.
    pub(super) fn section<T>(&mut self, key: &'static str, read: fn(&mut Keys<'_, 'd>) -> T) -> T {
        self.asked.push(key);
        let node = self.table.and_then(|table| table.get(key)).map(|(_, node)| node);
        let table = node.and_then(|node| self.as_section(key, node));
        let origin = node.map_or(NodeOrigin::Default, |node| node.origin.clone());
        self.reader.enter(Step::Key(key));
        let section = read_section(self.reader, table, origin, read);
        self.reader.leave();
        section
    }

    /// The table of a section, or a fault.
    fn as_section(&mut self, key: &'static str, node: &'d Node) -> Option<&'d Table> {
        if let Value::Table(table) = &node.value {
            return Some(table);
        }
        let dotted = self.reader.dotted(key);
        let message = format!("{dotted}: expected a section, found {}", node.value.description());
        let place = self.reader.place(dotted.clone(), &node.origin);
        let hint = match node.value {
            Value::List(_) => format!("there is one {key}: write [{dotted}], not [[{dotted}]]"),
            _ => format!("write [{dotted}] on a line of its own, and its keys below"),
        };
        self.reader.tell_misreading(Diagnostic::error(Code::WrongKind, place, message).hint(hint));
        None
    }

    /// A list of sections, each read by `read`; where it is absent, the default list is read.
    pub(super) fn sections<T>(
        &mut self,
        key: &'static str,
        least: usize,
        most: usize,
        read: fn(&mut Keys<'_, 'd>) -> T,
    ) -> Vec<T> {
        self.asked.push(key);
        let dotted = self.reader.dotted(key);
        if self.reader.is_recording() {
            // Both limits stand in `limits` and fit a byte.
            let range = KeyRange { least: Quantity::Count(least as u8), most: Quantity::Count(most as u8) };
            let info = self.info(&Asking::optional(key, KeyKind::Sections).within(range));
            self.reader.note(KeyInfo {
                default_rule: crate::defaults::in_words(&dotted).map(str::to_owned),
                ..info
            });
            self.reader.enter(Step::Key(key));
            self.reader.enter(Step::AnyItem);
            let item = read_section(self.reader, None, NodeOrigin::Default, read);
            self.reader.leave();
            self.reader.leave();
            return vec![item];
        }
        let default = crate::defaults::list(&dotted);
        let given = self.table.and_then(|table| table.get(key)).map(|(_, node)| &**node);
        let items: &'d [Arc<Node>] = match given.map(|node| (node, &node.value)) {
            None => default,
            Some((node, Value::List(items))) => {
                if (least..=most).contains(&items.len()) {
                    items
                } else {
                    let message =
                        format!("{dotted}: expected {least} to {most} of them, found {}", items.len());
                    let place = self.reader.place(dotted.clone(), &node.origin);
                    let hint = if items.is_empty() {
                        format!("write [[{dotted}]] and the keys of the first below it")
                    } else {
                        format!("keep the first {most}")
                    };
                    self.reader
                        .tell_misreading(Diagnostic::error(Code::ItemCount, place, message).hint(hint));
                    if items.is_empty() { default } else { &items[..most] }
                }
            }
            Some((node, other)) => {
                let message = format!("{dotted}: expected a list of sections, found {}", other.description());
                let place = self.reader.place(dotted.clone(), &node.origin);
                let hint = format!("write [[{dotted}]] with two brackets before each of them");
                self.reader.tell_misreading(Diagnostic::error(Code::WrongKind, place, message).hint(hint));
                default
            }
        };
        self.reader.enter(Step::Key(key));
        let read_items = items
            .iter()
            .enumerate()
            .map(|(index, node)| {
                self.reader.enter(Step::Item(index + 1));
                let table = self.as_item(node);
                let item = read_section(self.reader, table, node.origin.clone(), read);
                self.reader.leave();
                item
            })
            .collect();
        self.reader.leave();
        read_items
    }

    /// The table of a list's item, or a fault.
    fn as_item(&mut self, node: &'d Node) -> Option<&'d Table> {
        if let Value::Table(table) = &node.value {
            return Some(table);
        }
        let dotted = self.reader.dotted("");
        let message = format!("{dotted}: expected a section, found {}", node.value.description());
        let place = self.reader.place(dotted.clone(), &node.origin);
        let header = dotted.rsplit_once('.').map_or(dotted.as_str(), |(list, _)| list);
        let hint = format!("write [[{header}]] on a line of its own, and the keys of this one below");
        self.reader.tell_misreading(Diagnostic::error(Code::WrongKind, place, message).hint(hint));
        None
    }

    /// A fault of the section as a whole.
    pub(super) fn fault_of_section(&mut self, code: Code, message: &str, hint: &str) {
        if self.reader.is_recording() {
            return;
        }
        let dotted = self.reader.dotted("");
        let message = format!("{dotted}: {message}");
        let place = self.reader.place(dotted, &self.origin);
        self.reader.tell_misreading(Diagnostic::error(code, place, message).hint(hint));
    }

    /// Refuses the keys that were not asked for.
    pub(super) fn finish(self) {
        let Some(table) = self.table else { return };
        for (key, (origin, _)) in table {
            if self.asked.contains(&&**key) {
                continue;
            }
            let dotted = self.reader.dotted(key);
            let place = self.reader.place(dotted, origin);
            let fault = super::unknown::unknown_key(
                place,
                &self.reader.dotted(""),
                key,
                &self.asked,
                (self.reader.known)(),
            );
            self.reader.tell_misreading(fault);
        }
    }
}

/// Reads one section and refuses what it does not know.
fn read_section<'d, T>(
    reader: &mut Reader<'d>,
    table: Option<&'d Table>,
    origin: NodeOrigin,
    read: fn(&mut Keys<'_, 'd>) -> T,
) -> T {
    let mut keys = Keys { origin, ..Keys::new(reader, table) };
    let section = read(&mut keys);
    keys.finish();
    section
}

//! How are measurements read from the sections of a TOML file?

use std::collections::BTreeMap;

use units::LengthUnit;

use super::cell::Cell;
use super::{Extent, Gathered, Kind, Measured, Reading, ReadingOf};
use crate::code::Code;
use crate::diagnostic::{Checked, Diagnostic};
use crate::document::{Document, Node, NodeOrigin, Table, Value, shortened};
use crate::nearest::nearest;
use crate::reading::measure::{self, Misreading};
use crate::reading::written::Written;

/// The sections of a file, the key `units` among them.
const SECTIONS: [&str; 11] = [
    "units",
    "fret_heights",
    "straightedge_gaps",
    "zero_fret",
    "string_heights",
    "saddle",
    "tail",
    "relief",
    "tuner",
    "buzz",
    "errors",
];

pub(super) fn read(file: &Document, extent: Extent) -> Checked<Measured> {
    let mut sections = Sections { file, gathered: Gathered::new(extent), errors: BTreeMap::new() };
    sections.gathered.faults = file.faults().to_vec();
    if let Value::Table(root) = &file.root().value {
        sections.known(root, "", &SECTIONS);
        sections.read(root);
    }
    sections.gathered.finish()
}

struct Sections<'f> {
    file: &'f Document,
    gathered: Gathered,
    errors: BTreeMap<Kind, f64>,
}

impl<'f> Sections<'f> {
    fn read(&mut self, root: &'f Table) {
        // The unit of bare numbers and the errors come first, because they say how the rest is read.
        if let Some(cell) = self.cell(root, "", "units") {
            let units =
                measure::choice::<LengthUnit>(cell.written).map_err(|misreading| cell.fault(misreading));
            self.gathered.extent.units = self.gathered.kept(units).unwrap_or(self.gathered.extent.units);
        }
        let keys: Vec<&str> = Kind::all().map(Kind::key).collect();
        if let Some(table) = self.section(root, "errors", &keys) {
            for kind in Kind::all() {
                let Some(cell) = self.cell(table, "errors", kind.key()) else { continue };
                let error = self.gathered.kept(cell.error(kind, self.gathered.extent.units));
                self.errors.extend(error.map(|error| (kind, error)));
            }
        }
        let frets = self.gathered.extent.frets;
        self.by_fret(root, "fret_heights", Kind::FretHeight, 1, |fret| ReadingOf::FretHeight { fret });
        self.by_fret(root, "straightedge_gaps", Kind::StraightedgeGap, 0, |fret| {
            ReadingOf::StraightedgeGap { fret }
        });
        self.by_fret(root, "relief", Kind::Relief, 1, |fret| ReadingOf::Relief { fret });
        if let Some(table) = self.section(root, "zero_fret", &["height"]) {
            self.single(table, "zero_fret", "height", ReadingOf::ZeroFretHeight);
        }
        if let Some(table) = self.section(root, "tail", &["height", "distance"]) {
            self.single(table, "tail", "height", ReadingOf::TailHeight);
            self.single(table, "tail", "distance", ReadingOf::TailDistance);
        }
        if let Some(table) = self.section(root, "saddle", &["heights", "places"]) {
            self.by_string(table, "saddle", "heights", |string| ReadingOf::SaddleHeight { string });
            self.by_string(table, "saddle", "places", |string| ReadingOf::SaddlePlace { string });
        }
        for (path, table) in self.items(root, "string_heights", &["fret", "heights"]) {
            let Some(fret) = self.count(table, &path, "fret", 1..=frets) else { continue };
            if self.required(table, &path, "heights") {
                self.by_string(table, &path, "heights", |string| ReadingOf::StringHeight { string, fret });
            }
        }
        for (path, table) in self.items(root, "tuner", &["string", "cents"]) {
            let strings = self.gathered.extent.strings;
            let Some(string) = self.count(table, &path, "string", 1..=strings) else { continue };
            if self.required(table, &path, "cents") {
                self.by_fret_at(table, &path, "cents", Kind::Tuner, 0, |fret| ReadingOf::Tuner {
                    string,
                    fret,
                });
            }
        }
        for (path, table) in self.items(root, "buzz", &["string", "fret", "over"]) {
            self.buzz(table, &path);
        }
    }

    fn buzz(&mut self, table: &'f Table, path: &str) {
        let Extent { strings, frets, .. } = self.gathered.extent;
        let string = self.count(table, path, "string", 1..=strings);
        let fret = self.count(table, path, "fret", 0..=frets.saturating_sub(1));
        let (Some(string), Some(fret)) = (string, fret) else { return };
        let over = match table.contains_key("over") {
            false => None,
            true => match self.count(table, path, "over", fret + 1..=frets) {
                None => return,
                over => over,
            },
        };
        let Some(cell) = self.cell(table, path, "string") else { return };
        self.keep(ReadingOf::Buzz { string, fret, over }, 0.0, &cell);
    }

    /// Readings of frets, whose numbers are the keys of a section.
    fn by_fret(&mut self, root: &'f Table, key: &str, kind: Kind, first: u8, of: impl Fn(u8) -> ReadingOf) {
        self.by_fret_at(root, "", key, kind, first, of);
    }

    fn by_fret_at(
        &mut self,
        above: &'f Table,
        path: &str,
        key: &str,
        kind: Kind,
        first: u8,
        of: impl Fn(u8) -> ReadingOf,
    ) {
        let Some((origin, node)) = above.get(key) else { return };
        let path = joined(path, key);
        let Value::Table(table) = &node.value else {
            self.not_a_section(origin, &path, node);
            return;
        };
        let last = match kind {
            Kind::Relief => self.gathered.extent.frets.saturating_sub(1),
            _ => self.gathered.extent.frets,
        };
        for (number, (origin, node)) in table {
            let of_key =
                Cell { place: self.place(&joined(&path, number), origin), written: Written::Loose(number) };
            let fret = self.gathered.kept(of_key.count("fret", first..=last));
            let cell =
                Cell { place: self.place(&joined(&path, number), &node.origin), written: Written::at(node) };
            let value = self.gathered.kept(cell.value(kind, self.gathered.extent.units));
            if let (Some(fret), Some(value)) = (fret, value) {
                self.keep(of(fret), value, &cell);
            }
        }
    }

    /// Readings of strings, from bass to treble: one a string, or two for the outer ones.
    fn by_string(&mut self, table: &'f Table, path: &str, key: &str, of: impl Fn(u8) -> ReadingOf) {
        let Some(whole) = self.cell(table, path, key) else { return };
        let Extent { strings, units, .. } = self.gathered.extent;
        let numbers: Vec<u8> = (1..=strings).rev().collect();
        let Some((_, node)) = table.get(key) else { return };
        let (items, numbers): (Vec<&'f Node>, Vec<u8>) = match &node.value {
            Value::List(items) if items.len() == numbers.len() => {
                (items.iter().map(|item| &**item).collect(), numbers)
            }
            Value::List(items) if items.len() == 2 && strings > 2 => {
                (items.iter().map(|item| &**item).collect(), vec![strings, 1])
            }
            Value::List(items) => {
                let message = format!("expected {}, found {}", how_many(strings), items.len());
                let example = numbers.iter().map(|_| "\"3 mm\"").collect::<Vec<_>>().join(", ");
                self.gathered.faults.push(
                    *whole.fault(
                        Misreading::new(Code::ItemCount, message)
                            .hint(format!("from bass to treble, as [{example}]")),
                    ),
                );
                return;
            }
            _ if strings == 1 => (vec![&**node], numbers),
            _ => {
                let message = format!(
                    "expected {} in a list, found {}",
                    how_many(strings),
                    whole.written.description()
                );
                self.gathered.faults.push(*whole.fault(Misreading::new(Code::WrongKind, message)));
                return;
            }
        };
        for (place, (node, string)) in items.into_iter().zip(numbers).enumerate() {
            let path = format!("{}.{}", joined(path, key), place + 1);
            let cell = Cell { place: self.place(&path, &node.origin), written: Written::at(node) };
            if let Some(value) = self.gathered.kept(cell.value(of(string).kind(), units)) {
                self.keep(of(string), value, &cell);
            }
        }
    }

    fn single(&mut self, table: &'f Table, path: &str, key: &str, of: ReadingOf) {
        let Some(cell) = self.cell(table, path, key) else { return };
        if let Some(value) = self.gathered.kept(cell.value(of.kind(), self.gathered.extent.units)) {
            self.keep(of, value, &cell);
        }
    }

    fn keep(&mut self, of: ReadingOf, value: f64, cell: &Cell<'_>) {
        let error = self.errors.get(&of.kind()).copied().unwrap_or(of.kind().usual_error());
        self.gathered.readings.push(Reading { of, value, error, place: cell.place.clone() });
    }

    fn count(
        &mut self,
        table: &'f Table,
        path: &str,
        key: &str,
        limits: std::ops::RangeInclusive<u8>,
    ) -> Option<u8> {
        if !self.required(table, path, key) {
            return None;
        }
        let cell = self.cell(table, path, key)?;
        let of = if key == "over" { "later fret" } else { key };
        self.gathered.kept(cell.count(of, limits))
    }

    /// Whether a key is there without which its section means nothing; its lack is kept.
    fn required(&mut self, table: &Table, path: &str, key: &str) -> bool {
        let is_there = table.contains_key(key);
        if !is_there {
            let origin = table.values().next().map_or(&NodeOrigin::Default, |(origin, _)| origin);
            let message = format!("{path}: expected a {key}, found none");
            let fault = Diagnostic::error(Code::MissingKey, self.place(path, origin), message);
            let example = match key {
                "heights" => "heights = [\"2.9 mm\", \"2.8 mm\"], from bass to treble".to_owned(),
                "cents" => "cents = { 0 = 0, 12 = 4.5 }".to_owned(),
                _ => format!("{key} = 1"),
            };
            self.gathered.faults.push(fault.hint(format!("write {example}")));
        }
        is_there
    }

    fn cell(&self, table: &'f Table, path: &str, key: &str) -> Option<Cell<'f>> {
        let (_, node) = table.get(key)?;
        Some(Cell { place: self.place(&joined(path, key), &node.origin), written: Written::at(node) })
    }

    /// A section with these keys, where it is there.
    fn section(&mut self, root: &'f Table, name: &str, keys: &[&str]) -> Option<&'f Table> {
        let (origin, node) = root.get(name)?;
        match &node.value {
            Value::Table(table) => {
                self.known(table, name, keys);
                Some(table)
            }
            _ => {
                self.not_a_section(origin, name, node);
                None
            }
        }
    }

    /// The sections of a list of them, each with its path.
    fn items(&mut self, root: &'f Table, name: &str, keys: &[&str]) -> Vec<(String, &'f Table)> {
        let Some((origin, node)) = root.get(name) else { return Vec::new() };
        let Value::List(items) = &node.value else {
            let message = format!("{name}: expected sections [[{name}]], found {}", node.value.description());
            let fault = Diagnostic::error(Code::WrongKind, self.place(name, origin), message);
            self.gathered
                .faults
                .push(fault.hint(format!("write [[{name}]] with two brackets, once for each")));
            return Vec::new();
        };
        let mut found = Vec::new();
        for (index, item) in items.iter().enumerate() {
            let path = format!("{name}.{}", index + 1);
            match &item.value {
                Value::Table(table) => {
                    self.known(table, &path, keys);
                    found.push((path, table));
                }
                _ => self.not_a_section(&item.origin, &path, item),
            }
        }
        found
    }

    fn not_a_section(&mut self, origin: &NodeOrigin, path: &str, node: &Node) {
        let message = format!("{path}: expected a section, found {}", node.value.description());
        let fault = Diagnostic::error(Code::WrongKind, self.place(path, origin), message);
        self.gathered
            .faults
            .push(fault.hint(format!("write [{path}] and its readings below, as 12 = \"1.3 mm\"")));
    }

    /// Tells every key that a section does not have.
    fn known(&mut self, table: &Table, path: &str, keys: &[&str]) {
        for (key, (origin, _)) in table.iter().filter(|(key, _)| !keys.contains(&&***key)) {
            let shown = shortened(key);
            let here = if path.is_empty() { "the file".to_owned() } else { format!("[{path}]") };
            let message = format!("expected a key of {here}, found {shown}, which does not exist");
            let fault =
                Diagnostic::error(Code::UnknownKey, self.place(&joined(path, &shown), origin), message);
            let near = nearest(key, keys.iter().copied(), 2);
            let hint = if near.is_empty() {
                format!("the keys here are {}", keys.join(", "))
            } else {
                format!("did you mean {}?", near.join(" or "))
            };
            self.gathered.faults.push(fault.hint(hint));
        }
    }

    fn place(&self, key: &str, origin: &NodeOrigin) -> crate::diagnostic::Place {
        crate::diagnostic::Place { key: key.to_owned(), origin: self.file.origin(origin) }
    }
}

fn how_many(strings: u8) -> String {
    match strings {
        1 => "one value".to_owned(),
        2 => "two values, one a string".to_owned(),
        _ => format!("{strings} values, one a string, or two for the outer strings"),
    }
}

fn joined(path: &str, key: &str) -> String {
    if path.is_empty() { key.to_owned() } else { format!("{path}.{key}") }
}

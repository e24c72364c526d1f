//! What do a row's cells, laid over its base, come to?

use std::cmp::Reverse;

use spec::{Diagnostic, Document, Origin, Severity};

use super::bases::{Base, Bases};
use super::fault::RosterFault;
use super::roster::{Roster, RosterRow};
use crate::manifest::document_sha256;

/// What is the same for all rows with the same cells.
#[derive(Clone, Debug)]
pub(super) struct Laid {
    /// Of the document, and of the same with any name; `None` where it describes no instrument.
    pub(super) hashes: Option<(String, String)>,
    /// What is wrong, with columns and without rows.
    pub(super) faults: Vec<RosterFault>,
    /// What is worth knowing about cells.
    pub(super) warnings: Vec<RosterFault>,
}

impl Laid {
    /// Reads the document of a row.
    pub(super) fn of(roster: &Roster, bases: &Bases, row: &RosterRow) -> Self {
        let mut laid = Self { hashes: None, faults: Vec::new(), warnings: Vec::new() };
        match bases.of(row.base.as_deref()) {
            Err(why) => {
                let hint = "give the class a base with --base, or each row one in a column base, by its path from the roster";
                let fault = RosterFault::of_roster(why, hint);
                laid.faults.push(match roster.base_column() {
                    Some(column) => fault.in_column(column),
                    None => fault,
                });
            }
            Ok(base) => laid.read(roster, base, &laid_over(roster, base, row)),
        }
        laid
    }

    fn read(&mut self, roster: &Roster, base: &Base, document: &Document) {
        for diagnostic in document.read().diagnostics() {
            let mut fault = RosterFault::of_diagnostic(diagnostic);
            fault.column = column_of(roster, diagnostic);
            let is_of_cell = fault.column.is_some();
            if diagnostic.severity == Severity::Error {
                if !is_of_cell && base.faults().contains(diagnostic) {
                    fault.message = format!("{}, in the base {}", fault.message, base.name());
                }
                self.faults.push(fault);
            } else if is_of_cell {
                // What the base says of itself is told with the base.
                self.warnings.push(fault);
            }
        }
        if !self.faults.is_empty() {
            return;
        }
        let hash = |document: &Document| document.to_text().map(|text| document_sha256(&text, document));
        self.hashes = hash(document).and_then(|own| match roster.column_of("name") {
            Some(_) => Some((own, hash(&document.with_override("name", "instrument"))?)),
            None => Some((own.clone(), own)),
        });
        if self.hashes.is_none() {
            self.faults.push(RosterFault::of_roster(
                format!("expected a base into which the row can be written, found {}", base.name()),
                "give each list of sections its own [[...]] headings in the base",
            ));
        }
    }
}

/// The column that a diagnostic is about: the one whose cell is to blame, or the one of the key.
fn column_of(roster: &Roster, diagnostic: &Diagnostic) -> Option<String> {
    let of_cell = match &diagnostic.place.origin {
        Origin::Override { key, .. } => roster.column_of(key),
        Origin::Source(_) | Origin::Default => None,
    };
    of_cell.or_else(|| roster.column_of(&diagnostic.place.key))
}

/// The base with a row's cells laid over it: whole lists first, then values, items with small numbers before those with
/// large ones so that a list can grow; items that go are taken out last, from the end.
pub(super) fn laid_over(roster: &Roster, base: &Base, row: &RosterRow) -> Document {
    let mut values: Vec<(&str, &str)> = row
        .values
        .iter()
        .filter_map(|(column, value)| Some((roster.key(*column)?, value.as_str())))
        .collect();
    values.sort_by_key(|(key, value)| {
        let items: Vec<usize> = key.split('.').filter_map(|step| step.parse().ok()).collect();
        let takes_out = *value == "none" && key.ends_with(|last: char| last.is_ascii_digit());
        (takes_out, if takes_out { Reverse(items.clone()) } else { Reverse(Vec::new()) }, items)
    });
    let laid = values
        .into_iter()
        .fold(base.document().clone(), |document, (key, value)| document.with_override(key, value));
    base.with_files(laid)
}

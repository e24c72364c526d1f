//! What stands in a class's spreadsheet?
//!
//! The roster is CSV as spreadsheets write it: UTF-8 or UTF-16, with a mark in front or without; commas, semicolons or tabs
//! between cells, whichever the heading has most of; quotes honoured, line breaks within them too; a line `sep=;` in front is
//! understood. The first row is the heading: dotted keys of the document, and `student`, `quantity`, `note` and `base`, upper
//! or lower case. An empty cell leaves the base's value, an empty row is passed over.
//!
//! Every fault is kept with its row and column, numbered as the spreadsheet numbers them, and told all at once.

mod cell;
mod heading;
pub mod limits;
mod text;

use cell::{Cell, Reading};
use heading::{Column, Meaning};

use super::fault::RosterFault;
use crate::manifest::sha256;

/// A roster as it was read, with everything that is wrong with it.
#[derive(Clone, Debug)]
pub struct Roster {
    columns: Vec<Column>,
    rows: Vec<RosterRow>,
    faults: Vec<RosterFault>,
    sha256: String,
}

/// One row of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RosterRow {
    /// As the spreadsheet numbers it, from 1 for its first line.
    pub number: usize,
    /// Whose the instrument is; empty where nothing is said.
    pub student: String,
    /// How many of it.
    pub quantity: u32,
    /// What the teacher wants to remember.
    pub note: String,
    /// Which base document, as the cell names it; `None` for the class's.
    pub base: Option<String>,
    /// Columns by their place, and what stands there, as [`spec::Document::with_override`] takes it.
    pub(super) values: Vec<(usize, String)>,
    /// What is wrong with the row's cells.
    pub(super) faults: Vec<RosterFault>,
}

impl Roster {
    /// The roster in these bytes; what is wrong is kept with it. Takes time in proportion to the bytes and refuses what is
    /// beyond [`limits`].
    #[must_use]
    pub fn parse(bytes: &[u8]) -> Self {
        let mut roster =
            Self { columns: Vec::new(), rows: Vec::new(), faults: Vec::new(), sha256: sha256(bytes) };
        if let Err(fault) = roster.read(bytes) {
            roster.faults.push(fault);
        }
        roster
    }

    /// The rows that describe an instrument, those with faults included.
    #[must_use]
    pub fn rows(&self) -> &[RosterRow] {
        &self.rows
    }

    /// What is wrong with the roster as a whole and with its heading: nothing is made while there is any.
    #[must_use]
    pub fn faults(&self) -> &[RosterFault] {
        &self.faults
    }

    /// The SHA-256 of the roster's bytes.
    #[must_use]
    pub fn sha256(&self) -> &str {
        &self.sha256
    }

    /// The dotted key of a column.
    pub(super) fn key(&self, column: usize) -> Option<&str> {
        match &self.columns.get(column)?.meaning {
            Meaning::Key(key) => Some(key),
            _ => None,
        }
    }

    /// The column of a key, for people.
    pub(super) fn column_of(&self, key: &str) -> Option<String> {
        let of_key = |column: &&Column| matches!(&column.meaning, Meaning::Key(own) if own == key);
        self.columns.iter().find(of_key).map(Column::shown)
    }

    /// The column that says which base a row has, for people.
    pub(super) fn base_column(&self) -> Option<String> {
        self.columns.iter().find(|column| column.meaning == Meaning::Base).map(Column::shown)
    }

    fn read(&mut self, bytes: &[u8]) -> Result<(), RosterFault> {
        let text = text::decoded(bytes)?;
        let mut lines = text::Lines::of(&text);
        let decimal_commas = lines.separator() != b',';
        let Some((number, heading)) = lines.next_row()? else {
            return Err(RosterFault::of_roster(
                "expected a heading and a row a student, found nothing",
                "the first row names the columns, as student,quantity,neck.thickness",
            ));
        };
        self.columns = heading::columns(&heading, number, &mut self.faults);
        let mut cells_read = 0;
        while let Some((number, cells)) = lines.next_row()? {
            if self.rows.len() == limits::ROWS {
                return Err(RosterFault::of_roster(
                    format!("expected at most {} rows, found more", limits::ROWS),
                    "make a roster of each part of them, each into a folder of its own",
                ));
            }
            cells_read += cells.len();
            if cells_read > limits::CELLS {
                return Err(RosterFault::of_roster(
                    format!("expected at most {} cells, found more", limits::CELLS),
                    "leave out the columns that say what the base says, or make a roster of each part of the rows",
                ));
            }
            let row = self.row(number, &cells, decimal_commas);
            self.rows.push(row);
        }
        if self.rows.is_empty() {
            return Err(RosterFault::of_roster(
                "expected a row a student under the heading, found none",
                "one instrument a row; an empty cell leaves what the base says",
            ));
        }
        Ok(())
    }

    fn row(&mut self, number: usize, cells: &[String], decimal_commas: bool) -> RosterRow {
        let mut row = RosterRow {
            number,
            student: String::new(),
            quantity: 1,
            note: String::new(),
            base: None,
            values: Vec::new(),
            faults: Vec::new(),
        };
        if let Some(fault) = self.badly_split(cells, decimal_commas) {
            row.faults.push(fault.in_row(number));
        }
        let fits = row.faults.is_empty();
        for (place, (column, text)) in self.columns.iter_mut().zip(cells).enumerate() {
            let cell = Cell { text: text.trim(), decimal_commas };
            if cell.text.is_empty() {
                continue;
            }
            let misread = match &column.meaning {
                Meaning::Student => cell.name(limits::STUDENT_CHARACTERS).map(|name| row.student = name),
                // What stands after the place where a row is split wrongly is in the wrong column.
                _ if !fits => continue,
                Meaning::Note => cell.words(limits::NOTE_CHARACTERS).map(|note| row.note = note),
                Meaning::Base => cell.words(limits::NOTE_CHARACTERS).map(|base| row.base = Some(base)),
                Meaning::Quantity => cell.quantity().map(|quantity| row.quantity = quantity),
                Meaning::Key(key) => cell.value(key).map(|value| row.values.push((place, value))),
                Meaning::Nothing => {
                    column.has_cells = true;
                    continue;
                }
            };
            if let Err(Reading { message, hint }) = misread {
                let fault = RosterFault::of_roster(message, hint);
                row.faults.push(fault.in_row(number).in_column(column.shown()));
            }
        }
        let unnamed = self.columns.iter().find(|column| column.has_cells && !column.is_told);
        if let Some(letter) = unnamed.map(|column| column.letters()) {
            let fault = RosterFault::of_roster(
                "expected a heading over every column that has cells, found none",
                "name the key that the column gives, as neck.thickness, or note",
            );
            self.faults.push(fault.in_row(number).in_column(letter));
            for column in &mut self.columns {
                column.is_told |= column.has_cells;
            }
        }
        row
    }

    /// What is to be said of a row that has not as many cells as the heading.
    fn badly_split(&self, cells: &[String], decimal_commas: bool) -> Option<RosterFault> {
        let (expected, found) = (heading::named(&self.columns), cells.len());
        let beyond = cells.iter().skip(self.columns.len()).any(|cell| !cell.trim().is_empty());
        if found >= expected && !beyond {
            return None;
        }
        let message = format!("expected {expected} cells as in the heading, found {found}");
        let digits = |cell: &String| {
            let cell = cell.trim();
            !cell.is_empty() && cell.bytes().all(|byte| byte.is_ascii_digit())
        };
        let split = cells.windows(2).find(|pair| digits(&pair[0]) && digits(&pair[1]));
        let hint = match split {
            Some(pair) if beyond && !decimal_commas => format!(
                "a decimal comma splits a cell in two: put quotes round it, \"{},{}\", or write {}.{}",
                pair[0].trim(),
                pair[1].trim(),
                pair[0].trim(),
                pair[1].trim()
            ),
            _ if beyond => "put quotes round a cell that holds the character between cells".to_owned(),
            _ => "an empty cell keeps its place: write the character between cells for each; a cell with a line break stands in quotes".to_owned(),
        };
        Some(RosterFault::of_roster(message, hint))
    }
}

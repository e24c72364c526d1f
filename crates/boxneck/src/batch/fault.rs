//! What can be wrong with a roster, and what can keep a batch from its end?

use std::fmt;
use std::path::PathBuf;

use serde::{Deserialize, Serialize};
use spec::Severity;

use crate::write_build::WriteFault;

/// One thing that is wrong with a roster, or worth knowing about it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct RosterFault {
    /// The row as a spreadsheet numbers it, from 1; `None` for the roster as a whole.
    pub row: Option<usize>,
    /// The column as a spreadsheet letters it, with its heading: "C (neck.thickness)".
    pub column: Option<String>,
    /// Whether it is an error: the row is not made then.
    pub is_error: bool,
    /// Expected before found, lower case, no final stop.
    pub message: String,
    /// Ways out, the best first.
    pub hints: Vec<String>,
}

impl RosterFault {
    /// An error of the roster as a whole.
    pub(super) fn of_roster(message: impl Into<String>, hint: impl Into<String>) -> Self {
        Self { row: None, column: None, is_error: true, message: message.into(), hints: vec![hint.into()] }
    }

    /// The same in a row.
    pub(super) fn in_row(mut self, row: usize) -> Self {
        self.row = Some(row);
        self
    }

    /// The same in a column.
    pub(super) fn in_column(mut self, column: String) -> Self {
        self.column = Some(column);
        self
    }

    /// What a document's diagnostic says, without its place yet.
    pub(super) fn of_diagnostic(diagnostic: &spec::Diagnostic) -> Self {
        Self {
            row: None,
            column: None,
            is_error: diagnostic.severity == Severity::Error,
            message: diagnostic.message.clone(),
            hints: diagnostic.hints.iter().map(|hint| hint.text.clone()).collect(),
        }
    }
}

impl fmt::Display for RosterFault {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        match (self.row, &self.column) {
            (None, None) => {}
            (Some(row), None) => write!(formatter, "row {row}: ")?,
            (None, Some(column)) => write!(formatter, "column {column}: ")?,
            (Some(row), Some(column)) => write!(formatter, "row {row}, column {column}: ")?,
        }
        formatter.write_str(&self.message)?;
        self.hints.iter().try_for_each(|hint| write!(formatter, "\n  = help: {hint}"))
    }
}

/// A batch that did not come to its end. What was made is whole, and the same call makes the rest.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum BatchFault {
    /// The roster as a whole cannot be understood: its heading, or its file.
    #[error("nothing is made, because the roster's heading or the roster as a whole is at fault")]
    Roster,
    /// The records of the shards do not make up one class.
    #[error("the shards cannot be merged: {why}")]
    Shards {
        /// What is missing or does not match.
        why: String,
    },
    /// Another call is writing into the folder.
    #[error("another batch is writing into {}: wait for it, or give -o another folder", .folder.display())]
    Busy {
        /// The folder.
        folder: PathBuf,
    },
    /// The class's own folder is somebody else's.
    #[error(transparent)]
    Foreign(WriteFault),
    /// The machine refused.
    #[error("{fault}; {made} of {rows} rows are made and whole, and the same command makes the rest")]
    Machine {
        /// What befell which path.
        fault: WriteFault,
        /// How many rows were made, or had been made before.
        made: usize,
        /// How many rows there are to make.
        rows: usize,
    },
}

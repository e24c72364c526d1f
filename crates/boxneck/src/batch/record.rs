//! What is there to know about a class, without opening its folders?
//!
//! `class/class.json` holds a [`ClassRecord`]: every row with its state and the hashes of what was made, and the kit of every
//! document once. It says nothing of threads, folders' places or time, so that the same roster, bases and options give the
//! same bytes; the records of shards, merged, are the record of a single run.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::class::Row;
use super::fault::RosterFault;
use super::kit::Kit;
use crate::make::BuiltFile;
use crate::manifest::{MANIFEST, Manifest};

/// The version of the record's shape; it rises when a key changes its meaning or goes.
pub(super) const VERSION: u32 = 1;

/// The name of the record's file.
pub(super) const CLASS_RECORD: &str = "class.json";

/// A class, or a shard of it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct ClassRecord {
    /// The version of its shape.
    pub version: u32,
    /// The program's.
    pub program_version: String,
    /// Of the roster's bytes.
    pub roster_sha256: String,
    /// Of what was asked for: kinds of files, units, papers.
    pub options_sha256: String,
    /// How many rows the roster has, those of other shards included.
    pub rows_in_roster: usize,
    /// The rows, in the order of the roster.
    pub rows: Vec<RowRecord>,
    /// What each document's instrument wants, by the document's SHA-256.
    pub kits: BTreeMap<String, Kit>,
}

/// What became of a row.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct RowRecord {
    /// As the spreadsheet numbers it.
    pub row: usize,
    /// Whose the instrument is; empty where nothing is said.
    pub student: String,
    /// How many of it.
    pub quantity: u32,
    /// What the teacher wants to remember.
    pub note: String,
    /// What the base document is called.
    pub base: String,
    /// The folder, beside the class's.
    pub folder: String,
    /// Whether it was made.
    pub state: RowState,
    /// The SHA-256 of its document, which is `document.toml` in its folder; `None` where it is refused.
    pub document_sha256: Option<String>,
    /// The SHA-256 of its folder's manifest, which holds those of all its files; `None` where nothing is made.
    pub manifest_sha256: Option<String>,
    /// Why it is refused.
    pub faults: Vec<RosterFault>,
}

/// Whether a row was made.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum RowState {
    /// Its folder is there and whole.
    Made,
    /// It can be read, and is not made because a finding fails.
    HeldBack,
    /// It describes no instrument.
    Refused,
}

impl RowState {
    /// The word for it: "made", "held-back" or "refused".
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Made => "made",
            Self::HeldBack => "held-back",
            Self::Refused => "refused",
        }
    }
}

impl RowRecord {
    /// The record of a row that is refused.
    pub(super) fn refused(row: &Row, faults: &[RosterFault]) -> Self {
        Self {
            row: row.number,
            student: row.student.clone(),
            quantity: row.quantity,
            note: row.note.clone(),
            base: row.base.clone(),
            folder: row.folder.clone(),
            state: RowState::Refused,
            document_sha256: None,
            manifest_sha256: None,
            faults: faults.to_vec(),
        }
    }
}

impl ClassRecord {
    /// The kit of a row; `None` where it is refused.
    #[must_use]
    pub fn kit(&self, row: &RowRecord) -> Option<&Kit> {
        self.kits.get(row.document_sha256.as_ref()?)
    }

    /// The files of the class's own folder: the record, its papers, the manifest last.
    pub(super) fn files(&self, papers: Vec<BuiltFile>) -> Vec<BuiltFile> {
        let mut record = serde_json::to_vec_pretty(self).expect("a record is plain data");
        record.push(b'\n');
        let mut files = vec![BuiltFile { path: CLASS_RECORD.into(), bytes: record }];
        files.extend(papers);
        let despite_failures =
            self.rows.iter().any(|row| row.state == RowState::Made && self.kit(row).is_some_and(Kit::fails));
        let manifest = Manifest::of(&files, self.roster_sha256.clone(), self.options_sha256.clone())
            .made_despite_failures(despite_failures);
        files.push(BuiltFile { path: MANIFEST.into(), bytes: manifest.to_bytes() });
        files
    }
}

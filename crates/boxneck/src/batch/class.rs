//! Which row of a roster makes which document, into which folder?

use std::collections::BTreeMap;

use rayon::prelude::*;
use spec::Document;

use super::bases::Bases;
use super::fault::RosterFault;
use super::folders::unique_folders;
use super::laid::{Laid, laid_over};
use super::roster::{Roster, RosterRow};
use super::shard::Shard;

/// Faults told of one row; more do not make it plainer.
const FAULTS_TOLD: usize = 20;

/// A roster laid over its bases. Holds no document but the bases: a row's is laid out of these when it is made.
#[derive(Clone, Debug)]
pub struct Class<'r> {
    roster: &'r Roster,
    bases: &'r Bases,
    rows: Vec<Row>,
}

/// What becomes of one row.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Row {
    /// As the spreadsheet numbers it.
    pub number: usize,
    /// Whose the instrument is.
    pub student: String,
    /// How many of it.
    pub quantity: u32,
    /// What the teacher wants to remember.
    pub note: String,
    /// What the base document is called; empty where there is none.
    pub base: String,
    /// The folder of its files, in the folder of the class; no other row has it.
    pub folder: String,
    /// What is to be made.
    pub planned: Planned,
    /// What is worth knowing about its cells.
    pub warnings: Vec<RosterFault>,
    /// The same for documents that differ in their instruments' names alone; `None` where it is refused.
    likeness: Option<String>,
    /// Where it stands in the roster.
    index: usize,
}

/// What a row describes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Planned {
    /// A document of this SHA-256.
    Document(String),
    /// No instrument, for these reasons.
    Refused(Vec<RosterFault>),
}

impl<'r> Class<'r> {
    /// Reads every row on all cores, those with the same cells once.
    #[must_use]
    pub fn plan(roster: &'r Roster, bases: &'r Bases) -> Self {
        let names: Vec<String> = roster.rows().iter().map(|row| name_of(roster, bases, row)).collect();
        let folders = unique_folders(names.iter().map(String::as_str));
        let mut places: BTreeMap<_, usize> = BTreeMap::new();
        let mut different: Vec<&RosterRow> = Vec::new();
        let places: Vec<usize> = roster
            .rows()
            .iter()
            .map(|row| {
                *places.entry((&row.base, &row.values)).or_insert_with(|| {
                    different.push(row);
                    different.len() - 1
                })
            })
            .collect();
        let laid: Vec<Laid> = different.par_iter().map(|row| Laid::of(roster, bases, row)).collect();
        let rows = roster.rows().iter().zip(folders).zip(places).enumerate();
        let rows = rows
            .map(|(index, ((row, folder), place))| planned(bases, row, &laid[place], folder, index))
            .collect();
        Self { roster, bases, rows }
    }

    /// Its rows, in the order of the roster.
    #[must_use]
    pub fn rows(&self) -> &[Row] {
        &self.rows
    }

    /// The roster.
    #[must_use]
    pub const fn roster(&self) -> &'r Roster {
        self.roster
    }

    /// Everything that is wrong with the roster and worth knowing about it, in its order.
    pub fn faults(&self) -> impl Iterator<Item = &RosterFault> {
        self.roster.faults().iter().chain(self.rows.iter().flat_map(|row| {
            let refused: &[RosterFault] = match &row.planned {
                Planned::Document(_) => &[],
                Planned::Refused(faults) => faults,
            };
            refused.iter().chain(&row.warnings)
        }))
    }

    /// The document of a row, as its own text; `None` where it is refused.
    #[must_use]
    pub fn document(&self, row: &Row) -> Option<Document> {
        let source = self.roster.rows().get(row.index)?;
        let base = self.bases.of(source.base.as_deref()).ok()?;
        let text = laid_over(self.roster, base, source).to_text()?;
        Some(base.with_files(Document::parse(text.as_bytes())))
    }

    /// The rows of a shard, those together whose documents differ by a name at most, each group in the order of the roster.
    pub(super) fn groups(&self, shard: Option<Shard>) -> Vec<Vec<&Row>> {
        let mut places: BTreeMap<&str, usize> = BTreeMap::new();
        let mut groups: Vec<Vec<&Row>> = Vec::new();
        for row in &self.rows {
            let place = match &row.likeness {
                Some(likeness) => *places.entry(likeness).or_insert(groups.len()),
                None => groups.len(),
            };
            if place == groups.len() {
                groups.push(Vec::new());
            }
            groups[place].push(row);
        }
        let is_ours = |place| shard.is_none_or(|shard| shard.has(place));
        groups.into_iter().enumerate().filter(|(place, _)| is_ours(*place)).map(|(_, group)| group).collect()
    }
}

/// The name that a row's folder is called after: the student's, or else the instrument's.
fn name_of(roster: &Roster, bases: &Bases, row: &RosterRow) -> String {
    if !row.student.is_empty() {
        return row.student.clone();
    }
    let own = row.values.iter().find(|(column, _)| roster.key(*column) == Some("name"));
    let of_base = || bases.of(row.base.as_deref()).ok()?.document().written_at("name");
    own.map(|(_, name)| name.clone()).or_else(of_base).unwrap_or_default()
}

/// What a row's cells, laid over its base, come to.
fn planned(bases: &Bases, row: &RosterRow, laid: &Laid, folder: String, index: usize) -> Row {
    let in_row = |fault: &RosterFault| fault.clone().in_row(row.number);
    let mut faults = row.faults.clone();
    faults.extend(laid.faults.iter().map(in_row));
    faults.truncate(FAULTS_TOLD);
    let hashes = laid.hashes.clone().filter(|_| faults.is_empty());
    let (sha256, likeness) = hashes.unzip();
    Row {
        number: row.number,
        student: row.student.clone(),
        quantity: row.quantity,
        note: row.note.clone(),
        base: bases.of(row.base.as_deref()).map(|base| base.name().to_owned()).unwrap_or_default(),
        folder,
        planned: sha256.map_or(Planned::Refused(faults), Planned::Document),
        warnings: laid.warnings.iter().map(in_row).collect(),
        likeness,
        index,
    }
}

//! How is a class made, side by side and so that nothing is lost?
//!
//! As many documents are in work as there are cores, and of a
//! document that is done only its kit stays in memory. Each folder appears whole or not at all; what an interrupted run left in
//! staging goes first, and what is there already, byte for byte, is not made again.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};
use std::sync::mpsc;

use spec::StockList;

use super::class::{Class, Row};
use super::fault::BatchFault;
use super::folders::CLASS_FOLDER;
use super::group::make_alike;
use super::kit::Kit;
use super::lock::{Sharing, lock};
use super::papers::papers;
use super::record::{ClassRecord, RowRecord, RowState, VERSION};
use super::removed::{RemovedBuild, removed_builds};
use super::shard::Shard;
use crate::make::{BuiltFile, MakeOptions};
use crate::manifest::{MANIFEST, PROGRAM_VERSION, options_sha256};
use crate::write_build::{WriteFault, sweep_stages, write_build};

/// How a class is made.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct BatchOptions {
    /// What is made of each row.
    pub make: MakeOptions,
    /// Whether instruments are made although a finding fails; their files are marked.
    pub anyway: bool,
    /// The share of the class that is made; all of it where nothing is said.
    pub shard: Option<Shard>,
    /// Whether builds of rows that the roster has no more are removed.
    pub prune: bool,
    /// The wood that there is, and prices; nothing is said of either where there is no list.
    pub stock: Option<StockList>,
}

/// A class, made.
#[derive(Clone, Debug, PartialEq)]
pub struct Batch {
    /// What there is to know about it; the same as in `class/class.json`.
    pub record: ClassRecord,
    /// Builds of rows that the roster has no more.
    pub removed: Vec<RemovedBuild>,
}

/// What this run did about a row.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fate {
    /// Made it.
    Made,
    /// Found it made already, by the same program of the same document.
    UpToDate,
    /// Made nothing, because a finding fails.
    HeldBack,
    /// Made nothing, because the row describes no instrument or its folder is somebody else's.
    Refused,
}

impl Fate {
    /// The word for it: "made", "up to date", "held back" or "refused".
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Made => "made",
            Self::UpToDate => "up to date",
            Self::HeldBack => "held back",
            Self::Refused => "refused",
        }
    }
}

/// A row that is done.
#[derive(Clone, Debug)]
pub struct RowDone {
    /// What is kept of it.
    pub record: RowRecord,
    /// What its instrument wants, where it is one.
    pub kit: Option<Kit>,
    /// What was done.
    pub fate: Fate,
}

/// Makes a class into `output`, which is made where it is missing; `tell` hears of every row, in the order of the roster.
///
/// Leaves `class/class.json` beside the rows' folders, or, of a shard, `shard-I-of-N/class.json`. The same roster, bases and
/// options give the same bytes, whatever was made before, by how many threads.
///
/// # Errors
///
/// [`BatchFault`]: the roster's heading is at fault, the folder is in use, or the machine refuses. Rows that are refused are
/// told in their records and hinder no others.
pub fn run(
    class: &Class<'_>,
    output: &Path,
    options: &BatchOptions,
    tell: &mut dyn FnMut(&RowDone),
) -> Result<Batch, BatchFault> {
    if class.roster().faults().iter().any(|fault| fault.is_error) {
        return Err(BatchFault::Roster);
    }
    let groups = class.groups(options.shard);
    let rows = groups.iter().map(Vec::len).sum();
    let failed = |fault, made| BatchFault::Machine { fault, made, rows };
    fs::create_dir_all(output)
        .map_err(|fault| failed(WriteFault::of(fault, "make the folder", output), 0))?;
    let sharing = options.shard.map_or(Sharing::Alone, |_| Sharing::WithShards);
    let _lock = lock(output, sharing)?;
    let own_folder = options.shard.map_or_else(|| CLASS_FOLDER.to_owned(), Shard::folder);
    let ours: BTreeSet<&str> =
        groups.iter().flatten().map(|row| &*row.folder).chain([own_folder.as_str()]).collect();
    sweep_stages(output, |folder| ours.contains(folder)).map_err(|fault| failed(fault, 0))?;

    let mut record = ClassRecord {
        version: VERSION,
        program_version: PROGRAM_VERSION.to_owned(),
        roster_sha256: class.roster().sha256().to_owned(),
        options_sha256: options_sha256(&options.make),
        rows_in_roster: class.rows().len(),
        rows: Vec::with_capacity(rows),
        kits: BTreeMap::new(),
    };
    let made = make_groups(class, &groups, output, options, &mut record, tell);
    let count = record.rows.iter().filter(|row| row.state == RowState::Made).count();
    made.and_then(|()| are_there(&record, output)).map_err(|fault| failed(fault, count))?;
    // A shard has no papers: they are made of the whole.
    let papers = match options.shard {
        None => papers(&record, output, options).map_err(|fault| failed(fault, count))?,
        Some(_) => Vec::new(),
    };
    write_record(&record, papers, &output.join(own_folder), |fault| failed(fault, count))?;
    let kept: BTreeSet<&str> = class.rows().iter().map(|row| &*row.folder).collect();
    let removed = removed_builds(output, &kept, options.prune).map_err(|fault| failed(fault, count))?;
    Ok(Batch { record, removed })
}

/// Writes the class's own folder.
pub(super) fn write_record(
    record: &ClassRecord,
    papers: Vec<BuiltFile>,
    folder: &Path,
    failed: impl FnOnce(WriteFault) -> BatchFault,
) -> Result<(), BatchFault> {
    write_build(&record.files(papers), folder).map_err(|fault| match fault {
        WriteFault::Machine { .. } => failed(fault),
        foreign => BatchFault::Foreign(foreign),
    })
}

/// Makes the groups on all cores and takes them down in the order of the roster, up to the first fault of the machine.
fn make_groups(
    class: &Class<'_>,
    groups: &[Vec<&Row>],
    output: &Path,
    options: &BatchOptions,
    record: &mut ClassRecord,
    tell: &mut dyn FnMut(&RowDone),
) -> Result<(), WriteFault> {
    let mut waiting: BTreeSet<usize> = groups.iter().flatten().map(|row| row.number).collect();
    let mut early: BTreeMap<usize, RowDone> = BTreeMap::new();
    let (next, stop) = (AtomicUsize::new(0), AtomicBool::new(false));
    let (send, receive) = mpsc::channel();
    let mut first_fault = None;
    std::thread::scope(|scope| {
        // Threads of our own, and not tasks of the pool: a task that waits for the pool takes up another instrument meanwhile.
        for _ in 0..rayon::current_num_threads().min(groups.len()) {
            let (send, next, stop) = (send.clone(), &next, &stop);
            scope.spawn(move || {
                while !stop.load(Ordering::Relaxed) {
                    let Some(group) = groups.get(next.fetch_add(1, Ordering::Relaxed)) else { break };
                    let made = make_alike(class, group, output, options);
                    stop.fetch_or(made.is_err(), Ordering::Relaxed);
                    if send.send(made).is_err() {
                        break;
                    }
                }
            });
        }
        drop(send);
        for made in receive {
            match made {
                Ok(rows) => early.extend(rows.into_iter().map(|row| (row.record.row, row))),
                Err(fault) => first_fault = first_fault.take().or(Some(fault)),
            }
            while let Some(row) = waiting.first().and_then(|number| early.remove(number)) {
                waiting.pop_first();
                tell(&row);
                take_down(row, record);
            }
        }
    });
    match first_fault {
        None => Ok(()),
        Some(fault) => {
            for (_, row) in early {
                tell(&row);
                take_down(row, record);
            }
            Err(fault)
        }
    }
}

fn take_down(row: RowDone, record: &mut ClassRecord) {
    if let (Some(kit), Some(sha256)) = (row.kit, &row.record.document_sha256) {
        record.kits.entry(sha256.clone()).or_insert(kit);
    }
    record.rows.push(row.record);
}

/// Whether every folder that was made is there still.
fn are_there(record: &ClassRecord, output: &Path) -> Result<(), WriteFault> {
    let made = record.rows.iter().filter(|row| row.state == RowState::Made);
    for place in made.map(|row| output.join(&row.folder).join(MANIFEST)) {
        fs::metadata(&place).map_err(|fault| WriteFault::of(fault, "find again", &place))?;
    }
    Ok(())
}

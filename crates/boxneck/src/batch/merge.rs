//! How do the shards of a class become one?

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

use rayon::prelude::*;

use super::builds::whole_build;
use super::fault::BatchFault;
use super::folders::CLASS_FOLDER;
use super::lock::{Sharing, lock};
use super::papers::papers;
use super::record::{CLASS_RECORD, ClassRecord, RowRecord, RowState, VERSION};
use super::removed::{pruned, removed_builds};
use super::run::{Batch, BatchOptions, write_record};
use super::shard::Shard;
use crate::manifest::{MANIFEST, Manifest, options_sha256};
use crate::write_build::{WriteFault, sweep_stages, write_build};

/// A shard's record, and where it was found.
struct Found {
    shard: Shard,
    place: PathBuf,
    record: ClassRecord,
}

/// Puts together in `output` what the shards of one class made in `folders`, which may be one folder for all, and `output`
/// itself: the same bytes as if one machine had made everything.
///
/// Every file is compared with what its shard says that it made. Folders other than `output` stay as they are.
///
/// # Errors
///
/// [`BatchFault`]: a shard is missing or belongs to another roster, other options or another version of the program; a file is
/// not what its shard made; the machine refuses.
pub fn merge(folders: &[PathBuf], output: &Path, options: &BatchOptions) -> Result<Batch, BatchFault> {
    let machine = |fault| BatchFault::Machine { fault, made: 0, rows: 0 };
    let mut shards = Vec::new();
    for folder in folders {
        shards.extend(shards_in(folder).map_err(machine)?);
    }
    shards.sort_by_key(|found| found.shard);
    are_one_class(&shards)
        .and_then(|()| are_made_so(&shards, options))
        .map_err(|why| BatchFault::Shards { why })?;
    fs::create_dir_all(output).map_err(|fault| machine(WriteFault::of(fault, "make the folder", output)))?;
    let _lock = lock(output, Sharing::Alone)?;

    let rows: Vec<(&Path, &RowRecord)> =
        shards.iter().flat_map(|found| found.record.rows.iter().map(|row| (&*found.place, row))).collect();
    let ours: BTreeSet<&str> = rows.iter().map(|(_, row)| &*row.folder).chain([CLASS_FOLDER]).collect();
    sweep_stages(output, |folder| ours.contains(folder)).map_err(machine)?;
    let brought = rows.par_iter().try_for_each(|(place, row)| bring(place, row, output));
    brought.map_err(|fault| match fault {
        WriteFault::Machine { .. } => machine(fault),
        foreign => BatchFault::Foreign(foreign),
    })?;

    let mut merged_rows: Vec<RowRecord> = rows.iter().map(|(_, row)| (*row).clone()).collect();
    merged_rows.sort_by_key(|row| row.row);
    let kits: BTreeMap<_, _> = shards.iter().flat_map(|found| found.record.kits.clone()).collect();
    let Some(first) = shards.first() else { return Err(BatchFault::Shards { why: NO_SHARD.into() }) };
    let record = ClassRecord { rows: merged_rows, kits, ..first.record.clone() };
    let papers = papers(&record, output, options).map_err(machine)?;
    write_record(&record, papers, &output.join(CLASS_FOLDER), machine)?;
    let here = fs::canonicalize(output).ok();
    for found in shards.iter().filter(|found| fs::canonicalize(&found.place).ok() == here) {
        let folder = found.place.join(found.shard.folder());
        let manifest = fs::read(folder.join(MANIFEST)).ok().and_then(|bytes| Manifest::parse(&bytes));
        if let Some(manifest) = manifest {
            pruned(&folder, found.shard.folder(), &manifest).map_err(machine)?;
        }
    }
    let kept: BTreeSet<&str> = record.rows.iter().map(|row| &*row.folder).collect();
    let removed = removed_builds(output, &kept, options.prune).map_err(machine)?;
    Ok(Batch { record, removed })
}

const NO_SHARD: &str = "there is none in these folders; `boxneck batch --shard 1/4` makes one";

/// The records of shards in a folder.
fn shards_in(folder: &Path) -> Result<Vec<Found>, WriteFault> {
    let mut shards = Vec::new();
    for entry in fs::read_dir(folder).map_err(|fault| WriteFault::of(fault, "read", folder))? {
        let entry = entry.map_err(|fault| WriteFault::of(fault, "read", folder))?;
        let Some(shard) = entry.file_name().to_str().and_then(Shard::of_folder) else { continue };
        let path = entry.path().join(CLASS_RECORD);
        let bytes = fs::read(&path).map_err(|fault| WriteFault::of(fault, "read", &path))?;
        let record =
            serde_json::from_slice(&bytes).map_err(|fault| WriteFault::of(fault.into(), "read", &path))?;
        shards.push(Found { shard, place: folder.to_owned(), record });
    }
    Ok(shards)
}

/// Whether these are all shards of one class, each once; what is amiss where they are not.
fn are_one_class(shards: &[Found]) -> Result<(), String> {
    let Some(first) = shards.first() else { return Err(NO_SHARD.to_owned()) };
    let of = first.shard.of();
    for (found, number) in shards.iter().zip(1..) {
        let Found { shard, place, record } = found;
        let differs = |what: &str| {
            format!("shard {shard} in {} was made {what} than shard {}", place.display(), first.shard)
        };
        if shard.of() != of {
            return Err(differs("as one of another number"));
        }
        if shard.number() < number {
            return Err(format!("shard {shard} is there twice, the second time in {}", place.display()));
        }
        if shard.number() > number {
            return Err(format!("shard {number}/{of} is missing"));
        }
        if record.version != VERSION || record.program_version != first.record.program_version {
            return Err(differs("by another version of the program"));
        }
        if record.roster_sha256 != first.record.roster_sha256 {
            return Err(differs("from another roster"));
        }
        if record.options_sha256 != first.record.options_sha256 {
            return Err(differs("with other options"));
        }
    }
    let found = shards.len();
    if found < of as usize {
        return Err(format!("shard {}/{of} is missing", found + 1));
    }
    let rows: BTreeSet<usize> =
        shards.iter().flat_map(|found| found.record.rows.iter().map(|row| row.row)).collect();
    let expected = first.record.rows_in_roster;
    if rows.len() != expected {
        return Err(format!(
            "the roster has {expected} rows, and the shards have {}: the bases differ",
            rows.len()
        ));
    }
    Ok(())
}

/// Whether the shards were made with these options, which their papers are made with.
fn are_made_so(shards: &[Found], options: &BatchOptions) -> Result<(), String> {
    let asked = options_sha256(&options.make);
    match shards.iter().find(|found| found.record.options_sha256 != asked) {
        None => Ok(()),
        Some(found) => Err(format!(
            "shard {} was made with other options than these: give --merge the options that the shards had",
            found.shard
        )),
    }
}

/// Brings a row's build to its place, whole; one that is there already is compared and stays.
fn bring(from: &Path, row: &RowRecord, output: &Path) -> Result<(), WriteFault> {
    let Some(manifest_sha256) = row.manifest_sha256.as_ref().filter(|_| row.state == RowState::Made) else {
        return Ok(());
    };
    let (source, target) = (from.join(&row.folder), output.join(&row.folder));
    let files = whole_build(&source, manifest_sha256)?;
    let is_there = fs::canonicalize(&source).ok() == fs::canonicalize(&target).ok();
    if is_there { Ok(()) } else { write_build(&files, &target) }
}

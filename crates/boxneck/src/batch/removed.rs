//! Which folders did an earlier roster leave, and what of them may go?
//!
//! A folder is one of ours where its manifest says so and lists a kit. What goes is what the manifest lists and nobody
//! changed since: no other file is touched, no link is followed, and a folder goes only when it is empty then.

use std::collections::BTreeSet;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use super::builds::{KIT, is_inside};
use crate::manifest::{MANIFEST, Manifest};
use crate::write_build::WriteFault;

/// The build of a row that the roster has no more.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RemovedBuild {
    /// Its folder's name.
    pub folder: String,
    /// How many of its files were removed; `None` where that was not asked for.
    pub pruned: Option<usize>,
    /// What is left in it after that, relative to it: files of others, and files that were changed.
    pub left: Vec<PathBuf>,
}

/// The builds in `output` that no row of `kept` makes, removed where that is asked for.
pub(super) fn removed_builds(
    output: &Path,
    kept: &BTreeSet<&str>,
    prune: bool,
) -> Result<Vec<RemovedBuild>, WriteFault> {
    let mut removed = Vec::new();
    for entry in fs::read_dir(output).map_err(|fault| WriteFault::of(fault, "read", output))? {
        let entry = entry.map_err(|fault| WriteFault::of(fault, "read", output))?;
        let is_folder = entry.file_type().is_ok_and(|kind| kind.is_dir());
        let Ok(folder) = entry.file_name().into_string() else { continue };
        if !is_folder || folder.starts_with('.') || kept.contains(folder.as_str()) {
            continue;
        }
        let manifest = fs::read(entry.path().join(MANIFEST)).ok().and_then(|bytes| Manifest::parse(&bytes));
        let Some(manifest) = manifest.filter(|manifest| manifest.files.iter().any(|file| file.path == KIT))
        else {
            continue;
        };
        removed.push(if prune {
            pruned(&entry.path(), folder, &manifest)?
        } else {
            RemovedBuild { folder, pruned: None, left: Vec::new() }
        });
    }
    removed.sort_by(|one, other| one.folder.cmp(&other.folder));
    Ok(removed)
}

/// Removes what the manifest of a folder lists and nobody changed, the manifest last.
pub(super) fn pruned(path: &Path, folder: String, manifest: &Manifest) -> Result<RemovedBuild, WriteFault> {
    let mut count = 0;
    let mut remove = |file: &Path| match fs::remove_file(file) {
        Ok(()) => {
            count += 1;
            Ok(())
        }
        Err(fault) => Err(WriteFault::of(fault, "remove", file)),
    };
    for file in manifest.files.iter().filter(|file| is_inside(&file.path)) {
        let place = path.join(&file.path);
        if is_plain_below(path, &file.path) && fs::read(&place).is_ok_and(|bytes| file.is(&bytes)) {
            remove(&place)?;
        }
    }
    remove(&path.join(MANIFEST))?;
    let mut left = Vec::new();
    remove_empty(path, Path::new(""), &mut left).map_err(|fault| WriteFault::of(fault, "remove", path))?;
    Ok(RemovedBuild { folder, pruned: Some(count), left })
}

/// Whether every step from a folder down to a file is a plain folder and the file a plain file, none of them a link.
fn is_plain_below(folder: &Path, inside: &str) -> bool {
    let mut place = folder.to_owned();
    let mut kind = None;
    for step in Path::new(inside).components() {
        if kind.is_some_and(|kind: fs::FileType| !kind.is_dir()) {
            return false;
        }
        place.push(step);
        match fs::symlink_metadata(&place) {
            Ok(found) => kind = Some(found.file_type()),
            Err(_) => return false,
        }
    }
    kind.is_some_and(|kind| kind.is_file())
}

/// Removes a folder with the empty folders in it, where nothing else is there; tells what is.
fn remove_empty(root: &Path, inside: &Path, left: &mut Vec<PathBuf>) -> io::Result<()> {
    let before = left.len();
    let mut entries: Vec<fs::DirEntry> = fs::read_dir(root.join(inside))?.collect::<io::Result<_>>()?;
    entries.sort_by_key(fs::DirEntry::file_name);
    for entry in entries {
        let relative = inside.join(entry.file_name());
        if entry.file_type()?.is_dir() {
            remove_empty(root, &relative, left)?;
        } else {
            left.push(relative);
        }
    }
    if left.len() == before { fs::remove_dir(root.join(inside)) } else { Ok(()) }
}

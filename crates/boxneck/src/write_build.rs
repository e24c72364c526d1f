//! How does a build appear on disk whole or not at all?
//!
//! It is written beside its place and renamed into it. A build that was there before makes way in the same moment; files
//! in its folder that are not ours are carried over, never removed.

use std::collections::BTreeSet;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use crate::make::BuiltFile;
use crate::manifest::{MANIFEST, Manifest};

/// A build that did not get to disk.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum WriteFault {
    /// The folder is there, and is not a build of this program.
    #[error("{} is there already and is not a build of boxneck: choose another folder with -o, or another name", .folder.display())]
    ForeignFolder {
        /// The folder.
        folder: PathBuf,
    },
    /// A file of somebody else's has the name of one of ours.
    #[error("{} is not a file of an earlier build: move it away first", .file.display())]
    ForeignFile {
        /// The file.
        file: PathBuf,
    },
    /// The machine refused.
    #[error("cannot {doing} {}: {fault}", .path.display())]
    Machine {
        /// What was tried.
        doing: &'static str,
        /// On what.
        path: PathBuf,
        /// Why not.
        fault: io::Error,
    },
}

impl WriteFault {
    /// What the machine refused.
    pub(crate) fn of(fault: io::Error, doing: &'static str, path: &Path) -> Self {
        Self::Machine { doing, path: path.to_owned(), fault }
    }
}

/// What the names of staging folders begin with; the name of the build's folder follows.
const STAGE: &str = ".boxneck-";

/// Where a build waits in the staging folder that makes way.
const OLD: &str = "old";

/// Writes a build as `folder`; on a fault, what was there before is there still.
///
/// # Errors
///
/// [`WriteFault`], with the path that it befell.
pub fn write_build(files: &[BuiltFile], folder: &Path) -> Result<(), WriteFault> {
    let parent = folder.parent().filter(|parent| !parent.as_os_str().is_empty()).unwrap_or(Path::new("."));
    fs::create_dir_all(parent).map_err(machine("make the folder", parent))?;
    let foreign = foreign_files(files, folder)?;
    let name = folder.file_name().unwrap_or_default().to_string_lossy();
    let stage = tempfile::Builder::new()
        .prefix(&format!("{STAGE}{name}-"))
        .tempdir_in(parent)
        .map_err(machine("write in", parent))?;
    let fresh = stage.path().join("build");
    for file in files {
        put(&fresh.join(&file.path), &file.bytes)?;
    }
    for path in foreign {
        let (from, to) = (folder.join(&path), fresh.join(&path));
        let bytes = fs::read(&from).map_err(machine("read", &from))?;
        put(&to, &bytes)?;
    }
    // The old build waits in the staging folder, which goes when it is dropped.
    let old = stage.path().join(OLD);
    let replaces = folder.exists();
    if replaces {
        fs::rename(folder, &old).map_err(machine("replace", folder))?;
    }
    fs::rename(&fresh, folder).map_err(|fault| {
        if replaces {
            // Nothing else can be done if this fails too; the first fault says why.
            let _ = fs::rename(&old, folder);
        }
        machine("write", folder)(fault)
    })
}

/// Removes what interrupted writers left beside the folders that are ours, and puts back a build that one of them had moved
/// aside. Nobody may be writing these folders meanwhile.
pub(crate) fn sweep_stages(parent: &Path, is_ours: impl Fn(&str) -> bool) -> Result<(), WriteFault> {
    for entry in fs::read_dir(parent).map_err(machine("read", parent))? {
        let entry = entry.map_err(machine("read", parent))?;
        let name = entry.file_name();
        let staged = name.to_str().and_then(|name| name.strip_prefix(STAGE)?.rsplit_once('-'));
        let Some((folder, _)) = staged.filter(|(folder, _)| is_ours(folder)) else { continue };
        let (stage, folder) = (entry.path(), parent.join(folder));
        let old = stage.join(OLD);
        if old.exists() && !folder.exists() {
            fs::rename(&old, &folder).map_err(machine("put back", &folder))?;
        }
        fs::remove_dir_all(&stage).map_err(machine("remove", &stage))?;
    }
    Ok(())
}

/// The files of the folder that no manifest lists, relative to it.
fn foreign_files(files: &[BuiltFile], folder: &Path) -> Result<Vec<PathBuf>, WriteFault> {
    if !folder.exists() {
        return Ok(Vec::new());
    }
    let manifest = fs::read(folder.join(MANIFEST)).ok().and_then(|bytes| Manifest::parse(&bytes));
    let Some(manifest) = manifest else {
        let is_empty = fs::read_dir(folder).is_ok_and(|mut entries| entries.next().is_none());
        return if is_empty {
            Ok(Vec::new())
        } else {
            Err(WriteFault::ForeignFolder { folder: folder.into() })
        };
    };
    let ours: BTreeSet<PathBuf> =
        manifest.files.iter().map(|file| PathBuf::from(&file.path)).chain([MANIFEST.into()]).collect();
    let fresh: BTreeSet<PathBuf> = files.iter().map(|file| PathBuf::from(&file.path)).collect();
    let mut foreign = Vec::new();
    let mut folders = vec![PathBuf::new()];
    while let Some(inside) = folders.pop() {
        let path = folder.join(&inside);
        for entry in fs::read_dir(&path).map_err(machine("read", &path))? {
            let entry = entry.map_err(machine("read", &path))?;
            let relative = inside.join(entry.file_name());
            if entry.file_type().map_err(machine("read", &path))?.is_dir() {
                folders.push(relative);
            } else if fresh.contains(&relative) && !ours.contains(&relative) {
                return Err(WriteFault::ForeignFile { file: folder.join(relative) });
            } else if !ours.contains(&relative) {
                foreign.push(relative);
            }
        }
    }
    Ok(foreign)
}

fn put(path: &Path, bytes: &[u8]) -> Result<(), WriteFault> {
    if let Some(parent) = path.parent() {
        fs::create_dir_all(parent).map_err(machine("make the folder", parent))?;
    }
    fs::write(path, bytes).map_err(machine("write", path))
}

fn machine(doing: &'static str, path: &Path) -> impl FnOnce(io::Error) -> WriteFault {
    let path = path.to_owned();
    move |fault| WriteFault::of(fault, doing, &path)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn file(path: &str, bytes: &[u8]) -> BuiltFile {
        BuiltFile { path: path.into(), bytes: bytes.into() }
    }

    fn build(files: Vec<BuiltFile>) -> Vec<BuiltFile> {
        let manifest = Manifest::of(&files, String::new(), String::new()).to_bytes();
        files.into_iter().chain([file(MANIFEST, &manifest)]).collect()
    }

    fn listing(folder: &Path) -> Vec<String> {
        let mut names: Vec<String> = fs::read_dir(folder)
            .expect("the folder is there")
            .map(|entry| entry.expect("readable").file_name().to_string_lossy().into_owned())
            .collect();
        names.sort();
        names
    }

    #[test]
    fn a_second_build_leaves_nothing_of_the_first_and_keeps_what_is_not_ours() {
        let place = tempfile::tempdir().expect("a temporary folder");
        let folder = place.path().join("out/one");
        write_build(&build(vec![file("a.txt", b"1"), file("old.txt", b"1")]), &folder).expect("first");
        fs::write(folder.join("notes.txt"), "mine").expect("a note");
        write_build(&build(vec![file("a.txt", b"2")]), &folder).expect("second");
        assert_eq!(
            listing(&folder),
            ["a.txt", "manifest.json", "notes.txt"],
            "the second build and the note"
        );
        assert_eq!(fs::read(folder.join("a.txt")).expect("readable"), b"2", "the second build's bytes");
        assert_eq!(listing(&place.path().join("out")), ["one"], "no staging folder is left");
    }

    #[test]
    fn a_folder_that_is_not_ours_is_left_alone() {
        let place = tempfile::tempdir().expect("a temporary folder");
        let folder = place.path().join("photos");
        fs::create_dir(&folder).expect("a folder");
        fs::write(folder.join("a.jpg"), "picture").expect("a file");
        let refused = write_build(&build(vec![file("a.txt", b"1")]), &folder);
        assert!(matches!(refused, Err(WriteFault::ForeignFolder { .. })), "refused: {refused:?}");
        assert_eq!(listing(&folder), ["a.jpg"], "nothing was written or removed");
        assert_eq!(listing(place.path()), ["photos"], "no staging folder is left");
    }

    #[test]
    fn what_an_interrupted_writer_left_goes_and_what_it_moved_aside_comes_back() {
        let place = tempfile::tempdir().expect("a temporary folder");
        let put = |path: &str| {
            let file = place.path().join(path);
            fs::create_dir_all(file.parent().expect("a folder")).expect("made");
            fs::write(file, path).expect("written");
        };
        put(".boxneck-one-Ab3dE6/old/notes.txt");
        put(".boxneck-one-Ab3dE6/build/a.txt");
        put(".boxneck-two-2-Ab3dE6/old/a.txt");
        put("two-2/b.txt");
        put(".boxneck-three-Ab3dE6/build/a.txt");
        sweep_stages(place.path(), |folder| ["one", "two-2"].contains(&folder)).expect("swept");
        let expected = [".boxneck-three-Ab3dE6", "one", "two-2"];
        assert_eq!(listing(place.path()), expected, "another's staging folder stays");
        assert_eq!(listing(&place.path().join("one")), ["notes.txt"], "what was moved aside");
        assert_eq!(listing(&place.path().join("two-2")), ["b.txt"], "what is in its place stays");
    }

    #[test]
    fn a_file_in_the_way_is_a_fault_of_the_machine() {
        let place = tempfile::tempdir().expect("a temporary folder");
        let blocked = place.path().join("file");
        fs::write(&blocked, "").expect("a file");
        let refused = write_build(&build(Vec::new()), &blocked.join("one"));
        assert!(matches!(refused, Err(WriteFault::Machine { .. })), "refused: {refused:?}");
    }
}

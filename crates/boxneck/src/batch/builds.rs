//! Is a row's folder what it would be if it were made now?

use std::fs;
use std::path::{Component, Path};

use super::kit::Kit;
use crate::instrument::Instrument;
use crate::make::{BuiltFile, MakeFault, MakeOptions, files_with};
use crate::manifest::{MANIFEST, Manifest, sha256};
use crate::write_build::WriteFault;

/// The row's document, in its folder.
pub(super) const DOCUMENT: &str = "document.toml";

/// The summary of its instrument.
pub(super) const KIT: &str = "kit.json";

/// Every file of a row's folder, the manifest last.
pub(super) fn row_files(
    instrument: &Instrument,
    kit: &Kit,
    options: &MakeOptions,
) -> Result<Vec<BuiltFile>, MakeFault> {
    let document = instrument.document();
    let mut more = vec![
        BuiltFile { path: DOCUMENT.into(), bytes: document.source().into() },
        BuiltFile { path: KIT.into(), bytes: kit.to_bytes() },
    ];
    // What the document names goes with it, under the names that it has there.
    more.extend(
        document.given_files().map(|(name, bytes)| BuiltFile { path: name.into(), bytes: bytes.into() }),
    );
    files_with(instrument, options, more)
}

/// The folder's kit and the hash of its manifest, where every file is there that would be made now, byte for byte.
pub(super) fn up_to_date(
    folder: &Path,
    document_sha256: &str,
    options: &MakeOptions,
) -> Option<(Kit, String)> {
    let bytes = fs::read(folder.join(MANIFEST)).ok()?;
    let manifest = Manifest::parse(&bytes)?;
    if !manifest.is_of(document_sha256, options) {
        return None;
    }
    let kit = manifest.files.iter().find(|file| file.path == KIT)?;
    let kit = serde_json::from_slice(&fs::read(folder.join(&kit.path)).ok()?).ok()?;
    let are_whole = manifest.files.iter().all(|file| {
        is_inside(&file.path) && fs::read(folder.join(&file.path)).is_ok_and(|bytes| file.is(&bytes))
    });
    are_whole.then(|| (kit, sha256(&bytes)))
}

/// Every file that a manifest of this hash lists, itself included, each as the manifest says.
pub(super) fn whole_build(folder: &Path, manifest_sha256: &str) -> Result<Vec<BuiltFile>, WriteFault> {
    let read = |path: &str| {
        let place = folder.join(path);
        fs::read(&place).map_err(|fault| WriteFault::of(fault, "read", &place))
    };
    let changed = |path: &str| {
        let fault = std::io::Error::other("it is not what its shard made: make the shard again");
        WriteFault::of(fault, "merge", &folder.join(path))
    };
    let bytes = read(MANIFEST)?;
    let manifest = Manifest::parse(&bytes).filter(|_| sha256(&bytes) == manifest_sha256);
    let manifest = manifest.ok_or_else(|| changed(MANIFEST))?;
    let mut files = Vec::with_capacity(manifest.files.len() + 1);
    for file in &manifest.files {
        if !is_inside(&file.path) {
            return Err(changed(&file.path));
        }
        let bytes = read(&file.path)?;
        if !file.is(&bytes) {
            return Err(changed(&file.path));
        }
        files.push(BuiltFile { path: file.path.clone(), bytes });
    }
    files.push(BuiltFile { path: MANIFEST.into(), bytes });
    Ok(files)
}

/// Whether a path of a manifest stays in its folder. Ours do; another's may say anything.
pub(super) fn is_inside(path: &str) -> bool {
    !path.is_empty() && Path::new(path).components().all(|part| matches!(part, Component::Normal(_)))
}

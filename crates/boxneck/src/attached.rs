//! Where are the files that a document names?
//!
//! Beside it or in folders below, and nowhere else: a document that somebody sent reads nothing that its sender did not send
//! along.

use std::path::Path;

use spec::{Document, limits};

use crate::reading::read_at_most;

/// A document with the files that it names, read from the folder that `document_path` lies in.
///
/// What cannot be had is told when the document is read. Overrides that name files come before.
#[must_use]
pub fn with_files_of(document: Document, document_path: &Path) -> Document {
    let folder = document_path.parent().filter(|folder| !folder.as_os_str().is_empty());
    let folder = folder.unwrap_or(Path::new("."));
    let names = document.files();
    names.iter().fold(document, |document, name| document.with_file(name, content(folder, name)))
}

/// The bytes of a file below a folder, or in words why not.
fn content(folder: &Path, name: &str) -> Result<Vec<u8>, String> {
    let missing = |_| "there is no such file beside the document".to_owned();
    let refused = |fault: std::io::Error| format!("it cannot be read: {fault}");
    let (inside, path) =
        (folder.canonicalize().map_err(refused)?, folder.join(name).canonicalize().map_err(missing)?);
    if !path.starts_with(&inside) {
        return Err("it leads out of the document's folder".to_owned());
    }
    if !path.metadata().map_err(refused)?.is_file() {
        return Err("it is no file".to_owned());
    }
    read_at_most(&path, limits::FILE_BYTES).map_err(refused)
}

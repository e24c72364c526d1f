//! Which files make up a build, and what is in each?
//!
//! `manifest.json` lists every other file of the build with its size and its SHA-256, the hash of the document it was
//! made from, and the version of the program. A folder with a manifest is one of ours; only what a manifest lists is
//! ever removed.

use serde::{Deserialize, Serialize};
use sha2::{Digest, Sha256};

use crate::make::BuiltFile;

/// The manifest's own name.
pub(crate) const MANIFEST: &str = "manifest.json";

/// What says that a manifest is ours.
const MAKER: &str = "boxneck";

/// The record that `manifest.json` holds.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub(crate) struct Manifest {
    maker: String,
    program_version: String,
    document_sha256: String,
    made_despite_failures: bool,
    pub(crate) files: Vec<ListedFile>,
}

/// One file of the build.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub(crate) struct ListedFile {
    /// Relative to the build's folder, with `/` between folder and file.
    pub(crate) path: String,
    bytes: u64,
    sha256: String,
}

impl Manifest {
    /// The manifest of these files, in their order.
    pub(crate) fn of(files: &[BuiltFile], document: &str, made_despite_failures: bool) -> Self {
        let listed = |file: &BuiltFile| ListedFile {
            path: file.path.clone(),
            bytes: file.bytes.len() as u64,
            sha256: sha256(&file.bytes),
        };
        Self {
            maker: MAKER.into(),
            program_version: env!("CARGO_PKG_VERSION").into(),
            document_sha256: sha256(document.as_bytes()),
            made_despite_failures,
            files: files.iter().map(listed).collect(),
        }
    }

    /// The manifest in these bytes, if they are one of ours.
    pub(crate) fn parse(bytes: &[u8]) -> Option<Self> {
        serde_json::from_slice(bytes).ok().filter(|manifest: &Self| manifest.maker == MAKER)
    }

    /// The bytes of `manifest.json`.
    pub(crate) fn to_bytes(&self) -> Vec<u8> {
        let mut bytes = serde_json::to_vec_pretty(self).expect("a manifest is plain data");
        bytes.push(b'\n');
        bytes
    }
}

fn sha256(bytes: &[u8]) -> String {
    Sha256::digest(bytes).iter().map(|byte| format!("{byte:02x}")).collect()
}

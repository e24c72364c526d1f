//! Which files make up a build, and what is in each?
//!
//! `manifest.json` lists every other file of the build with its size and its SHA-256, the hash of the document it was
//! made from, and the version of the program. A folder with a manifest is one of ours; only what a manifest lists is
//! ever removed.

use export::dxf::ArcStyle;
use serde::{Deserialize, Serialize};
use sha2::{Digest, Sha256};

use crate::make::{BuiltFile, MakeOptions};

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
    #[serde(default)]
    drawings: Option<DrawingsRecord>,
    pub(crate) files: Vec<ListedFile>,
}

/// How the DXF drawings of the build are written, for whoever sets up the machine. Builds of older versions do not say.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
struct DrawingsRecord {
    version: String,
    unit: String,
    arcs: String,
    chord_mm: Option<f64>,
    cut_line_mm: Option<f64>,
    tabs: Option<usize>,
    tab_width_mm: Option<f64>,
    labels: bool,
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
    pub(crate) fn of(
        files: &[BuiltFile],
        document: &str,
        made_despite_failures: bool,
        options: &MakeOptions,
    ) -> Self {
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
            drawings: Some(DrawingsRecord::of(options)),
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

impl DrawingsRecord {
    fn of(options: &MakeOptions) -> Self {
        let style = options.dxf;
        let (arcs, chord_mm) = match style.arcs {
            ArcStyle::Bulges => ("bulges", None),
            ArcStyle::Separate => ("separate", None),
            ArcStyle::Flattened(chord) => ("flat", Some(chord.deviation().as_mm())),
        };
        Self {
            version: style.profile.name().into(),
            unit: options.unit.symbol().into(),
            arcs: arcs.into(),
            chord_mm,
            cut_line_mm: style.cut_line.map(units::Length::as_mm),
            tabs: style.tabs.map(|tabs| tabs.count()),
            tab_width_mm: style.tabs.map(|tabs| tabs.width().as_mm()),
            labels: options.labels,
        }
    }
}

fn sha256(bytes: &[u8]) -> String {
    Sha256::digest(bytes).iter().map(|byte| format!("{byte:02x}")).collect()
}

//! Which files make up a build, and what is in each?
//!
//! `manifest.json` lists every other file of the build with its size and its SHA-256, the hash of the document it was
//! made from with the files that it names and that of the options, and the version of the program. A folder with a manifest is one of ours; only what a manifest lists is
//! ever removed.

use export::dxf::ArcStyle;
use serde::{Deserialize, Serialize};
use sha2::{Digest, Sha256};
use spec::Document;

use crate::make::{BuiltFile, MakeOptions};

/// The manifest's own name.
pub(crate) const MANIFEST: &str = "manifest.json";

/// The version of the program: what another version made is made again.
pub(crate) const PROGRAM_VERSION: &str = env!("CARGO_PKG_VERSION");

/// What says that a manifest is ours.
const MAKER: &str = "boxneck";

/// The record that `manifest.json` holds.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub(crate) struct Manifest {
    maker: String,
    program_version: String,
    document_sha256: String,
    /// What was asked for. Builds of older versions do not say.
    #[serde(default)]
    options_sha256: String,
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
    /// The manifest of these files, in their order, made from a document, or a roster, of this hash.
    pub(crate) fn of(files: &[BuiltFile], document_sha256: String, options_sha256: String) -> Self {
        let listed = |file: &BuiltFile| ListedFile {
            path: file.path.clone(),
            bytes: file.bytes.len() as u64,
            sha256: sha256(&file.bytes),
        };
        Self {
            maker: MAKER.into(),
            program_version: PROGRAM_VERSION.into(),
            document_sha256,
            options_sha256,
            made_despite_failures: false,
            drawings: None,
            files: files.iter().map(listed).collect(),
        }
    }

    /// The same of a build whose instruments were made although a finding fails, or not.
    pub(crate) fn made_despite_failures(mut self, made_despite_failures: bool) -> Self {
        self.made_despite_failures = made_despite_failures;
        self
    }

    /// The same of a build whose drawings are written as the options say.
    pub(crate) fn with_drawings(mut self, options: &MakeOptions) -> Self {
        self.drawings = Some(DrawingsRecord::of(options));
        self
    }

    /// Whether this program would make the build again from a document of this hash with these options.
    pub(crate) fn is_of(&self, document_sha256: &str, options: &MakeOptions) -> bool {
        self.program_version == PROGRAM_VERSION
            && self.document_sha256 == document_sha256
            && self.options_sha256 == options_sha256(options)
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

impl ListedFile {
    /// Whether these are the file's bytes.
    pub(crate) fn is(&self, bytes: &[u8]) -> bool {
        self.bytes == bytes.len() as u64 && self.sha256 == sha256(bytes)
    }
}

/// The SHA-256 of everything that is asked for, in an order of its own.
pub(crate) fn options_sha256(options: &MakeOptions) -> String {
    let record = serde_json::json!({
        "formats": options.formats.iter().map(|format| format.name()).collect::<Vec<_>>(),
        "only": options.only,
        "drawings": DrawingsRecord::of(options),
        "papers": options.papers.iter().map(|paper| paper.name()).collect::<Vec<_>>(),
        "correction": options.correction.factors(),
    });
    sha256(record.to_string().as_bytes())
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

/// The hash of a document with this text: of the text alone, or where it names files, of the text and, for each of them in the
/// order of their names, a zero byte, its name, a zero byte and what is in it.
pub(crate) fn document_sha256(text: &str, document: &Document) -> String {
    let mut hashed = text.as_bytes().to_vec();
    for (name, content) in document.given_files() {
        for part in [b"\0", name.as_bytes(), b"\0", content] {
            hashed.extend_from_slice(part);
        }
    }
    sha256(&hashed)
}

/// The SHA-256 of these bytes, in hexadecimal.
pub(crate) fn sha256(bytes: &[u8]) -> String {
    Sha256::digest(bytes).iter().map(|byte| format!("{byte:02x}")).collect()
}

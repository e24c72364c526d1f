//! Which texts are there to begin from?

use std::path::{Path, PathBuf};

/// What a text is handed over as.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    Document,
    Roster,
    Measured,
    Stock,
    Outline,
}

impl Kind {
    pub const ALL: [Self; 5] = [Self::Document, Self::Roster, Self::Measured, Self::Stock, Self::Outline];

    /// The folders and the endings of texts of this kind, from the root of the repository.
    const fn places(self) -> &'static [(&'static str, &'static str)] {
        match self {
            Self::Document => &[("specs", "toml"), ("tests/bad", "toml"), ("tests/corpus/document", "toml")],
            Self::Roster => &[("specs/class", "csv"), ("tests/corpus/roster", "csv")],
            Self::Measured => &[("tests/corpus/measured", "toml"), ("tests/corpus/measured", "csv")],
            Self::Stock => &[("specs/class", "toml"), ("tests/corpus/stock", "toml")],
            Self::Outline => &[("specs/outlines", "dxf"), ("tests/corpus/outline", "dxf")],
        }
    }
}

/// Every text of a kind that is kept, with its name, in the order of their names.
pub fn kept(kind: Kind) -> Vec<(String, Vec<u8>)> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    let mut paths: Vec<PathBuf> = Vec::new();
    for (folder, ending) in kind.places() {
        let Ok(entries) = std::fs::read_dir(root.join(folder)) else { continue };
        let files = entries.map(|entry| entry.expect("an entry of a folder").path());
        paths.extend(files.filter(|path| path.extension().is_some_and(|found| found == *ending)));
    }
    paths.sort();
    paths.iter().map(|path| (path.display().to_string(), std::fs::read(path).expect("readable"))).collect()
}

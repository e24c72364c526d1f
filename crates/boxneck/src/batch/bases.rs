//! Which document does a row change?

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use spec::{Diagnostic, Document, Severity};

/// A document that rows begin from.
#[derive(Clone, Debug)]
pub struct Base {
    name: String,
    document: Document,
    faults: Vec<Diagnostic>,
}

impl Base {
    /// The document in these bytes; its faults are kept with it.
    #[must_use]
    pub fn new(name: &str, bytes: &[u8]) -> Self {
        let document = Document::parse(bytes);
        let faults = document.read().into_result().err().unwrap_or_default();
        let faults = faults.into_iter().filter(|fault| fault.severity == Severity::Error).collect();
        Self { name: name.to_owned(), document, faults }
    }

    /// The document in a file, called as the file is.
    ///
    /// # Errors
    ///
    /// Why the file cannot be read.
    pub fn open(path: &Path) -> io::Result<Self> {
        let name = path.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
        Ok(Self::new(&name, &fs::read(path)?))
    }

    /// What it is called.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.name
    }

    /// The document.
    #[must_use]
    pub const fn document(&self) -> &Document {
        &self.document
    }

    /// What is wrong with it before any row changes it.
    #[must_use]
    pub fn faults(&self) -> &[Diagnostic] {
        &self.faults
    }
}

/// The base documents of a class: its own, and those that the rows name.
#[derive(Clone, Debug, Default)]
pub struct Bases {
    own: Option<Base>,
    /// By what the cells say; why a file cannot be read where it cannot.
    named: BTreeMap<String, Result<Base, String>>,
}

impl Bases {
    /// One for all rows.
    #[must_use]
    pub const fn only(base: Base) -> Self {
        Self { own: Some(base), named: BTreeMap::new() }
    }

    /// The class's own, if there is one, and every one that a row of the roster names, by its path from `folder`.
    #[must_use]
    pub fn open(own: Option<Base>, roster: &super::Roster, folder: &Path) -> Self {
        let names: BTreeSet<&str> = roster.rows().iter().filter_map(|row| row.base.as_deref()).collect();
        let open = |name: &str| {
            let path: PathBuf = folder.join(name);
            Base::open(&path).map_err(|fault| format!("cannot read {}: {fault}", path.display()))
        };
        Self { own, named: names.into_iter().map(|name| (name.to_owned(), open(name))).collect() }
    }

    /// Every base that could be read, the class's own first.
    pub fn all(&self) -> impl Iterator<Item = &Base> {
        self.own.iter().chain(self.named.values().filter_map(|base| base.as_ref().ok()))
    }

    /// The base of a row that names this one, or none; why there is none.
    pub(super) fn of(&self, name: Option<&str>) -> Result<&Base, String> {
        match name {
            None => self.own.as_ref().ok_or_else(|| "expected a base document, found none".to_owned()),
            Some(name) => match self.named.get(name) {
                Some(base) => base.as_ref().map_err(Clone::clone),
                None => Err(format!("expected a base document that was read, found \"{name}\"")),
            },
        }
    }
}

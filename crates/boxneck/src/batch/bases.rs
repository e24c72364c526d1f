//! Which document does a row change?

use std::collections::{BTreeMap, BTreeSet};
use std::io;
use std::path::{Path, PathBuf};

use spec::{Diagnostic, Document, Severity, limits};

use crate::attached::with_files_of;
use crate::reading::read_at_most;

/// A document that rows begin from.
#[derive(Clone, Debug)]
pub struct Base {
    name: String,
    /// Where it lies, if it lies anywhere: the files that it names lie there too.
    path: Option<PathBuf>,
    document: Document,
    faults: Vec<Diagnostic>,
}

impl Base {
    /// The document in these bytes; its faults are kept with it.
    #[must_use]
    pub fn new(name: &str, bytes: &[u8]) -> Self {
        Self::at(name, None, Document::parse(bytes))
    }

    fn at(name: &str, path: Option<PathBuf>, document: Document) -> Self {
        let faults = document.read().into_result().err().unwrap_or_default();
        let faults = faults.into_iter().filter(|fault| fault.severity == Severity::Error).collect();
        Self { name: name.to_owned(), path, document, faults }
    }

    /// The document in a file, called as the file is.
    ///
    /// # Errors
    ///
    /// Why the file cannot be read.
    pub fn open(path: &Path) -> io::Result<Self> {
        let name = path.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
        let document = with_files_of(Document::parse(&read_at_most(path, limits::DOCUMENT_BYTES)?), path);
        Ok(Self::at(&name, Some(path.to_owned()), document))
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

    /// A document that was made of this one, with the files that it names beside this one.
    pub(super) fn with_files(&self, document: Document) -> Document {
        match &self.path {
            Some(path) => with_files_of(document, path),
            None => document,
        }
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

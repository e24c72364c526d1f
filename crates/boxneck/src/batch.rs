//! How does a whole class become files: one roster, one instrument a row?
//!
//! A [`Roster`] is the spreadsheet as it was read, a [`Class`] the roster laid over its base documents: which row makes
//! which document into which folder. [`run`] makes what is not there yet, [`merge`] puts together what several machines
//! made. All three leave a [`ClassRecord`], and the papers of the class beside it.
//!
//! ```
//! use boxneck::batch::{Base, Bases, BatchOptions, Class, Roster, run};
//! use boxneck::export::Format;
//!
//! let base = Base::new("porch.toml", b"name = \"Porch three-string\"\n");
//! let roster = Roster::parse("student;quantity;neck.thickness\nZo\u{eb};2;19,5 mm\n".as_bytes());
//! let bases = Bases::only(base);
//! let class = Class::plan(&roster, &bases);
//! assert_eq!(class.faults().count(), 0, "every cell is understood");
//! assert_eq!(class.rows()[0].folder, "zoe", "a name that every disk knows");
//!
//! let place = tempfile::tempdir()?;
//! let mut options = BatchOptions::default();
//! options.make.formats = [Format::Csv].into();
//! let batch = run(&class, place.path(), &options, &mut |_| {})?;
//! assert_eq!(batch.record.rows[0].quantity, 2, "two of the same, described once");
//! assert!(place.path().join("zoe/cut-list.csv").exists(), "her folder");
//! assert!(place.path().join("class/class.json").exists(), "and the class's");
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

mod bases;
mod builds;
mod class;
mod fault;
mod folders;
mod group;
mod kit;
mod laid;
mod lock;
mod merge;
mod papers;
mod record;
mod removed;
mod roster;
mod run;
mod shard;

pub use bases::{Base, Bases};
pub use class::{Class, Planned, Row};
pub use fault::{BatchFault, RosterFault};
pub use folders::CLASS_FOLDER;
pub use kit::{Kit, KitOpening, KitPart, KitScrews, KitString, KitWire};
pub use merge::merge;
pub use record::{ClassRecord, RowRecord, RowState};
pub use removed::RemovedBuild;
pub use roster::limits;
pub use roster::{Roster, RosterRow};
pub use run::{Batch, BatchOptions, Fate, RowDone, run};
pub use shard::Shard;

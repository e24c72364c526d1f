//! From a document to files on disk: the front door of the library.
//!
//! ```
//! use boxneck::{Instrument, spec::Document};
//!
//! let document = Document::parse(b"name = \"Kitchen three-string\"\n[scale]\nfrets = 15\n");
//! let instrument = Instrument::of(&document).expect("every key that is left out has a sound default");
//! assert_eq!(instrument.layout().frets().frets.len(), 15, "there is room for all of them");
//! assert!(instrument.worst() < boxneck::fit::Severity::Fail, "and nothing fails");
//! ```
//!
//! [`Instrument::of`] reads, lays out, makes the parts and checks them; [`files`] turns the instrument into named bytes;
//! [`write_build`] puts these on disk, whole or not at all. Everything up to the last is pure.

pub use {export, fit, geometry, layout, mechanics, parts, spec, units};

mod account;
mod attached;
pub mod batch;
mod bench_page;
pub mod explore;
mod findings_record;
mod folder_name;
mod instrument;
mod layout_record;
mod make;
mod manifest;
mod model;
mod overview;
mod papers;
mod plates;
mod playing_record;
mod reading;
mod record_number;
mod report;
mod setup;
mod setup_record;
mod side_by_side;
pub mod starts;
mod templates;
mod tolerances;
mod tolerances_record;
mod write_build;

pub use attached::with_files_of;
pub use bench_page::{bench_page, setup_page, setup_web_page, tolerances_page};
pub use findings_record::{ToldFinding, change_record, findings_record, remedies_record};
pub use folder_name::folder_name;
pub use instrument::{Instrument, Refusal};
pub use layout_record::layout_record;
pub use make::{BuiltFile, MakeFault, MakeOptions, files};
pub use papers::{Absent, Enrolment, Member, SHARED_PLATES, class_papers};
pub use reading::read_at_most;
pub use setup::{MeasuredFormat, Setup, measured, setup};
pub use setup_record::setup_record;
pub use tolerances::tolerances;
pub use tolerances_record::tolerances_record;
pub use write_build::{WriteFault, write_build};

//! Which instrument does a document describe, and what is wrong with the document?
//!
//! [`Document::parse`] keeps the text as a tree with places, [`Document::with_override`] changes one value,
//! [`Document::read`] gives the [`Spec`] or every fault at once as [`Diagnostic`]s. Which keys there are, and within
//! which limits, is asked with [`keys`].
//!
//! ```
//! let document = spec::Document::parse(b"units = \"in\"\n[neck]\nthickness = 0.75\n");
//! let read = document.read();
//! let spec = read.value().expect("every key that is left out has a default");
//! assert_eq!(spec.neck.thickness, units::Length::mm(19.05), "three quarters of an inch");
//! ```

mod instrument;

pub mod stock;

mod document;

pub mod limits;

mod code;
mod diagnostic;

mod reading;

mod key;

mod stock_list;

mod choice;
mod defaults;
mod nearest;
mod relations;

mod canonical;
mod schema;

pub mod measured;

pub use choice::Choice;
pub use code::{CODES, Code};
pub use diagnostic::{Checked, Diagnostic, Edit, Hint, Label, Origin, Place, Severity};
pub use document::Document;
pub use instrument::{
    Action, BoardRadius, BoxFace, BoxSpec, CornerRelief, FretKind, FretPattern, Fretboard, Frets, Handed,
    Headstock, Heel, Hole, HolePurpose, Joint, MadeWith, Neck, NeckSection, Nut, Opening, OutlineFile,
    PastHeel, Plank, Print, Router, Saddle, SaddleKind, Scale, ScrewGauge, Spacing, Spec, StringSpec, Tail,
    TailKind, Tolerances, ZeroFret,
};
pub use key::{KeyInfo, KeyKind, KeyRange, Quantity, key_at, keys, keys_near};
pub use schema::schema;
pub use stock_list::{Cutting, Grain, Price, Prices, StockItem, StockList, stock_keys};

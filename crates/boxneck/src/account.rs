//! What is there to tell of an instrument, whoever it is told to?
//!
//! Passages of words and tables. The bench page sets them as text, the report as a page with plots between them; neither
//! says anything of its own about the same thing.

pub(crate) mod building;
pub(crate) mod cautions;
pub(crate) mod findings;
pub(crate) mod materials;
pub(crate) mod playing;

use export::table::Table;
use layout::{Layout, StringPath};
use spec::{Choice, Handed};
use units::{Length, LengthForm};

/// What is told under one heading.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Passage {
    /// A heading of one to three words.
    pub heading: &'static str,
    /// What the numbers are, beside the heading.
    pub aside: String,
    /// What is told first.
    pub before: Vec<String>,
    /// Row by row; nothing where there are no rows.
    pub table: Table,
    /// What is told last.
    pub after: Vec<String>,
}

impl Passage {
    fn new(heading: &'static str, aside: impl Into<String>, table: Table) -> Self {
        Self { heading, aside: aside.into(), before: Vec::new(), table, after: Vec::new() }
    }
}

/// A length in millimetres, and in inches as a rule has them.
pub(crate) fn both(length: Length) -> String {
    format!("{length} ({})", length.written(LengthForm::Sixtyfourths))
}

/// A heading and its rows.
fn table<const WIDE: usize>(heading: [&str; WIDE], rows: impl IntoIterator<Item = [String; WIDE]>) -> Table {
    Table {
        heading: heading.map(String::from).to_vec(),
        rows: rows.into_iter().map(|row| row.to_vec()).collect(),
    }
}

/// What is what, a row each.
fn list<const MANY: usize>(heading: [&str; 2], rows: [Option<(&str, String)>; MANY]) -> Table {
    table(heading, rows.into_iter().flatten().map(|(what, where_)| [what.to_owned(), where_]))
}

/// A string as its tables name it: its number and its note.
fn named(path: &StringPath) -> [String; 2] {
    [path.number.0.to_string(), path.pitch.to_string()]
}

/// "Right-handed, 3 strings, through neck of hard maple, scale length 635 mm (25 in)".
pub(crate) fn in_short(layout: &Layout) -> String {
    let spec = layout.spec();
    let count = spec.strings.len();
    let hand = match spec.handed {
        Handed::Right => "Right",
        Handed::Left => "Left",
    };
    format!(
        "{hand}-handed, {count} string{}, {} neck of {}, scale length {}",
        if count == 1 { "" } else { "s" },
        spec.neck.joint.word(),
        spec.neck.wood.name(),
        both(spec.scale.length),
    )
}

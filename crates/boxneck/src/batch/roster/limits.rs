//! How large may a roster be?
//!
//! Enforced before the work is done. Larger limits let a file by mistake, or by malice, take time and memory; smaller ones
//! would refuse honest rosters.

/// Bytes of one roster.
pub const ROSTER_BYTES: usize = 64 * 1024 * 1024;

/// Rows of one roster, the heading left out.
pub const ROWS: usize = 100_000;

/// Columns of one roster; a document takes no more overrides either.
pub const COLUMNS: usize = spec::limits::OVERRIDES;

/// Cells of one roster, the empty ones too: a class of a thousand that says everything of every instrument has a tenth of them.
pub const CELLS: usize = 2_000_000;

/// Characters of one cell. What is longer is a quote that is opened and not closed.
pub const CELL_CHARACTERS: usize = 8 * 1024;

/// Characters of a student's name.
pub const STUDENT_CHARACTERS: usize = 200;

/// Characters of a note, or of a base's name.
pub const NOTE_CHARACTERS: usize = 1_000;

/// How many instruments one row may ask for.
pub const QUANTITY: u32 = 1_000;

//! How large may a document be?
//!
//! Everything that bounds the work that a stranger's document can cause stands here, and is enforced before the work is
//! done. Larger limits let a hostile file take time and memory; smaller ones would refuse honest documents.

/// Bytes of one document. A long, fully commented document has about 10,000.
pub const DOCUMENT_BYTES: usize = 256 * 1024;

/// Tables and lists within one another; the deepest honest value is an item of `at` of a hole of the box: 4.
pub const NESTING_DEPTH: usize = 8;

/// Items in any one list; more than any key may have.
pub const LIST_ITEMS: usize = 256;

/// Keys in any one table, known or not.
pub const TABLE_KEYS: usize = 256;

/// Characters of the instrument's name: it becomes the name of a folder.
pub const NAME_CHARACTERS: usize = 80;

/// Characters of any other value that is text; nothing that can be understood is longer.
pub const VALUE_CHARACTERS: usize = 80;

/// Bytes of a list or a section that an override gives in one line: all the holes of a box, with room to spare.
pub const INLINE_BYTES: usize = 8 * 1024;

/// Strings of one instrument.
pub const STRINGS: usize = 6;

/// Holes of one box.
pub const HOLES: usize = 32;

/// Kinds of boards, and of sheets, in one stock list.
pub const STOCK_ITEMS: usize = 64;

/// Boards or sheets of one kind; who has more leaves the number out.
pub const STOCK_COUNT: u8 = 250;

/// The dearest that one thing may be, in whole units of money.
pub const PRICE: u64 = 1_000_000;

/// Bytes of a file that a document names.
pub const FILE_BYTES: usize = import::FILE_BYTES;

/// Semitones in a fret pattern, and the highest of them: four octaves.
pub const SEMITONES: u8 = 48;

/// Overrides on one document.
pub const OVERRIDES: usize = 256;

/// Faults told of one document; the rest are counted.
pub const FAULTS_TOLD: usize = 100;

//! What is in the workshop to cut parts from, and what does it cost?
//!
//! A stock list is a document of its own beside those of the instruments, in the same way of writing and with the same
//! faults: [`Document::read_stock`](crate::Document::read_stock) reads it.

use std::sync::LazyLock;

use units::{Length, LengthUnit};

use crate::key::KeyInfo;
use crate::stock::Wood;

/// Boards and sheets to cut from, how they are cut, and prices.
#[derive(Clone, Debug, PartialEq)]
pub struct StockList {
    /// The unit of bare numbers.
    pub units: LengthUnit,
    /// How stock is cut.
    pub cutting: Cutting,
    /// Boards, whose grain runs along them.
    pub boards: Vec<StockItem>,
    /// Sheets.
    pub sheets: Vec<StockItem>,
    /// What is bought by the piece or by the metre.
    pub prices: Prices,
}

/// How stock is cut.
#[derive(Clone, Debug, PartialEq)]
pub struct Cutting {
    /// What the saw takes.
    pub kerf: Length,
    /// What is sawn off each end of a board, with that cut.
    pub trim: Length,
    /// What is kept free at the edges of a sheet.
    pub margin: Length,
    /// What is left standing between two parts of a sheet, beside what the bit takes.
    pub between: Length,
    /// How much thicker than its part stock may be, to be planed down.
    pub planing: Length,
}

/// One kind of board or sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct StockItem {
    /// What it is made of.
    pub wood: Wood,
    /// Along.
    pub length: Length,
    /// Across.
    pub width: Length,
    /// How thick.
    pub thickness: Length,
    /// Which way its grain runs.
    pub grain: Grain,
    /// How many there are; as many as are needed where nothing is said.
    pub count: Option<u8>,
    /// What one costs, where that is known.
    pub price: Option<Price>,
    /// Whether it is left from earlier work, and used up first.
    pub offcut: bool,
}

/// Which way the grain of stock runs. That of a part runs along the part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Grain {
    /// Along it.
    Length,
    /// Across it.
    Width,
    /// It does not matter: parts may be turned by a quarter.
    Free,
}

/// What things cost that are bought by the piece or by the metre; nothing where it is not known.
#[derive(Clone, Debug, PartialEq)]
pub struct Prices {
    /// One tuner.
    pub tuner: Option<Price>,
    /// One string.
    pub string: Option<Price>,
    /// One screw.
    pub screw: Option<Price>,
    /// A metre of fret wire.
    pub fret_wire: Option<Price>,
    /// A metre of plain wire for frets.
    pub wire: Option<Price>,
}

/// A price to a hundredth, in whatever money the list is written in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Price(u64);

impl Price {
    /// From hundredths.
    #[must_use]
    pub const fn hundredths(hundredths: u64) -> Self {
        Self(hundredths)
    }

    /// In hundredths.
    #[must_use]
    pub const fn as_hundredths(self) -> u64 {
        self.0
    }
}

/// "14.50".
impl std::fmt::Display for Price {
    fn fmt(&self, formatter: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(formatter, "{}.{:02}", self.0 / 100, self.0 % 100)
    }
}

/// Every key of a stock list, in reading order.
#[must_use]
pub fn stock_keys() -> &'static [KeyInfo] {
    static KEYS: LazyLock<Vec<KeyInfo>> = LazyLock::new(crate::reading::record_stock);
    &KEYS
}

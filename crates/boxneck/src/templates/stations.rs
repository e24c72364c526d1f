//! Where along the neck is each station, and what is it called?

use layout::Layout;
use units::{Length, LengthUnit};

/// A place along the neck, measured from the crown of the zero fret.
pub(super) struct Station {
    /// How far.
    pub x: Length,
    /// The number of its fret.
    pub number: u8,
}

/// The zero fret and every fret, each in its own distance from the zero fret.
pub(super) fn stations(layout: &Layout) -> Vec<Station> {
    let frets = layout.frets().frets.iter().map(|fret| Station { x: fret.x, number: fret.number });
    [Station { x: Length::ZERO, number: 0 }].into_iter().chain(frets).collect()
}

/// A distance as it is read off, in the document's unit.
pub(super) fn distance(x: Length, unit: LengthUnit) -> String {
    match unit {
        LengthUnit::Millimetre => format!("{:.2}", x.as_mm()),
        LengthUnit::Inch => format!("{:.3}", x.as_inches()),
    }
}

/// The document's unit in words.
pub(super) const fn unit_word(unit: LengthUnit) -> &'static str {
    match unit {
        LengthUnit::Millimetre => "millimetres",
        LengthUnit::Inch => "inches",
    }
}

//! How high are the parts that are printed, as they are laid down?

use layout::{Layout, TailKind};
use units::Length;

/// A printed part as it stands on the bed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Printed {
    /// The part's name.
    pub(crate) name: &'static str,
    /// How high it is.
    pub(crate) height: Length,
}

/// Nut, saddle and tail block, in closed form: strings that end in the stick have no block.
pub(crate) fn printed(layout: &Layout) -> Vec<Printed> {
    let (nut, saddle, tail) = (layout.nut(), layout.saddle(), layout.tail());
    let highest = saddle.crests.iter().map(|crest| crest.above).fold(Length::ZERO, Length::max);
    let mut parts = vec![
        Printed { name: "nut", height: nut.top_z - nut.base_z },
        Printed { name: "saddle", height: highest + saddle.let_in },
    ];
    if tail.kind != TailKind::StringThrough {
        parts.push(Printed { name: "tail-block", height: tail.above[1] - tail.above[0] });
    }
    parts
}

//! Which parts are there? One line each.

use layout::Layout;

use crate::part::{Part, PartFault};
use crate::{
    box_walls, coupon_printed, coupon_routed, fret_jig, fretboard, heel_block, lid, neck, nut, saddle,
    tail_block, tail_guide,
};

/// The parts of one instrument, and those that could not be made.
#[derive(Clone, Debug, Default)]
pub struct PartSet {
    /// What can be made.
    pub parts: Vec<Part>,
    /// What cannot, and why.
    pub faults: Vec<PartFault>,
}

/// What makes a part of a layout; nothing where this instrument has no such part.
type Maker = fn(&Layout) -> Result<Option<Part>, PartFault>;

const MAKERS: [Maker; 11] = [
    neck::make,
    fretboard::make,
    nut::make,
    saddle::make,
    heel_block::make,
    tail_block::make,
    lid::make,
    box_walls::make,
    coupon_printed::make,
    coupon_routed::make,
    tail_guide::make,
];

/// Every part of an instrument. A part that cannot be made does not keep the others from being made.
#[must_use]
pub fn parts(layout: &Layout) -> PartSet {
    let mut set = PartSet::default();
    for make in MAKERS {
        match make(layout) {
            Ok(part) => set.parts.extend(part),
            Err(fault) => set.faults.push(fault),
        }
    }
    // A jig is made in as many sections as the bed wants.
    match fret_jig::make(layout) {
        Ok(sections) => set.parts.extend(sections),
        Err(fault) => set.faults.push(fault),
    }
    set
}

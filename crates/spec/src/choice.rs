//! By which words does a document choose?

use units::LengthUnit;

use crate::instrument::{
    BoxFace, CornerRelief, FretKind, Handed, HolePurpose, Joint, MadeWith, NeckSection, PastHeel, SaddleKind,
    ScrewGauge, Spacing, TailKind,
};
use crate::stock_list::Grain;

/// A type whose values a document names by words.
pub trait Choice: Copy + PartialEq + 'static {
    /// Each word with its value, in the order in which they are offered.
    const CHOICES: &'static [(&'static str, Self)];

    /// The word for this value.
    #[must_use]
    fn word(self) -> &'static str {
        let row = Self::CHOICES.iter().find(|(_, value)| *value == self);
        row.expect("every value stands in its table of words; a test walks them").0
    }
}

impl Choice for LengthUnit {
    const CHOICES: &'static [(&'static str, Self)] = &[("mm", Self::Millimetre), ("in", Self::Inch)];
}

impl Choice for Handed {
    const CHOICES: &'static [(&'static str, Self)] = &[("right", Self::Right), ("left", Self::Left)];
}

impl Choice for Joint {
    const CHOICES: &'static [(&'static str, Self)] = &[("through", Self::Through), ("butt", Self::Butt)];
}

impl Choice for NeckSection {
    const CHOICES: &'static [(&'static str, Self)] =
        &[("square", Self::Square), ("eased", Self::Eased), ("oval", Self::Oval)];
}

impl Choice for FretKind {
    const CHOICES: &'static [(&'static str, Self)] = &[
        ("wrapped wire", Self::WrappedWire),
        ("seated wire", Self::SeatedWire),
        ("fret wire", Self::FretWire),
    ];
}

impl Choice for PastHeel {
    const CHOICES: &'static [(&'static str, Self)] = &[("stop", Self::Stop), ("seated", Self::Seated)];
}

impl Choice for Spacing {
    const CHOICES: &'static [(&'static str, Self)] =
        &[("equal gaps", Self::EqualGaps), ("equal centres", Self::EqualCentres)];
}

impl Choice for SaddleKind {
    const CHOICES: &'static [(&'static str, Self)] = &[("floating", Self::Floating), ("let in", Self::LetIn)];
}

impl Choice for TailKind {
    const CHOICES: &'static [(&'static str, Self)] =
        &[("block", Self::Block), ("string through", Self::StringThrough)];
}

impl Choice for ScrewGauge {
    const CHOICES: &'static [(&'static str, Self)] =
        &[("No. 4", Self::No4), ("No. 6", Self::No6), ("No. 8", Self::No8), ("No. 10", Self::No10)];
}

impl Choice for HolePurpose {
    const CHOICES: &'static [(&'static str, Self)] =
        &[("sound", Self::Sound), ("jack", Self::Jack), ("pot", Self::Pot), ("pickup", Self::Pickup)];
}

impl Choice for BoxFace {
    const CHOICES: &'static [(&'static str, Self)] = &[
        ("lid", Self::Lid),
        ("tail end", Self::TailEnd),
        ("neck end", Self::NeckEnd),
        ("bass side", Self::BassSide),
        ("treble side", Self::TrebleSide),
    ];
}

impl Choice for CornerRelief {
    const CHOICES: &'static [(&'static str, Self)] =
        &[("none", Self::None), ("dogbone", Self::Dogbone), ("t-bone", Self::TBone)];
}

impl Choice for Grain {
    const CHOICES: &'static [(&'static str, Self)] =
        &[("length", Self::Length), ("width", Self::Width), ("free", Self::Free)];
}

impl Choice for MadeWith {
    const CHOICES: &'static [(&'static str, Self)] =
        &[("hand tools", Self::HandTools), ("router", Self::Router), ("printer", Self::Printer)];
}

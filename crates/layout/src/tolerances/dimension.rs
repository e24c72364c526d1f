//! Which dimensions are held only so well, and what of an instrument does each of them move?

use spec::Spec;
use units::Length;

use crate::built::{Deviations, FretDeviation};
use crate::instrument::Layout;

/// A dimension, or all dimensions of one kind, that a builder holds only so well.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Dimension {
    /// The neck's set against the box.
    NeckSet,
    /// The height of the zero fret's crown.
    ZeroFretHeight,
    /// The heights of the frets' crowns.
    FretHeights,
    /// The places of the frets.
    FretPlaces,
    /// The saddle's height, at both ends.
    SaddleHeight,
    /// The saddle's place, at both ends.
    SaddlePlace,
    /// The height of the string holes.
    TailHeight,
    /// The distance of the string holes.
    TailDistance,
    /// The diameters of the strings.
    StringDiameters,
}

impl Dimension {
    /// All of them, from the nut to the tail.
    pub const ALL: [Self; 9] = [
        Self::NeckSet,
        Self::ZeroFretHeight,
        Self::FretHeights,
        Self::FretPlaces,
        Self::SaddleHeight,
        Self::SaddlePlace,
        Self::TailHeight,
        Self::TailDistance,
        Self::StringDiameters,
    ];

    /// The key of the document that says how well it is held.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::NeckSet => "tolerances.neck_set",
            Self::ZeroFretHeight => "tolerances.zero_fret_height",
            Self::FretHeights => "frets.height_scatter",
            Self::FretPlaces => "tolerances.fret_place",
            Self::SaddleHeight => "tolerances.saddle_height",
            Self::SaddlePlace => "tolerances.saddle_place",
            Self::TailHeight => "tolerances.tail_height",
            Self::TailDistance => "tolerances.tail_distance",
            Self::StringDiameters => "tolerances.string_diameter",
        }
    }

    /// What a builder calls it.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::NeckSet => "the neck's set against the box",
            Self::ZeroFretHeight => "the zero fret's height",
            Self::FretHeights => "the heights of the frets",
            Self::FretPlaces => "the places of the frets",
            Self::SaddleHeight => "the saddle's height",
            Self::SaddlePlace => "the saddle's place",
            Self::TailHeight => "the height of the tail's holes",
            Self::TailDistance => "the distance of the tail's holes",
            Self::StringDiameters => "the strings' diameters",
        }
    }

    /// How well a document holds it: one standard deviation of each of its numbers.
    #[must_use]
    pub fn held_to(self, spec: &Spec) -> Length {
        match self {
            Self::NeckSet => spec.tolerances.neck_set,
            Self::ZeroFretHeight => spec.tolerances.zero_fret_height,
            Self::FretHeights => spec.frets.height_scatter,
            Self::FretPlaces => spec.tolerances.fret_place,
            Self::SaddleHeight => spec.tolerances.saddle_height,
            Self::SaddlePlace => spec.tolerances.saddle_place,
            Self::TailHeight => spec.tolerances.tail_height,
            Self::TailDistance => spec.tolerances.tail_distance,
            Self::StringDiameters => spec.tolerances.string_diameter,
        }
    }

    /// How many independent numbers of an instrument it stands for.
    pub(crate) fn numbers(self, layout: &Layout) -> usize {
        match self {
            Self::NeckSet | Self::ZeroFretHeight | Self::TailHeight | Self::TailDistance => 1,
            Self::SaddleHeight | Self::SaddlePlace => 2,
            Self::FretHeights | Self::FretPlaces => layout.frets().frets.len(),
            Self::StringDiameters => layout.strings().len(),
        }
    }

    /// Moves one of its numbers, counted from 0, in deviations of [`as_planned`].
    pub(crate) fn move_by(self, deviations: &mut Deviations, number: usize, by: Length) {
        let moved = match self {
            Self::NeckSet => &mut deviations.neck_set,
            Self::ZeroFretHeight => &mut deviations.zero_fret_height,
            Self::FretHeights => &mut deviations.frets[number].height,
            Self::FretPlaces => &mut deviations.frets[number].place,
            Self::SaddleHeight if number == 0 => &mut deviations.saddle_height.bass,
            Self::SaddleHeight => &mut deviations.saddle_height.treble,
            Self::SaddlePlace if number == 0 => &mut deviations.saddle_place.bass,
            Self::SaddlePlace => &mut deviations.saddle_place.treble,
            Self::TailHeight => &mut deviations.tail_height,
            Self::TailDistance => &mut deviations.tail_distance,
            Self::StringDiameters => &mut deviations.string_diameters[number],
        };
        *moved = *moved + by;
    }
}

/// No deviation at all, with a place in its lists for every fret and string.
pub(crate) fn as_planned(layout: &Layout) -> Deviations {
    Deviations {
        frets: vec![FretDeviation::default(); layout.frets().frets.len()],
        string_diameters: vec![Length::ZERO; layout.strings().len()],
        ..Deviations::default()
    }
}

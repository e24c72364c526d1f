//! What is drawn on paper?

use geometry::{Bounds2, Point2, Vector2};
use units::Length;

use super::typeface::Typeface;
use crate::scene::Figure;

/// One thing at true size, in a frame of its own: x to the right, y up, millimetres.
#[derive(Clone, Debug, PartialEq)]
pub struct Template {
    /// What pages call it: short, lower case.
    pub name: String,
    /// What its caption begins with.
    pub title: String,
    /// What else its caption says.
    pub notes: Vec<String>,
    /// From back to front.
    pub marks: Vec<Mark>,
}

/// One thing that is drawn.
#[derive(Clone, Debug, PartialEq)]
pub enum Mark {
    /// A line or a shape.
    Figure(Figure, Pen),
    /// Words.
    Words(Words),
}

/// What a line means; told apart by weight and dashes, so that a grey copy tells the same.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Pen {
    /// Cut here.
    Cut,
    /// The edge of a drilled hole.
    Hole,
    /// The edge of a recess; what is inside is tinted.
    Recess,
    /// The middle of a saw's or a bit's single pass.
    Slot,
    /// A line to carry over to the piece.
    Station,
    /// A thin line to measure from or to, such as the cross in a hole.
    Fine,
    /// Not worked: centre lines, mating parts.
    Guide,
    /// Fold here.
    Fold,
    /// Something stretched over it, for the eye.
    Strand,
}

/// Words in one line.
#[derive(Clone, Debug, PartialEq)]
pub struct Words {
    /// Where they are.
    pub at: Point2,
    /// What of them is there, halfway up their height.
    pub side: Side,
    /// Which way they read.
    pub reading: Reading,
    /// The size of the font.
    pub size: Length,
    /// What they say.
    pub text: String,
}

/// A place in a line of words.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// Where it begins.
    Start,
    /// Halfway along.
    Middle,
    /// Where it ends.
    End,
}

/// The way in which words read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reading {
    /// From left to right.
    Across,
    /// From below upward.
    Up,
}

/// Half the height of a line of words, in sizes: capitals and descenders lie within.
const HALF_HEIGHT: f64 = 0.5;
/// From halfway up the height of capitals down to the line that they stand on, in sizes.
const DROP: f64 = 0.365;

impl Pen {
    /// The width of the line.
    pub(super) const fn width(self) -> Length {
        Length::mm(match self {
            Self::Cut => 0.35,
            Self::Hole | Self::Recess | Self::Slot => 0.25,
            Self::Station | Self::Guide | Self::Fold => 0.18,
            Self::Fine | Self::Strand => 0.12,
        })
    }

    /// Dash and gap, in turns; none for a line without gaps.
    pub(super) const fn dashes(self) -> &'static [f64] {
        match self {
            Self::Guide => &[2.5, 1.2],
            Self::Fold => &[6.0, 1.2, 0.6, 1.2],
            _ => &[],
        }
    }

    /// How dark the line is: 0 is black.
    pub(super) const fn grey(self) -> f64 {
        match self {
            Self::Strand => 0.45,
            Self::Guide => 0.25,
            _ => 0.0,
        }
    }

    /// How dark the inside is, where it is tinted.
    pub(super) const fn tint(self) -> Option<f64> {
        match self {
            Self::Recess => Some(0.9),
            _ => None,
        }
    }
}

impl Template {
    /// What everything drawn takes up; `None` when nothing is.
    pub(super) fn bounds(&self, typeface: &Typeface) -> Option<Bounds2> {
        self.marks.iter().map(|mark| mark.bounds(typeface)).reduce(Bounds2::union)
    }
}

impl Mark {
    /// What it takes up, the width of its line included.
    pub(super) fn bounds(&self, typeface: &Typeface) -> Bounds2 {
        match self {
            Self::Figure(figure, pen) => figure.bounds().grown(pen.width() / 2.0),
            Self::Words(words) => words.bounds(typeface),
        }
    }
}

impl Words {
    /// What they take up.
    pub(super) fn bounds(&self, typeface: &Typeface) -> Bounds2 {
        let width = typeface.width(&self.text, self.size).as_mm();
        let before = self.side.share() * width;
        let half = HALF_HEIGHT * self.size.as_mm();
        let along = self.reading.direction();
        let up = along.left();
        let first = self.at - along * before - up * half;
        let last = self.at + along * (width - before) + up * half;
        Bounds2::at(first).union(Bounds2::at(last))
    }

    /// Where the line that the first letter stands on begins.
    pub(super) fn start(&self, typeface: &Typeface) -> Point2 {
        let before = self.side.share() * typeface.width(&self.text, self.size).as_mm();
        let along = self.reading.direction();
        self.at - along * before - along.left() * (DROP * self.size.as_mm())
    }
}

impl Side {
    /// How much of the words' width lies before it.
    const fn share(self) -> f64 {
        match self {
            Self::Start => 0.0,
            Self::Middle => 0.5,
            Self::End => 1.0,
        }
    }
}

impl Reading {
    /// From one letter to the next.
    pub(super) const fn direction(self) -> Vector2 {
        match self {
            Self::Across => Vector2::mm(1.0, 0.0),
            Self::Up => Vector2::mm(0.0, 1.0),
        }
    }
}

//! How is a flat part cut, opened, drilled and marked?
//!
//! A drawing lies in its own part frame, +x right and +y up, in millimetres. It says what is done to the blank, not in
//! which order, and knows no file format.

mod cut_line;
mod preflight;

pub use cut_line::{Contour, CutLineFault, cut_line, widest_bit};
pub use preflight::{DrawingFault, Measure, Preflight};

use units::{Angle, Length};

use crate::{Bounds2, Circle, Path, Point2, Segment, Shape, Vector2};

/// A flat drawing made of operations.
#[derive(Clone, Debug, PartialEq)]
pub struct Drawing {
    /// The stem of its file's name: lower-case letters, digits and dashes.
    pub name: String,
    /// What it shows, for people.
    pub title: String,
    /// Where it is measured from.
    pub datum: Datum,
    /// What is done, in no particular order.
    pub operations: Vec<Operation>,
}

/// A point to measure from, and what it is on the part.
#[derive(Clone, Debug, PartialEq)]
pub struct Datum {
    /// Where it is in the drawing.
    pub point: Point2,
    /// What is there, for people.
    pub meaning: String,
}

/// One thing that is done to the blank.
#[derive(Clone, Debug, PartialEq)]
pub enum Operation {
    /// The part is what is inside.
    CutOutside(Shape),
    /// An opening.
    CutInside(Shape),
    /// A recess with a flat bottom.
    Pocket {
        /// What is taken out, seen from above.
        shape: Shape,
        /// How deep, from the face.
        depth: Length,
    },
    /// A round hole.
    Drill {
        /// The hole, seen from above.
        circle: Circle,
        /// How deep, from the face.
        depth: HoleDepth,
    },
    /// One pass of a saw or a bit along a centre line.
    Slot {
        /// The centre line.
        path: Path,
        /// The width of the cut.
        width: Length,
        /// How deep, from the face.
        depth: Length,
    },
    /// A mark on the face.
    Engrave(Path),
    /// Not cut: centre lines, the outlines of mating parts, the datum.
    Guide(Path),
    /// Not cut, and closed.
    GuideShape(Shape),
    /// Not cut, and closed: the outline of what must enter what this drawing cuts, where it then is.
    Mate(Shape),
}

/// How deep a hole goes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum HoleDepth {
    /// Through the part.
    Through,
    /// To a depth from the face.
    To(Length),
}

impl Operation {
    /// Whether it is there for the eye only, and nothing is cut.
    #[must_use]
    pub const fn is_guide(&self) -> bool {
        matches!(self, Self::Guide(_) | Self::GuideShape(_) | Self::Mate(_))
    }

    /// The exact bounds of what is drawn: of a slot, those of its centre line.
    #[must_use]
    pub fn bounds(&self) -> Bounds2 {
        match self {
            Self::CutOutside(shape)
            | Self::CutInside(shape)
            | Self::Pocket { shape, .. }
            | Self::GuideShape(shape)
            | Self::Mate(shape) => shape.bounds(),
            Self::Drill { circle, .. } => circle.bounds(),
            Self::Slot { path, .. } | Self::Engrave(path) | Self::Guide(path) => path.bounds(),
        }
    }

    /// The pieces of what is drawn, end to end: of a slot, those of its centre line.
    #[must_use]
    pub fn segments(&self) -> Vec<Segment> {
        match self {
            Self::CutOutside(shape)
            | Self::CutInside(shape)
            | Self::Pocket { shape, .. }
            | Self::GuideShape(shape)
            | Self::Mate(shape) => shape.segments(),
            Self::Drill { circle, .. } => circle.segments().to_vec(),
            Self::Slot { path, .. } | Self::Engrave(path) | Self::Guide(path) => path.segments().collect(),
        }
    }

    fn mapped(
        &self,
        shape_to: impl Fn(&Shape) -> Shape,
        circle_to: impl Fn(&Circle) -> Circle,
        path_to: impl Fn(&Path) -> Path,
    ) -> Self {
        match self {
            Self::CutOutside(shape) => Self::CutOutside(shape_to(shape)),
            Self::CutInside(shape) => Self::CutInside(shape_to(shape)),
            Self::Pocket { shape, depth } => Self::Pocket { shape: shape_to(shape), depth: *depth },
            Self::Drill { circle, depth } => Self::Drill { circle: circle_to(circle), depth: *depth },
            Self::Slot { path, width, depth } => {
                Self::Slot { path: path_to(path), width: *width, depth: *depth }
            }
            Self::Engrave(path) => Self::Engrave(path_to(path)),
            Self::Guide(path) => Self::Guide(path_to(path)),
            Self::GuideShape(shape) => Self::GuideShape(shape_to(shape)),
            Self::Mate(shape) => Self::Mate(shape_to(shape)),
        }
    }
}

impl Drawing {
    /// The exact bounds of everything drawn, guides too; `None` when nothing is.
    #[must_use]
    pub fn bounds(&self) -> Option<Bounds2> {
        self.operations.iter().map(Operation::bounds).reduce(Bounds2::union)
    }

    /// The exact bounds of everything but guides; `None` when nothing is cut.
    #[must_use]
    pub fn cut_bounds(&self) -> Option<Bounds2> {
        let cut = self.operations.iter().filter(|operation| !operation.is_guide());
        cut.map(Operation::bounds).reduce(Bounds2::union)
    }

    /// The mirror image in the x axis: the part for the other hand.
    #[must_use]
    pub fn mirrored_y(&self) -> Self {
        let change =
            |operation: &Operation| operation.mapped(Shape::mirrored_y, Circle::mirrored_y, Path::mirrored_y);
        self.with(self.datum.point.mirrored_y(), change)
    }

    /// The same drawing elsewhere; the datum moves along.
    #[must_use]
    pub fn translated(&self, by: Vector2) -> Self {
        let change = |operation: &Operation| {
            operation.mapped(
                |shape| shape.translated(by),
                |circle| circle.translated(by),
                |path| path.translated(by),
            )
        };
        self.with(self.datum.point + by, change)
    }

    /// The drawing after a turn about the origin, counter-clockwise; the datum turns along.
    #[must_use]
    pub fn rotated(&self, angle: Angle) -> Self {
        let change = |operation: &Operation| {
            operation.mapped(
                |shape| shape.rotated(angle),
                |circle| circle.rotated(angle),
                |path| path.rotated(angle),
            )
        };
        self.with(self.datum.point.rotated_about(Point2::ORIGIN, angle), change)
    }

    /// The same drawing with the lower left of everything but guides at (0, 0); one with guides only goes by these.
    #[must_use]
    pub fn at_origin(&self) -> Self {
        match self.cut_bounds().or_else(|| self.bounds()) {
            Some(bounds) => self.translated(Point2::ORIGIN - bounds.min),
            None => self.clone(),
        }
    }

    fn with(&self, datum: Point2, change: impl Fn(&Operation) -> Operation) -> Self {
        Self {
            name: self.name.clone(),
            title: self.title.clone(),
            datum: Datum { point: datum, meaning: self.datum.meaning.clone() },
            operations: self.operations.iter().map(change).collect(),
        }
    }
}

//! What has an inside?

use units::{Angle, Length};

use crate::{Bounds2, Circle, Outline, Point2, Segment, Vector2};

/// Something with an inside. A full circle is kept as one, so that a file can say so.
#[derive(Clone, Debug, PartialEq)]
pub enum Shape {
    /// A closed loop of lines and arcs.
    Outline(Outline),
    /// A full circle.
    Circle(Circle),
}

impl Shape {
    /// Square millimetres inside; never negative.
    #[must_use]
    pub fn area(&self) -> f64 {
        match self {
            Self::Outline(outline) => outline.signed_area().abs(),
            Self::Circle(circle) => circle.area(),
        }
    }

    /// The way round.
    #[must_use]
    pub fn perimeter(&self) -> Length {
        match self {
            Self::Outline(outline) => outline.perimeter(),
            Self::Circle(circle) => circle.perimeter(),
        }
    }

    /// The exact bounds.
    #[must_use]
    pub fn bounds(&self) -> Bounds2 {
        match self {
            Self::Outline(outline) => outline.bounds(),
            Self::Circle(circle) => circle.bounds(),
        }
    }

    /// Whether a point is inside; within rounding of the edge either answer may come.
    #[must_use]
    pub fn contains(&self, point: Point2) -> bool {
        match self {
            Self::Outline(outline) => outline.contains(point),
            Self::Circle(circle) => circle.contains(point),
        }
    }

    /// The pieces of the edge, end to end; a circle as two halves.
    #[must_use]
    pub fn segments(&self) -> Vec<Segment> {
        match self {
            Self::Outline(outline) => outline.segments().collect(),
            Self::Circle(circle) => circle.segments().to_vec(),
        }
    }

    /// The mirror image in the x axis.
    #[must_use]
    pub fn mirrored_y(&self) -> Self {
        match self {
            Self::Outline(outline) => Self::Outline(outline.mirrored_y()),
            Self::Circle(circle) => Self::Circle(circle.mirrored_y()),
        }
    }

    /// The same shape elsewhere.
    #[must_use]
    pub fn translated(&self, by: Vector2) -> Self {
        match self {
            Self::Outline(outline) => Self::Outline(outline.translated(by)),
            Self::Circle(circle) => Self::Circle(circle.translated(by)),
        }
    }

    /// The shape after a turn about the origin, counter-clockwise.
    #[must_use]
    pub fn rotated(&self, angle: Angle) -> Self {
        match self {
            Self::Outline(outline) => Self::Outline(outline.rotated(angle)),
            Self::Circle(circle) => Self::Circle(circle.rotated(angle)),
        }
    }
}

impl From<Outline> for Shape {
    fn from(outline: Outline) -> Self {
        Self::Outline(outline)
    }
}

impl From<Circle> for Shape {
    fn from(circle: Circle) -> Self {
        Self::Circle(circle)
    }
}

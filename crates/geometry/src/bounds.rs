//! How much room does a thing take up, measured along the axes?

use units::Length;

use crate::{Point2, Point3, Vector2};

/// The smallest box along the axes that holds a plane thing, in millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bounds2 {
    /// The lower left corner.
    pub min: Point2,
    /// The upper right corner.
    pub max: Point2,
}

/// The smallest box along the axes that holds a thing in space, in millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bounds3 {
    /// The corner with the smallest coordinates.
    pub min: Point3,
    /// The corner with the largest coordinates.
    pub max: Point3,
}

impl Bounds2 {
    /// The bounds of one point.
    #[must_use]
    pub const fn at(point: Point2) -> Self {
        Self { min: point, max: point }
    }

    /// The bounds of points; `None` of none.
    #[must_use]
    pub fn of_points(points: impl IntoIterator<Item = Point2>) -> Option<Self> {
        points.into_iter().map(Self::at).reduce(Self::union)
    }

    /// The bounds of both.
    #[must_use]
    pub fn union(self, other: Self) -> Self {
        Self {
            min: Point2::mm(self.min.x.min(other.min.x), self.min.y.min(other.min.y)),
            max: Point2::mm(self.max.x.max(other.max.x), self.max.y.max(other.max.y)),
        }
    }

    /// The bounds with a margin added on each of the four sides.
    #[must_use]
    pub fn grown(self, margin: Length) -> Self {
        let step = Vector2::new(margin, margin);
        Self { min: self.min - step, max: self.max + step }
    }

    /// The same room elsewhere.
    #[must_use]
    pub fn translated(self, by: Vector2) -> Self {
        Self { min: self.min + by, max: self.max + by }
    }

    /// Extent along x.
    #[must_use]
    pub fn width(self) -> Length {
        Length::mm(self.max.x - self.min.x)
    }

    /// Extent along y.
    #[must_use]
    pub fn height(self) -> Length {
        Length::mm(self.max.y - self.min.y)
    }

    /// The point in the middle.
    #[must_use]
    pub fn center(self) -> Point2 {
        self.min.lerp(self.max, 0.5)
    }

    /// Whether a point lies in the box or on its edge.
    #[must_use]
    pub fn contains(self, point: Point2) -> bool {
        (self.min.x..=self.max.x).contains(&point.x) && (self.min.y..=self.max.y).contains(&point.y)
    }

    /// Whether another box lies in this one, edges included.
    #[must_use]
    pub fn contains_bounds(self, other: Self) -> bool {
        self.contains(other.min) && self.contains(other.max)
    }

    /// Whether the two boxes have a point in common, edges included.
    #[must_use]
    pub fn overlaps(self, other: Self) -> bool {
        self.min.x <= other.max.x
            && other.min.x <= self.max.x
            && self.min.y <= other.max.y
            && other.min.y <= self.max.y
    }
}

impl Bounds3 {
    /// The bounds of one point.
    #[must_use]
    pub const fn at(point: Point3) -> Self {
        Self { min: point, max: point }
    }

    /// The bounds of points; `None` of none.
    #[must_use]
    pub fn of_points(points: impl IntoIterator<Item = Point3>) -> Option<Self> {
        points.into_iter().map(Self::at).reduce(Self::union)
    }

    /// The bounds of both.
    #[must_use]
    pub fn union(self, other: Self) -> Self {
        let (a, b) = (self, other);
        Self {
            min: Point3::mm(a.min.x.min(b.min.x), a.min.y.min(b.min.y), a.min.z.min(b.min.z)),
            max: Point3::mm(a.max.x.max(b.max.x), a.max.y.max(b.max.y), a.max.z.max(b.max.z)),
        }
    }

    /// Extent along x.
    #[must_use]
    pub fn width(self) -> Length {
        Length::mm(self.max.x - self.min.x)
    }

    /// Extent along y.
    #[must_use]
    pub fn height(self) -> Length {
        Length::mm(self.max.y - self.min.y)
    }

    /// Extent along z.
    #[must_use]
    pub fn depth(self) -> Length {
        Length::mm(self.max.z - self.min.z)
    }

    /// The point in the middle.
    #[must_use]
    pub fn center(self) -> Point3 {
        self.min.lerp(self.max, 0.5)
    }
}

//! Where is a thing, and which way and how far is another from it?
//!
//! Coordinates are millimetres. The point is the newtype: a bare coordinate never crosses a signature on its own, a
//! single length does so as [`Length`]. A difference of points is a vector; points cannot be added.

use units::{Angle, Length, WeldDistance, math};

/// How near two computed points are to be one point, in every outline, path and body of this crate.
///
/// Larger swallows real detail; smaller leaves cracks where two computations of one point differ by rounding, which
/// for coordinates up to a metre is about 1e-12 mm, and 1e-9 mm after a chain of tangencies.
pub const WELD: WeldDistance = WeldDistance::new(Length::mm(1e-6));

/// A point of a plane, in millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Point2 {
    /// Along the first axis, to the right.
    pub x: f64,
    /// Along the second axis, up.
    pub y: f64,
}

/// A displacement in a plane, in millimetres, or a direction.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Vector2 {
    /// Along the first axis, to the right.
    pub x: f64,
    /// Along the second axis, up.
    pub y: f64,
}

/// A point in space, in millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Point3 {
    /// Along the first axis.
    pub x: f64,
    /// Along the second axis.
    pub y: f64,
    /// Along the third axis.
    pub z: f64,
}

/// A displacement in space, in millimetres, or a direction.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Vector3 {
    /// Along the first axis.
    pub x: f64,
    /// Along the second axis.
    pub y: f64,
    /// Along the third axis.
    pub z: f64,
}

impl Point2 {
    /// The point (0, 0).
    pub const ORIGIN: Self = Self::mm(0.0, 0.0);

    /// From two lengths.
    #[must_use]
    pub const fn new(x: Length, y: Length) -> Self {
        Self::mm(x.as_mm(), y.as_mm())
    }

    /// From numbers of millimetres.
    #[must_use]
    pub const fn mm(x: f64, y: f64) -> Self {
        Self { x, y }
    }

    /// The vector from the origin to here.
    #[must_use]
    pub const fn to_vector(self) -> Vector2 {
        Vector2::mm(self.x, self.y)
    }

    /// Millimetres from here to another point.
    #[must_use]
    pub fn distance(self, other: Self) -> f64 {
        (other - self).length()
    }

    /// The point at `share` of the way to another: 0 is here, 1 is there.
    #[must_use]
    pub fn lerp(self, other: Self, share: f64) -> Self {
        self + (other - self) * share
    }

    /// The point after a turn about `center`, counter-clockwise.
    #[must_use]
    pub fn rotated_about(self, center: Self, angle: Angle) -> Self {
        center + (self - center).rotated(angle)
    }

    /// The mirror image in the x axis: y becomes -y.
    #[must_use]
    pub fn mirrored_y(self) -> Self {
        Self::mm(self.x, -self.y)
    }

    /// Whether both coordinates are finite.
    #[must_use]
    pub const fn is_finite(self) -> bool {
        self.x.is_finite() && self.y.is_finite()
    }
}

impl Vector2 {
    /// The vector (0, 0).
    pub const ZERO: Self = Self::mm(0.0, 0.0);

    /// From two lengths.
    #[must_use]
    pub const fn new(x: Length, y: Length) -> Self {
        Self::mm(x.as_mm(), y.as_mm())
    }

    /// From numbers of millimetres.
    #[must_use]
    pub const fn mm(x: f64, y: f64) -> Self {
        Self { x, y }
    }

    /// The direction at an angle from +x, counter-clockwise; of length 1.
    #[must_use]
    pub fn at_angle(angle: Angle) -> Self {
        Self::mm(angle.cos(), angle.sin())
    }

    /// The dot product.
    #[must_use]
    pub const fn dot(self, other: Self) -> f64 {
        self.x * other.x + self.y * other.y
    }

    /// The cross product: positive when the other direction lies to the left.
    #[must_use]
    pub const fn cross(self, other: Self) -> f64 {
        self.x * other.y - self.y * other.x
    }

    /// Millimetres from end to end.
    #[must_use]
    pub fn length(self) -> f64 {
        self.dot(self).sqrt()
    }

    /// The direction, of length 1; `None` for a vector of no length.
    #[must_use]
    pub fn normalised(self) -> Option<Self> {
        let length = self.length();
        (length > 0.0 && length.is_finite()).then(|| self * (1.0 / length))
    }

    /// A quarter turn counter-clockwise.
    #[must_use]
    pub const fn left(self) -> Self {
        Self::mm(-self.y, self.x)
    }

    /// The vector turned counter-clockwise.
    #[must_use]
    pub fn rotated(self, angle: Angle) -> Self {
        let (sin, cos) = (angle.sin(), angle.cos());
        Self::mm(self.x * cos - self.y * sin, self.x * sin + self.y * cos)
    }

    /// The angle from +x, counter-clockwise, above -180 degrees and up to 180.
    #[must_use]
    pub fn angle(self) -> Angle {
        Angle::radians(math::atan2(self.y, self.x))
    }

    /// The angle to turn by, from this direction to another: counter-clockwise positive, up to 180 degrees.
    #[must_use]
    pub fn angle_to(self, other: Self) -> Angle {
        Angle::radians(math::atan2(self.cross(other), self.dot(other)))
    }
}

impl Point3 {
    /// The point (0, 0, 0).
    pub const ORIGIN: Self = Self::mm(0.0, 0.0, 0.0);

    /// From three lengths.
    #[must_use]
    pub const fn new(x: Length, y: Length, z: Length) -> Self {
        Self::mm(x.as_mm(), y.as_mm(), z.as_mm())
    }

    /// From numbers of millimetres.
    #[must_use]
    pub const fn mm(x: f64, y: f64, z: f64) -> Self {
        Self { x, y, z }
    }

    /// The vector from the origin to here.
    #[must_use]
    pub const fn to_vector(self) -> Vector3 {
        Vector3::mm(self.x, self.y, self.z)
    }

    /// Millimetres from here to another point.
    #[must_use]
    pub fn distance(self, other: Self) -> f64 {
        (other - self).length()
    }

    /// The point at `share` of the way to another: 0 is here, 1 is there.
    #[must_use]
    pub fn lerp(self, other: Self, share: f64) -> Self {
        self + (other - self) * share
    }

    /// Whether all coordinates are finite.
    #[must_use]
    pub const fn is_finite(self) -> bool {
        self.x.is_finite() && self.y.is_finite() && self.z.is_finite()
    }
}

impl Vector3 {
    /// The vector (0, 0, 0).
    pub const ZERO: Self = Self::mm(0.0, 0.0, 0.0);
    /// The direction of the first axis.
    pub const X: Self = Self::mm(1.0, 0.0, 0.0);
    /// The direction of the second axis.
    pub const Y: Self = Self::mm(0.0, 1.0, 0.0);
    /// The direction of the third axis.
    pub const Z: Self = Self::mm(0.0, 0.0, 1.0);

    /// From three lengths.
    #[must_use]
    pub const fn new(x: Length, y: Length, z: Length) -> Self {
        Self::mm(x.as_mm(), y.as_mm(), z.as_mm())
    }

    /// From numbers of millimetres.
    #[must_use]
    pub const fn mm(x: f64, y: f64, z: f64) -> Self {
        Self { x, y, z }
    }

    /// The dot product.
    #[must_use]
    pub const fn dot(self, other: Self) -> f64 {
        self.x * other.x + self.y * other.y + self.z * other.z
    }

    /// The cross product, by the right hand.
    #[must_use]
    pub const fn cross(self, other: Self) -> Self {
        Self::mm(
            self.y * other.z - self.z * other.y,
            self.z * other.x - self.x * other.z,
            self.x * other.y - self.y * other.x,
        )
    }

    /// Millimetres from end to end.
    #[must_use]
    pub fn length(self) -> f64 {
        self.dot(self).sqrt()
    }

    /// The direction, of length 1; `None` for a vector of no length.
    #[must_use]
    pub fn normalised(self) -> Option<Self> {
        let length = self.length();
        (length > 0.0 && length.is_finite()).then(|| self * (1.0 / length))
    }
}

/// Implements the arithmetic of a point and its vector over the same coordinates.
macro_rules! arithmetic {
    ($point:ident, $vector:ident, $($axis:ident),+) => {
        impl std::ops::Sub for $point {
            type Output = $vector;
            fn sub(self, other: Self) -> $vector {
                $vector { $($axis: self.$axis - other.$axis),+ }
            }
        }
        impl std::ops::Add<$vector> for $point {
            type Output = Self;
            fn add(self, vector: $vector) -> Self {
                Self { $($axis: self.$axis + vector.$axis),+ }
            }
        }
        impl std::ops::Sub<$vector> for $point {
            type Output = Self;
            fn sub(self, vector: $vector) -> Self {
                Self { $($axis: self.$axis - vector.$axis),+ }
            }
        }
        impl std::ops::Add for $vector {
            type Output = Self;
            fn add(self, other: Self) -> Self {
                Self { $($axis: self.$axis + other.$axis),+ }
            }
        }
        impl std::ops::Sub for $vector {
            type Output = Self;
            fn sub(self, other: Self) -> Self {
                Self { $($axis: self.$axis - other.$axis),+ }
            }
        }
        impl std::ops::Neg for $vector {
            type Output = Self;
            fn neg(self) -> Self {
                Self { $($axis: -self.$axis),+ }
            }
        }
        impl std::ops::Mul<f64> for $vector {
            type Output = Self;
            fn mul(self, factor: f64) -> Self {
                Self { $($axis: self.$axis * factor),+ }
            }
        }
    };
}

arithmetic!(Point2, Vector2, x, y);
arithmetic!(Point3, Vector3, x, y, z);

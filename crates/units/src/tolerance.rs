//! How far may an approximation deviate, and how near is equal?
//!
//! The two are often confused; they are two types, so that neither stands in for the other.

use crate::Length;

/// How far a polyline may deviate from the curve that it stands for.
///
/// Larger makes visible facets and undersized holes; smaller makes large files that say no more.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct ChordTolerance(Length);

/// How near two points are to be one point.
///
/// Larger swallows real detail; smaller leaves cracks where two computations of one point differ by rounding.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct WeldDistance(Length);

impl ChordTolerance {
    /// A tolerance; one that is not positive is a bug of ours and panics.
    #[must_use]
    pub const fn new(deviation: Length) -> Self {
        assert!(deviation.as_mm() > 0.0, "a chord tolerance is positive");
        Self(deviation)
    }

    /// The largest deviation.
    #[must_use]
    pub const fn deviation(self) -> Length {
        self.0
    }
}

impl WeldDistance {
    /// A distance; one that is not positive is a bug of ours and panics.
    #[must_use]
    pub const fn new(distance: Length) -> Self {
        assert!(distance.as_mm() > 0.0, "a weld distance is positive");
        Self(distance)
    }

    /// The largest distance between two points that are one.
    #[must_use]
    pub const fn distance(self) -> Length {
        self.0
    }
}

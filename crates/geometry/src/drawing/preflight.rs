//! What would make a cutting program, or the machine behind it, stumble over a drawing?
//!
//! Contours are closed and free of self-crossings by construction; what is left to check is checked here, one file a
//! question, before any format is written. Every fault is reported, not the first alone.

mod drawn_twice;
mod inside;
mod meeting;
mod sound;

use units::Length;

use super::{Drawing, Operation};
use crate::{Bounds2, Point2, Segment};

/// The limits of the check.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Preflight {
    /// The shortest segment that may be drawn; 0.05 mm unless told otherwise. Larger refuses fine detail; smaller
    /// lets through slivers at which machines stutter. Common practice of shop guides.
    pub shortest_segment: Length,
    /// How near two lines are drawn twice; 0.01 mm unless told otherwise. Larger takes neighbours for one line;
    /// smaller lets a line be cut twice. Common practice of shop guides.
    pub coincidence: Length,
    /// How far beyond the part's bounds the centre line of a slot may go, so that the saw or the bit leaves the edge
    /// clean; 2 mm unless told otherwise. Common practice, no source.
    pub run_out: Length,
}

impl Default for Preflight {
    fn default() -> Self {
        Self { shortest_segment: Length::mm(0.05), coincidence: Length::mm(0.01), run_out: Length::mm(2.0) }
    }
}

/// What a number of an operation measures.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Measure {
    /// Of a circle.
    Radius,
    /// Of a pocket, a hole or a slot.
    Depth,
    /// Of a slot.
    Width,
}

/// What is wrong with a drawing. Operations are numbered from 0, in the drawing's order; places are the drawing's.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum DrawingFault {
    /// The name would make no file's stem.
    #[error("the drawing's name must be lower-case letters, digits and dashes, found \"{name}\"")]
    BadName {
        /// The name.
        name: String,
    },
    /// The datum is not a place.
    #[error("the drawing's datum must have finite coordinates")]
    DatumNotFinite,
    /// The datum lies so far out that rounding shows.
    #[error("the drawing's datum must lie within {} mm of the origin", reach.as_mm())]
    DatumOutOfReach {
        /// How large a coordinate may be.
        reach: Length,
    },
    /// A circle's centre is not a place.
    #[error("operation {operation} must have finite coordinates")]
    NotFinite {
        /// Which operation.
        operation: usize,
    },
    /// A circle lies so far out, or is so large, that rounding shows.
    #[error("the circle of operation {operation} must lie within {} mm of the origin", reach.as_mm())]
    OutOfReach {
        /// Which operation.
        operation: usize,
        /// How large a coordinate, or a radius, may be.
        reach: Length,
    },
    /// A size is zero, to within [`WELD`](crate::WELD), or negative.
    #[error("the {} of operation {operation} must be above 0 mm, found {} mm", measure.word(), found.as_mm())]
    NotPositive {
        /// Which operation.
        operation: usize,
        /// Which of its sizes.
        measure: Measure,
        /// Its value.
        found: Length,
    },
    /// A segment is shorter than machines take well.
    #[error("the segment of operation {operation} at ({}, {}) mm must be at least {} mm long, found {} mm",
        at.x, at.y, least.as_mm(), found.as_mm())]
    ShortSegment {
        /// Which operation.
        operation: usize,
        /// Where the segment begins.
        at: Point2,
        /// Its length.
        found: Length,
        /// The shortest that may be.
        least: Length,
    },
    /// A slot's or an engraving's line crosses or touches itself.
    #[error("the line of operation {operation} meets itself at ({}, {}) mm", at.x, at.y)]
    CrossesItself {
        /// Which operation.
        operation: usize,
        /// Where.
        at: Point2,
    },
    /// Two contours that part the material cross or touch.
    #[error("the contours of operations {first} and {second} meet at ({}, {}) mm", at.x, at.y)]
    ContoursMeet {
        /// The earlier operation.
        first: usize,
        /// The later operation.
        second: usize,
        /// Where they meet first, from the left.
        at: Point2,
    },
    /// A line is cut twice.
    #[error("operations {first} and {second} draw one line from ({}, {}) to ({}, {}) mm", from.x, from.y, to.x, to.y)]
    DrawnTwice {
        /// The earlier operation.
        first: usize,
        /// The later operation.
        second: usize,
        /// Where the shared stretch begins, on the first.
        from: Point2,
        /// Where the shared stretch ends, on the first.
        to: Point2,
    },
    /// An opening, a pocket or a hole lies, or reaches, outside every part.
    #[error("operation {operation} must lie inside the part, found it outside at ({}, {}) mm", at.x, at.y)]
    OutsidePart {
        /// Which operation.
        operation: usize,
        /// A point of it that is outside.
        at: Point2,
    },
    /// One part's outside lies inside another's.
    #[error("the part cut by operation {inner} lies inside the part cut by operation {outer}")]
    PartInsidePart {
        /// The operation that cuts the inner part.
        inner: usize,
        /// The operation that cuts the outer part.
        outer: usize,
    },
    /// A slot misses every part, or goes on too far beyond its edge.
    #[error("the slot of operation {operation} must cut the part and end at most {} mm beyond its bounds, \
        found it from ({}, {}) to ({}, {}) mm", run_out.as_mm(),
        bounds.min.x, bounds.min.y, bounds.max.x, bounds.max.y)]
    SlotAstray {
        /// Which operation.
        operation: usize,
        /// The bounds of its centre line.
        bounds: Bounds2,
        /// How far it may go beyond the part's bounds.
        run_out: Length,
    },
}

impl Measure {
    /// What people call it.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Radius => "radius",
            Self::Depth => "depth",
            Self::Width => "width",
        }
    }
}

impl Drawing {
    /// Everything that would make a machine stumble; empty for a drawing that may be written.
    ///
    /// - Sizes are above zero, places within reach, no segment is shorter than [`Preflight::shortest_segment`].
    /// - No slot or engraving crosses itself (guides may), and no two contours that part the material meet: outsides
    ///   and openings with one another, drilled holes with outsides.
    /// - Nothing is drawn twice: no two operations of any kinds are one line within [`Preflight::coincidence`], and no
    ///   two of one kind and depth share a stretch.
    /// - Openings and drilled holes lie inside a part, pockets too or up to its edge, and no part inside another.
    /// - The centre line of a slot touches a part and stays within its bounds grown by [`Preflight::run_out`].
    ///
    /// A drawing without an outside has no part to compare with, so the last two hold for it. Engravings and guides may
    /// lie anywhere. Faults of sizes and places are told alone, for nothing can be compared with what has none.
    ///
    /// ```
    /// use boxneck_geometry::{Circle, Datum, Drawing, HoleDepth, Operation, Outline, Point2, Preflight};
    /// use units::Length;
    ///
    /// let plate = Outline::rectangle(Point2::ORIGIN, Point2::mm(40.0, 20.0))?;
    /// let circle = Circle::of_diameter(Point2::mm(50.0, 10.0), Length::mm(8.0));
    /// let drawing = Drawing {
    ///     name: "plate".to_owned(),
    ///     title: "Plate".to_owned(),
    ///     datum: Datum { point: Point2::ORIGIN, meaning: "lower left corner".to_owned() },
    ///     operations: vec![
    ///         Operation::CutOutside(plate.into()),
    ///         Operation::Drill { circle, depth: HoleDepth::Through },
    ///     ],
    /// };
    /// let faults = drawing.faults(&Preflight::default());
    /// assert_eq!(
    ///     faults[0].to_string(),
    ///     "operation 1 must lie inside the part, found it outside at (50, 14) mm",
    ///     "the hole misses the plate"
    /// );
    /// # Ok::<(), boxneck_geometry::OutlineFault>(())
    /// ```
    #[must_use]
    pub fn faults(&self, preflight: &Preflight) -> Vec<DrawingFault> {
        let mut faults: Vec<DrawingFault> = sound::faults(self).collect();
        if !faults.is_empty() {
            return faults;
        }
        let drawn: Vec<Drawn> = self.operations.iter().enumerate().map(Drawn::new).collect();
        faults.extend(sound::short_segments(&drawn, preflight));
        faults.extend(meeting::lines_that_cross_themselves(&drawn));
        let twice = drawn_twice::faults(&drawn, preflight);
        let meet = meeting::contours_that_meet(&drawn, &twice);
        let outside = inside::faults(&drawn, &meet, preflight);
        faults.extend(meet);
        faults.extend(twice);
        faults.extend(outside);
        faults
    }
}

/// An operation with what the checks ask of it again and again.
struct Drawn<'a> {
    number: usize,
    operation: &'a Operation,
    segments: Vec<Segment>,
    bounds: Bounds2,
}

impl<'a> Drawn<'a> {
    fn new((number, operation): (usize, &'a Operation)) -> Self {
        Self { number, operation, segments: operation.segments(), bounds: operation.bounds() }
    }
}

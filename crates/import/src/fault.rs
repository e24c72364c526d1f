//! What can be wrong with a drawn outline?

use std::fmt;

use geometry::OutlineFault;

use crate::{FILE_BYTES, JOIN, LARGEST, SEGMENTS};

/// A place in the drawing, in the drawing's own numbers.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spot {
    /// To the right.
    pub x: f64,
    /// Up.
    pub y: f64,
}

/// To a thousandth, as drawing programs show it.
impl fmt::Display for Spot {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        // Adding zero makes a negative zero plain.
        let [x, y] = [self.x, self.y].map(|number| (number * 1e3).round() / 1e3 + 0.0);
        write!(formatter, "({x}, {y})")
    }
}

/// Why a file gives no outline. Lines of the file count from 1.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum ImportFault {
    /// The file is larger than an outline can be.
    #[error("expected at most {FILE_BYTES} bytes, found {found}")]
    TooLarge {
        /// Its size in bytes.
        found: usize,
    },
    /// The file is not text.
    #[error("expected a DXF file of text, found a binary file")]
    Binary,
    /// The text is not DXF.
    #[error("line {line}: expected a DXF file, found {found}")]
    NotDxf {
        /// Where it ceases to be one.
        line: usize,
        /// What stands there.
        found: String,
    },
    /// A number that cannot be read, or is larger than any drawing's.
    #[error("line {line}: expected a number of at most {LARGEST:e}, found {found}")]
    Number {
        /// Where it stands.
        line: usize,
        /// What stands there.
        found: String,
    },
    /// The file does not say what its numbers are of.
    #[error("expected a drawing that states its unit, found none")]
    NoUnit,
    /// The file states a unit that nobody builds in.
    #[error("expected millimetres, centimetres, metres, inches or feet, found unit number {number}")]
    UnknownUnit {
        /// The number by which the file names it.
        number: i64,
    },
    /// More is drawn than an outline needs.
    #[error("expected at most {SEGMENTS} lines and arcs, found more")]
    TooMany,
    /// Something is drawn that is no line, arc, circle or polyline.
    #[error("line {line}: expected lines, arcs, circles and polylines only, found {}", .kind)]
    Unsupported {
        /// What the file calls it.
        kind: String,
        /// Where it begins.
        line: usize,
    },
    /// Something does not lie flat.
    #[error("line {line}: expected everything to lie flat, found a {kind} that leaves the plane")]
    NotFlat {
        /// What the file calls it.
        kind: String,
        /// Where it begins.
        line: usize,
    },
    /// A size or a place is left out.
    #[error("line {line}: expected a whole {kind}, found one without its group {group}")]
    Incomplete {
        /// What the file calls it.
        kind: String,
        /// Where it begins.
        line: usize,
        /// The number of the group that is missing.
        group: i32,
    },
    /// Nothing is drawn.
    #[error("expected a closed loop, found an empty drawing")]
    Empty,
    /// The loop is not closed.
    #[error(
        "expected a closed loop, found an open end at {at}, {size:.3} mm from the nearest other one at {other}"
    )]
    Gap {
        /// The end.
        at: Spot,
        /// The nearest other open end.
        other: Spot,
        /// How far apart they are, in millimetres.
        size: f64,
    },
    /// More than two pieces end in one place.
    #[error("expected two ends to meet in each place, found {ends} at {at}")]
    Branch {
        /// Where.
        at: Spot,
        /// How many end there.
        ends: usize,
    },
    /// There is more than one loop.
    #[error("expected one closed loop, found {count}, the second at {second}")]
    SeveralLoops {
        /// How many there are.
        count: usize,
        /// The leftmost point of one that is not the first.
        second: Spot,
    },
    /// The loop crosses itself.
    #[error("expected a loop that does not cross itself, found a crossing at {at}")]
    Crossing {
        /// Where.
        at: Spot,
    },
    /// The loop encloses nothing, or is too large or too fine to work with.
    #[error("expected an outline that can be cut: {0}")]
    Outline(OutlineFault),
}

impl ImportFault {
    /// What to do about it, as an instruction.
    #[must_use]
    pub fn advice(&self) -> String {
        match self {
            Self::TooLarge { .. } | Self::TooMany => "keep the outline alone, with fewer pieces".into(),
            Self::Binary | Self::NotDxf { .. } => "save the drawing as a DXF file of text".into(),
            Self::Number { .. } | Self::Incomplete { .. } => "save the drawing once more".into(),
            Self::NoUnit => "write the unit that it was drawn in, or save the drawing with its unit".into(),
            Self::UnknownUnit { .. } => "write the unit that it was drawn in".into(),
            Self::Unsupported { kind, .. } => match kind.as_str() {
                "SPLINE" | "ELLIPSE" => "turn the curve into arcs or a polyline before saving".into(),
                "INSERT" => "break the block up into its lines before saving".into(),
                "POLYLINE" => "turn the smoothed or three-dimensional polyline into a plain one".into(),
                _ => "keep the outline alone: words, dimensions, points and fills go into another drawing"
                    .into(),
            },
            Self::NotFlat { .. } => "draw the outline in the plane of x and y".into(),
            Self::Empty => "draw the outline in model space, on the drawing itself and not in a block".into(),
            Self::Gap { .. } => {
                format!("join the two ends: what is within {} mm is joined as it is", JOIN.distance().as_mm())
            }
            Self::Branch { .. } => "remove what is drawn twice, and what runs into the outline".into(),
            Self::SeveralLoops { .. } => "keep one loop: every opening has a file of its own".into(),
            Self::Crossing { .. } => "trim the lines where they cross".into(),
            Self::Outline(_) => "look at the outline's size and at pieces that lie on each other".into(),
        }
    }
}

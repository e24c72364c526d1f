//! Which outline does a file hold that somebody drew elsewhere?
//!
//! [`outline`] reads a text DXF file: its lines, arcs, circles and polylines must join into one closed loop. What else is
//! drawn, gaps, crossings and files without a unit are refused by name and place. Nothing here knows what the outline is of.
//!
//! ```
//! use units::LengthUnit;
//!
//! let dxf = "0\nSECTION\n2\nENTITIES\n0\nCIRCLE\n10\n1\n20\n0\n40\n0.5\n0\nENDSEC\n0\nEOF\n";
//! let disc = import::outline(dxf.as_bytes(), Some(LengthUnit::Inch))?;
//! assert!((disc.bounds().width().as_mm() - 25.4).abs() < 1e-9, "an inch across");
//! assert_eq!(import::outline(dxf.as_bytes(), None), Err(import::ImportFault::NoUnit), "it does not say inches of what");
//! # Ok::<(), import::ImportFault>(())
//! ```

mod dxf;
mod fault;
mod joining;
mod tags;
mod unit;

use geometry::Outline;
use units::{Length, LengthUnit, WeldDistance};

pub use fault::{ImportFault, Spot};

/// The largest file that is looked at. A drawn outline has a few thousand bytes; larger lets a stranger's file take time.
pub const FILE_BYTES: usize = 1024 * 1024;

/// How many lines and arcs an outline may have. More makes the search for crossings slow; fewer would refuse traced curves.
pub const SEGMENTS: usize = 2000;

/// The largest number that a drawing may hold, in its own unit. Larger runs out of what numbers can be squared; smaller would
/// refuse drawings that lie far from their origin.
pub const LARGEST: f64 = 1e9;

/// How near two ends are that are joined. Larger joins what was not meant to be; smaller refuses what drawing programs
/// round. Common practice, no source.
pub const JOIN: WeldDistance = WeldDistance::new(Length::mm(0.05));

/// The one closed loop of a DXF file.
///
/// - **Units**: millimetres; read from the file's own unit, or from `unit`, which goes before it.
/// - **Frame**: as drawn, x to the right and y up; only what lies flat is read.
/// - **Shape**: counter-clockwise from its leftmost (of several the lowest) vertex, whatever the order and sense of the
///   pieces in the file; pieces that continue each other are one segment.
/// - **Accuracy**: ends within [`JOIN`] of each other become the point half-way between them.
/// - **Errors**: every [`ImportFault`]; the first found.
pub fn outline(bytes: &[u8], unit: Option<LengthUnit>) -> Result<Outline, ImportFault> {
    if bytes.len() > FILE_BYTES {
        return Err(ImportFault::TooLarge { found: bytes.len() });
    }
    let drawing = dxf::read(bytes)?;
    let scale = unit::millimetres(drawing.unit, unit)?;
    joining::join(&drawing.segments(scale)?, scale)
}

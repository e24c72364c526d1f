//! How do drawings, bodies and tables become files?
//!
//! One module per format, one line per format in [`Format`]. Plain data goes in, bytes come out: the same input gives
//! the same bytes on every machine, and nothing here opens a file or reads a clock. Every writer refuses what it
//! cannot write truly with an [`ExportFault`]; none mends in silence.
//!
//! Nothing here knows what the shapes are of.

mod fault;
mod format;
mod layers;
mod lettering;
mod markup;
mod number;
mod paper;
mod plan;
mod printable;
mod room;

pub mod chart;
pub mod dxf;
pub mod gltf;
pub mod page;
pub mod pdf;
pub mod scene;
pub mod step;
pub mod stl;
pub mod svg;
pub mod table;
pub mod threemf;
pub mod viewer;

pub use fault::ExportFault;
pub use format::{Format, Subject};
pub use layers::{Colour, Layer, Micrometres};

//! What shape is a thing, in the plane and in space, and how is it made?
//!
//! Points, line-and-arc outlines, flat drawings made of operations, and bodies described once and read twice.
//! Coordinates are millimetres; nothing here knows what the shapes are of.

mod bounds;
mod circle;
mod drawing;
mod outline;
mod path;
mod point;
mod segment;
mod shape;

pub use bounds::{Bounds2, Bounds3};
pub use circle::Circle;
pub use drawing::{Datum, Drawing, HoleDepth, Operation};
pub use outline::{Outline, OutlineFault, Vertex};
pub use path::Path;
pub use point::{Point2, Point3, Vector2, Vector3, WELD};
pub use segment::Segment;
pub use shape::Shape;

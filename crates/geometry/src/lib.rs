//! What shape is a thing, in the plane and in space, and how is it made?
//!
//! Points, line-and-arc outlines, flat drawings made of operations, and bodies described once and read twice.
//! Coordinates are millimetres; nothing here knows what the shapes are of.

mod body;
mod bounds;
mod circle;
mod corner;
mod cutting;
mod drawing;
mod frame;
mod least_cost;
mod meeting;
mod mesh;
mod offset;
mod outline;
mod packing;
mod path;
mod point;
mod reach;
mod relief;
mod rod;
mod segment;
mod shape;

pub use body::{
    Body, BodyFault, Bore, BoreStep, Curve3, Edge, EdgeUse, Face, FaceLoop, Loft, Plate, Recess, Section,
    Skin, Strip, Surface,
};
pub use bounds::{Bounds2, Bounds3};
pub use circle::Circle;
pub use corner::Corner;
pub use cutting::{Bar, CutBar, CuttingPlan, Saw, cut_bars};
pub use drawing::{
    Contour, CutLineFault, Datum, Drawing, DrawingFault, HoleDepth, Measure, Operation, Preflight, cut_line,
    widest_bit,
};
pub use frame::{Frame3, Rigid3};
pub use meeting::{gap, meetings, nearest_points};
pub use mesh::{Mesh, MeshFault};
pub use offset::offset;
pub use outline::{Outline, OutlineFault, Vertex};
pub use packing::{Packed, Packing, Rectangle, Sheet, pack};
pub use path::Path;
pub use point::{Point2, Point3, Vector2, Vector3, WELD};
pub use reach::lack;
pub use relief::{Relief, ReliefFault, relieved};
pub use rod::{Rod, RodFault};
pub use segment::Segment;
pub use shape::Shape;

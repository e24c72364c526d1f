//! The machines that make the parts.

use schemars::JsonSchema;
use units::Length;

/// The router that cuts the parts.
#[derive(Clone, Debug, PartialEq, JsonSchema)]
pub struct Router {
    /// Diameter of the bit.
    pub bit: Length,
    /// Relief of inside corners that a mating part must enter: "none", "dogbone" or "t-bone".
    pub corner_relief: CornerRelief,
}

/// Relief of inside corners for a round bit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, JsonSchema)]
#[schemars(rename_all = "kebab-case")]
pub enum CornerRelief {
    /// None: the mating part's corners are rounded by hand.
    None,
    /// A bite at each corner, along its bisector.
    Dogbone,
    /// A bite at each corner, along its longer side.
    TBone,
}

/// The printer that prints the parts.
#[derive(Clone, Debug, PartialEq, JsonSchema)]
pub struct Print {
    /// Air left on every mating face.
    pub clearance: Length,
    /// Layer height.
    pub layer: Length,
    /// Nozzle diameter.
    pub nozzle: Length,
    /// The bed, across and deep.
    pub bed: [Length; 2],
}

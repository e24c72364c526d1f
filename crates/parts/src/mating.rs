//! How does a router cut what another part must enter?
//!
//! A round bit leaves fillets in inside corners. They are relieved as the document says, only where a part must enter; where
//! it says "none", the corners of what enters are rounded by hand, and the drawing's title tells to.

use geometry::{Contour, Outline, Relief, Shape, relieved};
use layout::Layout;
use spec::CornerRelief;

use crate::part::PartFault;

/// A contour that a part must enter, as the router cuts it.
pub(crate) fn cut_for_mate(
    layout: &Layout,
    part: &'static str,
    outline: Outline,
    contour: Contour,
) -> Result<Shape, PartFault> {
    let router = &layout.spec().router;
    let relief = match router.corner_relief {
        CornerRelief::None => return Ok(Shape::Outline(outline)),
        CornerRelief::Dogbone => Relief::Dogbone,
        CornerRelief::TBone => Relief::TBone,
    };
    relieved(&outline, contour, router.bit, relief)
        .map(Shape::Outline)
        .map_err(|fault| PartFault::Relief { part, fault })
}

/// A drawing's title, and what is left to do by hand to the part that must enter what it cuts.
pub(crate) fn titled(layout: &Layout, title: &str, corners: Option<&str>) -> String {
    let router = &layout.spec().router;
    match corners {
        Some(corners) if router.corner_relief == CornerRelief::None => {
            format!("{title}; by hand, round the {corners} to a radius of {}", router.bit / 2.0)
        }
        _ => title.to_owned(),
    }
}

//! How do edges in space look in the plane of a face?

use super::{EdgeUse, Skin};
use crate::{Frame3, Segment};

/// The segment along which a use runs in a plane that contains it.
pub(super) fn segment_of(skin: &Skin, frame: Frame3, edge_use: EdgeUse) -> Segment {
    let curve = skin.curve_of(edge_use);
    let bulge = if curve.normal.dot(frame.normal()) < 0.0 { -curve.bulge } else { curve.bulge };
    Segment::new(frame.flat(curve.from), frame.flat(curve.to), bulge)
}

/// The same plane seen from the other side.
pub(super) fn turned_over(frame: Frame3) -> Frame3 {
    Frame3 { v: -frame.v, ..frame }
}

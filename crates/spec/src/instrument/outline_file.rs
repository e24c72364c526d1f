//! An outline that a document names by its file.

use geometry::{Outline, OutlineFault, Point2, Segment, Vertex};
use units::Length;

/// What a file holds, where the instrument wants it.
#[derive(Clone, Debug, PartialEq)]
pub struct OutlineFile {
    /// The file, as the document names it.
    pub file: String,
    /// Millimetres, counter-clockwise, for a right-handed instrument: of a headstock with the middle of its joint, the one line
    /// on x = 0, on the origin and x toward the tail; of an opening with the middle of its bounds there.
    pub outline: Outline,
}

impl OutlineFile {
    /// How wide the edge is by which a headstock is joined to the neck.
    #[must_use]
    pub fn joint(&self) -> Length {
        self.outline.segments().filter(is_joint).map(|segment| segment.length()).sum()
    }

    /// A headstock with a vertex at each edge of a neck of this width, which the joint is wide enough for: what is as wide
    /// within [`import::JOIN`] becomes just as wide, what is wider keeps its shoulders.
    ///
    /// - **Errors**: an [`OutlineFault`] where an edge of the headstock runs so near along the joint that no room is left.
    pub fn joined_to(&self, width: Length) -> Result<Outline, OutlineFault> {
        let is_one = |y: f64, edge: Length| (y - edge.as_mm()).abs() <= import::JOIN.distance().as_mm();
        let (bass, treble) = (-width / 2.0, width / 2.0);
        let on_neck = |y: Length| Vertex::sharp(Point2::new(Length::ZERO, y));
        let mut vertices = Vec::new();
        // Counter-clockwise, the joint runs from the bass edge to the treble edge, where the next segment begins.
        let mut ends_joint = self.outline.segments().last().as_ref().is_some_and(is_joint);
        for (segment, vertex) in self.outline.segments().zip(self.outline.vertices()) {
            let y = vertex.point.y;
            let joint = is_joint(&segment);
            let taken = (ends_joint && is_one(y, treble)) || (joint && is_one(y, bass));
            if ends_joint {
                vertices.push(Vertex { bulge: if taken { vertex.bulge } else { 0.0 }, ..on_neck(treble) });
            }
            if !taken {
                vertices.push(*vertex);
            }
            if joint {
                vertices.push(on_neck(bass));
            }
            ends_joint = joint;
        }
        Outline::new(vertices)
    }
}

/// Whether a segment lies on x = 0, where reading put the joint and nothing else.
fn is_joint(segment: &Segment) -> bool {
    segment.from().x == 0.0 && segment.to().x == 0.0
}

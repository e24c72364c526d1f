//! What becomes of the arcs of a cut line that are shorter than machines take well?
//!
//! Round a corner that hardly turns, the middle of a bit makes an arc of a few thousandths. Such a segment becomes a
//! corner in its middle. Its neighbours run on in its directions, so that the line moves by no more than the arc stands off
//! its chord: for a segment of 0.05 mm about a bit of 1 mm, 0.0006 mm.

use geometry::{Drawing, Operation, Outline, OutlineFault, Shape, Vertex};
use units::Length;

/// The drawing with every segment of its cut contours at least so long.
///
/// - **Errors**: the fault of an outline that consists of short segments only.
pub(super) fn without_short_segments(drawing: &Drawing, shortest: Length) -> Result<Drawing, OutlineFault> {
    let shape = |shape: &Shape| match shape {
        Shape::Outline(outline) => lengthened(outline, shortest).map(Shape::Outline),
        Shape::Circle(_) => Ok(shape.clone()),
    };
    let change = |operation: &Operation| {
        Ok(match operation {
            Operation::CutOutside(outside) => Operation::CutOutside(shape(outside)?),
            Operation::CutInside(inside) => Operation::CutInside(shape(inside)?),
            Operation::Pocket { shape: pocket, depth } => {
                Operation::Pocket { shape: shape(pocket)?, depth: *depth }
            }
            other => other.clone(),
        })
    };
    let operations = drawing.operations.iter().map(change).collect::<Result<_, _>>()?;
    Ok(Drawing { operations, ..drawing.clone() })
}

fn lengthened(outline: &Outline, shortest: Length) -> Result<Outline, OutlineFault> {
    let mut vertices: Vec<Vertex> = outline.vertices().to_vec();
    loop {
        let count = vertices.len();
        let too_short = (0..count).find(|&at| {
            let next = vertices[(at + 1) % count].point;
            vertices[at].point.distance(next) < shortest.as_mm()
        });
        let Some(at) = too_short.filter(|_| count > 2) else { return Outline::new(vertices) };
        let next = (at + 1) % count;
        vertices[next].point = vertices[at].point.lerp(vertices[next].point, 0.5);
        vertices.remove(at);
    }
}

#[cfg(test)]
mod tests {
    use geometry::{Point2, Vertex};

    use super::*;

    const SHORTEST: Length = Length::mm(0.05);

    #[test]
    fn a_corner_that_hardly_turns_becomes_one() {
        let vertices =
            [(0.0, 0.0, 0.0), (10.0, 0.0, 0.004), (10.03, 0.0002, 0.0), (20.0, 0.2, 0.0), (10.0, 9.0, 0.0)];
        let vertex = |(x, y, bulge)| Vertex { point: Point2::mm(x, y), bulge };
        let outline = Outline::new(vertices.map(vertex).to_vec()).expect("the outline is sound");
        let found = lengthened(&outline, SHORTEST).expect("it stays sound");
        let corners: Vec<_> = found.vertices().iter().map(|vertex| vertex.point).collect();
        assert_eq!(corners.len(), 4, "one corner fewer: {corners:?}");
        let corner = corners.iter().map(|corner| corner.distance(Point2::mm(10.015, 0.0001)));
        assert!(corner.fold(f64::INFINITY, f64::min) < 1e-9, "in the middle of the short arc: {corners:?}");
        let off = (found.signed_area() - outline.signed_area()).abs();
        assert!(off < 0.002, "the area is as it was, off by {off} square millimetres");
    }

    #[test]
    fn what_is_long_enough_stays() {
        let outline =
            Outline::rectangle(Point2::ORIGIN, Point2::mm(0.06, 3.0)).expect("the outline is sound");
        assert_eq!(lengthened(&outline, SHORTEST), Ok(outline.clone()), "sides of 0.06 mm");
    }
}

//! What does a shape become when its edge moves outward or inward by a distance everywhere?
//!
//! Arcs stay arcs. A corner that the edge moves away from becomes an arc about it, as the centre of a round bit runs; a
//! corner that it moves into stays sharp.

use cavalier_contours::polyline::{
    PlineOffsetOptions, PlineSource, PlineSourceMut, Polyline, TouchingLoopBehavior,
};
use units::Length;

use crate::{Circle, Outline, OutlineFault, Point2, Shape, Vertex, WELD};

/// The shortest segment that counts. Larger moves edges that matter; at much smaller ones the library loses its thread.
const FINEST: Length = Length::mm(0.01);

/// The loops that run everywhere at a distance from a shape's edge: outside it for a positive distance, inside it for a
/// negative one; counter-clockwise, the largest first.
///
/// - **Shape**: none where the shape is too small for the distance, several where it falls apart. Growing over a gap may
///   close it and leave a hole, whose edge is a loop too: what the offset encloses lies inside an odd number of loops.
/// - **Accuracy**: lines and arcs, nothing is flattened; within 1e-4 mm of the exact loops where no segment of the outline is
///   shorter than 0.05 mm, as in every drawing that may be written, and within 0.02 mm otherwise: segments shorter than
///   0.01 mm are left out first.
/// - **Errors**: a distance at which loops touch so that no outline comes of them, as [`OutlineFault`].
///
/// A convex shape grows as Steiner's formula says, by its perimeter times the distance and a circle (J. Steiner, 1840):
/// ```
/// use boxneck_geometry::{Outline, Point2, Shape, offset};
/// use units::Length;
///
/// let plate = Shape::from(Outline::rectangle(Point2::ORIGIN, Point2::mm(40.0, 20.0))?);
/// let grown = offset(&plate, Length::mm(2.0))?;
/// let expected = 800.0 + 120.0 * 2.0 + std::f64::consts::PI * 4.0;
/// assert!((grown[0].area() - expected).abs() < 1e-9, "A + P d + pi d^2");
/// # Ok::<(), boxneck_geometry::OutlineFault>(())
/// ```
pub fn offset(shape: &Shape, distance: Length) -> Result<Vec<Shape>, OutlineFault> {
    match shape {
        _ if distance == Length::ZERO => Ok(vec![shape.clone()]),
        Shape::Circle(circle) => {
            let radius = circle.radius + distance;
            Ok((radius > Length::ZERO)
                .then_some(Shape::Circle(Circle { radius, ..*circle }))
                .into_iter()
                .collect())
        }
        Shape::Outline(outline) => {
            let mut outlines: Vec<Outline> =
                loops(outline, distance).iter().filter_map(outline_of).collect::<Result<_, _>>()?;
            outlines.sort_by(|a, b| b.signed_area().total_cmp(&a.signed_area()));
            Ok(outlines.into_iter().map(Shape::Outline).collect())
        }
    }
}

/// The library takes the left of the loop for positive: of a counter-clockwise one, the inside.
fn loops(outline: &Outline, distance: Length) -> Vec<Polyline> {
    let mut polyline = Polyline::new_closed();
    for vertex in &spread(outline.clone().counter_clockwise().vertices(), FINEST) {
        polyline.add(vertex.point.x, vertex.point.y, vertex.bulge);
    }
    let options = PlineOffsetOptions {
        touching_loop_behavior: TouchingLoopBehavior::Separate,
        ..PlineOffsetOptions::new()
    };
    polyline.parallel_offset_opt(-distance.as_mm(), &options)
}

/// The outline of a loop; nothing for a sliver without area.
fn outline_of(polyline: &Polyline) -> Option<Result<Outline, OutlineFault>> {
    let vertices: Vec<Vertex> = polyline
        .vertex_data
        .iter()
        .map(|vertex| Vertex { point: Point2::mm(vertex.x, vertex.y), bulge: vertex.bulge })
        .collect();
    match Outline::new(spread(&vertices, WELD.distance())) {
        Ok(outline) => Some(Ok(outline.counter_clockwise())),
        Err(OutlineFault::NoArea { .. } | OutlineFault::TooFewVertices { .. }) => None,
        Err(fault) => Some(Err(fault)),
    }
}

/// A loop's vertices without those that lie no farther than a distance before the next one kept, which says what leaves the
/// place of both.
fn spread(vertices: &[Vertex], least: Length) -> Vec<Vertex> {
    let mut next = vertices.first().copied();
    let mut kept: Vec<Vertex> = Vec::with_capacity(vertices.len());
    for vertex in vertices.iter().rev() {
        if next.is_none_or(|next| vertex.point.distance(next.point) > least.as_mm()) {
            kept.push(*vertex);
            next = Some(*vertex);
        }
    }
    kept.reverse();
    kept
}

//! Is there room for a bore: in the faces that it enters and leaves by, in the solid, and beside the other bores?

use units::Length;

use super::flat::segment_of;
use super::{BodyFault, Bore, Face, FaceLoop, Skin, Surface, regions};
use crate::{Frame3, Point2, Point3, Vector3, WELD};

/// How many lines along the wall of a bore are followed to see that it stays inside. More find narrower breaks.
const LINES_ROUND: usize = 8;
/// Into how many pieces a curved face is broken to see whether a bore comes out of it. More place the face better.
const PIECES: usize = 24;

/// The flat face, among the first `outside` ones, square to a bore where the bore has reached a depth, if the axis
/// meets one there: one that looks against the bore at its entry, along it at its exit.
///
/// - **Errors**: [`BodyFault::BoreLeavesFace`] or [`BodyFault::BoresMeet`] where the circle has no room in it.
pub(super) fn flat_face_at(
    skin: &Skin,
    outside: usize,
    bore: &Bore,
    index: usize,
    depth: Length,
) -> Result<Option<usize>, BodyFault> {
    let (at, step) = if depth == Length::ZERO {
        (bore.entry, bore.steps[0])
    } else {
        (bore.at(depth), bore.steps[bore.steps.len() - 1])
    };
    let outward = if depth == Length::ZERO { -1.0 } else { 1.0 };
    for (number, face) in skin.faces[..outside].iter().enumerate() {
        let Surface::Plane(frame) = face.surface else { continue };
        let square = frame.normal().dot(bore.direction) * outward > 0.0
            && frame.normal().cross(bore.direction).length() <= 1e-9;
        if !square
            || frame.height(at).abs() > WELD.distance().as_mm()
            || !holds(skin, face, frame, frame.flat(at))
        {
            continue;
        }
        let room = face
            .loops
            .iter()
            .flatten()
            .map(|&edge_use| segment_of(skin, frame, edge_use).distance_to(frame.flat(at)))
            .fold(Length::mm(f64::MAX), Length::min);
        if room <= step.radius + WELD.distance() {
            let (radius, room) = (step.radius.as_mm(), room.as_mm());
            return Err(BodyFault::BoreLeavesFace { bore: index, at, radius, room });
        }
        return Ok(Some(number));
    }
    Ok(None)
}

/// Whether a flat point lies in a flat face.
fn holds(skin: &Skin, face: &Face, frame: Frame3, point: Point2) -> bool {
    let within = |face_loop: &FaceLoop| {
        regions::outline_of(skin, frame, face_loop).is_some_and(|outline| outline.contains(point))
    };
    within(&face.loops[0]) && !face.loops[1..].iter().any(within)
}

/// Every curved face of a skin as triangles, and nothing for a flat one; by the face's number.
///
/// Bores enter flat faces only, so that one breaking up serves all of them.
pub(super) fn curved_faces(skin: &Skin) -> Vec<Vec<[Point3; 3]>> {
    let share = |piece: usize| piece as f64 / PIECES as f64;
    let triangles = |face: &Face| match &face.surface {
        Surface::Plane(_) => Vec::new(),
        Surface::Ruled(strip) | Surface::Revolved { strip, .. } => {
            let rulings: Vec<[Point3; 2]> = (0..=PIECES)
                .map(|piece| [&strip.start, &strip.end].map(|edge| edge.point(share(piece))))
                .collect();
            rulings
                .windows(2)
                .flat_map(|pair| {
                    let ([a, d], [b, c]) = (pair[0], pair[1]);
                    [[a, b, c], [a, c, d]]
                })
                .collect()
        }
    };
    skin.faces.iter().map(triangles).collect()
}

/// Refuses a bore that comes out of the solid anywhere but through its exit face.
///
/// `curved` is what [`curved_faces`] gave before the first bore: as many faces are the body's own.
/// The axis and [`LINES_ROUND`] lines along the wall are followed; what passes between two of them is not seen.
pub(super) fn check_inside(
    skin: &Skin,
    curved: &[Vec<[Point3; 3]>],
    bore: &Bore,
    index: usize,
    exit: Option<usize>,
) -> Result<(), BodyFault> {
    let frame = bore.frame(Length::ZERO, true);
    let weld = WELD.distance().as_mm();
    for pair in bore.steps.windows(2) {
        let radius = pair[0].radius.min(pair[1].radius).as_mm();
        let deepest = pair[1].depth.as_mm();
        let round = (0..LINES_ROUND).map(|line| {
            let angle = std::f64::consts::TAU * line as f64 / LINES_ROUND as f64;
            frame.u * (radius * units::math::cos(angle)) + frame.v * (radius * units::math::sin(angle))
        });
        for offset in round.chain([Vector3::ZERO]) {
            let from = bore.entry + offset;
            for (number, (face, triangles)) in skin.faces.iter().zip(curved).enumerate() {
                let reach = if exit == Some(number) { deepest - weld } else { deepest + weld };
                let out = depths_out(skin, face, triangles, from, bore.direction, reach)
                    .find(|depth| *depth > weld);
                if let Some(depth) = out {
                    return Err(BodyFault::BoreBreaksOut {
                        bore: index,
                        at: from + bore.direction * depth,
                        depth,
                    });
                }
            }
        }
    }
    Ok(())
}

/// How deep a line from a point comes out through a face, not deeper than `reach`.
fn depths_out(
    skin: &Skin,
    face: &Face,
    triangles: &[[Point3; 3]],
    from: Point3,
    direction: Vector3,
    reach: f64,
) -> std::vec::IntoIter<f64> {
    let within = move |depth: &f64| *depth > 0.0 && *depth <= reach;
    let depths: Vec<f64> = match &face.surface {
        Surface::Plane(frame) => {
            let slope = frame.normal().dot(direction);
            let depth = Some(-frame.height(from) / slope).filter(|_| slope > 1e-9).filter(within);
            let meets = |depth: &f64| holds(skin, face, *frame, frame.flat(from + direction * *depth));
            depth.filter(meets).into_iter().collect()
        }
        Surface::Ruled(_) | Surface::Revolved { .. } => {
            let through = |corners: &[Point3; 3]| depth_through(*corners, from, direction);
            triangles.iter().filter_map(through).filter(within).collect()
        }
    };
    depths.into_iter()
}

/// How far along a line comes out through a triangle, from behind.
///
/// - **Source**: the line's barycentric coordinates by Cramer's rule (Moller and Trumbore, 1997; from memory).
fn depth_through([a, b, c]: [Point3; 3], from: Point3, direction: Vector3) -> Option<f64> {
    let (ab, ac, offset) = (b - a, c - a, from - a);
    let determinant = ab.dot(direction.cross(ac));
    // Positive from the front, negative from behind.
    if determinant >= 0.0 {
        return None;
    }
    let along_ab = offset.dot(direction.cross(ac)) / determinant;
    let along_ac = direction.dot(offset.cross(ab)) / determinant;
    let inside = along_ab >= 0.0 && along_ac >= 0.0 && along_ab + along_ac <= 1.0;
    inside.then(|| ac.dot(offset.cross(ab)) / determinant)
}

/// A stage of a bore as the cylinder of its larger radius.
struct Stage {
    from: Point3,
    direction: Vector3,
    depth: f64,
    radius: f64,
}

/// Refuses bores of which two meet, cones taken for the cylinders round them.
pub(super) fn check_apart(bores: &[Bore]) -> Result<(), BodyFault> {
    for (second, later) in bores.iter().enumerate() {
        for (first, earlier) in bores[..second].iter().enumerate() {
            for a in stages(earlier) {
                if let Some(at) = stages(later).find_map(|b| meeting(&a, &b)) {
                    return Err(BodyFault::BoresMeet { first, second, at });
                }
            }
        }
    }
    Ok(())
}

fn stages(bore: &Bore) -> impl Iterator<Item = Stage> {
    bore.steps.windows(2).filter(|pair| pair[0].depth < pair[1].depth).map(|pair| Stage {
        from: bore.at(pair[0].depth),
        direction: bore.direction,
        depth: (pair[1].depth - pair[0].depth).as_mm(),
        radius: pair[0].radius.max(pair[1].radius).as_mm(),
    })
}

/// A point near to both cylinders, where they meet.
///
/// - **Source**: alternating projections between two convex sets converge to a nearest pair (von Neumann, 1933; from
///   memory). Slowly where the two all but touch: after these rounds what is left is taken for a gap.
fn meeting(a: &Stage, b: &Stage) -> Option<Point3> {
    let (middle_a, middle_b) = (a.middle(), b.middle());
    if middle_a.distance(middle_b) > a.reach() + b.reach() {
        return None;
    }
    let mut point = middle_b;
    for _ in 0..200 {
        let on_a = a.nearest(point);
        let on_b = b.nearest(on_a);
        if on_a.distance(on_b) <= WELD.distance().as_mm() {
            return Some(on_a);
        }
        if on_b.distance(point) < 1e-12 {
            return None;
        }
        point = on_b;
    }
    None
}

impl Stage {
    fn middle(&self) -> Point3 {
        self.from + self.direction * (self.depth / 2.0)
    }

    /// The radius of the ball about the middle that holds the cylinder.
    fn reach(&self) -> f64 {
        units::math::hypot(self.depth / 2.0, self.radius)
    }

    /// The nearest point of the cylinder, its inside included.
    fn nearest(&self, point: Point3) -> Point3 {
        let offset = point - self.from;
        let along = offset.dot(self.direction);
        let across = offset - self.direction * along;
        let across = across * (self.radius / across.length().max(self.radius));
        self.from + self.direction * along.clamp(0.0, self.depth) + across
    }
}

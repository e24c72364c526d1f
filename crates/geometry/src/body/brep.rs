//! How is a boundary representation read from a skin?
//!
//! One to one: each point a vertex, each edge an edge, each face a face. Only a point where the skin touches itself
//! becomes several vertices in one place, one for each of the bundles of faces that meet there: a boundary
//! representation is a surface, and round each vertex of a surface the faces close to one ring.

use truck_modeling::{
    BSplineCurve, BSplineSurface, Curve, InnerSpace, KnotVec, Line, NurbsCurve, NurbsSurface, Plane,
    Processor, RevolutedCurve, Vector4, Wire,
};

use super::{BodyFault, Curve3, EdgeUse, Skin, Surface};
use crate::{Point3, Vector3};

pub(super) fn solid(skin: &Skin) -> Result<truck_modeling::Solid, BodyFault> {
    let refused = |reason: &dyn std::fmt::Display| BodyFault::Brep { reason: reason.to_string() };
    let edges = edges(skin);
    let edge_of = |edge_use: &EdgeUse| {
        let edge = &edges[edge_use.edge];
        if edge_use.forward { edge.clone() } else { edge.inverse() }
    };
    let mut shell = truck_modeling::Shell::new();
    for face in &skin.faces {
        let wires: Vec<Wire> =
            face.loops.iter().map(|face_loop| face_loop.iter().map(edge_of).collect()).collect();
        let face = truck_modeling::Face::try_new(wires, surface_of(&face.surface))
            .map_err(|error| refused(&error))?;
        shell.push(face);
    }
    truck_modeling::Solid::try_new(vec![shell]).map_err(|error| refused(&error))
}

/// The edges, sharing their vertices.
fn edges(skin: &Skin) -> Vec<truck_modeling::Edge> {
    let bundles = bundles(skin);
    let mut vertices: Vec<Option<truck_modeling::Vertex>> = vec![None; bundles.len()];
    let mut vertex = |end: usize, point: usize| {
        let made = vertices[bundles[end]]
            .get_or_insert_with(|| truck_modeling::Vertex::new(place(skin.points[point])));
        made.clone()
    };
    let mut edges = Vec::with_capacity(skin.edges.len());
    for (number, edge) in skin.edges.iter().enumerate() {
        let (from, to) = (vertex(2 * number, edge.from), vertex(2 * number + 1, edge.to));
        edges.push(truck_modeling::Edge::new(&from, &to, curve_of(&edge.curve)));
    }
    edges
}

/// For each end of each edge (two numbers an edge), the first of the ends that share its vertex: those that faces lead
/// to from one another.
fn bundles(skin: &Skin) -> Vec<usize> {
    fn first_of(bundles: &mut [usize], end: usize) -> usize {
        let mut first = end;
        while bundles[first] != first {
            first = bundles[first];
        }
        bundles[end] = first;
        first
    }
    let mut bundles: Vec<usize> = (0..2 * skin.edges.len()).collect();
    for face_loop in skin.faces.iter().flat_map(|face| &face.loops) {
        for (index, arriving) in face_loop.iter().enumerate() {
            let leaving = face_loop[(index + 1) % face_loop.len()];
            let arriving = first_of(&mut bundles, 2 * arriving.edge + usize::from(arriving.forward));
            let leaving = first_of(&mut bundles, 2 * leaving.edge + usize::from(!leaving.forward));
            bundles[arriving.max(leaving)] = arriving.min(leaving);
        }
    }
    (0..bundles.len()).map(|end| first_of(&mut bundles, end)).collect()
}

fn curve_of(curve: &Curve3) -> Curve {
    if curve.is_line() {
        Curve::Line(Line(place(curve.from), place(curve.to)))
    } else {
        Curve::NurbsCurve(NurbsCurve::new(rational(curve)))
    }
}

/// A curve in homogeneous coordinates: an arc as two quadratic pieces, exactly.
fn rational(curve: &Curve3) -> BSplineCurve<Vector4> {
    let weighted = |point: Point3, weight: f64| {
        Vector4::new(point.x * weight, point.y * weight, point.z * weight, weight)
    };
    let Some(circle) = curve.circle() else {
        return BSplineCurve::new(
            KnotVec::bezier_knot(1),
            vec![weighted(curve.from, 1.0), weighted(curve.to, 1.0)],
        );
    };
    // The tangents at both ends of a piece meet on its bisector. With the bulge, cos(sweep / 2) is
    // (1 - bulge^2) / (1 + bulge^2), so no angle is needed.
    let square = 1.0 + curve.bulge * curve.bulge;
    let middle = curve.point(0.5);
    let tangents_meet =
        |end: Point3| circle.center + ((end - circle.center) + (middle - circle.center)) * (square / 2.0);
    let weight = 1.0 / square.sqrt();
    let points = vec![
        weighted(curve.from, 1.0),
        weighted(tangents_meet(curve.from), weight),
        weighted(middle, 1.0),
        weighted(tangents_meet(curve.to), weight),
        weighted(curve.to, 1.0),
    ];
    BSplineCurve::new(KnotVec::from(vec![0.0, 0.0, 0.0, 0.5, 0.5, 1.0, 1.0, 1.0]), points)
}

fn surface_of(surface: &Surface) -> truck_modeling::Surface {
    match surface {
        Surface::Plane(frame) => {
            let (origin, u, v) = (frame.origin, frame.origin + frame.u, frame.origin + frame.v);
            truck_modeling::Surface::Plane(Plane::new(place(origin), place(u), place(v)))
        }
        Surface::Ruled(strip) => {
            let ruled = BSplineSurface::homotopy(rational(&strip.start), rational(&strip.end));
            truck_modeling::Surface::NurbsSurface(NurbsSurface::new(ruled))
        }
        Surface::Revolved { strip, center, axis } => {
            let ruling = Curve::Line(Line(place(opposite(&strip.end)), place(opposite(&strip.start))));
            let turned = RevolutedCurve::by_revolution(ruling, place(*center), direction(*axis));
            truck_modeling::Surface::RevolutedCurve(Processor::new(turned))
        }
    }
}

/// The point of the circle opposite the middle of an arc: the ruling begins there, so that the face lies in the middle
/// of the turn and far from where the angle jumps.
fn opposite(curve: &Curve3) -> Point3 {
    let middle = curve.point(0.5);
    curve.circle().map_or(middle, |circle| circle.center - (middle - circle.center))
}

fn place(point: Point3) -> truck_modeling::Point3 {
    truck_modeling::Point3::new(point.x, point.y, point.z)
}

fn direction(vector: Vector3) -> truck_modeling::Vector3 {
    truck_modeling::Vector3::new(vector.x, vector.y, vector.z).normalize()
}

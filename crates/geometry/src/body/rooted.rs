//! How does a chain of lofts grow out of a wall of another loft?
//!
//! The wall and the cap where the chain begins are one rectangle seen from its two sides. Both faces go, and the points and
//! edges round them are shared.

use super::{BodyFault, Curve3, Edge, EdgeUse, Face, Loft, Section, Skin, assembly};
use crate::{Point3, WELD};

/// The segment of the root's rings whose wall is the rectangle with which a chain begins.
pub(super) fn wall(root: &Loft, start: &Section) -> Option<usize> {
    let is_straight = |section: &Section| section.ring.vertices().iter().all(|vertex| vertex.bulge == 0.0);
    let corners: Vec<Point3> =
        start.ring.vertices().iter().map(|vertex| start.frame.point(vertex.point)).collect();
    if corners.len() != 4 || !is_straight(start) {
        return None;
    }
    let [low, high] = [&root.start, &root.end].map(|section| section.ring.vertices());
    (0..low.len()).find(|&at| {
        let next = (at + 1) % low.len();
        let line = low[at].bulge == 0.0 && high[at].bulge == 0.0;
        let of_wall = [at, next].into_iter().flat_map(|vertex| {
            [root.start.frame.point(low[vertex].point), root.end.frame.point(high[vertex].point)]
        });
        line && of_wall.into_iter().all(|point| corners.iter().any(|corner| is_one(point, *corner)))
    })
}

/// Joins a root to the skin of the chain that begins on it.
pub(super) fn graft(skin: &mut Skin, root: &Loft, start: &Section) -> Result<(), BodyFault> {
    // The cap where the chain begins is the first face of its skin, and the caps of a single loft come before its walls.
    let cap = skin.faces.remove(0);
    let mut trunk = assembly::assemble(std::slice::from_ref(root))?;
    let wall = trunk.faces.remove(2 + wall(root, start).ok_or(BodyFault::NoWall)?);
    let rim: Vec<usize> = edges_of(&cap);
    let ends = |skin: &Skin, edge: usize| [skin.edges[edge].from, skin.edges[edge].to];
    let corners: Vec<usize> = rim.iter().flat_map(|&edge| ends(skin, edge)).collect();

    let mut points = Vec::with_capacity(trunk.points.len());
    let on_wall: Vec<usize> = edges_of(&wall).iter().flat_map(|&edge| ends(&trunk, edge)).collect();
    for (number, &point) in trunk.points.iter().enumerate() {
        let corner = corners.iter().find(|&&corner| is_one(skin.points[corner], point));
        points.push(match corner.filter(|_| on_wall.contains(&number)) {
            Some(&corner) => corner,
            None => skin.add_point(point),
        });
    }
    // For each edge of the root its number in the skin, and whether it runs the same way there.
    let mut edges = Vec::with_capacity(trunk.edges.len());
    for (number, edge) in trunk.edges.iter().enumerate() {
        let (from, to) = (points[edge.from], points[edge.to]);
        let shared = rim.iter().find(|&&rim| {
            let [one, other] = ends(skin, rim);
            [one, other] == [from, to] || [other, one] == [from, to]
        });
        edges.push(match shared.filter(|_| edges_of(&wall).contains(&number)) {
            Some(&rim) => (rim, skin.edges[rim].from == from),
            None => {
                let curve = Curve3 { from: skin.points[from], to: skin.points[to], ..edge.curve };
                skin.edges.push(Edge { from, to, curve });
                (skin.edges.len() - 1, true)
            }
        });
    }
    let renumbered = |edge_use: &EdgeUse| {
        let (edge, same_way) = edges[edge_use.edge];
        EdgeUse { edge, forward: edge_use.forward == same_way }
    };
    for Face { surface, loops } in trunk.faces {
        let loops = loops.iter().map(|row| row.iter().map(renumbered).collect()).collect();
        skin.faces.push(Face { surface, loops });
    }
    Ok(())
}

fn edges_of(face: &Face) -> Vec<usize> {
    face.loops.iter().flatten().map(|edge_use| edge_use.edge).collect()
}

fn is_one(a: Point3, b: Point3) -> bool {
    a.distance(b) <= WELD.distance().as_mm()
}

//! How is a flat face cut into triangles that use every point of its loops?

use std::collections::BTreeMap;

use spade::handles::{FaceHandle, InnerTag};
use spade::{ConstrainedDelaunayTriangulation, HasPosition, Triangulation};

use crate::{Frame3, Point2, Point3, Vector2, WELD};

/// How deep a straight row of points is bowed into the face while it is triangulated, as a share of its length.
///
/// Points of a straight row differ from collinear ones by rounding only, and would by chance form triangles without
/// area along it. Bowed inward, no three of them can. Larger would reach features beside the row (0.1 mm in a
/// thousand), smaller than about 1e-10 would drown in rounding where the points are dense.
const BOW: f64 = 1e-7;

/// How far a corner is shifted, at most, while a face is triangulated, in millimetres.
///
/// The points of a circle are on one circle to within rounding, and to tell which lies inside that of three others
/// takes exact arithmetic, four times as slow. Larger would reach the weld distance, smaller would drown in rounding.
const SHIFT: f64 = 1e-8;

/// A corner with its number in the mesh.
struct Corner {
    place: spade::Point2<f64>,
    number: u32,
}

impl HasPosition for Corner {
    type Scalar = f64;
    fn position(&self) -> spade::Point2<f64> {
        self.place
    }
}

type Delaunay = ConstrainedDelaunayTriangulation<Corner>;
type Triangle<'a> = FaceHandle<'a, InnerTag, Corner, (), spade::CdtEdge<()>, ()>;

/// The triangles of the area to the left of loops of points in a plane, counter-clockwise in its frame; `None` where
/// the loops cross or touch between their points.
pub(crate) fn triangulate(frame: Frame3, points: &[Point3], loops: &[Vec<u32>]) -> Option<Vec<[u32; 3]>> {
    let flat = |number: u32| frame.flat(points[number as usize]);
    if let [face_loop] = loops
        && let Some(found) = simple(face_loop, flat)
    {
        return Some(found);
    }
    let delaunay = delaunay(loops, flat)?;
    Some(in_order(inside(&delaunay).map(|face| face.vertices().map(|corner| corner.data().number)).collect()))
}

/// The same triangles, each from its least number on, sorted: where points lie within micrometres of each other the
/// triangulation finds them in an order of chance.
fn in_order(mut triangles: Vec<[u32; 3]>) -> Vec<[u32; 3]> {
    for triangle in &mut triangles {
        let least = (0..3).min_by_key(|&corner| triangle[corner]).unwrap_or(0);
        triangle.rotate_left(least);
    }
    triangles.sort_unstable();
    triangles
}

/// The triangles of a triangle, or of a quadrilateral without a flat or inward corner: cut along its shorter diagonal.
fn simple(face_loop: &[u32], flat: impl Fn(u32) -> Point2) -> Option<Vec<[u32; 3]>> {
    match *face_loop {
        [a, b, c] => Some(vec![[a, b, c]]),
        [a, b, c, d] => {
            let corners = [a, b, c, d].map(&flat);
            let convex = (0..4).all(|index| {
                let [from, at, to] = [0, 1, 2].map(|step| corners[(index + step) % 4]);
                (at - from).cross(to - at) > WELD.distance().as_mm() * from.distance(to)
            });
            let first_is_shorter =
                corners[0].distance(corners[2]) <= corners[1].distance(corners[3]) * (1.0 + 1e-9);
            let cut = if first_is_shorter { vec![[a, b, c], [a, c, d]] } else { vec![[b, c, d], [b, d, a]] };
            convex.then_some(cut)
        }
        _ => None,
    }
}

/// The triangulation of the loops; `None` where they cross, or two points coincide.
fn delaunay(loops: &[Vec<u32>], flat: impl Fn(u32) -> Point2) -> Option<Delaunay> {
    let mut corners: Vec<Corner> = Vec::new();
    let mut known: BTreeMap<u32, usize> = BTreeMap::new();
    let mut edges: Vec<[usize; 2]> = Vec::new();
    for face_loop in loops {
        let places = placed(&face_loop.iter().map(|&number| flat(number)).collect::<Vec<_>>());
        let indices: Vec<usize> = face_loop
            .iter()
            .zip(places)
            .map(|(&number, place)| {
                *known.entry(number).or_insert_with(|| {
                    corners.push(Corner { place: spade::Point2::new(tame(place.x), tame(place.y)), number });
                    corners.len() - 1
                })
            })
            .collect();
        edges.extend((0..indices.len()).map(|index| [indices[index], indices[(index + 1) % indices.len()]]));
    }
    let (points, constraints) = (corners.len(), edges.len());
    let mut crossing = false;
    let delaunay = Delaunay::try_bulk_load_cdt(corners, edges, |_| crossing = true).ok()?;
    let whole = delaunay.num_vertices() == points && delaunay.num_constraints() == constraints;
    (whole && !crossing).then_some(delaunay)
}

/// A coordinate that the triangulation accepts: it refuses numbers too near to 0.
fn tame(coordinate: f64) -> f64 {
    if coordinate.abs() < 1e-30 { 0.0 } else { coordinate }
}

/// The inner triangles that lie an odd number of loops inside.
fn inside(delaunay: &Delaunay) -> impl Iterator<Item = Triangle<'_>> {
    let mut within: Vec<Option<bool>> = vec![None; delaunay.num_all_faces()];
    within[delaunay.outer_face().index()] = Some(false);
    let hull = delaunay.convex_hull().map(|edge| (edge.rev().face(), edge.is_constraint_edge()));
    let mut open: Vec<_> = hull.collect();
    while let Some((face, value)) = open.pop() {
        if within[face.index()].is_some() {
            continue;
        }
        within[face.index()] = Some(value);
        for edge in face.as_inner().into_iter().flat_map(|face| face.adjacent_edges()) {
            open.push((edge.rev().face(), value != edge.is_constraint_edge()));
        }
    }
    delaunay.inner_faces().filter(move |face| within[face.index()] == Some(true))
}

/// A shift of a corner by less than [`SHIFT`] along each axis, without order but always the same.
fn shift(index: usize) -> Vector2 {
    let scattered = (index as u64 + 1).wrapping_mul(0x9E37_79B9_7F4A_7C15);
    let share = |bits: u64| f64::from(bits as u16) / f64::from(u16::MAX) - 0.5;
    Vector2::mm(share(scattered >> 48), share(scattered >> 32)) * SHIFT
}

/// The points of a loop with each straight row of them bowed to its left by [`BOW`], and its other corners shifted.
fn placed(loop_points: &[Point2]) -> Vec<Point2> {
    let count = loop_points.len();
    let at = |index: usize| loop_points[index % count];
    let straight = |index: usize| {
        let (from, to) = (at(index + count - 1), at(index + 1));
        let (chord, offset) = (to - from, at(index) - from);
        chord.dot(offset) > 0.0
            && chord.dot(at(index) - to) < 0.0
            && chord.cross(offset).abs() <= WELD.distance().as_mm() * chord.length()
    };
    let corners: Vec<usize> = (0..count).filter(|&index| !straight(index)).collect();
    let mut places = loop_points.to_vec();
    // The ends of a straight row stay where they are: a shift would undo the bow beside them.
    let free = |index: usize| !straight((index + count - 1) % count) && !straight((index + 1) % count);
    for &index in corners.iter().filter(|&&index| free(index)) {
        places[index] = places[index] + shift(index);
    }
    for (index, &from) in corners.iter().enumerate() {
        let to = corners.get(index + 1).copied().unwrap_or(corners[0] + count);
        let chord = at(to) - at(from);
        for row in from + 1..to {
            let share = chord.dot(at(row) - at(from)) / chord.dot(chord);
            let depth = BOW * 4.0 * share * (1.0 - share);
            places[row % count] = at(from).lerp(at(to), share) + chord.left() * depth;
        }
    }
    places
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn triangles_are_turned_and_sorted_but_not_turned_over() {
        assert_eq!(in_order(vec![[5, 4, 2], [3, 1, 2]]), [[1, 2, 3], [2, 5, 4]], "by their least number");
    }
}

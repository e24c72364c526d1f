//! How is a mesh read from a skin?
//!
//! Every edge is broken once, so both of its faces use the same points by number and nothing has to be welded. A
//! face between two curves is a strip of triangles from one to the other, a flat face a constrained Delaunay
//! triangulation of its broken loops.

use units::{ChordTolerance, Length, math};

use super::{BodyFault, EdgeUse, Face, Skin, Strip, Surface, flat_triangles};
use crate::{Mesh, Point3};

/// The points along every edge of a skin, by number; the first are the skin's own points.
pub(super) struct BrokenEdges {
    pub points: Vec<Point3>,
    /// For each edge the numbers of its points, both ends included.
    along: Vec<Vec<u32>>,
}

/// How often the arcs of a face that is thinner than the tolerance are broken at half the length. More would serve
/// faces thinner than a thousandth of the tolerance; fewer would refuse faces that can be made.
const HALVINGS: usize = 10;

/// The mesh of a skin.
///
/// Where a face is so thin that its broken loops cross, its arcs are broken finer than the tolerance asks.
pub(super) fn triangulate(skin: &Skin, tolerance: ChordTolerance) -> Result<Mesh, BodyFault> {
    let arcs = |edge: &super::Edge| arc_count(edge.curve.circle(), tolerance.deviation());
    let mut least: Vec<usize> = skin.edges.iter().map(arcs).collect();
    let mut thinnest = None;
    for _ in 0..=HALVINGS {
        let broken = break_edges(skin, &counts(skin, &least, tolerance));
        let mut triangles = Vec::new();
        let Some(thin) = first_thin_face(skin, &broken, &mut triangles) else {
            let mesh = Mesh::new(broken.points, triangles)?;
            mesh.check_closed()?;
            return Ok(mesh);
        };
        thinnest = Some(skin.faces[thin].loops[0][0]);
        for edge_use in skin.faces[thin].loops.iter().flatten() {
            if !skin.edges[edge_use.edge].curve.is_line() {
                least[edge_use.edge] *= 2;
            }
        }
    }
    let at = thinnest.map_or(Point3::ORIGIN, |edge_use| skin.curve_of(edge_use).from);
    Err(BodyFault::TooThin { at })
}

/// Adds the triangles of the faces, up to the first whose broken loops cross.
fn first_thin_face(skin: &Skin, broken: &BrokenEdges, triangles: &mut Vec<[u32; 3]>) -> Option<usize> {
    skin.faces.iter().position(|face| match &face.surface {
        Surface::Plane(frame) => {
            let loops: Vec<Vec<u32>> = face.loops.iter().map(|face_loop| broken.around(face_loop)).collect();
            match flat_triangles::triangulate(*frame, &broken.points, &loops) {
                Some(found) => triangles.extend(found),
                None => return true,
            }
            false
        }
        Surface::Ruled(strip) | Surface::Revolved { strip, .. } => {
            zip(broken, face, strip, triangles);
            false
        }
    })
}

impl BrokenEdges {
    /// The points of a use in its direction, both ends included.
    fn points_of(&self, edge_use: EdgeUse) -> Vec<u32> {
        let mut points = self.along[edge_use.edge].clone();
        if !edge_use.forward {
            points.reverse();
        }
        points
    }

    /// The points of a loop, each once.
    fn around(&self, face_loop: &[EdgeUse]) -> Vec<u32> {
        let mut points = self.chain(face_loop);
        points.pop();
        points
    }

    /// The points of a row of uses, each once, both ends included.
    fn chain(&self, uses: &[EdgeUse]) -> Vec<u32> {
        let mut points: Vec<u32> = Vec::new();
        for &edge_use in uses {
            points.pop();
            points.extend(self.points_of(edge_use));
        }
        points
    }
}

/// How many pieces each edge is broken into, no fewer than the least.
///
/// Edges that lie opposite each other in a strip get the same number where each is the whole of its side, so that
/// the strip is a row of quadrilaterals. Strips follow each other along the body, so one pass each way carries the
/// largest number all along.
fn counts(skin: &Skin, least: &[usize], tolerance: ChordTolerance) -> Vec<usize> {
    let mut counts = least.to_vec();
    let pairs: Vec<[usize; 2]> = skin.faces.iter().filter_map(paired_edges).collect();
    let share = |counts: &mut [usize], [start, end]: [usize; 2]| {
        let most = counts[start].max(counts[end]);
        (counts[start], counts[end]) = (most, most);
    };
    pairs.iter().for_each(|&pair| share(&mut counts, pair));
    pairs.iter().rev().for_each(|&pair| share(&mut counts, pair));
    let mut twisted = false;
    for face in &skin.faces {
        let Surface::Ruled(strip) = &face.surface else { continue };
        let edges = || along_sides(face, strip).map(|edge_use| edge_use.edge);
        let most = edges().map(|edge| counts[edge]).max().unwrap_or(1);
        let flat = twist_count(strip, most, tolerance.deviation());
        if flat > most {
            twisted = true;
            edges().for_each(|edge| counts[edge] = flat);
        }
    }
    if twisted {
        pairs.iter().for_each(|&pair| share(&mut counts, pair));
        pairs.iter().rev().for_each(|&pair| share(&mut counts, pair));
    }
    counts
}

/// The edges of a strip whose start and end are one edge each.
fn paired_edges(face: &Face) -> Option<[usize; 2]> {
    let (Surface::Ruled(strip) | Surface::Revolved { strip, .. }) = &face.surface else { return None };
    let edges = &face.loops[0];
    (edges.len() == 4 && strip.start_uses == 1).then(|| [edges[0].edge, edges[2].edge])
}

/// The uses of a strip's loop that lie on its start and its end.
fn along_sides<'a>(face: &'a Face, strip: &Strip) -> impl Iterator<Item = &'a EdgeUse> {
    let uses = &face.loops[0];
    uses[..strip.start_uses].iter().chain(&uses[strip.start_uses + 1..uses.len() - 1])
}

/// The least number of equal pieces of an arc whose chords deviate by no more than a length, and never so few that a
/// piece turns by more than 45 degrees.
fn arc_count(circle: Option<super::curve::Circle3>, deviation: Length) -> usize {
    let Some(circle) = circle else { return 1 };
    let height = (deviation.as_mm() / circle.radius.length()).min(1.0);
    let step = (4.0 * math::asin((height / 2.0).sqrt())).min(std::f64::consts::FRAC_PI_4);
    (circle.sweep.abs() / step - 1e-9).ceil().max(1.0) as usize
}

/// The least number of pieces, from a number on, for which a strip's quadrilaterals are flat to within a length.
fn twist_count(strip: &Strip, count: usize, deviation: Length) -> usize {
    let (start, end) = (strip.start.points(count), strip.end.points(count));
    let twist = start.windows(2).zip(end.windows(2)).map(|(low, high)| {
        let ([a, b], [d, c]) = ([low[0], low[1]], [high[0], high[1]]);
        // The middles of the two diagonals of a ruled quadrilateral lie this far on either side of it.
        let normal = (c - a).cross(d - b).normalised();
        normal.map_or(0.0, |normal| ((a - b) + (c - d)).dot(normal).abs() / 4.0)
    });
    let worst = twist.fold(0.0, f64::max) / deviation.as_mm();
    if worst > 1.0 { (count as f64 * worst).ceil() as usize } else { count }
}

fn break_edges(skin: &Skin, counts: &[usize]) -> BrokenEdges {
    let mut points = skin.points.clone();
    let mut along = Vec::with_capacity(skin.edges.len());
    for (edge, &count) in skin.edges.iter().zip(counts) {
        let mut numbers = vec![edge.from as u32];
        if count > 1 {
            let first = points.len();
            points.extend(&edge.curve.points(count)[1..count]);
            numbers.extend((first..points.len()).map(|number| number as u32));
        }
        numbers.push(edge.to as u32);
        along.push(numbers);
    }
    BrokenEdges { points, along }
}

/// Joins the two sides of a strip by triangles, going on along the side that is behind.
fn zip(broken: &BrokenEdges, face: &Face, strip: &Strip, triangles: &mut Vec<[u32; 3]>) {
    let uses = &face.loops[0];
    let start = broken.chain(&uses[..strip.start_uses]);
    let mut end = broken.chain(&uses[strip.start_uses + 1..uses.len() - 1]);
    end.reverse();
    if end.is_empty() {
        // A tip: the side that goes up ends in it.
        end.extend(broken.points_of(uses[strip.start_uses]).last());
    }
    let point = |number: u32| broken.points[number as usize];
    let even = paired_edges(face).is_some();
    let shares = |curve: &super::Curve3, side: &[u32]| -> Vec<f64> {
        let last = side.len() - 1;
        let inner = |(index, &number): (usize, &u32)| match index {
            0 => 0.0,
            index if index == last => 1.0,
            index if even => index as f64 / last as f64,
            _ => curve.share_of(point(number)),
        };
        side.iter().enumerate().map(inner).collect()
    };
    let (start_shares, end_shares) = (shares(&strip.start, &start), shares(&strip.end, &end));
    let (mut low, mut high) = (0, 0);
    while low + 1 < start.len() || high + 1 < end.len() {
        let low_next = start_shares.get(low + 1).copied().unwrap_or(f64::INFINITY);
        let high_next = end_shares.get(high + 1).copied().unwrap_or(f64::INFINITY);
        let level = (low_next - high_next).abs() < 1e-9;
        let along_start = if level {
            let rising = point(start[low]).distance(point(end[high + 1]));
            let falling = point(start[low + 1]).distance(point(end[high]));
            // Equal diagonals lean the same way all along a strip, whatever the rounding.
            falling < rising * (1.0 - 1e-9)
        } else {
            low_next < high_next
        };
        if along_start {
            triangles.push([start[low], start[low + 1], end[high]]);
            low += 1;
        } else {
            triangles.push([start[low], end[high + 1], end[high]]);
            high += 1;
        }
    }
}

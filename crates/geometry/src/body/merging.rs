//! Which faces and edges are one, though the lofts describe them piece by piece?
//!
//! Flat faces that continue each other in one plane become one face, and straight edges that continue each other
//! between the same two faces one edge. A bore may then sit where two lofts meet, and nobody sees the stations.

use std::collections::BTreeMap;

use super::{BodyFault, Edge, EdgeUse, Face, FaceLoop, Skin, Surface, regions};
use crate::{Frame3, WELD};

/// How far two directions may differ, as the sine of the angle, to be the same. Larger would straighten gentle bends;
/// smaller than 1e-12 would tell apart what rounding made differ.
const SAME_DIRECTION: f64 = 1e-9;

/// Makes one of what is one, and numbers points and edges anew.
pub(super) fn merge(skin: &mut Skin) -> Result<(), BodyFault> {
    merge_faces(skin)?;
    merge_edges(skin);
    renumber(skin);
    Ok(())
}

fn merge_faces(skin: &mut Skin) -> Result<(), BodyFault> {
    let mut owners: Vec<[usize; 2]> = vec![[0; 2]; skin.edges.len()];
    for (index, face) in skin.faces.iter().enumerate() {
        for edge_use in face.loops.iter().flatten() {
            owners[edge_use.edge][usize::from(edge_use.forward)] = index;
        }
    }
    let mut taken = vec![false; skin.faces.len()];
    let mut faces = Vec::with_capacity(skin.faces.len());
    for seed in largest_first(skin) {
        if std::mem::replace(&mut taken[seed], true) {
            continue;
        }
        let Surface::Plane(frame) = skin.faces[seed].surface else {
            faces.push(skin.faces[seed].clone());
            continue;
        };
        let mut group = vec![seed];
        let mut next = 0;
        while let Some(&member) = group.get(next) {
            next += 1;
            for edge_use in skin.faces[member].loops.iter().flatten() {
                let other = owners[edge_use.edge][usize::from(!edge_use.forward)];
                if !taken[other] && lies_in(skin, &skin.faces[other], frame) {
                    taken[other] = true;
                    group.push(other);
                }
            }
        }
        if group.len() == 1 {
            faces.push(skin.faces[seed].clone());
            continue;
        }
        let uses: Vec<EdgeUse> =
            group.iter().flat_map(|&face| skin.faces[face].loops.iter().flatten()).copied().collect();
        let within =
            |edge_use: &EdgeUse| group.contains(&owners[edge_use.edge][usize::from(!edge_use.forward)]);
        let outer: Vec<EdgeUse> = uses.into_iter().filter(|edge_use| !within(edge_use)).collect();
        for loops in regions::trace(skin, frame, &outer)? {
            faces.push(Face { surface: Surface::Plane(frame), loops });
        }
    }
    skin.faces = faces;
    Ok(())
}

/// The faces, flat ones by falling area: the largest says best where the plane lies.
fn largest_first(skin: &Skin) -> Vec<usize> {
    let area = |index: &usize| match &skin.faces[*index] {
        Face { surface: Surface::Plane(frame), loops } => regions::signed_area(skin, *frame, &loops[0]),
        _ => 0.0,
    };
    let mut keyed: Vec<(f64, usize)> = (0..skin.faces.len()).map(|index| (area(&index), index)).collect();
    keyed.sort_by(|a, b| b.0.total_cmp(&a.0).then(a.1.cmp(&b.1)));
    keyed.into_iter().map(|(_, index)| index).collect()
}

/// Whether a face is flat, lies in a plane and looks out of it the same way.
fn lies_in(skin: &Skin, face: &Face, frame: Frame3) -> bool {
    let Surface::Plane(own) = face.surface else { return false };
    let height = |edge_use: &EdgeUse| frame.height(skin.points[skin.start_of(*edge_use)]).abs();
    own.normal().dot(frame.normal()) > 0.0
        && own.normal().cross(frame.normal()).length() <= 1e3 * SAME_DIRECTION
        && face.loops.iter().flatten().all(|edge_use| height(edge_use) <= WELD.distance().as_mm())
}

/// Joins straight edges end to end where nothing else meets them.
fn merge_edges(skin: &mut Skin) {
    let needless = needless_points(skin);
    let mut joined: BTreeMap<(usize, usize), usize> = BTreeMap::new();
    let mut faces = std::mem::take(&mut skin.faces);
    for face_loop in faces.iter_mut().flat_map(|face| &mut face.loops) {
        let Some(begin) = face_loop.iter().position(|&edge_use| !needless[skin.start_of(edge_use)]) else {
            continue;
        };
        face_loop.rotate_left(begin);
        let mut merged = FaceLoop::with_capacity(face_loop.len());
        let mut row: Vec<EdgeUse> = Vec::new();
        for &edge_use in face_loop.iter() {
            row.push(edge_use);
            if needless[skin.end_of(edge_use)] {
                continue;
            }
            let (first, last) = (row[0], row[row.len() - 1]);
            row.clear();
            if first == last {
                merged.push(first);
                continue;
            }
            let (from, to) = (skin.start_of(first), skin.end_of(last));
            let ends = (first.edge.min(last.edge), first.edge.max(last.edge));
            let edge = *joined.entry(ends).or_insert_with(|| skin.add_line(from, to));
            merged.push(EdgeUse { edge, forward: skin.edges[edge].from == from });
        }
        // A strip's loop is left as it was begun: none of its points is needless.
        *face_loop = merged;
    }
    skin.faces = faces;
}

/// For each point, whether two straight edges only meet there, in one direction, both between flat faces.
fn needless_points(skin: &Skin) -> Vec<bool> {
    let mut meeting: Vec<Vec<usize>> = vec![Vec::new(); skin.points.len()];
    let mut flat = vec![true; skin.points.len()];
    for face in &skin.faces {
        for &edge_use in face.loops.iter().flatten() {
            if !matches!(face.surface, Surface::Plane(_)) {
                flat[skin.start_of(edge_use)] = false;
            }
            if edge_use.forward {
                meeting[skin.start_of(edge_use)].push(edge_use.edge);
                meeting[skin.end_of(edge_use)].push(edge_use.edge);
            }
        }
    }
    let straight = |point: usize| {
        let [first, second] = meeting[point][..] else { return false };
        let [first, second] = [first, second].map(|edge| skin.edges[edge]);
        let away = |edge: Edge| {
            let other = if edge.from == point { edge.to } else { edge.from };
            (skin.points[other] - skin.points[point]).normalised()
        };
        let lines = first.curve.is_line() && second.curve.is_line();
        lines
            && away(first).zip(away(second)).is_some_and(|(one, other)| {
                one.dot(other) < 0.0 && one.cross(other).length() <= SAME_DIRECTION
            })
    };
    (0..skin.points.len()).map(|point| flat[point] && straight(point)).collect()
}

/// Takes out the points and edges that no face uses any more.
fn renumber(skin: &mut Skin) {
    let mut edge_numbers: Vec<Option<usize>> = vec![None; skin.edges.len()];
    let mut point_numbers: Vec<Option<usize>> = vec![None; skin.points.len()];
    for edge_use in skin.faces.iter().flat_map(|face| &face.loops).flatten() {
        edge_numbers[edge_use.edge] = Some(0);
        let Edge { from, to, .. } = skin.edges[edge_use.edge];
        (point_numbers[from], point_numbers[to]) = (Some(0), Some(0));
    }
    for numbers in [&mut edge_numbers, &mut point_numbers] {
        for (number, used) in numbers.iter_mut().flatten().enumerate() {
            *used = number;
        }
    }
    let new = |numbers: &[Option<usize>], old: usize| numbers[old].expect("a face uses it: our bug");
    for edge_use in skin.faces.iter_mut().flat_map(|face| &mut face.loops).flatten() {
        edge_use.edge = new(&edge_numbers, edge_use.edge);
    }
    let kept =
        std::mem::take(&mut skin.edges).into_iter().zip(&edge_numbers).filter(|(_, number)| number.is_some());
    skin.edges = kept
        .map(|(edge, _)| Edge {
            from: new(&point_numbers, edge.from),
            to: new(&point_numbers, edge.to),
            ..edge
        })
        .collect();
    let kept = std::mem::take(&mut skin.points)
        .into_iter()
        .zip(&point_numbers)
        .filter(|(_, number)| number.is_some());
    skin.points = kept.map(|(point, _)| point).collect();
}

//! Which faces does a set of directed edges in one plane bound?
//!
//! Every edge has a face to its left and none to its right. Followed from edge to edge they close to loops:
//! counter-clockwise ones bound a face from outside, clockwise ones are holes.

use std::collections::BTreeMap;

use super::flat::segment_of;
use super::{BodyFault, EdgeUse, FaceLoop, Skin};
use crate::segment::cap_area;
use crate::{Frame3, Outline, Point2, Segment, Vector2, Vertex};

/// The loops of each face, the outer first, of the faces to the left of edge uses in a plane.
pub(super) fn trace(skin: &Skin, frame: Frame3, uses: &[EdgeUse]) -> Result<Vec<Vec<FaceLoop>>, BodyFault> {
    let mut faces: Vec<Vec<FaceLoop>> = Vec::new();
    let mut holes: Vec<FaceLoop> = Vec::new();
    for face_loop in loops(skin, frame, uses)? {
        if signed_area(skin, frame, &face_loop) > 0.0 {
            faces.push(vec![face_loop])
        } else {
            holes.push(face_loop)
        }
    }
    for hole in holes {
        let face = match faces.len() {
            1 => Some(0),
            _ => smallest_around(skin, frame, &faces, segment_of(skin, frame, hole[0]).point_at(0.5)),
        };
        match face {
            Some(face) => faces[face].push(hole),
            None => return Err(BodyFault::BrokenLoop { at: skin.points[skin.start_of(hole[0])] }),
        }
    }
    Ok(faces)
}

/// Square millimetres to the left of a loop, negative where it runs clockwise.
pub(super) fn signed_area(skin: &Skin, frame: Frame3, face_loop: &[EdgeUse]) -> f64 {
    let origin = frame.flat(skin.points[skin.start_of(face_loop[0])]);
    let part = |&edge_use: &EdgeUse| {
        let segment = segment_of(skin, frame, edge_use);
        (segment.from() - origin).cross(segment.to() - origin) / 2.0
            + cap_area(segment.chord(), segment.bulge())
    };
    face_loop.iter().map(part).sum()
}

/// The loop as an outline.
pub(super) fn outline_of(skin: &Skin, frame: Frame3, face_loop: &[EdgeUse]) -> Option<Outline> {
    let vertex = |&edge_use: &EdgeUse| {
        let segment = segment_of(skin, frame, edge_use);
        Vertex { point: segment.from(), bulge: segment.bulge() }
    };
    Outline::new(face_loop.iter().map(vertex).collect()).ok()
}

fn smallest_around(skin: &Skin, frame: Frame3, faces: &[Vec<FaceLoop>], point: Point2) -> Option<usize> {
    let around = faces.iter().enumerate().filter(|(_, loops)| {
        outline_of(skin, frame, &loops[0]).is_some_and(|outline| outline.contains(point))
    });
    let area = |(_, loops): &(usize, &Vec<FaceLoop>)| signed_area(skin, frame, &loops[0]);
    around.min_by(|a, b| area(a).total_cmp(&area(b))).map(|(index, _)| index)
}

/// Follows the uses to closed loops. Where several go on from a point, the sharpest turn to the left is taken, which
/// keeps apart what touches there only.
fn loops(skin: &Skin, frame: Frame3, uses: &[EdgeUse]) -> Result<Vec<FaceLoop>, BodyFault> {
    let mut leaving: BTreeMap<usize, Vec<EdgeUse>> = BTreeMap::new();
    for &edge_use in uses {
        leaving.entry(skin.start_of(edge_use)).or_default().push(edge_use);
    }
    let mut found = Vec::new();
    for &first in uses {
        if !take(&mut leaving, skin, first) {
            continue;
        }
        let mut face_loop = vec![first];
        loop {
            let last = face_loop[face_loop.len() - 1];
            let at = skin.end_of(last);
            let mut onward = leaving.get(&at).cloned().unwrap_or_default();
            if at == skin.start_of(first) {
                onward.push(first);
            }
            let Some(next) = sharpest_left(skin, frame, last, &onward) else {
                return Err(BodyFault::BrokenLoop { at: skin.points[at] });
            };
            if next == first {
                break;
            }
            take(&mut leaving, skin, next);
            face_loop.push(next);
        }
        found.extend(parted(skin, face_loop));
    }
    Ok(found)
}

/// Takes a use out of those not yet followed; `false` when it had been.
fn take(leaving: &mut BTreeMap<usize, Vec<EdgeUse>>, skin: &Skin, edge_use: EdgeUse) -> bool {
    let Some(uses) = leaving.get_mut(&skin.start_of(edge_use)) else { return false };
    match uses.iter().position(|&other| other == edge_use) {
        Some(index) => {
            uses.remove(index);
            true
        }
        None => false,
    }
}

/// A loop that comes through a point twice, as loops that do not: an outer and a hole that touch.
fn parted(skin: &Skin, face_loop: FaceLoop) -> Vec<FaceLoop> {
    let mut done = Vec::new();
    let mut open: FaceLoop = Vec::new();
    for edge_use in face_loop {
        open.push(edge_use);
        let end = skin.end_of(edge_use);
        if let Some(begin) = open.iter().position(|&earlier| skin.start_of(earlier) == end) {
            done.push(open.split_off(begin));
        }
    }
    done
}

/// Of the uses that go on from the end of one, that which bounds the same face: the first met when turning clockwise
/// from the way back.
fn sharpest_left(skin: &Skin, frame: Frame3, last: EdgeUse, onward: &[EdgeUse]) -> Option<EdgeUse> {
    if onward.len() < 2 {
        return onward.first().copied();
    }
    let back = segment_of(skin, frame, last.reversed());
    let ways: Vec<Segment> = onward.iter().map(|&edge_use| segment_of(skin, frame, edge_use)).collect();
    let reach =
        ways.iter().chain([&back]).map(|way| way.chord().length()).fold(f64::INFINITY, f64::min) / 4.0;
    let back = direction_at(&back, reach);
    let clockwise = |way: &Segment| {
        let angle = -back.angle_to(direction_at(way, reach)).as_radians();
        if angle <= 0.0 { angle + std::f64::consts::TAU } else { angle }
    };
    let nearest = (0..ways.len()).min_by(|&a, &b| clockwise(&ways[a]).total_cmp(&clockwise(&ways[b])))?;
    Some(onward[nearest])
}

/// From the beginning of a segment to its point at a distance: unlike directions at the beginning itself, those of
/// two arcs that touch there differ.
fn direction_at(segment: &Segment, distance: f64) -> Vector2 {
    let share = match *segment {
        Segment::Line { .. } => distance / segment.chord().length(),
        Segment::Arc { radius, sweep, .. } => {
            2.0 * units::math::asin((distance / (2.0 * radius.as_mm())).min(1.0)) / sweep.as_radians().abs()
        }
    };
    segment.point_at(share) - segment.from()
}

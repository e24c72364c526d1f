//! What becomes of a mesh when its coordinates are rounded to 32 bits?

use std::collections::BTreeMap;

use units::WeldDistance;

use super::{Mesh, double_area};
use crate::Point3;

pub(super) fn rounded_to_f32(mesh: &Mesh, weld: WeldDistance) -> Mesh {
    let rounded = |coordinate: f64| f64::from(coordinate as f32);
    let mut points: Vec<Point3> = Vec::new();
    let mut cells: BTreeMap<[i64; 3], Vec<u32>> = BTreeMap::new();
    let distance = weld.distance().as_mm();
    let cell = |coordinate: f64| (coordinate / distance).floor() as i64;
    let numbers: Vec<u32> = mesh
        .points
        .iter()
        .map(|point| {
            let point = Point3::mm(rounded(point.x), rounded(point.y), rounded(point.z));
            let home = [cell(point.x), cell(point.y), cell(point.z)];
            let near = neighbours(home).filter_map(|cell| cells.get(&cell)).flatten();
            let same = near.copied().find(|&other| points[other as usize].distance(point) <= distance);
            same.unwrap_or_else(|| {
                let number = points.len() as u32;
                points.push(point);
                cells.entry(home).or_default().push(number);
                number
            })
        })
        .collect();
    let mut triangles: Vec<[u32; 3]> = mesh
        .triangles
        .iter()
        .map(|triangle| triangle.map(|point| numbers[point as usize]))
        .filter(|[a, b, c]| a != b && b != c && c != a)
        .collect();
    turn_flat_triangles(&points, &mut triangles);
    Mesh { points, triangles }
}

fn neighbours([x, y, z]: [i64; 3]) -> impl Iterator<Item = [i64; 3]> {
    (-1..=1).flat_map(move |i| (-1..=1).flat_map(move |j| (-1..=1).map(move |k| [x + i, y + j, z + k])))
}

/// Turns the long edge of each triangle that rounding left without area: with its neighbour across that edge it makes
/// a quadrilateral, which is cut the other way.
fn turn_flat_triangles(points: &[Point3], triangles: &mut [[u32; 3]]) {
    let corners = |triangle: [u32; 3]| triangle.map(|point| points[point as usize]);
    for flat in 0..triangles.len() {
        if double_area(corners(triangles[flat])) > 0.0 {
            continue;
        }
        let [a, b, c] = longest_edge_first(triangles[flat], points);
        let across = triangles.iter().position(|triangle| {
            (0..3).any(|corner| triangle[corner] == b && triangle[(corner + 1) % 3] == a)
        });
        if let Some(across) = across
            && let Some(&apex) = triangles[across].iter().find(|&&point| point != a && point != b)
            && apex != c
        {
            triangles[flat] = [a, apex, c];
            triangles[across] = [apex, b, c];
        }
    }
}

/// The same triangle, begun so that its first two points are the farthest apart.
fn longest_edge_first([a, b, c]: [u32; 3], points: &[Point3]) -> [u32; 3] {
    let length = |from: u32, to: u32| points[from as usize].distance(points[to as usize]);
    if length(a, b) >= length(b, c) && length(a, b) >= length(c, a) {
        [a, b, c]
    } else if length(b, c) >= length(c, a) {
        [b, c, a]
    } else {
        [c, a, b]
    }
}

//! What is a round bar, bent along a line?

use thiserror::Error;
use units::{ChordTolerance, Length, math};

use crate::{Frame3, Mesh, MeshFault, Point3, Vector3, WELD};

/// A round bar along straight pieces, cut to a mitre where two of them meet and square at its ends. Millimetres.
#[derive(Clone, Debug, PartialEq)]
pub struct Rod {
    points: Vec<Point3>,
    radius: Length,
    closed: bool,
}

/// A reason why a line is not a rod's.
#[derive(Clone, Copy, Debug, Error, PartialEq)]
#[non_exhaustive]
pub enum RodFault {
    /// There are not enough points.
    #[error("a rod needs at least {least} points, found {found}")]
    TooFewPoints {
        /// How many there are.
        found: usize,
        /// How many there must be.
        least: usize,
    },
    /// The radius is not positive.
    #[error("a rod's radius must be more than none, found {} mm", found.as_mm())]
    NoRadius {
        /// The radius.
        found: Length,
    },
    /// Two points that follow each other are one.
    #[error("point {point} of a rod is the same as the one before it")]
    NoLength {
        /// The later point, counted from 0.
        point: usize,
    },
    /// It turns back on itself.
    #[error("a rod turns back on itself at point {point}")]
    TurnsBack {
        /// The point, counted from 0.
        point: usize,
    },
    /// A closed rod does not lie in a plane.
    #[error("a closed rod leaves its plane at point {point}")]
    NotFlat {
        /// The point, counted from 0.
        point: usize,
    },
}

/// The least cosine of a turn: beyond it a mitre has no end.
const SHARPEST: f64 = -0.95;

/// How far a closed rod's points may lie off its plane, in millimetres.
const FLAT: f64 = 1e-6;

impl Rod {
    /// A rod from end to end along a line.
    ///
    /// - **Errors**: a [`RodFault`], the first one found.
    pub fn open(points: Vec<Point3>, radius: Length) -> Result<Self, RodFault> {
        Self { points, radius, closed: false }.checked()
    }

    /// A rod bent to a ring in a plane; the last point is joined to the first.
    ///
    /// - **Errors**: a [`RodFault`], the first one found.
    pub fn ring(points: Vec<Point3>, radius: Length) -> Result<Self, RodFault> {
        Self { points, radius, closed: true }.checked()
    }

    fn checked(self) -> Result<Self, RodFault> {
        let (found, least) = (self.points.len(), if self.closed { 3 } else { 2 });
        if found < least {
            return Err(RodFault::TooFewPoints { found, least });
        }
        if self.radius <= Length::ZERO {
            return Err(RodFault::NoRadius { found: self.radius });
        }
        let short = |(from, to): &(Point3, Point3)| from.distance(*to) <= WELD.distance().as_mm();
        if let Some(at) = self.pieces().position(|piece| short(&piece)) {
            return Err(RodFault::NoLength { point: (at + 1) % found });
        }
        let back = |&point: &usize| self.turn_at(point).is_some_and(|[from, to]| from.dot(to) < SHARPEST);
        if let Some(point) = (0..found).find(back) {
            return Err(RodFault::TurnsBack { point });
        }
        if self.closed {
            let normal = self.bend();
            let off = |&point: &usize| (self.points[point] - self.points[0]).dot(normal).abs() > FLAT;
            if let Some(point) = (0..found).find(off) {
                return Err(RodFault::NotFlat { point });
            }
        }
        Ok(self)
    }

    /// The points of the line along its middle.
    #[must_use]
    pub fn points(&self) -> &[Point3] {
        &self.points
    }

    /// Half its thickness.
    #[must_use]
    pub const fn radius(&self) -> Length {
        self.radius
    }

    /// The straight pieces of its middle line, each from its beginning to its end.
    pub fn pieces(&self) -> impl Iterator<Item = (Point3, Point3)> {
        let next = self.points.iter().skip(1).chain(self.points.first().filter(|_| self.closed));
        self.points.iter().copied().zip(next.copied())
    }

    /// The rod as triangles, closed and outward.
    ///
    /// - **Accuracy**: the round lies outside the facets by no more than the tolerance.
    /// - **Errors**: a [`MeshFault`] where it is bent more sharply than it is thick.
    pub fn mesh(&self, tolerance: ChordTolerance) -> Result<Mesh, MeshFault> {
        let sides = side_count(self.radius, tolerance);
        let rings = self.rings(sides);
        let (count, sides) = (rings.len() as u32, sides as u32);
        let mut points: Vec<Point3> = rings.into_iter().flatten().collect();
        let mut triangles = Vec::new();
        let joints = if self.closed { count } else { count - 1 };
        for joint in 0..joints {
            let (from, to) = (joint * sides, (joint + 1) % count * sides);
            for side in 0..sides {
                let next = (side + 1) % sides;
                let [a, b, c, d] = [from + side, from + next, to + next, to + side];
                triangles.extend([[a, b, c], [a, c, d]]);
            }
        }
        if !self.closed {
            let first = points.len() as u32;
            let last = (count - 1) * sides;
            points.extend([self.points[0], self.points[self.points.len() - 1]]);
            for side in 0..sides {
                let next = (side + 1) % sides;
                triangles.push([first, next, side]);
                triangles.push([first + 1, last + side, last + next]);
            }
        }
        let mesh = Mesh::new(points, triangles)?;
        mesh.check_closed()?;
        Ok(mesh)
    }

    /// The points round the rod at every point of its line, counter-clockwise for an eye toward which it runs.
    fn rings(&self, sides: usize) -> Vec<Vec<Point3>> {
        let directions: Vec<Vector3> = self.pieces().map(|(from, to)| direction(from, to)).collect();
        // Any direction across the first piece will do; each bend then carries it on without a twist.
        let start = directions[0];
        let aside = if start.x.abs() < 0.8 { Vector3::X } else { Vector3::Y };
        let mut across = Frame3::facing(self.points[0], start, aside)
            .expect("a rod's direction is not its own perpendicular: our bug")
            .u;
        let mut along = start;
        let mut rings = Vec::with_capacity(self.points.len());
        for (index, &point) in self.points.iter().enumerate() {
            let [before, after] = self.turn_at(index).unwrap_or([along, along]);
            let mitre = (before + after).normalised().expect("a rod never turns back: our bug");
            // The first ring of a closed rod is looked at from the piece that leaves it.
            let seen_along = if index == 0 { after } else { before };
            let other = seen_along.cross(across);
            let at = |side: usize| {
                let angle = std::f64::consts::TAU * side as f64 / sides as f64;
                let spoke = (across * math::cos(angle) + other * math::sin(angle)) * self.radius.as_mm();
                point + spoke - seen_along * (spoke.dot(mitre) / seen_along.dot(mitre))
            };
            rings.push((0..sides).map(at).collect());
            if index > 0 {
                across = carried(across, before, after);
            }
            along = after;
        }
        rings
    }

    /// The directions before and after a point; `None` at the ends of an open rod.
    fn turn_at(&self, point: usize) -> Option<[Vector3; 2]> {
        let count = self.points.len();
        if !self.closed && (point == 0 || point + 1 == count) {
            return None;
        }
        let [before, at, after] =
            [point + count - 1, point, point + 1].map(|index| self.points[index % count]);
        Some([direction(before, at), direction(at, after)])
    }

    /// The direction that the ring of a closed rod turns about; of no length where it does not turn.
    fn bend(&self) -> Vector3 {
        let start = self.points[0];
        let swept = self
            .pieces()
            .map(|(from, to)| (from - start).cross(to - start))
            .fold(Vector3::ZERO, |sum, part| sum + part);
        swept.normalised().unwrap_or(Vector3::ZERO)
    }
}

/// The direction from one point to another; a checked rod has no piece without one.
fn direction(from: Point3, to: Point3) -> Vector3 {
    (to - from).normalised().unwrap_or(Vector3::ZERO)
}

/// A vector across one direction carried by the shortest turn to lie across the next.
///
/// - **Source**: Rodrigues' rotation formula, for the turn that takes the one direction to the other.
fn carried(across: Vector3, before: Vector3, after: Vector3) -> Vector3 {
    across - (before + after) * (across.dot(after) / (1.0 + before.dot(after)))
}

/// The least number of sides whose middles lie within the tolerance of the round; never fewer than 6.
fn side_count(radius: Length, tolerance: ChordTolerance) -> usize {
    let height = (tolerance.deviation() / radius).min(1.0);
    let step = 4.0 * math::asin((height / 2.0).sqrt());
    ((std::f64::consts::TAU / step - 1e-9).ceil() as usize).max(6)
}

#[cfg(test)]
mod tests {
    use super::*;

    const FINE: ChordTolerance = ChordTolerance::new(Length::mm(1e-4));

    fn points(places: &[[f64; 3]]) -> Vec<Point3> {
        places.iter().map(|[x, y, z]| Point3::mm(*x, *y, *z)).collect()
    }

    /// The volume of a rod of radius 1, closed, against pi times the length of its middle line: a mitre takes from the
    /// inside of a bend what it adds outside.
    #[track_caller]
    fn check(rod: Result<Rod, RodFault>, length: f64) {
        let rod = rod.unwrap_or_else(|fault| panic!("{fault}"));
        let mesh = rod.mesh(FINE).unwrap_or_else(|fault| panic!("{fault}"));
        let (found, expected) = (mesh.volume(), std::f64::consts::PI * length);
        assert!((found - expected).abs() < 5e-4 * expected, "expected {expected} mm3, found {found}");
    }

    const ONE: Length = Length::mm(1.0);

    #[test]
    fn a_straight_rod_is_a_cylinder() {
        check(Rod::open(points(&[[1.0, 2.0, 3.0], [4.0, 6.0, 3.0]]), ONE), 5.0);
    }

    #[test]
    fn a_bent_rod_is_as_long_as_its_middle_line() {
        let bent = [[0.0, 0.0, 0.0], [10.0, 0.0, 0.0], [10.0, 10.0, 0.0], [10.0, 12.0, 9.0]];
        check(Rod::open(points(&bent), ONE), 20.0 + 85_f64.sqrt());
    }

    #[test]
    fn a_ring_closes_without_a_twist() {
        let ring = [[5.0, 0.0, 0.0], [5.0, 20.0, 0.0], [5.0, 20.0, 10.0], [5.0, 0.0, 10.0]];
        check(Rod::ring(points(&ring), ONE), 60.0);
    }

    #[track_caller]
    fn check_refused(rod: Result<Rod, RodFault>, expected: RodFault) {
        assert_eq!(rod, Err(expected), "must be refused");
    }

    #[test]
    fn what_is_no_rod_is_refused() {
        let line = points(&[[0.0; 3], [10.0, 0.0, 0.0]]);
        check_refused(Rod::open(line[..1].to_vec(), ONE), RodFault::TooFewPoints { found: 1, least: 2 });
        check_refused(Rod::open(line.clone(), Length::ZERO), RodFault::NoRadius { found: Length::ZERO });
        check_refused(Rod::open(vec![line[0], line[0]], ONE), RodFault::NoLength { point: 1 });
        let back = points(&[[0.0; 3], [10.0, 0.0, 0.0], [0.0, 0.1, 0.0]]);
        check_refused(Rod::open(back, ONE), RodFault::TurnsBack { point: 1 });
        let crooked = points(&[[0.0; 3], [9.0, 0.0, 0.0], [9.0, 9.0, 1.0], [0.0, 9.0, 0.0]]);
        assert!(matches!(Rod::ring(crooked, ONE), Err(RodFault::NotFlat { .. })), "not in a plane");
    }
}

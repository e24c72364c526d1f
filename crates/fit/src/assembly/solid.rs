//! How near are two placed solids to each other, and is a point inside one?

use std::sync::OnceLock;

use geometry::{Mesh, Point3, Rod, Vector3};
use parry3d_f64::bounding_volume::{Aabb, BoundingVolume};
use parry3d_f64::math::{Pose, Vector};
use parry3d_f64::partitioning::{Bvh, BvhBuildStrategy, BvhNode};
use parry3d_f64::query::distance;
use parry3d_f64::shape::{Segment, Shape, Triangle};
use units::{Length, math};

/// A solid with a tree of boxes over what it is made of.
#[derive(Clone, Debug)]
pub(super) enum Solid {
    /// Triangles.
    Faceted(Faceted),
    /// Straight pieces of one thickness, round at their joints and ends: exact, where a mesh of it would not be.
    Round(Round),
}

#[derive(Clone, Debug)]
pub(super) struct Faceted {
    triangles: Vec<Triangle>,
    /// The direction that each triangle looks in, of length 1.
    normals: Vec<Vector>,
    boxes: Vec<Aabb>,
    bounds: Aabb,
    /// Of the boxes; grown when something is first looked for in it.
    tree: OnceLock<Bvh>,
}

#[derive(Clone, Debug)]
pub(super) struct Round {
    pieces: Vec<Segment>,
    radius: f64,
    bounds: Aabb,
}

/// Distances larger than this are not worked out. In millimetres.
pub(super) const FAR: f64 = 10.0;

/// For up to so many shapes the triangles are looked at one by one: to grow a tree of them takes longer than that.
const FEW: usize = 8;

impl Solid {
    pub(super) fn of_mesh(mesh: &Mesh) -> Option<Self> {
        let triangles = mesh.corners().map(|corners| {
            let [a, b, c] = corners.map(vector);
            Triangle::new(a, b, c)
        });
        Faceted::new(triangles.collect()).map(Self::Faceted)
    }

    pub(super) fn of_rod(rod: &Rod) -> Option<Self> {
        let pieces: Vec<Segment> =
            rod.pieces().map(|(from, to)| Segment::new(vector(from), vector(to))).collect();
        let bounds = union(pieces.iter().map(boxed))?;
        Some(Self::Round(Round { pieces, radius: rod.radius().as_mm(), bounds }))
    }

    /// The box along the axes that the solid's middle lines and faces lie in, grown by its thickness.
    fn bounds(&self) -> Aabb {
        match self {
            Self::Faceted(faceted) => faceted.bounds,
            Self::Round(round) => round.bounds.loosened(round.radius),
        }
    }

    /// The air between two solids, no more than [`FAR`]; negative where one reaches into the other.
    ///
    /// Of something round the depth is exact until its middle reaches the other's surface; of two faceted solids that
    /// touch or meet the answer is 0.
    pub(super) fn air(&self, other: &Self) -> Length {
        let apart = box_distance(&self.bounds(), &other.bounds());
        if apart >= FAR {
            return Length::mm(FAR);
        }
        Length::mm(match (self, other) {
            (Self::Faceted(one), Self::Faceted(other)) => {
                let (small, large) =
                    if one.triangles.len() < other.triangles.len() { (one, other) } else { (other, one) };
                small.apart(large, Length::ZERO, Vector3::ZERO)
            }
            (Self::Round(rod), Self::Faceted(faceted)) | (Self::Faceted(faceted), Self::Round(rod)) => {
                rod.air_to(faceted)
            }
            (Self::Round(one), Self::Round(other)) => one.air_between(other),
        })
    }
}

impl Faceted {
    fn new(triangles: Vec<Triangle>) -> Option<Self> {
        let boxes: Vec<Aabb> = triangles.iter().map(boxed).collect();
        let bounds = union(boxes.iter().copied())?;
        let normals = triangles.iter().map(normal).collect();
        Some(Self { triangles, normals, boxes, bounds, tree: OnceLock::new() })
    }

    fn tree(&self) -> &Bvh {
        self.tree.get_or_init(|| Bvh::from_leaves(BvhBuildStrategy::Binned, &self.boxes))
    }

    /// The same solid drawn in by about a length on every side, toward the middle of its bounds, and then moved.
    pub(super) fn drawn_in(&self, by: Length, moved: Vector3) -> Vec<Triangle> {
        let (center, half) = (self.bounds.center(), self.bounds.half_extents());
        let share = |half: f64| ((half - by.as_mm()) / half).max(0.0);
        let shares = Vector::new(share(half.x), share(half.y), share(half.z));
        let moved = Vector::new(moved.x, moved.y, moved.z);
        let place = |point: Vector| center + (point - center) * shares + moved;
        self.triangles
            .iter()
            .map(|triangle| Triangle::new(place(triangle.a), place(triangle.b), place(triangle.c)))
            .collect()
    }

    /// The distance from any of some shapes to the surface, no more than [`FAR`].
    pub(super) fn nearest<S: Cornered>(&self, shapes: &[S]) -> f64 {
        self.nearest_within(shapes, FAR)
    }

    /// The distance from any of some shapes to the surface, no more than `far`.
    fn nearest_within<S: Cornered>(&self, shapes: &[S], far: f64) -> f64 {
        shapes.iter().fold(far, |least, shape| {
            let its_box = boxed(shape);
            if box_distance(&its_box, &self.bounds) >= least {
                return least;
            }
            let apart = |triangle: u32, least: f64| {
                let (triangle, normal) =
                    (&self.triangles[triangle as usize], self.normals[triangle as usize]);
                (!lies_off(shape, triangle, normal, least)).then(|| between(shape, triangle))
            };
            if shapes.len() <= FEW {
                return self.least_in_turn(&its_box, least, apart);
            }
            let box_apart = |node: &BvhNode, _| box_distance(&its_box, &node.aabb());
            self.tree().find_best(least, box_apart, apart).map_or(least, |(_, found)| found)
        })
    }

    /// The least of what is found of the triangles whose boxes are nearer to a box than a length, or that length: one after the
    /// other from the nearest box on, until none can be nearer.
    fn least_in_turn(&self, to: &Aabb, length: f64, found: impl Fn(u32, f64) -> Option<f64>) -> f64 {
        let apart = self.boxes.iter().map(|its_box| box_distance(to, its_box)).zip(0..);
        let mut near: Vec<(f64, u32)> = apart.filter(|(apart, _)| *apart < length).collect();
        near.sort_unstable_by(|one, other| one.0.total_cmp(&other.0));
        let mut least = length;
        for (box_apart, triangle) in near {
            if box_apart >= least {
                break;
            }
            least = found(triangle, least).map_or(least, |found| found.min(least));
        }
        least
    }

    /// Whether a point lies inside; on the surface either answer may come.
    pub(super) fn contains(&self, point: Vector) -> bool {
        self.bounds.contains_local_point(point) && encloses(&self.triangles, point)
    }

    /// The middles of the triangles that look against a direction.
    fn facing(triangles: &[Triangle], against: Vector3) -> impl Iterator<Item = Vector> {
        let against = Vector::new(against.x, against.y, against.z);
        triangles.iter().filter_map(move |triangle| {
            let normal = (triangle.b - triangle.a).cross(triangle.c - triangle.a);
            (normal.dot(against) < -0.9 * normal.length()).then(|| triangle.center())
        })
    }

    /// Whether this solid, moved, reaches into another: their surfaces cross, or the middle of a face that looks against
    /// `parting` lies inside the other, or one of the other's inside this.
    pub(super) fn presses_into(&self, other: &Self, parting: Vector3, depth: Length) -> bool {
        let moved = parting * -depth.as_mm();
        let pressed = self.drawn_in(Length::ZERO, moved);
        if Self::facing(&pressed, parting).any(|point| other.contains(point)) {
            return true;
        }
        let back = Vector::new(moved.x, moved.y, moved.z);
        Self::facing(&other.triangles, -parting).any(|point| self.contains(point - back))
            || other.comes_within(&pressed, 0.0)
    }

    /// How far this solid, drawn in and then moved, is from another, no more than [`FAR`]; 0 where the two meet, or one
    /// lies within the other.
    pub(super) fn apart(&self, other: &Self, drawn_in: Length, moved: Vector3) -> f64 {
        let shape = self.drawn_in(drawn_in, moved);
        let apart = other.nearest(&shape);
        if apart > 0.0 && swallowed(&shape, other) { 0.0 } else { apart }
    }

    /// Whether this solid, drawn in and then moved, comes as near to another as a length: with none, whether the two meet
    /// or one lies within the other. Asked with a short length, it costs less than how far the two are apart.
    pub(super) fn reaches(&self, other: &Self, drawn_in: Length, moved: Vector3, length: Length) -> bool {
        let shape = self.drawn_in(drawn_in, moved);
        other.comes_within(&shape, length.as_mm()) || swallowed(&shape, other)
    }

    /// Whether the surface comes as near to any of some triangles as a length.
    fn comes_within(&self, triangles: &[Triangle], length: f64) -> bool {
        triangles.iter().any(|one| {
            let its_box = boxed(one).loosened(length);
            if box_distance(&its_box, &self.bounds) > 0.0 {
                return false;
            }
            let its_normal = normal(one);
            self.tree().intersect_aabb(&its_box).any(|near| {
                let (other, other_normal) = (&self.triangles[near as usize], self.normals[near as usize]);
                let is_apart =
                    lies_off(one, other, other_normal, length) || lies_off(other, one, its_normal, length);
                !is_apart && between(one, other) <= length
            })
        })
    }

    /// The least way along a direction on which this solid, drawn in, comes clear of another; no more than [`FAR`].
    pub(super) fn depth_in(&self, other: &Self, parting: Vector3, drawn_in: Length) -> Length {
        let clear = |way: f64| !self.reaches(other, drawn_in, parting * way, Length::ZERO);
        let (mut inside, mut outside) = (0.0, FAR);
        while outside - inside > 1e-3 {
            let middle = (inside + outside) / 2.0;
            *if clear(middle) { &mut outside } else { &mut inside } = middle;
        }
        Length::mm(outside)
    }

    /// The triangles that look along a direction and of which a point, their middle, is wanted.
    pub(super) fn looking(&self, along: Vector3, wanted: impl Fn(Point3) -> bool) -> Vec<Triangle> {
        let along = Vector::new(along.x, along.y, along.z);
        let looks = |triangle: &&Triangle| {
            let normal = (triangle.b - triangle.a).cross(triangle.c - triangle.a);
            let middle = triangle.center();
            normal.dot(along) > 0.99 * normal.length() && wanted(Point3::mm(middle.x, middle.y, middle.z))
        };
        self.triangles.iter().filter(looks).copied().collect()
    }
}

impl Round {
    fn air_to(&self, faceted: &Faceted) -> f64 {
        let middle = faceted.nearest_within(&self.pieces, FAR + self.radius);
        // Something thick and short may lie in another altogether.
        let swallowed = middle > 0.0 && faceted.contains(self.pieces[0].a);
        if swallowed { -middle - self.radius } else { middle - self.radius }
    }

    fn air_between(&self, other: &Self) -> f64 {
        let thick = self.radius + other.radius;
        let mut least = FAR;
        for one in &self.pieces {
            let its_box = boxed(one);
            for other in &other.pieces {
                if box_distance(&its_box, &boxed(other)) - thick < least {
                    least = least.min(between(one, other) - thick);
                }
            }
        }
        least
    }
}

/// Whether one of two solids lies within the other, where their surfaces do not meet.
fn swallowed(shape: &[Triangle], other: &Faceted) -> bool {
    // Neither point lies on the other's surface: the two are apart.
    let point = other.triangles[0].a;
    let is_near = |bounds: Aabb| bounds.contains_local_point(point);
    other.contains(shape[0].a)
        || (union(shape.iter().map(boxed)).is_some_and(is_near) && encloses(shape, point))
}

/// Whether the closed surface of some triangles has a point inside; on the surface either answer may come.
///
/// - **Source**: the solid angles that the triangles of a closed surface take up from a point sum to a full sphere
///   inside and to nothing outside; that of one triangle by van Oosterom and Strackee, 1983 (from memory).
fn encloses(triangles: &[Triangle], point: Vector) -> bool {
    let angle = |triangle: &Triangle| {
        let [a, b, c] = [triangle.a - point, triangle.b - point, triangle.c - point];
        let [la, lb, lc] = [a, b, c].map(Vector::length);
        let volume = a.dot(b.cross(c));
        2.0 * math::atan2(volume, la * lb * lc + a.dot(b) * lc + b.dot(c) * la + c.dot(a) * lb)
    };
    triangles.iter().map(angle).sum::<f64>() > std::f64::consts::TAU
}

/// The direction in which a triangle looks, of length 1; of no length where the triangle has no area.
fn normal(triangle: &Triangle) -> Vector {
    let normal = (triangle.b - triangle.a).cross(triangle.c - triangle.a);
    let length = normal.length();
    if length > 0.0 { normal / length } else { Vector::ZERO }
}

/// A shape that lies between its corners.
pub(super) trait Cornered: Shape {
    /// The corners.
    fn corners(&self) -> impl Iterator<Item = Vector>;
}

impl Cornered for Triangle {
    fn corners(&self) -> impl Iterator<Item = Vector> {
        [self.a, self.b, self.c].into_iter()
    }
}

impl Cornered for Segment {
    fn corners(&self) -> impl Iterator<Item = Vector> {
        [self.a, self.b].into_iter()
    }
}

/// Whether a shape lies farther than a length from the plane of a triangle, all of it on one side: then so do the two from
/// each other. Sooner told than the distance between them.
fn lies_off<S: Cornered>(shape: &S, plane: &Triangle, normal: Vector, length: f64) -> bool {
    // What rounding may leave of a length of hundreds of millimetres.
    let length = length + 1e-9;
    let above = |corner: Vector| (corner - plane.a).dot(normal);
    shape.corners().all(|corner| above(corner) > length)
        || shape.corners().all(|corner| above(corner) < -length)
}

fn vector(point: Point3) -> Vector {
    Vector::new(point.x, point.y, point.z)
}

fn boxed<S: Shape>(shape: &S) -> Aabb {
    shape.compute_local_aabb()
}

fn union(boxes: impl Iterator<Item = Aabb>) -> Option<Aabb> {
    boxes.reduce(|one, other| one.merged(&other))
}

/// The distance between two boxes along the axes; 0 where they meet.
fn box_distance(one: &Aabb, other: &Aabb) -> f64 {
    (one.mins - other.maxs).max(other.mins - one.maxs).max(Vector::ZERO).length()
}

/// The distance between two shapes where they are.
fn between<A: Shape, B: Shape>(one: &A, other: &B) -> f64 {
    distance(&Pose::IDENTITY, one, &Pose::IDENTITY, other)
        .expect("distances between segments and triangles are supported: our bug")
        .distance
}

//! How is a flat part that is cut, opened and pocketed described as a solid?

use units::{ChordTolerance, Length};

use super::{BodyFault, EdgeUse, Face, Skin, Strip, Surface, triangulation};
use crate::{Frame3, Mesh, Outline, Shape, Vertex, WELD, gap};

/// A plate: an outline as thick as the plate, less its recesses.
///
/// The frame lies in the face that everything is cut from; its normal looks out of the plate, which lies below it.
#[derive(Clone, Debug, PartialEq)]
pub struct Plate {
    frame: Frame3,
    outline: Outline,
    thickness: Length,
    recesses: Vec<Recess>,
}

/// What is taken out of a plate, square to its face.
#[derive(Clone, Debug, PartialEq)]
pub struct Recess {
    /// What is taken out, in the coordinates of the plate's frame.
    pub shape: Shape,
    /// How deep, from the face; as deep as the plate is thick or deeper, it goes through.
    pub depth: Length,
}

impl Plate {
    /// A plate below a face.
    ///
    /// - **Units**: millimetres.
    /// - **Errors**: [`BodyFault::RecessLeavesPlate`] where a recess is not wholly inside the outline,
    ///   [`BodyFault::RecessesMeet`] where two are not apart.
    pub fn new(
        frame: Frame3,
        outline: Outline,
        thickness: Length,
        recesses: Vec<Recess>,
    ) -> Result<Self, BodyFault> {
        for (index, recess) in recesses.iter().enumerate() {
            let inside = outline.contains(recess.shape.segments()[0].from());
            if !inside || !apart(outline.segments(), &recess.shape) {
                return Err(BodyFault::RecessLeavesPlate { recess: index });
            }
            let meets = |other: &Recess| {
                !apart(recess.shape.segments(), &other.shape)
                    || recess.shape.contains(other.shape.segments()[0].from())
                    || other.shape.contains(recess.shape.segments()[0].from())
            };
            if let Some(first) = recesses[..index].iter().position(meets) {
                return Err(BodyFault::RecessesMeet { first, second: index });
            }
        }
        Ok(Self { frame, outline: outline.counter_clockwise(), thickness, recesses })
    }

    /// The face that everything is cut from; its normal looks out of the plate.
    #[must_use]
    pub const fn frame(&self) -> Frame3 {
        self.frame
    }

    /// The outline, counter-clockwise in the frame.
    #[must_use]
    pub const fn outline(&self) -> &Outline {
        &self.outline
    }

    /// From face to face.
    #[must_use]
    pub const fn thickness(&self) -> Length {
        self.thickness
    }

    /// What is taken out.
    #[must_use]
    pub fn recesses(&self) -> &[Recess] {
        &self.recesses
    }

    /// The boundary of the plate.
    ///
    /// - **Errors**: [`BodyFault::OpenSkin`] never but by our own fault.
    pub fn skin(&self) -> Result<Skin, BodyFault> {
        let mut skin = Skin::default();
        let outside = self.add_walls(&mut skin, self.outline.vertices(), self.thickness);
        let mut upper = vec![forward(&outside.upper)];
        let mut lower = vec![backward(&outside.lower)];
        for recess in &self.recesses {
            let hole = self.add_walls(&mut skin, &clockwise(&recess.shape), recess.depth.min(self.thickness));
            upper.push(forward(&hole.upper));
            let floor = backward(&hole.lower);
            if recess.depth >= self.thickness {
                lower.push(floor);
            } else {
                let surface = Surface::Plane(self.frame.shifted(-recess.depth));
                skin.faces.push(Face { surface, loops: vec![floor] });
            }
        }
        skin.faces.push(Face { surface: Surface::Plane(self.frame), loops: upper });
        let underside = self.frame.shifted(-self.thickness);
        let underside = Frame3 { v: -underside.v, ..underside };
        skin.faces.push(Face { surface: Surface::Plane(underside), loops: lower });
        skin.check()?;
        Ok(skin)
    }

    /// The plate as triangles, closed and outward.
    ///
    /// - **Accuracy**: flat faces are exact; no arc deviates by more than the tolerance.
    /// - **Errors**: [`BodyFault::TooThin`] where two edges all but touch.
    pub fn mesh(&self, tolerance: ChordTolerance) -> Result<Mesh, BodyFault> {
        triangulation::triangulate(&self.skin()?, tolerance)
    }

    /// The walls from the face down to a depth along a ring; the material lies to the ring's left.
    fn add_walls(&self, skin: &mut Skin, ring: &[Vertex], depth: Length) -> Rims {
        let normal = self.frame.normal();
        let levels = [self.frame.shifted(-depth), self.frame].map(|level| {
            let points: Vec<usize> =
                ring.iter().map(|vertex| skin.add_point(level.point(vertex.point))).collect();
            let edges: Vec<usize> = (0..ring.len())
                .map(|at| {
                    let next = points[(at + 1) % ring.len()];
                    skin.add_edge(points[at], next, ring[at].bulge, normal)
                })
                .collect();
            (points, edges)
        });
        let [(low, lower), (high, upper)] = levels;
        let posts: Vec<usize> = low.iter().zip(&high).map(|(from, to)| skin.add_line(*from, *to)).collect();
        for at in 0..ring.len() {
            let next = (at + 1) % ring.len();
            let start = skin.edges[lower[at]].curve;
            let surface = if start.is_line() {
                let out = (start.to - start.from).cross(normal);
                let frame = Frame3::facing(start.from, out, normal)
                    .expect("a wall is as long as its segment and square to the face: our bug");
                Surface::Plane(frame)
            } else {
                Surface::Ruled(Strip { start, end: skin.edges[upper[at]].curve, start_uses: 1 })
            };
            let uses = [(lower[at], true), (posts[next], true), (upper[at], false), (posts[at], false)];
            let loops = vec![uses.map(|(edge, forward)| EdgeUse { edge, forward }).to_vec()];
            skin.faces.push(Face { surface, loops });
        }
        Rims { lower, upper }
    }
}

/// The edges at the foot and the head of a row of walls.
struct Rims {
    lower: Vec<usize>,
    upper: Vec<usize>,
}

fn forward(edges: &[usize]) -> Vec<EdgeUse> {
    edges.iter().map(|&edge| EdgeUse { edge, forward: true }).collect()
}

fn backward(edges: &[usize]) -> Vec<EdgeUse> {
    edges.iter().rev().map(|&edge| EdgeUse { edge, forward: false }).collect()
}

/// The ring of a hole: the material lies to its left.
fn clockwise(shape: &Shape) -> Vec<Vertex> {
    match shape {
        Shape::Outline(outline) => outline.clone().counter_clockwise().reversed().vertices().to_vec(),
        Shape::Circle(circle) => {
            circle.segments().map(|half| Vertex { point: half.from(), bulge: -half.bulge() }).to_vec()
        }
    }
}

/// Whether a shape's edge keeps clear of other segments.
fn apart(segments: impl IntoIterator<Item = crate::Segment>, shape: &Shape) -> bool {
    gap(segments, shape.segments()).is_none_or(|gap| gap > WELD.distance())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Circle, Point2, Point3, Vector3};

    const TOLERANCE: ChordTolerance = ChordTolerance::new(Length::mm(0.0005));

    fn rectangle(x: [f64; 2], y: [f64; 2]) -> Outline {
        Outline::rectangle(Point2::mm(x[0], y[0]), Point2::mm(x[1], y[1])).expect("a rectangle")
    }

    fn round(x: f64, y: f64, diameter: f64) -> Shape {
        Circle::of_diameter(Point2::mm(x, y), Length::mm(diameter)).into()
    }

    fn plate(recesses: Vec<(Shape, f64)>) -> Result<Plate, BodyFault> {
        let frame = Frame3::facing(Point3::mm(1.0, 2.0, 3.0), Vector3::mm(0.3, -0.2, 1.0), Vector3::X)
            .expect("the wished direction is not the normal");
        let recesses =
            recesses.into_iter().map(|(shape, depth)| Recess { shape, depth: Length::mm(depth) }).collect();
        Plate::new(frame, rectangle([0.0, 40.0], [-10.0, 10.0]), Length::mm(3.0), recesses)
    }

    /// The volume of a closed mesh of the plate, in cubic millimetres, within 0.05.
    #[track_caller]
    fn check(recesses: Vec<(Shape, f64)>, expected: f64) {
        let mesh = plate(recesses).expect("a plate").mesh(TOLERANCE).expect("a mesh");
        mesh.check_closed().expect("closed");
        let found = mesh.volume();
        assert!((found - expected).abs() < 0.05, "expected {expected} mm3, found {found}");
    }

    const WHOLE: f64 = 40.0 * 20.0 * 3.0;

    #[test]
    fn a_plate_without_recesses_is_a_box() {
        check(vec![], WHOLE);
    }

    #[test]
    fn what_goes_through_takes_its_area_times_the_thickness() {
        let pi = std::f64::consts::PI;
        check(vec![(round(10.0, 0.0, 8.0), 3.0)], WHOLE - 16.0 * pi * 3.0);
        check(vec![(rectangle([5.0, 9.0], [-2.0, 4.0]).into(), 99.0)], WHOLE - 4.0 * 6.0 * 3.0);
    }

    #[test]
    fn a_pocket_keeps_its_floor() {
        let pocket = rectangle([20.0, 30.0], [-5.0, 5.0]).into();
        check(vec![(round(10.0, 0.0, 8.0), 1.0), (pocket, 2.0)], WHOLE - 16.0 * std::f64::consts::PI - 200.0);
    }

    #[test]
    fn recesses_stay_inside_and_apart() {
        let leaves = plate(vec![(round(2.0, 0.0, 4.0), 1.0)]);
        assert_eq!(leaves, Err(BodyFault::RecessLeavesPlate { recess: 0 }), "touches the edge");
        let outside = plate(vec![(round(60.0, 0.0, 4.0), 1.0)]);
        assert_eq!(outside, Err(BodyFault::RecessLeavesPlate { recess: 0 }), "off the plate");
        let meet = plate(vec![(round(10.0, 0.0, 8.0), 1.0), (round(11.0, 0.0, 2.0), 2.0)]);
        assert_eq!(meet, Err(BodyFault::RecessesMeet { first: 0, second: 1 }), "one in the other");
    }
}

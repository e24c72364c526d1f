//! The tail block: string bores with counterbores for the ball ends, and screw holes across them.

use geometry::{
    Body, Bore, BoreStep, Circle, Datum, Drawing, Frame3, HoleDepth, Operation, Outline, OutlineFault,
    Point2, Point3, Rigid3, Shape, Vector3,
};
use layout::{BoxFrame, Layout, TailKind, TailPlan};
use units::Length;

use crate::part::{Part, PartFault, Process, Solid, box_directions, point};

const NAME: &str = "tail-block";

/// The least size of a block along the strings. Smaller splits at the string holes. Common practice, no source.
const LEAST: Length = Length::mm(6.0);

pub(crate) fn make(layout: &Layout) -> Result<Option<Part>, PartFault> {
    let tail = layout.tail();
    let views = match tail.kind {
        TailKind::StringThrough => return Ok(None),
        TailKind::BlockOnLid => {
            [string_face(tail, |bore| bore.above, tail.above), screw_face(tail, tail.along)]
        }
        TailKind::BlockOnEnd => {
            [string_face(tail, |bore| bore.along, tail.along), screw_face(tail, tail.above)]
        }
    };
    let found = tail.along[1] - tail.along[0];
    if found < LEAST {
        return Err(PartFault::TailBlockInsideBox { found, least: LEAST });
    }
    let bad_outline = PartFault::outline(NAME);
    let [string_face, screw_face] = views;
    let drawings = vec![string_face.map_err(bad_outline)?, screw_face.map_err(bad_outline)?];
    let directions = box_directions(layout.frame());
    let [along, aside, above] = directions;
    let corner =
        |along_at: Length, above_at: Length| point(layout.frame().place(along_at, Length::ZERO, above_at));
    let section = Outline::rectangle(
        Point2::new(tail.across[0], Length::ZERO),
        Point2::new(tail.across[1], tail.above[1] - tail.above[0]),
    )
    .map_err(bad_outline)?;
    let near = Frame3 { origin: corner(tail.along[0], tail.above[0]), u: aside, v: above };
    let mut bores = string_bores(tail, layout.frame(), directions);
    bores.extend(screw_bores(tail, layout.frame(), directions));
    let body =
        Body::prism(near, section, tail.along[1] - tail.along[0], bores).map_err(PartFault::body(NAME))?;
    let foot = Frame3 { origin: corner(tail.along[0], tail.above[0]), u: along, v: aside };
    Ok(Some(Part {
        name: NAME,
        title: "Tail block",
        material: "hardwood".into(),
        blank: [
            tail.along[1] - tail.along[0],
            tail.across[1] - tail.across[0],
            tail.above[1] - tail.above[0],
        ],
        quantity: 1,
        drawings,
        solid: Some(Solid::new(
            NAME,
            body,
            Rigid3::between(foot, Frame3::across_z(Length::ZERO)),
            Process::Printed,
        )?),
    }))
}

/// One bore a string, entered from where the ball end goes in: the rear of a block on the lid, the underside of one on
/// the end.
fn string_bores(tail: &TailPlan, frame: &BoxFrame, [along, _, above]: [Vector3; 3]) -> Vec<Bore> {
    tail.bores
        .iter()
        .map(|bore| {
            let (entry, direction, depth) = match tail.kind {
                TailKind::BlockOnLid => (
                    frame.place(tail.along[1], bore.across, bore.above),
                    -along,
                    tail.along[1] - tail.along[0],
                ),
                TailKind::BlockOnEnd | TailKind::StringThrough => (
                    frame.place(bore.along, bore.across, tail.above[0]),
                    above,
                    tail.above[1] - tail.above[0],
                ),
            };
            Bore::counterbored(
                point(entry),
                direction,
                BoreStep { depth, radius: bore.diameter / 2.0 },
                BoreStep { depth: tail.ball_depth, radius: bore.ball_diameter / 2.0 },
            )
        })
        .collect()
}

/// One countersunk hole a screw: down through a block on the lid, toward the box through one on the end.
fn screw_bores(tail: &TailPlan, frame: &BoxFrame, [along, _, above]: [Vector3; 3]) -> Vec<Bore> {
    let middle = |ends: [Length; 2]| (ends[0] + ends[1]) / 2.0;
    tail.screws
        .iter()
        .map(|placed| {
            let (entry, direction, depth) = match tail.kind {
                TailKind::BlockOnLid => (
                    frame.place(middle(tail.along), placed.across, tail.above[1]),
                    -above,
                    tail.above[1] - tail.above[0],
                ),
                TailKind::BlockOnEnd | TailKind::StringThrough => (
                    frame.place(tail.along[1], placed.across, middle(tail.above)),
                    -along,
                    tail.along[1] - tail.along[0],
                ),
            };
            let hole = BoreStep { depth, radius: placed.screw.clearance / 2.0 };
            let head_radius = placed.screw.head / 2.0;
            let entry: Point3 = point(entry);
            // A right-angled countersink is as deep as its radii differ.
            Bore::countersunk(entry, direction, hole, head_radius, head_radius - hole.radius)
        })
        .collect()
}

/// The face with the counterbores; `up` is the bores' second coordinate on it.
fn string_face(
    tail: &TailPlan,
    up: fn(&layout::StringBore) -> Length,
    height: [Length; 2],
) -> Result<Drawing, OutlineFault> {
    let mut operations = vec![outside(tail.across, height)?];
    for bore in &tail.bores {
        let center = Point2::new(bore.across, up(bore));
        operations.push(Operation::Drill {
            circle: Circle::of_diameter(center, bore.diameter),
            depth: HoleDepth::Through,
        });
        operations.push(Operation::Drill {
            circle: Circle::of_diameter(center, bore.ball_diameter),
            depth: HoleDepth::To(tail.ball_depth),
        });
    }
    Ok(Drawing {
        name: "tail-block-strings".into(),
        title: "Tail block, the face where the ball ends go in".into(),
        datum: Datum {
            point: Point2::new(Length::ZERO, height[0]),
            meaning: "centre line on the foot".into(),
        },
        operations,
    })
}

/// The face with the countersinks.
fn screw_face(tail: &TailPlan, height: [Length; 2]) -> Result<Drawing, OutlineFault> {
    let mut operations = vec![outside(tail.across, height)?];
    let middle = (height[0] + height[1]) / 2.0;
    for placed in &tail.screws {
        operations.push(Operation::Drill {
            circle: Circle::of_diameter(Point2::new(placed.across, middle), placed.screw.clearance),
            depth: HoleDepth::Through,
        });
    }
    Ok(Drawing {
        name: "tail-block-screws".into(),
        title: "Tail block, the face where the screws go in".into(),
        datum: Datum {
            point: Point2::new(Length::ZERO, height[0]),
            meaning: "centre line at the lower edge".into(),
        },
        operations,
    })
}

fn outside(across: [Length; 2], height: [Length; 2]) -> Result<Operation, OutlineFault> {
    let outline = Outline::rectangle(Point2::new(across[0], height[0]), Point2::new(across[1], height[1]))?;
    Ok(Operation::CutOutside(Shape::Outline(outline)))
}

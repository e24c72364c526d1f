//! The nut: a block whose slots fall toward the tuners and fan out to the posts.

use geometry::{
    Body, Datum, Drawing, Frame3, Loft, Operation, Outline, Path, Point2, Rigid3, Section, Shape, Vertex,
};
use layout::{Layout, NutPlan, Place};
use units::Length;

use crate::part::{Part, PartFault, Process, Solid};

const NAME: &str = "nut";

/// What must be left of the nut under its deepest slot. Larger asks for a thinner headstock; smaller breaks. Common practice,
/// no source.
pub const LEAST_NUT_FOOT: Length = Length::mm(1.0);

pub(crate) fn make(layout: &Layout) -> Result<Option<Part>, PartFault> {
    let nut = layout.nut();
    let lowest = nut.slots.iter().map(|slot| slot.rear.z).fold(nut.top_z, Length::min) - nut.base_z;
    if lowest < LEAST_NUT_FOOT {
        return Err(PartFault::NutTooLow { found: lowest, least: LEAST_NUT_FOOT });
    }
    let section = |x: Length, at: fn(&layout::NutSlot) -> Place| {
        ring(nut, at).map(|ring| Section { frame: Frame3::across_x(x), ring })
    };
    let bad_outline = PartFault::outline(NAME);
    let loft = Loft {
        start: section(nut.rear_x, |slot| slot.rear).map_err(bad_outline)?,
        end: section(nut.front_x, |slot| slot.front).map_err(bad_outline)?,
    };
    let body = Body::new(vec![loft], Vec::new()).map_err(PartFault::body(NAME))?;
    Ok(Some(Part {
        name: NAME,
        title: "Nut",
        material: "hard plastic, bone or hardwood".into(),
        blank: [nut.length, nut.front_x - nut.rear_x, nut.top_z - nut.base_z],
        quantity: 1,
        drawings: vec![front_view(nut).map_err(bad_outline)?, top_view(nut).map_err(bad_outline)?],
        solid: Some(Solid::new(NAME, body, Rigid3::IDENTITY, Process::Printed)?),
    }))
}

/// The section across the strings, counter-clockwise seen from the tail, with one round-bottomed slot a string.
fn ring(nut: &NutPlan, at: fn(&layout::NutSlot) -> Place) -> Result<Outline, geometry::OutlineFault> {
    let half = nut.length / 2.0;
    let sharp = |y: Length, z: Length| Vertex::sharp(Point2::new(y, z));
    let mut slots: Vec<(Place, Length)> =
        nut.slots.iter().map(|slot| (at(slot), slot.width_across() / 2.0)).collect();
    slots.sort_by(|a, b| b.0.y.as_mm().total_cmp(&a.0.y.as_mm()));
    let mut vertices = vec![sharp(-half, nut.base_z), sharp(half, nut.base_z), sharp(half, nut.top_z)];
    for (floor, radius) in slots {
        let (right, left) = (floor.y + radius, floor.y - radius);
        let spring = floor.z + radius;
        vertices.push(sharp(right, nut.top_z));
        // Half a circle, clockwise: down one wall, round the floor and up the other.
        vertices.push(Vertex { point: Point2::new(right, spring), bulge: -1.0 });
        vertices.push(sharp(left, spring));
        vertices.push(sharp(left, nut.top_z));
    }
    vertices.push(sharp(-half, nut.top_z));
    Outline::new(vertices)
}

/// Seen from the saddle: the blank, and each slot at the front face as one saw cut.
fn front_view(nut: &NutPlan) -> Result<Drawing, geometry::OutlineFault> {
    let half = nut.length / 2.0;
    let blank = Outline::rectangle(Point2::new(-half, nut.base_z), Point2::new(half, nut.top_z))?;
    let mut operations = vec![Operation::CutOutside(Shape::Outline(blank))];
    for slot in &nut.slots {
        let path = Path::line(Point2::new(slot.front.y, nut.top_z), Point2::new(slot.front.y, slot.front.z))?;
        operations.push(Operation::Slot { path, width: slot.width, depth: nut.front_x - nut.rear_x });
    }
    Ok(Drawing {
        name: "nut-front".into(),
        title: "Nut, seen from the saddle".into(),
        datum: Datum {
            point: Point2::new(Length::ZERO, nut.base_z),
            meaning: "centre line on the foot".into(),
        },
        operations,
    })
}

/// Seen from above: the fan of the slots toward the posts.
fn top_view(nut: &NutPlan) -> Result<Drawing, geometry::OutlineFault> {
    let half = nut.length / 2.0;
    let blank = Outline::rectangle(Point2::new(nut.rear_x, -half), Point2::new(nut.front_x, half))?;
    let mut operations = vec![Operation::CutOutside(Shape::Outline(blank))];
    for slot in &nut.slots {
        let path =
            Path::line(Point2::new(slot.front.x, slot.front.y), Point2::new(slot.rear.x, slot.rear.y))?;
        operations.push(Operation::Slot { path, width: slot.width, depth: nut.top_z - slot.front.z });
    }
    Ok(Drawing {
        name: "nut-top".into(),
        title: "Nut, seen from above".into(),
        datum: Datum {
            point: Point2::new(nut.front_x, Length::ZERO),
            meaning: "centre line at the front face".into(),
        },
        operations,
    })
}

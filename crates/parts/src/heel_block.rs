//! The heel: a block under the neck, against the box, bevelled toward the hand.

use geometry::{
    Body, Datum, Drawing, Frame3, Loft, Operation, Outline, OutlineFault, Point2, Rigid3, Section, Shape,
    Vector3,
};
use layout::{BoxFrame, HeelPlan, Layout};
use units::Length;

use crate::part::{Part, PartFault, Process, Solid, box_directions, point};

const NAME: &str = "heel-block";

/// The least size of the underside along the neck. Smaller is a wedge that splits. Common practice, no source.
const LEAST: Length = Length::mm(1.0);

pub(crate) fn make(layout: &Layout) -> Result<Option<Part>, PartFault> {
    let Some(heel) = layout.heel() else { return Ok(None) };
    let bevel = (heel.reach / 2.0).min((heel.top_z - heel.bottom_z) / 2.0);
    let found = heel.wall_x[1] - heel.front_x - bevel;
    if found < LEAST {
        return Err(PartFault::HeelTooShort { found, least: LEAST });
    }
    let bad_outline = PartFault::outline(NAME);
    let body = body(heel, layout.frame(), bevel)
        .map_err(bad_outline)
        .and_then(|lofts| Body::new(lofts, Vec::new()).map_err(PartFault::body(NAME)))?;
    let box_x = heel.wall_x[0].max(heel.wall_x[1]);
    // The glued face is the flat one to lay it on.
    let glued = Frame3 {
        origin: geometry::Point3::new(box_x, Length::ZERO, heel.top_z),
        u: Vector3::X,
        v: -Vector3::Y,
    };
    Ok(Some(Part {
        name: NAME,
        title: "Heel block",
        material: layout.spec().neck.wood.name().into(),
        blank: [box_x - heel.front_x, heel.front_width.max(heel.box_width), heel.top_z - heel.bottom_z],
        quantity: 1,
        drawings: vec![side_view(heel, bevel).map_err(bad_outline)?, top_view(heel).map_err(bad_outline)?],
        solid: Some(Solid::new(
            NAME,
            body,
            Rigid3::between(glued, Frame3::across_z(Length::ZERO)),
            Process::Machined,
        )?),
    }))
}

/// From the bevelled end to the full section, and on to the box wall, which leans with the back angle.
fn body(heel: &HeelPlan, frame: &BoxFrame, bevel: Length) -> Result<Vec<Loft>, OutlineFault> {
    let across = |x: Length, bottom_z: Length| -> Result<Section, OutlineFault> {
        let share = (x - heel.front_x) / (heel.wall_x[0] - heel.front_x);
        let half = (heel.front_width + (heel.box_width - heel.front_width) * share) / 2.0;
        let ring = Outline::rectangle(Point2::new(-half, bottom_z), Point2::new(half, heel.top_z))?;
        Ok(Section { frame: Frame3::across_x(x), ring })
    };
    let bevelled_x = heel.front_x + bevel;
    let full = across(bevelled_x, heel.bottom_z)?;
    let [_, aside, above] = box_directions(frame);
    let wall =
        Frame3 { origin: point(frame.place(Length::ZERO, Length::ZERO, Length::ZERO)), u: aside, v: above };
    let on_wall = |z: Length| frame.above_at(z, Length::ZERO);
    let half = heel.box_width / 2.0;
    let ring = Outline::rectangle(
        Point2::new(-half, on_wall(heel.bottom_z)),
        Point2::new(half, on_wall(heel.top_z)),
    )?;
    Ok(vec![
        Loft { start: across(heel.front_x, heel.bottom_z + bevel)?, end: full.clone() },
        Loft { start: full, end: Section { frame: wall, ring } },
    ])
}

fn side_view(heel: &HeelPlan, bevel: Length) -> Result<Drawing, OutlineFault> {
    let outline = Outline::polygon([
        Point2::new(heel.front_x, heel.top_z),
        Point2::new(heel.front_x, heel.bottom_z + bevel),
        Point2::new(heel.front_x + bevel, heel.bottom_z),
        Point2::new(heel.wall_x[1], heel.bottom_z),
        Point2::new(heel.wall_x[0], heel.top_z),
    ])?;
    Ok(Drawing {
        name: "heel-block-side".into(),
        title: "Heel block, seen from the treble side".into(),
        datum: Datum {
            point: Point2::new(heel.wall_x[0], heel.top_z),
            meaning: "under the neck at the box".into(),
        },
        operations: vec![Operation::CutOutside(Shape::Outline(outline))],
    })
}

fn top_view(heel: &HeelPlan) -> Result<Drawing, OutlineFault> {
    let (front, back) = (heel.front_width / 2.0, heel.box_width / 2.0);
    let outline = Outline::polygon([
        Point2::new(heel.front_x, -front),
        Point2::new(heel.wall_x[0], -back),
        Point2::new(heel.wall_x[0], back),
        Point2::new(heel.front_x, front),
    ])?;
    Ok(Drawing {
        name: "heel-block-top".into(),
        title: "Heel block, glued face".into(),
        datum: Datum {
            point: Point2::new(heel.wall_x[0], Length::ZERO),
            meaning: "centre line at the box".into(),
        },
        operations: vec![Operation::CutOutside(Shape::Outline(outline))],
    })
}

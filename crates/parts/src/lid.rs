//! The lid: its openings, the saddle's place, and what lies under and on it.

use geometry::{
    Circle, Contour, Datum, Drawing, HoleDepth, Operation, Outline, OutlineFault, Path, Point2, Shape,
};
use layout::{BoxHole, Layout, TailKind};
use spec::{BoxFace, HolePurpose, Joint, Opening};
use units::Length;

use crate::mating::{cut_for_mate, titled};
use crate::part::{Part, PartFault};

const NAME: &str = "lid";

pub(crate) fn make(layout: &Layout) -> Result<Option<Part>, PartFault> {
    let body = &layout.spec().body;
    let drawing = draw(layout)?;
    Ok(Some(Part {
        name: NAME,
        title: "Lid",
        material: body.lid_wood.name().into(),
        blank: [body.length, body.width, body.lid],
        quantity: 1,
        drawings: vec![drawing],
        solid: None,
    }))
}

/// Seen from above, from the neck end to the tail end, the treble side of a right-handed instrument up.
fn draw(layout: &Layout) -> Result<Drawing, PartFault> {
    let bad_outline = PartFault::outline(NAME);
    let mut operations = cuts_and_guides(layout).map_err(bad_outline)?;
    let saddle = layout.saddle();
    let middle = saddle.center_along();
    let foot = [middle - saddle.thickness / 2.0, middle + saddle.thickness / 2.0];
    let mate = rectangle(foot, saddle.ends).map_err(bad_outline)?;
    let corners = if saddle.let_in > Length::ZERO {
        let air = layout.spec().print.clearance;
        let room = |ends: [Length; 2]| [ends[0] - air, ends[1] + air];
        let shape = cut_for_mate(
            layout,
            NAME,
            outline(room(foot), room(saddle.ends)).map_err(bad_outline)?,
            Contour::Pocket,
        )?;
        operations.push(Operation::Pocket { shape, depth: saddle.let_in });
        operations.push(Operation::Mate(mate));
        Some("corners of the saddle's foot")
    } else {
        operations.push(Operation::GuideShape(mate));
        None
    };
    Ok(Drawing {
        name: NAME.into(),
        title: titled(layout, "Lid, seen from above", corners),
        datum: Datum { point: Point2::ORIGIN, meaning: "centre line at the neck end".into() },
        operations,
    })
}

/// All but the place of the saddle.
fn cuts_and_guides(layout: &Layout) -> Result<Vec<Operation>, OutlineFault> {
    let spec = layout.spec();
    let half = spec.body.width / 2.0;
    let outside = rectangle([Length::ZERO, spec.body.length], [-half, half])?;
    let mut operations = vec![Operation::CutOutside(outside)];
    for hole in layout.holes().iter().filter(|hole| hole.face == BoxFace::Lid) {
        operations.push(opening(hole)?);
        if let Opening::Drawn { outline, .. } = &hole.opening {
            // No edge of it need be straight: two lines say where its middle is.
            let half = |size: Length| size / 2.0;
            let bounds = outline.outline.bounds();
            let [along, across] = [half(bounds.width()), half(bounds.height())];
            operations.push(Operation::Guide(Path::line(
                Point2::new(hole.first - along, hole.second),
                Point2::new(hole.first + along, hole.second),
            )?));
            operations.push(Operation::Guide(Path::line(
                Point2::new(hole.first, hole.second - across),
                Point2::new(hole.first, hole.second + across),
            )?));
        }
    }
    let saddle = layout.saddle();
    operations.push(Operation::Guide(Path::line(
        Point2::new(saddle.along, saddle.ends[0] - Length::mm(5.0)),
        Point2::new(saddle.along, saddle.ends[1] + Length::mm(5.0)),
    )?));
    if spec.neck.joint == Joint::Through {
        let half = spec.neck.width_at_box / 2.0;
        operations.push(Operation::GuideShape(rectangle([Length::ZERO, spec.body.length], [-half, half])?));
    }
    let tail = layout.tail();
    if tail.kind == TailKind::BlockOnLid {
        operations.push(Operation::GuideShape(rectangle(tail.along, tail.across)?));
        let along = (tail.along[0] + tail.along[1]) / 2.0;
        for placed in &tail.screws {
            let circle =
                Circle::of_diameter(Point2::new(along, placed.across), placed.screw.pilot_in_softwood);
            operations.push(Operation::Drill { circle, depth: HoleDepth::Through });
        }
    }
    Ok(operations)
}

/// An opening in the plane of its face: a jack and a pot are drilled, a round sound hole and a rectangle are cut.
pub(crate) fn opening(hole: &BoxHole) -> Result<Operation, OutlineFault> {
    let center = Point2::new(hole.first, hole.second);
    Ok(match &hole.opening {
        Opening::Round { diameter } => {
            let circle = Circle::of_diameter(center, *diameter);
            match hole.purpose {
                HolePurpose::Jack | HolePurpose::Pot => {
                    Operation::Drill { circle, depth: HoleDepth::Through }
                }
                HolePurpose::Sound | HolePurpose::Pickup => Operation::CutInside(Shape::Circle(circle)),
            }
        }
        Opening::Rectangle { length, width } => Operation::CutInside(rectangle(
            [hole.first - *length / 2.0, hole.first + *length / 2.0],
            [hole.second - *width / 2.0, hole.second + *width / 2.0],
        )?),
        Opening::Drawn { outline, .. } => {
            Operation::CutInside(outline.outline.translated(center.to_vector()).into())
        }
    })
}

/// A rectangle between two limits each way.
pub(crate) fn rectangle(x: [Length; 2], y: [Length; 2]) -> Result<Shape, OutlineFault> {
    outline(x, y).map(Shape::Outline)
}

/// The same as an outline.
pub(crate) fn outline(x: [Length; 2], y: [Length; 2]) -> Result<Outline, OutlineFault> {
    Outline::rectangle(Point2::new(x[0], y[0]), Point2::new(x[1], y[1]))
}

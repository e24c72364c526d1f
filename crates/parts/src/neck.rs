//! The neck: the stick from headstock to tail, in plan and from the side.

use geometry::{
    Circle, Datum, Drawing, Frame3, HoleDepth, Operation, Outline, OutlineFault, Path, Point2, Rigid3, Shape,
    Vertex,
};
use layout::{Layout, NeckShape, TailKind};
use spec::{FretKind, Joint};
use units::Length;

use crate::lid::rectangle;
use crate::neck_solid;
use crate::part::{Part, PartFault, Process, Solid};

const NAME: &str = "neck";

pub(crate) fn make(layout: &Layout) -> Result<Option<Part>, PartFault> {
    let neck = layout.neck();
    // Before the drawings: what keeps the body from being built has the better words.
    let body = neck_solid::body(layout)?;
    let bad_outline = PartFault::outline(NAME);
    Ok(Some(Part {
        name: NAME,
        title: "Neck",
        material: layout.spec().neck.wood.name().into(),
        blank: [neck.length(), layout.stick_width(), layout.spec().neck.thickness],
        quantity: 1,
        drawings: vec![plan(layout).map_err(bad_outline)?, side(layout).map_err(bad_outline)?],
        solid: Some(Solid::new(
            NAME,
            body,
            Rigid3::between(Frame3::across_z(neck.bottom_z), Frame3::across_z(Length::ZERO)),
            Process::Machined,
        )?),
    }))
}

/// From above, headstock left, in the instrument frame's `x` and `y`.
fn plan(layout: &Layout) -> Result<Drawing, OutlineFault> {
    let neck = layout.neck();
    let spec = layout.spec();
    let mut operations = vec![Operation::CutOutside(neck_outline(layout, neck.tail_end_x)?.into())];
    for tuner in layout.tuners() {
        let circle = Circle::of_diameter(Point2::new(tuner.bore.x, tuner.bore.y), tuner.diameter);
        operations.push(Operation::Drill { circle, depth: HoleDepth::Through });
    }
    if layout.tail().kind == TailKind::StringThrough {
        for (bore, string) in layout.tail().bores.iter().zip(layout.strings()) {
            let circle = Circle::of_diameter(Point2::new(string.tail.x, string.tail.y), bore.diameter);
            operations.push(Operation::Drill { circle, depth: HoleDepth::Through });
        }
    }
    if spec.fretboard.thickness == Length::ZERO {
        for groove in layout.grooves() {
            operations.push(Operation::Slot {
                path: across(neck, groove.x)?,
                width: groove.width,
                depth: groove.depth,
            });
        }
        // Seated wire and fret wire have their grooves; what is wrapped round a bare neck needs a mark.
        for fret in &layout.frets().frets {
            if fret.kind == FretKind::WrappedWire && spec.frets.seat_depth == Length::ZERO {
                operations.push(Operation::Engrave(across(neck, fret.x)?));
            }
        }
    }
    let nut = layout.nut();
    let half = nut.length / 2.0;
    operations.push(Operation::GuideShape(rectangle([nut.rear_x, nut.front_x], [-half, half])?));
    operations.push(Operation::Guide(Path::line(
        Point2::new(neck.head_end_x, Length::ZERO),
        Point2::new(neck.tail_end_x, Length::ZERO),
    )?));
    if neck.joint == Joint::Through {
        operations.push(Operation::Guide(across(neck, neck.box_x)?));
    }
    if let Some(heel) = layout.heel() {
        operations.push(Operation::Guide(across(neck, heel.front_x)?));
    }
    Ok(Drawing {
        name: "neck-plan".into(),
        title: "Neck, from above".into(),
        datum: Datum { point: Point2::ORIGIN, meaning: "centre line at the crown of the zero fret".into() },
        operations,
    })
}

/// The edge of the stick from above, headstock included, in the instrument frame's `x` and `y`; it ends at an `x` at or beyond
/// the neck end of the box.
pub fn neck_outline(layout: &Layout, end: Length) -> Result<Outline, OutlineFault> {
    let (neck, headstock) = (layout.neck(), layout.headstock());
    let edge = |x: &Length, side: f64| Vertex::sharp(Point2::new(*x, neck.width(*x) * (side / 2.0)));
    // The slanting end of a butt joint is seen at the neck end of the box.
    let stations = [neck.nut_front_x, neck.box_x, end];
    let used = if neck.joint == Joint::Through && end > neck.box_x { &stations[..] } else { &stations[..2] };
    let vertices = headstock.outline().vertices();
    let at = |place: usize| vertices[(headstock.joint() + vertices.len() + place) % vertices.len()];
    // What runs straight on along the edge of the neck has no corner where both are joined.
    let [bass, treble] = [at(0), at(1)];
    let (before, after) = (at(vertices.len() - 1), at(2));
    let bass_goes_on = before.bulge == 0.0 && before.point.y == bass.point.y && before.point.x < bass.point.x;
    let treble_goes_on =
        treble.bulge == 0.0 && after.point.y == treble.point.y && after.point.x < treble.point.x;
    let mut outline = Vec::with_capacity(vertices.len() + 6);
    for (place, vertex) in vertices.iter().enumerate() {
        if place == headstock.joint() {
            outline.extend((!bass_goes_on).then_some(*vertex));
            outline.extend(used.iter().map(|x| edge(x, -1.0)));
            outline.extend(used.iter().rev().map(|x| edge(x, 1.0)));
        } else if place != (headstock.joint() + 1) % vertices.len() || !treble_goes_on {
            outline.push(*vertex);
        }
    }
    Outline::new(outline)
}

/// A line from edge to edge.
fn across(neck: &NeckShape, x: Length) -> Result<Path, OutlineFault> {
    let half = neck.width(x) / 2.0;
    Path::line(Point2::new(x, -half), Point2::new(x, half))
}

/// From the treble side of a right-handed neck, headstock left: `x` and `z`.
fn side(layout: &Layout) -> Result<Drawing, OutlineFault> {
    let (neck, frame, spec) = (layout.neck(), layout.frame(), layout.spec());
    let mut corners = vec![
        Point2::new(neck.head_end_x, neck.bottom_z),
        Point2::new(neck.head_end_x, neck.head_top_z),
        Point2::new(neck.nut_front_x, neck.head_top_z),
        Point2::new(neck.nut_front_x, neck.top_z),
        Point2::new(frame.neck_wall_x(neck.top_z), neck.top_z),
    ];
    match neck.joint {
        Joint::Butt => corners.push(Point2::new(frame.neck_wall_x(neck.bottom_z), neck.bottom_z)),
        Joint::Through => {
            let recess = -spec.body.lid - spec.neck.tongue_recess;
            let on_wall = |along: Length, above: Length| {
                let place = frame.place(along, Length::ZERO, above);
                Point2::new(place.x, place.z)
            };
            corners.push(on_wall(Length::ZERO, recess));
            if layout.tail().kind == TailKind::StringThrough {
                let top_z = neck_solid::string_entry_z(layout);
                corners.push(on_wall(spec.body.length, recess));
                corners.push(on_wall(spec.body.length, frame.above_at(top_z, spec.body.length)));
                corners.push(Point2::new(neck.tail_end_x, top_z));
            } else {
                corners.push(Point2::new(neck.tail_end_x, frame.level_z(recess, neck.tail_end_x)));
            }
            corners.push(Point2::new(neck.tail_end_x, neck.bottom_z));
        }
    }
    // A headstock as thick as the neck, or an overhang at the tongue's level, has no step.
    corners.dedup_by(|a, b| a.distance(*b) < 1e-6);
    Ok(Drawing {
        name: "neck-side".into(),
        title: "Neck, from the side".into(),
        datum: Datum {
            point: Point2::new(Length::ZERO, neck.top_z),
            meaning: "the neck's top face under the crown of the zero fret".into(),
        },
        operations: vec![Operation::CutOutside(Shape::Outline(Outline::polygon(corners)?))],
    })
}

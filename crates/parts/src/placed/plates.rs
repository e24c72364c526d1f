//! Where do the lid and the walls stand, and what is cut out of them?

use geometry::{Frame3, HoleDepth, Operation, Outline, Plate, Point2, Recess, Shape};
use layout::Layout;
use spec::{BoxFace, Handed};
use units::Length;

use super::{Form, Placed, Thing};
use crate::catalogue::PartSet;
use crate::part::{box_directions, point};

/// The lid and the four walls. The sides stand between the ends.
pub(super) fn box_faces(layout: &Layout, set: &PartSet) -> Vec<Placed> {
    [BoxFace::Lid, BoxFace::NeckEnd, BoxFace::TailEnd, BoxFace::BassSide, BoxFace::TrebleSide]
        .into_iter()
        .filter_map(|face| {
            let plate = plate(layout, set, face)?;
            Some(Placed { thing: Thing::Face(face), form: Form::Plate(plate) })
        })
        .collect()
}

fn plate(layout: &Layout, set: &PartSet, face: BoxFace) -> Option<Plate> {
    let body = &layout.spec().body;
    let name = match face {
        BoxFace::Lid => "lid",
        BoxFace::NeckEnd => "box-neck-end",
        BoxFace::TailEnd => "box-tail-end",
        BoxFace::BassSide => "box-bass-side",
        BoxFace::TrebleSide => "box-treble-side",
    };
    let drawings = set.parts.iter().flat_map(|part| &part.drawings);
    let operations: &[Operation] =
        drawings.into_iter().find(|drawing| drawing.name == name).map_or(&[], |drawing| &drawing.operations);
    let outline = match face {
        // The template of a side is as long as the box; the wood stands between the ends.
        BoxFace::BassSide | BoxFace::TrebleSide => Outline::rectangle(
            Point2::new(body.wall, -body.depth),
            Point2::new(body.length - body.wall, -body.lid),
        )
        .ok()?,
        _ => operations.iter().find_map(|operation| match operation {
            Operation::CutOutside(Shape::Outline(outline)) => Some(outline.clone()),
            _ => None,
        })?,
    };
    let thickness = if face == BoxFace::Lid { body.lid } else { body.wall };
    let frame = frame(layout, face);
    let mut plate = Plate::new(frame, outline.clone(), thickness, Vec::new()).ok()?;
    for recess in operations.iter().filter_map(|operation| recess(operation, thickness)) {
        let recesses = plate.recesses().iter().cloned().chain([recess]).collect();
        plate = Plate::new(frame, outline.clone(), thickness, recesses).unwrap_or(plate);
    }
    Some(plate)
}

/// The plane that a face's drawing lies in: the plate lies below it.
///
/// A drawing of an end has the instrument's `y` to the right and one of a side the neck end to the left, so that each
/// looks at the tail end and at the side of negative `y` from outside, and through the box at the insides of the others.
fn frame(layout: &Layout, face: BoxFace) -> Frame3 {
    let body = &layout.spec().body;
    let [along, aside, above] = box_directions(layout.frame());
    let at = |along, across| point(layout.frame().place(along, across, Length::ZERO));
    let negative_side = match layout.spec().handed {
        Handed::Right => BoxFace::BassSide,
        Handed::Left => BoxFace::TrebleSide,
    };
    match face {
        BoxFace::Lid => Frame3 { origin: at(Length::ZERO, Length::ZERO), u: along, v: aside },
        BoxFace::NeckEnd => Frame3 { origin: at(body.wall, Length::ZERO), u: aside, v: above },
        BoxFace::TailEnd => Frame3 { origin: at(body.length, Length::ZERO), u: aside, v: above },
        side => {
            let outside = -body.width / 2.0;
            let y = if side == negative_side { outside } else { -outside - body.wall };
            Frame3 { origin: at(Length::ZERO, y), u: along, v: above }
        }
    }
}

/// What an operation takes out of a plate.
fn recess(operation: &Operation, thickness: Length) -> Option<Recess> {
    match operation {
        Operation::CutInside(shape) => Some(Recess { shape: shape.clone(), depth: thickness }),
        Operation::Pocket { shape, depth } => Some(Recess { shape: shape.clone(), depth: *depth }),
        Operation::Drill { circle, depth } => {
            let depth = match depth {
                HoleDepth::Through => thickness,
                HoleDepth::To(depth) => *depth,
            };
            Some(Recess { shape: Shape::Circle(*circle), depth })
        }
        _ => None,
    }
}

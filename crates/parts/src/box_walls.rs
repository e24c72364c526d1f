//! The walls of the box: the openings that the neck passes through, and those for hardware.

use geometry::{Circle, Datum, Drawing, HoleDepth, Operation, Outline, OutlineFault, Point2, Shape};
use layout::{BoxHole, Layout, TailKind};
use spec::{BoxFace, Joint};
use units::Length;

use crate::lid::{opening, rectangle};
use crate::part::{Part, PartFault};

const NAME: &str = "box-walls";

pub(crate) fn make(layout: &Layout) -> Result<Option<Part>, PartFault> {
    let body = &layout.spec().body;
    let drawings = [BoxFace::NeckEnd, BoxFace::TailEnd, BoxFace::BassSide, BoxFace::TrebleSide]
        .into_iter()
        .filter(|face| is_worked(layout, *face))
        .map(|face| draw(layout, face))
        .collect::<Result<Vec<Drawing>, OutlineFault>>()
        .map_err(PartFault::outline(NAME))?;
    Ok(Some(Part {
        name: NAME,
        title: "Box walls",
        material: "the box".into(),
        blank: [body.length, body.depth - body.lid, body.wall],
        quantity: 1,
        drawings,
        solid: None,
    }))
}

/// The ends always have a template; a side only where it has a hole.
fn is_worked(layout: &Layout, face: BoxFace) -> bool {
    matches!(face, BoxFace::NeckEnd | BoxFace::TailEnd) || holes(layout, face).next().is_some()
}

fn holes(layout: &Layout, face: BoxFace) -> impl Iterator<Item = &BoxHole> {
    layout.holes().iter().filter(move |hole| hole.face == face)
}

/// One wall, seen from outside with the neck's `y` to the right for the ends and the neck end to the left for the
/// sides; the second axis is the height above the lid's top, so that the wall's upper edge is the lid's underside.
fn draw(layout: &Layout, face: BoxFace) -> Result<Drawing, OutlineFault> {
    let body = &layout.spec().body;
    let height = [-body.depth, -body.lid];
    let (name, title, length, meaning) = match face {
        BoxFace::TailEnd => {
            ("box-tail-end", "Tail end of the box", across(body.width), "centre line at the lid's top")
        }
        BoxFace::BassSide => (
            "box-bass-side",
            "Bass side of the box",
            [Length::ZERO, body.length],
            "neck end at the lid's top",
        ),
        BoxFace::TrebleSide => (
            "box-treble-side",
            "Treble side of the box",
            [Length::ZERO, body.length],
            "neck end at the lid's top",
        ),
        BoxFace::NeckEnd | BoxFace::Lid => {
            ("box-neck-end", "Neck end of the box", across(body.width), "centre line at the lid's top")
        }
    };
    let outside = match notch(layout, face) {
        Some(notch) => notched(length, height, notch)?,
        None => rectangle(length, height)?,
    };
    let mut operations = vec![Operation::CutOutside(outside)];
    for hole in holes(layout, face) {
        operations.push(opening(&BoxHole { second: -hole.second, ..*hole })?);
    }
    if face == BoxFace::NeckEnd
        && let Some(mate) = butted_neck(layout)?
    {
        operations.push(mate);
    }
    let tail = layout.tail();
    if face == BoxFace::TailEnd && tail.kind == TailKind::BlockOnEnd {
        operations.push(Operation::GuideShape(rectangle(tail.across, tail.above)?));
        let middle = (tail.above[0] + tail.above[1]) / 2.0;
        for placed in &tail.screws {
            let circle =
                Circle::of_diameter(Point2::new(placed.across, middle), placed.screw.pilot_in_softwood);
            operations.push(Operation::Drill { circle, depth: HoleDepth::Through });
        }
    }
    Ok(Drawing {
        name: name.into(),
        title: title.into(),
        datum: Datum { point: Point2::ORIGIN, meaning: meaning.into() },
        operations,
    })
}

fn across(width: Length) -> [Length; 2] {
    [-width / 2.0, width / 2.0]
}

/// The notch that a through neck wants in an end: half its width, and the height of its floor above the lid.
fn notch(layout: &Layout, face: BoxFace) -> Option<(Length, Length)> {
    let spec = layout.spec();
    let along = match face {
        BoxFace::NeckEnd => Length::ZERO,
        BoxFace::TailEnd => spec.body.length,
        BoxFace::Lid | BoxFace::BassSide | BoxFace::TrebleSide => return None,
    };
    (spec.neck.joint == Joint::Through).then(|| {
        let half = spec.neck.width_at_box / 2.0 + spec.print.clearance;
        let underside = |along| layout.frame().above_at(layout.neck().bottom_z, along);
        // With a back angle the stick slants through the wall: the lower of its two heights there decides.
        let outer = underside(along);
        let inner = match face {
            BoxFace::NeckEnd => underside(along + spec.body.wall),
            _ => underside(along - spec.body.wall),
        };
        (half, outer.min(inner) - spec.print.clearance)
    })
}

/// A wall with a notch in its upper edge.
fn notched(
    length: [Length; 2],
    height: [Length; 2],
    (half, floor): (Length, Length),
) -> Result<Shape, OutlineFault> {
    let corners = [
        (length[0], height[0]),
        (length[1], height[0]),
        (length[1], height[1]),
        (half, height[1]),
        (half, floor),
        (-half, floor),
        (-half, height[1]),
        (length[0], height[1]),
    ];
    Outline::polygon(corners.map(|(x, y)| Point2::new(x, y))).map(Shape::Outline)
}

/// Where a butted neck and its heel are glued on.
fn butted_neck(layout: &Layout) -> Result<Option<Operation>, OutlineFault> {
    let spec = layout.spec();
    if spec.neck.joint == Joint::Through {
        return Ok(None);
    }
    let above = |z: Length| layout.frame().above_at(z, Length::ZERO);
    let lowest = layout.heel().map_or(layout.neck().bottom_z, |heel| heel.bottom_z);
    let glued = rectangle(across(spec.neck.width_at_box), [above(lowest), above(layout.neck().top_z)])?;
    Ok(Some(Operation::GuideShape(glued)))
}

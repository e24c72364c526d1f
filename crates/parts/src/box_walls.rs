//! The walls of the box: the openings that the neck passes through, and those for hardware.

use geometry::{Circle, Contour, Datum, Drawing, HoleDepth, Operation, Outline, OutlineFault, Point2, Shape};
use layout::{BoxHole, Layout, TailKind};
use spec::{BoxFace, Joint};
use units::Length;

use crate::lid::{opening, rectangle};
use crate::mating::{cut_for_mate, titled};
use crate::part::{Part, PartFault};

const NAME: &str = "box-walls";

pub(crate) fn make(layout: &Layout) -> Result<Option<Part>, PartFault> {
    let body = &layout.spec().body;
    let drawings = [BoxFace::NeckEnd, BoxFace::TailEnd, BoxFace::BassSide, BoxFace::TrebleSide]
        .into_iter()
        .filter(|face| is_worked(layout, *face))
        .map(|face| draw(layout, face))
        .collect::<Result<Vec<Drawing>, PartFault>>()?;
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
fn draw(layout: &Layout, face: BoxFace) -> Result<Drawing, PartFault> {
    let bad_outline = PartFault::outline(NAME);
    let body = &layout.spec().body;
    let height = [-body.depth, -body.lid];
    let (name, title, length, meaning) = match face {
        BoxFace::TailEnd => (
            "box-tail-end",
            "Tail end of the box, seen from outside",
            across(body.width),
            "centre line at the lid's top",
        ),
        BoxFace::BassSide => (
            "box-bass-side",
            "Bass side of the box, seen from outside",
            [Length::ZERO, body.length],
            "neck end at the lid's top",
        ),
        BoxFace::TrebleSide => (
            "box-treble-side",
            "Treble side of the box, seen from outside",
            [Length::ZERO, body.length],
            "neck end at the lid's top",
        ),
        BoxFace::NeckEnd | BoxFace::Lid => (
            "box-neck-end",
            "Neck end of the box, seen from outside",
            across(body.width),
            "centre line at the lid's top",
        ),
    };
    let notch = Notch::of(layout, face);
    let mut operations = match &notch {
        Some(notch) => {
            let outside = notch.in_wall(length, height).map_err(bad_outline)?;
            let outside = cut_for_mate(layout, NAME, outside, Contour::Outside)?;
            vec![Operation::CutOutside(outside), Operation::Mate(notch.tongue().map_err(bad_outline)?)]
        }
        None => vec![Operation::CutOutside(rectangle(length, height).map_err(bad_outline)?)],
    };
    operations.extend(others(layout, face).map_err(bad_outline)?);
    Ok(Drawing {
        name: name.into(),
        title: titled(layout, title, notch.map(|_| "lower corners of the neck's tongue")),
        datum: Datum { point: Point2::ORIGIN, meaning: meaning.into() },
        operations,
    })
}

/// What else is done to a wall.
fn others(layout: &Layout, face: BoxFace) -> Result<Vec<Operation>, OutlineFault> {
    let mut operations = Vec::new();
    for hole in holes(layout, face) {
        operations.push(opening(&BoxHole { second: -hole.second, ..hole.clone() })?);
    }
    if face == BoxFace::NeckEnd {
        operations.extend(butted_neck(layout)?);
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
    Ok(operations)
}

fn across(width: Length) -> [Length; 2] {
    [-width / 2.0, width / 2.0]
}

/// The notch in the upper edge of an end, through which the tongue of a through neck passes; heights are above the lid.
struct Notch {
    /// Half the tongue's width.
    half: Length,
    /// The lowest and the highest level of the tongue within the wall.
    levels: [Length; 2],
    /// Air on every side.
    air: Length,
}

impl Notch {
    /// The notch that a wall has; none where no neck passes.
    fn of(layout: &Layout, face: BoxFace) -> Option<Self> {
        let spec = layout.spec();
        let along = match face {
            BoxFace::NeckEnd => [Length::ZERO, spec.body.wall],
            BoxFace::TailEnd => [spec.body.length, spec.body.length - spec.body.wall],
            BoxFace::Lid | BoxFace::BassSide | BoxFace::TrebleSide => return None,
        };
        (spec.neck.joint == Joint::Through).then(|| {
            // With a back angle the stick slants through the wall: the lower of its two heights there decides.
            let [outer, inner] = along.map(|along| layout.frame().above_at(layout.neck().bottom_z, along));
            Self {
                half: spec.neck.width_at_box / 2.0,
                levels: [outer.min(inner), -spec.body.lid - spec.neck.tongue_recess],
                air: spec.print.clearance,
            }
        })
    }

    /// The tongue where it passes through the wall.
    fn tongue(&self) -> Result<Shape, OutlineFault> {
        rectangle([-self.half, self.half], self.levels)
    }

    /// A wall with the notch.
    fn in_wall(&self, length: [Length; 2], height: [Length; 2]) -> Result<Outline, OutlineFault> {
        notched(length, height, self.half + self.air, self.levels[0] - self.air)
    }
}

/// A plate with a notch in the middle of its upper edge: half its width, and the height of its floor.
pub(crate) fn notched(
    length: [Length; 2],
    height: [Length; 2],
    half: Length,
    floor: Length,
) -> Result<Outline, OutlineFault> {
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
    Outline::polygon(corners.map(|(x, y)| Point2::new(x, y)))
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

//! The drill guide for the tail: where each string's bore begins, on a cap that slips over what is bored.
//!
//! A plate lies on the face where the ball ends go in, with one guiding bore a string. A ledge registers on the face that the
//! bores are measured from: the foot of a block on the lid, the side of a block on the tail end that lies on the box, the end of
//! a stick that strings go through. Two cheeks hold it in the middle.

use geometry::{
    Body, Bore, Circle, Datum, Drawing, Frame3, HoleDepth, Loft, Operation, Outline, OutlineFault, Path,
    Point2, Rigid3, Vector3,
};
use layout::{Layout, TailKind};
use units::Length;

use crate::lid::rectangle;
use crate::part::{Part, PartFault, Process, Solid, box_directions, point};

const NAME: &str = "tail-drill-guide";

/// How long the bores guide the bit. Larger leaves too little of a thin bit to drill with; smaller lets it lean. Common
/// practice, no source.
const GUIDE: Length = Length::mm(10.0);

/// How far ledge and cheeks reach over what is bored, at most. Common practice, no source.
const REACH: Length = Length::mm(12.0);

/// Ledge and cheeks. Smaller bends; larger is print for nothing. Common practice, no source.
const WALL: Length = Length::mm(3.0);

/// Between two bores, and between a bore and the ledge. Smaller is not printed. Common practice, no source.
const LEAST_WALL: Length = Length::mm(0.8);

pub(crate) fn make(layout: &Layout) -> Result<Option<Part>, PartFault> {
    let guide = Guide::of(layout);
    if !guide.has_room() {
        return Ok(None);
    }
    let bad_outline = PartFault::outline(NAME);
    let frame = guide.frame;
    let lofts = vec![
        Loft::prism(frame.shifted(-GUIDE), guide.outside().map_err(bad_outline)?, GUIDE),
        Loft::prism(frame, guide.tray().map_err(bad_outline)?, guide.reach),
    ];
    let bores = guide
        .bores
        .iter()
        .map(|at| Bore::straight(frame.shifted(-GUIDE).point(*at), frame.normal(), guide.bore / 2.0, GUIDE));
    let body = Body::new(lofts, bores.collect()).map_err(PartFault::body(NAME))?;
    Ok(Some(Part {
        name: NAME,
        title: "Drill guide for the tail",
        material: "as the printed parts".into(),
        blank: [GUIDE + guide.reach, guide.half * 2.0, guide.height + WALL],
        quantity: 0,
        drawings: vec![guide.drawing().map_err(bad_outline)?],
        solid: Some(Solid::new(
            NAME,
            body,
            Rigid3::between(frame.shifted(-GUIDE), Frame3::across_z(Length::ZERO)),
            Process::Printed,
        )?),
    }))
}

/// The guide in the plane of the face that is bored: x across, y from the face that the ledge registers on.
struct Guide {
    /// That plane; the bores go along its normal.
    frame: Frame3,
    bores: Vec<Point2>,
    /// Diameter of the guiding bores.
    bore: Length,
    /// From the middle to the outside of a cheek, and to its inside.
    half: Length,
    room: Length,
    /// From the ledge to the far edge.
    height: Length,
    /// How far ledge and cheeks reach.
    reach: Length,
    registers_on: &'static str,
}

impl Guide {
    fn of(layout: &Layout) -> Self {
        let (tail, frame, neck) = (layout.tail(), layout.frame(), layout.neck());
        let [along, _, above] = box_directions(frame);
        let deep = |ends: [Length; 2]| ends[1] - ends[0];
        let at = |along: Length, above: Length| point(frame.place(along, Length::ZERO, above));
        let block = tail.across[1];
        // Where the two faces meet on the centre line, which way the bores go, and which way leads from the ledge.
        let (corner, direction, from_ledge, half, deep_along, height, registers_on) = match tail.kind {
            TailKind::BlockOnLid => (
                at(tail.along[1], tail.above[0]),
                -along,
                above,
                block,
                deep(tail.along),
                deep(tail.above),
                "the foot",
            ),
            TailKind::BlockOnEnd => (
                at(tail.along[0], tail.above[0]),
                above,
                along,
                block,
                deep(tail.above),
                deep(tail.along),
                "the side that lies on the box",
            ),
            TailKind::StringThrough => {
                let from_end = layout.strings().iter().map(|string| neck.tail_end_x - string.tail.x);
                let farthest = from_end.fold(Length::ZERO, Length::max);
                let corner = geometry::Point3::new(neck.tail_end_x, Length::ZERO, neck.bottom_z);
                (
                    corner,
                    Vector3::Z,
                    -Vector3::X,
                    neck.width_at_box / 2.0,
                    REACH,
                    farthest + GUIDE,
                    "the stick's end",
                )
            }
        };
        let plane = Frame3 { origin: corner, u: from_ledge.cross(direction), v: from_ledge };
        let air = layout.spec().print.clearance;
        let bores = tail.bores.iter().zip(layout.strings());
        let entry = bores.map(|(bore, string)| match tail.kind {
            TailKind::BlockOnLid | TailKind::BlockOnEnd => {
                point(frame.place(bore.along, bore.across, bore.above))
            }
            TailKind::StringThrough => point(string.tail),
        });
        Self {
            frame: plane,
            bores: entry.map(|entry| plane.flat(entry)).collect(),
            bore: layout.spec().tail.hole_bore + air,
            half: half + air + WALL,
            room: half + air,
            height,
            reach: REACH.min(deep_along),
            registers_on,
        }
    }

    /// Whether every bore has a wall round it. Where one has not, the checks of the tail say so of the tail itself.
    fn has_room(&self) -> bool {
        let apart = (self.bore + LEAST_WALL).as_mm();
        let beside = apart / 2.0;
        let inside = |at: &Point2| {
            at.x.abs() + beside <= self.room.as_mm() && at.y >= beside && at.y + beside <= self.height.as_mm()
        };
        let pairs = self.bores.iter().enumerate();
        self.bores.iter().all(inside)
            && pairs
                .into_iter()
                .all(|(place, one)| self.bores[..place].iter().all(|other| one.distance(*other) >= apart))
    }

    fn outside(&self) -> Result<Outline, OutlineFault> {
        Outline::rectangle(Point2::new(-self.half, -WALL), Point2::new(self.half, self.height))
    }

    /// Ledge and cheeks.
    fn tray(&self) -> Result<Outline, OutlineFault> {
        let at = |x: Length, y: Length| Point2::new(x, y);
        Outline::polygon([
            at(-self.half, -WALL),
            at(self.half, -WALL),
            at(self.half, self.height),
            at(self.room, self.height),
            at(self.room, Length::ZERO),
            at(-self.room, Length::ZERO),
            at(-self.room, self.height),
            at(-self.half, self.height),
        ])
    }

    /// Seen along the bit, the ledge below: what lies across to the right there lies to the left in the plane.
    fn drawing(&self) -> Result<Drawing, OutlineFault> {
        let outside = rectangle([-self.half, self.half], [-WALL, self.height])?;
        let mut operations = vec![Operation::CutOutside(outside)];
        for at in &self.bores {
            let circle = Circle::of_diameter(Point2::mm(-at.x, at.y), self.bore);
            operations.push(Operation::Drill { circle, depth: HoleDepth::Through });
        }
        let corners = [
            Point2::new(-self.room, self.height),
            Point2::new(-self.room, Length::ZERO),
            Point2::new(self.room, Length::ZERO),
            Point2::new(self.room, self.height),
        ];
        operations.push(Operation::Guide(Path::polyline(corners)?));
        Ok(Drawing {
            name: NAME.into(),
            title: format!(
                "Drill guide for the tail, seen along the bit: the ledge below lies on {}",
                self.registers_on
            ),
            datum: Datum { point: Point2::ORIGIN, meaning: "centre line on the ledge".into() },
            operations,
        })
    }
}

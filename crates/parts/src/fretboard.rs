//! The fretboard: a plank with slots for the zero fret and the frets, flat or crowned across the strings.

use geometry::{
    Body, Datum, Drawing, Frame3, Loft, Operation, Outline, OutlineFault, Path, Point2, Point3, Rigid3,
    Section, Shape, Vector3, Vertex,
};
use layout::{Groove, Layout};
use spec::BoardRadius;
use units::{Length, math};

use crate::part::{Part, PartFault, Process, Solid};

const NAME: &str = "fretboard";

/// The least thickness under a slot. Smaller breaks when the board is handled or bent. Common practice, no source.
const LEAST: Length = Length::mm(0.8);

pub(crate) fn make(layout: &Layout) -> Result<Option<Part>, PartFault> {
    let board = Board::of(layout);
    if board.thickness == Length::ZERO {
        return Ok(None);
    }
    board.check_thickness()?;
    let bad_outline = PartFault::outline(NAME);
    let lofts = match layout.spec().fretboard.radius {
        BoardRadius::Flat => board.flat(layout.grooves()),
        BoardRadius::Radius(radius) => board.crowned(layout.grooves(), radius),
    }
    .map_err(bad_outline)?;
    let body = Body::new(lofts, Vec::new()).map_err(PartFault::body(NAME))?;
    let [from, to] = board.ends;
    Ok(Some(Part {
        name: NAME,
        title: "Fretboard",
        material: "hardwood".into(),
        blank: [to - from, board.width(from).max(board.width(to)), board.thickness],
        quantity: 1,
        drawings: vec![board.plan(layout.grooves()).map_err(bad_outline)?],
        solid: Some(Solid::new(
            NAME,
            body,
            Rigid3::between(Frame3::across_z(-board.thickness), Frame3::across_z(Length::ZERO)),
            Process::Machined,
        )?),
    }))
}

/// The plank: from the nut's front face to the box, with the neck's taper.
struct Board<'a> {
    layout: &'a Layout,
    ends: [Length; 2],
    thickness: Length,
}

impl<'a> Board<'a> {
    fn of(layout: &'a Layout) -> Self {
        let (neck, frame) = (layout.neck(), layout.frame());
        let box_x = frame.neck_wall_x(Length::ZERO).min(frame.neck_wall_x(neck.top_z)).min(neck.box_x);
        Self { layout, ends: [neck.nut_front_x, box_x], thickness: layout.spec().fretboard.thickness }
    }

    fn width(&self, x: Length) -> Length {
        self.layout.neck().width(x)
    }

    /// The edge of a crowned board is lower than its middle by the sagitta, and the slots go down from there.
    fn check_thickness(&self) -> Result<(), PartFault> {
        let deepest = self.layout.grooves().iter().map(|groove| groove.depth).fold(Length::ZERO, Length::max);
        let half = self.ends.map(|x| self.width(x) / 2.0).into_iter().fold(Length::ZERO, Length::max);
        let fallen = match self.layout.spec().fretboard.radius {
            BoardRadius::Flat => Length::ZERO,
            BoardRadius::Radius(radius) => radius * (1.0 - math::cos(math::asin(half / radius))),
        };
        let found = self.thickness - deepest - fallen;
        if found < LEAST {
            return Err(PartFault::BoardTooThin { found, least: LEAST });
        }
        Ok(())
    }

    /// One loft from the bass edge to the treble edge: every slot is a notch in the ring, and every face is a plane.
    fn flat(&self, grooves: &[Groove]) -> Result<Vec<Loft>, OutlineFault> {
        let [from, to] = self.ends;
        let taper = (self.width(to) - self.width(from)) / 2.0 / (to - from);
        let run = math::hypot(1.0, taper);
        let edge = |side: f64| -> Result<Section, OutlineFault> {
            // The ring lies in the plane of the slanting edge: `u` up, `v` along the edge from the nut's front face.
            let frame = Frame3 {
                origin: Point3::new(from, self.width(from) * (side / 2.0), Length::ZERO),
                u: Vector3::Z,
                v: Vector3 { x: 1.0 / run, y: side * taper / run, z: 0.0 },
            };
            let along = |x: Length| (x - from) * run;
            let mut points =
                vec![Point2::new(-self.thickness, along(from)), Point2::new(Length::ZERO, along(from))];
            for groove in grooves {
                let [start, end] = groove.ends();
                points.extend([
                    Point2::new(Length::ZERO, along(start)),
                    Point2::new(-groove.depth, along(start)),
                    Point2::new(-groove.depth, along(end)),
                    Point2::new(Length::ZERO, along(end)),
                ]);
            }
            points.extend([Point2::new(Length::ZERO, along(to)), Point2::new(-self.thickness, along(to))]);
            Ok(Section { frame, ring: Outline::polygon(points)? })
        };
        Ok(vec![Loft { start: edge(-1.0)?, end: edge(1.0)? }])
    }

    /// Lofts along the strings: the crown of the board is an arc in every section, and so is the floor of a slot.
    fn crowned(&self, grooves: &[Groove], radius: Length) -> Result<Vec<Loft>, OutlineFault> {
        let at = |x: Length, depth: Length| -> Result<Section, OutlineFault> {
            let half = self.width(x) / 2.0;
            let half_sweep = math::asin(half / radius);
            let edge_z = radius * (math::cos(half_sweep) - 1.0) - depth;
            let ring = Outline::new(vec![
                Vertex::sharp(Point2::new(-half, -self.thickness)),
                Vertex::sharp(Point2::new(half, -self.thickness)),
                Vertex { point: Point2::new(half, edge_z), bulge: math::tan(half_sweep / 2.0) },
                Vertex::sharp(Point2::new(-half, edge_z)),
            ])?;
            Ok(Section { frame: Frame3::across_x(x), ring })
        };
        let mut lofts = Vec::new();
        let mut from = at(self.ends[0], Length::ZERO)?;
        for groove in grooves {
            let [start, end] = groove.ends();
            lofts.push(Loft { start: from, end: at(start, Length::ZERO)? });
            lofts.push(Loft { start: at(start, groove.depth)?, end: at(end, groove.depth)? });
            from = at(end, Length::ZERO)?;
        }
        lofts.push(Loft { start: from, end: at(self.ends[1], Length::ZERO)? });
        Ok(lofts)
    }

    /// From above, nut left.
    fn plan(&self, grooves: &[Groove]) -> Result<Drawing, OutlineFault> {
        let edge = |x: Length, side: f64| Point2::new(x, self.width(x) * (side / 2.0));
        let [from, to] = self.ends;
        let outline = Outline::polygon([edge(from, -1.0), edge(to, -1.0), edge(to, 1.0), edge(from, 1.0)])?;
        let mut operations = vec![Operation::CutOutside(Shape::Outline(outline))];
        for groove in grooves {
            operations.push(Operation::Slot {
                path: Path::line(edge(groove.x, -1.0), edge(groove.x, 1.0))?,
                width: groove.width,
                depth: groove.depth,
            });
        }
        Ok(Drawing {
            name: NAME.into(),
            title: "Fretboard, from above".into(),
            datum: Datum {
                point: Point2::ORIGIN,
                meaning: "centre line at the crown of the zero fret".into(),
            },
            operations,
        })
    }
}

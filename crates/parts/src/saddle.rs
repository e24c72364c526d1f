//! The saddle: a ridge that carries the strings, on the lid or let into it.

use geometry::{
    Body, Datum, Drawing, Frame3, Loft, Operation, Outline, OutlineFault, Path, Point2, Rigid3, Section,
    Shape, Vertex,
};
use layout::{Layout, SaddlePlan};
use units::{Angle, Length, math};

use crate::part::{Part, PartFault, Process, Solid, box_directions, point};

const NAME: &str = "saddle";

/// Radius of the crest. Larger blurs the end of the string; smaller cuts it and is crushed by it. Common practice, no
/// source.
const CREST_RADIUS: Length = Length::mm(2.0);

/// The least fall of a flank from the crest, and by how much it must be steeper than the string over it. Common
/// practice, no source.
const FLANK: Angle = Angle::degrees(15.0);
const FLANK_CLEARANCE: Angle = Angle::degrees(5.0);

/// What is left of the foot's sides below the flanks. Smaller has no side to hold it by. Common practice, no source.
const SIDE: Length = Length::mm(0.5);

pub(crate) fn make(layout: &Layout) -> Result<Option<Part>, PartFault> {
    let saddle = layout.saddle();
    let shape = RidgeShape::over(layout);
    let lowest = saddle.crests.iter().map(|crest| crest.above).reduce(Length::min).unwrap_or(Length::ZERO);
    let least = shape.fall() + SIDE;
    if lowest < least {
        return Err(PartFault::SaddleTooLow { found: lowest, least });
    }
    let bad_outline = PartFault::outline(NAME);
    let [along, _, above] = box_directions(layout.frame());
    let sections = ridge(saddle)
        .into_iter()
        .map(|(across, height)| {
            let origin = point(layout.frame().place(saddle.along, across, Length::ZERO));
            let ring = shape.ring(height, saddle)?;
            Ok(Section { frame: Frame3 { origin, u: above, v: along }, ring })
        })
        .collect::<Result<Vec<Section>, OutlineFault>>()
        .map_err(bad_outline)?;
    let lofts =
        sections.windows(2).map(|pair| Loft { start: pair[0].clone(), end: pair[1].clone() }).collect();
    let body = Body::new(lofts, Vec::new()).map_err(PartFault::body(NAME))?;
    let upright = Frame3::across_z(Length::ZERO);
    let standing = Frame3 {
        origin: point(layout.frame().place(saddle.along, Length::ZERO, Length::ZERO)),
        u: along,
        v: geometry::Vector3::Y,
    };
    let highest = saddle.crests.iter().map(|crest| crest.above).fold(lowest, Length::max);
    Ok(Some(Part {
        name: NAME,
        title: "Saddle",
        material: "hardwood, bone or hard plastic".into(),
        blank: [saddle.ends[1] - saddle.ends[0], saddle.thickness, highest + saddle.let_in],
        quantity: 1,
        drawings: vec![
            front_view(saddle).map_err(bad_outline)?,
            end_view(saddle, &shape, highest).map_err(bad_outline)?,
        ],
        solid: Some(Solid { body, laid: Rigid3::between(standing, upright), process: Process::Printed }),
    }))
}

/// The crest line from end to end, rising in y: across, and height above the lid. Level beyond the outer strings;
/// points on a straight line between their neighbours are left out.
fn ridge(saddle: &SaddlePlan) -> Vec<(Length, Length)> {
    let mut crests: Vec<(Length, Length)> =
        saddle.crests.iter().map(|crest| (crest.across, crest.above)).collect();
    crests.sort_by(|a, b| a.0.as_mm().total_cmp(&b.0.as_mm()));
    let first = crests.first().map_or(Length::ZERO, |crest| crest.1);
    let last = crests.last().map_or(Length::ZERO, |crest| crest.1);
    crests.insert(0, (saddle.ends[0], first));
    crests.push((saddle.ends[1], last));
    let straight = |before: (Length, Length), here: (Length, Length), after: (Length, Length)| {
        let share = (here.0 - before.0) / (after.0 - before.0);
        let level = before.1 + (after.1 - before.1) * share;
        (level - here.1).abs() < Length::mm(1e-6)
    };
    let mut kept: Vec<(Length, Length)> = Vec::new();
    for (index, here) in crests.iter().enumerate() {
        let between = kept.last().zip(crests.get(index + 1));
        if between.is_none_or(|(before, after)| !straight(*before, *here, *after)) {
            kept.push(*here);
        }
    }
    kept
}

/// The shape of the ridge, the same all along it.
struct RidgeShape {
    /// Fall of the flank toward the neck, and of the one toward the tail.
    flanks: [Angle; 2],
    /// Half the thickness.
    half: Length,
}

impl RidgeShape {
    /// Flanks steeper than every string that leaves over them.
    fn over(layout: &Layout) -> Self {
        let steepest = layout
            .strings()
            .iter()
            .map(|string| string.tail_angle(layout.frame()))
            .fold(Angle::ZERO, Angle::max);
        Self {
            flanks: [FLANK, FLANK.max(steepest + FLANK_CLEARANCE).min(Angle::degrees(60.0))],
            half: layout.saddle().thickness / 2.0,
        }
    }

    /// Where a flank leaves the crest's arc: how far from the saddle line, and how far below the crest.
    fn shoulder(flank: Angle) -> (Length, Length) {
        (CREST_RADIUS * flank.sin(), CREST_RADIUS * (1.0 - flank.cos()))
    }

    /// How far a flank's foot lies below the crest.
    fn foot(&self, flank: Angle) -> Length {
        let (out, down) = Self::shoulder(flank);
        down + (self.half - out).max(Length::ZERO) * flank.tan()
    }

    /// How far the lower of the two flanks' feet lies below the crest.
    fn fall(&self) -> Length {
        self.foot(self.flanks[0]).max(self.foot(self.flanks[1]))
    }

    /// The section under a crest `height` above the lid: `u` up from the lid, `v` along it.
    fn ring(&self, height: Length, saddle: &SaddlePlan) -> Result<Outline, OutlineFault> {
        let [front, rear] = self.flanks;
        let (front_out, front_down) = Self::shoulder(front);
        let (rear_out, rear_down) = Self::shoulder(rear);
        let sweep = (front + rear).as_radians();
        let sharp = |up: Length, along: Length| Vertex::sharp(Point2::new(up, along));
        Outline::new(vec![
            sharp(-saddle.let_in, -self.half),
            sharp(height - self.foot(front), -self.half),
            Vertex { point: Point2::new(height - front_down, -front_out), bulge: math::tan(sweep / 4.0) },
            sharp(height - rear_down, rear_out),
            sharp(height - self.foot(rear), self.half),
            sharp(-saddle.let_in, self.half),
        ])
    }
}

/// Seen from the neck: the blank with its crest line, and a mark under each string.
fn front_view(saddle: &SaddlePlan) -> Result<Drawing, OutlineFault> {
    let crest_line = ridge(saddle);
    let foot = [saddle.ends[0], saddle.ends[1]].map(|y| Point2::new(y, -saddle.let_in));
    let top = crest_line.iter().rev().map(|(across, above)| Point2::new(*across, *above));
    let outline = Outline::polygon(foot.into_iter().chain(top))?;
    let mut operations = vec![Operation::CutOutside(Shape::Outline(outline))];
    for crest in &saddle.crests {
        let mark = Length::mm(2.0);
        operations.push(Operation::Engrave(Path::line(
            Point2::new(crest.across, crest.above - mark),
            Point2::new(crest.across, crest.above - mark * 0.25),
        )?));
    }
    Ok(Drawing {
        name: "saddle-front".into(),
        title: "Saddle, seen from the neck".into(),
        datum: Datum { point: Point2::ORIGIN, meaning: "centre line on the lid".into() },
        operations,
    })
}

/// Seen from the end: the shape of the ridge.
fn end_view(saddle: &SaddlePlan, shape: &RidgeShape, highest: Length) -> Result<Drawing, OutlineFault> {
    let upright = shape.ring(highest, saddle)?;
    // The ring has "up" first; on paper up is the second axis.
    let turned = Outline::new(
        upright
            .vertices()
            .iter()
            .map(|vertex| Vertex { point: Point2::mm(vertex.point.y, vertex.point.x), bulge: -vertex.bulge })
            .collect(),
    )?;
    Ok(Drawing {
        name: "saddle-end".into(),
        title: "Saddle, seen from the bass end".into(),
        datum: Datum { point: Point2::ORIGIN, meaning: "saddle line on the lid".into() },
        operations: vec![Operation::CutOutside(Shape::Outline(turned.counter_clockwise()))],
    })
}

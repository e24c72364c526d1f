//! The saddle: a ridge that carries the strings, on the lid or let into it.

use geometry::{
    Body, Datum, Drawing, Frame3, Loft, Operation, Outline, OutlineFault, Path, Point2, Rigid3, Section,
    Shape, Vertex,
};
use layout::{Crest, Layout, SaddlePlan};
use units::{Angle, Length, math};

use crate::part::{Part, PartFault, Process, Solid, box_directions, point};

const NAME: &str = "saddle";

/// Radius of the saddle's crest. Larger blurs the end of the string; smaller cuts it and is crushed by it. Common practice, no
/// source.
pub const SADDLE_CREST_RADIUS: Length = Length::mm(2.0);

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
    let least = least_crest_height(layout);
    if lowest < least {
        let lost = taken_by_bow(layout);
        return Err(if lowest + lost < least {
            PartFault::SaddleTooLow { found: lowest, least }
        } else {
            PartFault::NeckBendsTooFar { found: lowest, least, lost }
        });
    }
    let most = room_for_crest(layout);
    let farthest = saddle.crests.iter().map(|crest| crest.offset.abs()).fold(Length::ZERO, Length::max);
    if farthest > most {
        return Err(PartFault::CrestOffSaddle { found: farthest, most });
    }
    let bad_outline = PartFault::outline(NAME);
    let [along, _, above] = box_directions(layout.frame());
    let sections = ridge(saddle)
        .into_iter()
        .map(|crest| {
            let origin = point(layout.frame().place(saddle.center_along(), crest.across, Length::ZERO));
            let ring = shape.ring(&crest, saddle)?;
            Ok(Section { frame: Frame3 { origin, u: above, v: along }, ring })
        })
        .collect::<Result<Vec<Section>, OutlineFault>>()
        .map_err(bad_outline)?;
    let lofts =
        sections.windows(2).map(|pair| Loft { start: pair[0].clone(), end: pair[1].clone() }).collect();
    let body = Body::new(lofts, Vec::new()).map_err(PartFault::body(NAME))?;
    let upright = Frame3::across_z(Length::ZERO);
    let standing = Frame3 {
        origin: point(layout.frame().place(saddle.center_along(), Length::ZERO, Length::ZERO)),
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
            top_view(saddle).map_err(bad_outline)?,
            end_view(saddle, &shape).map_err(bad_outline)?,
        ],
        solid: Some(Solid::new(NAME, body, Rigid3::between(standing, upright), Process::Printed)?),
    }))
}

/// How much lower the crests are than on a neck that does not bend: as much as the fret where the action is measured, and in
/// proportion to how much farther off the saddle is.
fn taken_by_bow(layout: &Layout) -> Length {
    let spec = layout.spec();
    let x = layout::fret_distance(spec.scale.length, spec.action.fret);
    layout.bow().at(x) * (spec.scale.length / x)
}

/// The least height of a crest above the lid: what the flanks fall from it, and a side below them.
///
/// - **Units**: millimetres, in the type; square to the lid.
#[must_use]
pub fn least_crest_height(layout: &Layout) -> Length {
    RidgeShape::over(layout).fall() + SIDE
}

/// How far from the middle of the foot a crest may stand, along the lid: half the thickness, less the crest's own shoulder.
///
/// - **Units**: millimetres, in the type.
#[must_use]
pub fn room_for_crest(layout: &Layout) -> Length {
    RidgeShape::over(layout).room_for_crest()
}

/// The crest line from end to end, rising in `y`: straight from string to string, level and square beyond the outer ones;
/// places on a straight line between their neighbours are left out.
fn ridge(saddle: &SaddlePlan) -> Vec<Crest> {
    let mut crests = saddle.crests.clone();
    crests.sort_by(|a, b| a.across.as_mm().total_cmp(&b.across.as_mm()));
    if let (Some(first), Some(last)) = (crests.first().copied(), crests.last().copied()) {
        crests.insert(0, Crest { across: saddle.ends[0], ..first });
        crests.push(Crest { across: saddle.ends[1], ..last });
    }
    let straight = |before: &Crest, here: &Crest, after: &Crest| {
        let share = (here.across - before.across) / (after.across - before.across);
        let off = |of: fn(&Crest) -> Length| of(before) + (of(after) - of(before)) * share - of(here);
        off(|crest| crest.above).abs().max(off(|crest| crest.offset).abs()) < Length::mm(1e-6)
    };
    let mut kept: Vec<Crest> = Vec::new();
    for (index, here) in crests.iter().enumerate() {
        let between = kept.last().zip(crests.get(index + 1));
        if between.is_none_or(|(before, after)| !straight(before, here, after)) {
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
        (SADDLE_CREST_RADIUS * flank.sin(), SADDLE_CREST_RADIUS * (1.0 - flank.cos()))
    }

    /// How far a flank's foot lies below a crest that stands `room` from that side of the saddle.
    fn foot(flank: Angle, room: Length) -> Length {
        let (out, down) = Self::shoulder(flank);
        down + (room - out).max(Length::ZERO) * flank.tan()
    }

    /// How far the lowest foot of a flank can lie below its crest, wherever the crest stands.
    fn fall(&self) -> Length {
        let farthest = self.half + self.room_for_crest();
        Self::foot(self.flanks[0], farthest).max(Self::foot(self.flanks[1], farthest))
    }

    /// How far from the middle of the foot a crest may stand.
    fn room_for_crest(&self) -> Length {
        let shoulders = self.flanks.map(|flank| Self::shoulder(flank).0);
        (self.half - shoulders[0].max(shoulders[1])).max(Length::ZERO)
    }

    /// The section under a crest: `u` up from the lid, `v` along it from the middle of the foot.
    ///
    /// The flanks have the same slope all along, so that they are planes wherever the crest line is straight.
    fn ring(&self, crest: &Crest, saddle: &SaddlePlan) -> Result<Outline, OutlineFault> {
        let [front, rear] = self.flanks;
        let (front_out, front_down) = Self::shoulder(front);
        let (rear_out, rear_down) = Self::shoulder(rear);
        let sweep = (front + rear).as_radians();
        let (height, offset) = (crest.above, crest.offset);
        let sharp = |up: Length, along: Length| Vertex::sharp(Point2::new(up, along));
        Outline::new(vec![
            sharp(-saddle.let_in, -self.half),
            sharp(height - Self::foot(front, self.half + offset), -self.half),
            Vertex {
                point: Point2::new(height - front_down, offset - front_out),
                bulge: math::tan(sweep / 4.0),
            },
            sharp(height - rear_down, offset + rear_out),
            sharp(height - Self::foot(rear, self.half - offset), self.half),
            sharp(-saddle.let_in, self.half),
        ])
    }
}

/// Seen from the neck: the blank with its crest line, and a mark under each string.
fn front_view(saddle: &SaddlePlan) -> Result<Drawing, OutlineFault> {
    let crest_line = ridge(saddle);
    let foot = [saddle.ends[0], saddle.ends[1]].map(|y| Point2::new(y, -saddle.let_in));
    let top = crest_line.iter().rev().map(|crest| Point2::new(crest.across, crest.above));
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

/// Seen from above, tail to the right: the foot, the crest line and a mark where each string crosses it.
fn top_view(saddle: &SaddlePlan) -> Result<Drawing, OutlineFault> {
    let half = saddle.thickness / 2.0;
    let foot = Outline::rectangle(Point2::new(-half, saddle.ends[0]), Point2::new(half, saddle.ends[1]))?;
    let crest_line = ridge(saddle).into_iter().map(|crest| Point2::new(crest.offset, crest.across));
    let mut operations =
        vec![Operation::CutOutside(Shape::Outline(foot)), Operation::Engrave(Path::polyline(crest_line)?)];
    for crest in &saddle.crests {
        operations.push(Operation::Guide(Path::line(
            Point2::new(-half, crest.across),
            Point2::new(half, crest.across),
        )?));
    }
    Ok(Drawing {
        name: "saddle-top".into(),
        title: "Saddle, seen from above".into(),
        datum: Datum { point: Point2::ORIGIN, meaning: "middle of the foot on the centre line".into() },
        operations,
    })
}

/// Seen from the bass end: the shape of the ridge under the bass string.
fn end_view(saddle: &SaddlePlan, shape: &RidgeShape) -> Result<Drawing, OutlineFault> {
    let bass = saddle.crests.first().copied().unwrap_or(Crest {
        across: Length::ZERO,
        above: saddle.thickness,
        offset: Length::ZERO,
    });
    let upright = shape.ring(&bass, saddle)?;
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
        datum: Datum { point: Point2::ORIGIN, meaning: "middle of the foot on the lid".into() },
        operations: vec![Operation::CutOutside(Shape::Outline(turned.counter_clockwise()))],
    })
}

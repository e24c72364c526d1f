//! The body of the neck: the headstock, a chain of lofts that grows out of it as far as the tail, and the bores through both.

use geometry::{
    Body, Bore, BoreStep, Frame3, Loft, Outline, OutlineFault, Point2, Point3, Section, Vector3, Vertex,
};
use layout::{Layout, NeckRing, TailKind};
use spec::{Joint, NeckSection};
use units::Length;

use crate::part::{PartFault, box_directions, point};

const NAME: &str = "neck";

/// The least thickness of a tongue. Smaller does not carry the strings. Common practice, no source.
const TONGUE: Length = Length::mm(6.0);

/// The neck's body, in the instrument frame.
pub(crate) fn body(layout: &Layout) -> Result<Body, PartFault> {
    let bad_outline = PartFault::outline(NAME);
    let mut lofts = vec![under_nut(layout).map_err(bad_outline)?];
    lofts.extend(playing_length(layout).map_err(bad_outline)?);
    if layout.neck().joint == Joint::Through {
        check_tongue(layout)?;
        lofts.extend(tongue(layout).map_err(bad_outline)?);
    }
    let mut bores = tuner_bores(layout);
    bores.extend(string_bores(layout));
    Body::rooted(headstock(layout), lofts, bores).map_err(PartFault::body(NAME))
}

/// The headstock: its edge is square to its face, so that tuners lie flat under it.
fn headstock(layout: &Layout) -> Loft {
    // With its extremes, so that the neck's mesh is as long as the neck.
    let (neck, plan) = (layout.neck(), layout.headstock().outline().with_extremes());
    Loft::prism(Frame3::across_z(neck.bottom_z), plan, neck.head_top_z - neck.bottom_z)
}

/// What is cut down under the nut is as wide as the neck.
fn under_nut(layout: &Layout) -> Result<Loft, OutlineFault> {
    let neck = layout.neck();
    let ring = square(neck.width_at_nut, neck.head_top_z, neck.bottom_z);
    let section = |x| -> Result<Section, OutlineFault> {
        Ok(Section { frame: Frame3::across_x(x), ring: outline(&ring, |z| z)? })
    };
    Ok(Loft { start: section(layout.nut().rear_x)?, end: section(neck.nut_front_x)? })
}

/// From the nut to the box wall, lowered at each groove where the frets sit on the neck itself.
fn playing_length(layout: &Layout) -> Result<Vec<Loft>, OutlineFault> {
    let neck = layout.neck();
    let at = |x: Length, depth: Length| -> Result<Section, OutlineFault> {
        let ring = full_ring(layout, neck.width(x)).cut_down_to(neck.top_z - depth);
        Ok(Section { frame: Frame3::across_x(x), ring: outline(&ring, |z| z)? })
    };
    let mut lofts = Vec::new();
    let mut from = at(neck.nut_front_x, Length::ZERO)?;
    let on_neck = layout.spec().fretboard.thickness == Length::ZERO;
    for groove in layout.grooves().iter().filter(|_| on_neck) {
        let [start, end] = groove.ends();
        lofts.push(Loft { start: from, end: at(start, Length::ZERO)? });
        lofts.push(Loft { start: at(start, groove.depth)?, end: at(end, groove.depth)? });
        from = at(end, Length::ZERO)?;
    }
    let on_wall =
        outline(&full_ring(layout, neck.width_at_box), |z| layout.frame().above_at(z, Length::ZERO))?;
    lofts.push(Loft { start: from, end: Section { frame: wall_frame(layout, Length::ZERO), ring: on_wall } });
    Ok(lofts)
}

/// Through the box, its top parallel to the lid; square, as the notches in the walls are.
fn tongue(layout: &Layout) -> Result<Vec<Loft>, OutlineFault> {
    let (neck, spec, frame) = (layout.neck(), layout.spec(), layout.frame());
    let recess = -spec.body.lid - spec.neck.tongue_recess;
    let on_wall = |along: Length, top_above: Length| -> Result<Section, OutlineFault> {
        let bottom = frame.above_at(neck.bottom_z, along);
        let ring = outline(&square(neck.width_at_box, top_above, bottom), |above| above)?;
        Ok(Section { frame: wall_frame(layout, along), ring })
    };
    let at_end = |top_z: Length| -> Result<Section, OutlineFault> {
        let ring = outline(&square(neck.width_at_box, top_z, neck.bottom_z), |z| z)?;
        Ok(Section { frame: Frame3::across_x(neck.tail_end_x), ring })
    };
    let start = on_wall(Length::ZERO, recess)?;
    if layout.tail().kind != TailKind::StringThrough {
        let end = at_end(frame.level_z(recess, neck.tail_end_x))?;
        return Ok(vec![Loft { start, end }]);
    }
    // The overhang's top is square to the string bores, at the height where the strings go down.
    let top_z = string_entry_z(layout);
    let tail_wall = spec.body.length;
    Ok(vec![
        Loft { start, end: on_wall(tail_wall, recess)? },
        Loft { start: on_wall(tail_wall, frame.above_at(top_z, tail_wall))?, end: at_end(top_z)? },
    ])
}

fn check_tongue(layout: &Layout) -> Result<(), PartFault> {
    let (neck, spec) = (layout.neck(), layout.spec());
    let top = layout.frame().level_z(-spec.body.lid - spec.neck.tongue_recess, neck.tail_end_x);
    let found =
        top.min(if layout.tail().kind == TailKind::StringThrough { string_entry_z(layout) } else { top })
            - neck.bottom_z;
    if found < TONGUE {
        return Err(PartFault::TongueTooThin { found, least: TONGUE });
    }
    Ok(())
}

/// The `z` of the overhang's top where strings go down through it.
pub(crate) fn string_entry_z(layout: &Layout) -> Length {
    layout.strings().iter().map(|string| string.tail.z).fold(layout.neck().top_z, Length::min)
}

fn tuner_bores(layout: &Layout) -> Vec<Bore> {
    let neck = layout.neck();
    let depth = neck.head_top_z - neck.bottom_z;
    layout
        .tuners()
        .iter()
        .map(|tuner| Bore::straight(point(tuner.bore), -Vector3::Z, tuner.diameter / 2.0, depth))
        .collect()
}

/// String bores through the overhang, entered from below, where the ball ends go in.
fn string_bores(layout: &Layout) -> Vec<Bore> {
    let (tail, bottom_z) = (layout.tail(), layout.neck().bottom_z);
    if tail.kind != TailKind::StringThrough {
        return Vec::new();
    }
    let depth = string_entry_z(layout) - bottom_z;
    tail.bores
        .iter()
        .zip(layout.strings())
        .map(|(bore, string)| {
            Bore::counterbored(
                Point3::new(string.tail.x, string.tail.y, bottom_z),
                Vector3::Z,
                BoreStep { depth, radius: bore.diameter / 2.0 },
                BoreStep { depth: tail.ball_depth, radius: bore.ball_diameter / 2.0 },
            )
        })
        .collect()
}

fn full_ring(layout: &Layout, width: Length) -> NeckRing {
    let neck = layout.neck();
    NeckRing::new(neck.section, width, neck.top_z, neck.bottom_z, neck.edge_radius)
}

fn square(width: Length, top: Length, bottom: Length) -> NeckRing {
    NeckRing::new(NeckSection::Square, width, top, bottom, Length::ZERO)
}

/// The outside of the box wall that stands `along` the lid: `u` across, `v` up from the lid's top.
fn wall_frame(layout: &Layout, along: Length) -> Frame3 {
    let [_, aside, above] = box_directions(layout.frame());
    let origin = point(layout.frame().place(along, Length::ZERO, Length::ZERO));
    Frame3 { origin, u: aside, v: above }
}

/// A ring in the plane of a section whose second axis measures a height `z` as `height(z)`, a line.
///
/// Where the plane slants, a circular arc is cut as a part of an ellipse; the arc that is drawn goes through its ends and its
/// middle, so that the neck is as thick there as elsewhere.
fn outline(ring: &NeckRing, height: impl Fn(Length) -> Length) -> Result<Outline, OutlineFault> {
    let stretch = (height(Length::mm(1.0)) - height(Length::ZERO)).as_mm();
    let drawn = |point: &layout::RingPoint| Point2::new(point.y, height(point.z));
    let nexts = ring.points().iter().cycle().skip(1);
    let vertex = |(point, next): (&layout::RingPoint, &layout::RingPoint)| {
        let flat = Point2::new(point.y, point.z).distance(Point2::new(next.y, next.z));
        let share = flat / drawn(point).distance(drawn(next));
        Vertex { point: drawn(point), bulge: point.bulge * stretch * share * share }
    };
    Outline::new(ring.points().iter().zip(nexts).map(vertex).collect())
}

//! How do the zero fret and the frets lie on the neck?

use geometry::{
    Body, Frame3, Loft, Outline, OutlineFault, Point2, Point3, Rod, Section, Segment, Vector3, Vertex,
};
use layout::{Fret, Layout, NeckRing};
use spec::{BoardRadius, FretKind};
use units::{Angle, ChordTolerance, Length, math};

use super::{Form, Placed, Thing};

/// How much of the slot's width and of its depth the tang takes: the barbs that hold it are not modelled. Common practice,
/// no source.
const TANG: [f64; 2] = [0.7, 0.9];

/// The zero fret and every fret.
pub(super) fn frets(layout: &Layout, tolerance: ChordTolerance) -> Vec<Placed> {
    let zero = fret_wire(layout, Length::ZERO, tolerance).map(|form| Placed { thing: Thing::ZeroFret, form });
    let form = |fret: &Fret| match fret.kind {
        FretKind::WrappedWire => wrapped(layout, fret, tolerance),
        FretKind::SeatedWire => seated(layout, fret, tolerance),
        FretKind::FretWire => fret_wire(layout, fret.x, tolerance),
    };
    let frets = layout
        .frets()
        .frets
        .iter()
        .filter_map(|fret| form(fret).map(|form| Placed { thing: Thing::Fret(fret.number), form }));
    zero.into_iter().chain(frets).collect()
}

/// Round wire once round neck and board, let in at the top by the depth of its seat.
fn wrapped(layout: &Layout, fret: &Fret, tolerance: ChordTolerance) -> Option<Form> {
    let (neck, spec) = (layout.neck(), layout.spec());
    let arc = Arc::at(layout, fret.width);
    let ring = NeckRing::new(neck.section, fret.width, neck.top_z, neck.bottom_z, neck.edge_radius)
        .cut_down_to(arc.edge_z() - spec.frets.seat_depth);
    let mut vertices: Vec<Vertex> = ring
        .points()
        .iter()
        .map(|point| Vertex { point: Point2::new(point.y, point.z), bulge: point.bulge })
        .collect();
    vertices[0].bulge = math::tan(arc.half_sweep.as_radians() / 2.0);
    let around = Outline::new(vertices).ok()?.flatten(tolerance);
    let radius = spec.frets.wire.diameter() / 2.0;
    let middle = outside(&around, radius);
    let points = middle.into_iter().map(|point| Point3::mm(fret.x.as_mm(), point.x, point.y)).collect();
    Rod::ring(points, radius).ok().map(Form::Rod)
}

/// The corners of the line that runs outside a convex polygon, counter-clockwise, at a distance from its sides.
fn outside(polygon: &[Point2], distance: Length) -> Vec<Point2> {
    let count = polygon.len();
    let outward = |index: usize| {
        let side = polygon[(index + 1) % count] - polygon[index % count];
        -side.normalised().unwrap_or(geometry::Vector2::mm(0.0, 0.0)).left()
    };
    (0..count)
        .map(|index| {
            let (before, after) = (outward(index + count - 1), outward(index));
            polygon[index] + (before + after) * (distance.as_mm() / (1.0 + before.dot(after)))
        })
        .collect()
}

/// Round wire from edge to edge, let in by the depth of its seat.
fn seated(layout: &Layout, fret: &Fret, tolerance: ChordTolerance) -> Option<Form> {
    let radius = layout.spec().frets.wire.diameter() / 2.0;
    let arc = Arc::at(layout, fret.width);
    let middle = arc.line(radius - layout.spec().frets.seat_depth, tolerance);
    let points = middle.into_iter().map(|point| Point3::mm(fret.x.as_mm(), point.x, point.y)).collect();
    Rod::open(points, radius).ok().map(Form::Rod)
}

/// Fret wire from edge to edge: a round crown on the board, a tang in its slot.
fn fret_wire(layout: &Layout, x: Length, tolerance: ChordTolerance) -> Option<Form> {
    let ring = fret_wire_ring(layout).ok()?;
    let arc = Arc::at(layout, layout.neck().width(x));
    let stations = arc.stations(tolerance);
    let section = |station: &Station| Section {
        frame: Frame3 {
            origin: Point3::new(x, station.y, station.z),
            u: Vector3::mm(0.0, station.lean.sin(), station.lean.cos()),
            v: Vector3::X,
        },
        ring: ring.clone(),
    };
    let lofts = stations.windows(2).map(|pair| Loft { start: section(&pair[0]), end: section(&pair[1]) });
    Body::new(lofts.collect(), Vec::new()).ok().map(Form::Body)
}

/// The section of fret wire, `u` up from the board, `v` along the strings from the middle of the slot.
///
/// A crown that is higher than half its width stands on straight sides.
fn fret_wire_ring(layout: &Layout) -> Result<Outline, OutlineFault> {
    let wire = &layout.spec().zero_fret;
    let half = wire.crown_width / 2.0;
    let side = (wire.crown_height - half).max(Length::ZERO);
    let arc = (wire.crown_height - side) / half;
    let [tang, depth] = [wire.slot_width * (TANG[0] / 2.0), wire.slot_depth * TANG[1]];
    let tang = tang.min(half * TANG[0]);
    let corner = |up: Length, along: Length| Vertex::sharp(Point2::new(up, along));
    let mut ring = vec![
        corner(-depth, -tang),
        corner(Length::ZERO, -tang),
        corner(Length::ZERO, -half),
        Vertex { point: Point2::new(side, -half), bulge: arc },
        corner(side, half),
        corner(Length::ZERO, half),
        corner(Length::ZERO, tang),
        corner(-depth, tang),
    ];
    if side == Length::ZERO {
        ring.remove(5);
        ring.remove(2);
    }
    Ok(Outline::new(ring)?.counter_clockwise())
}

/// The playing surface across the neck at one place: a line, or an arc that is level in the middle.
struct Arc {
    half_width: Length,
    radius: Option<Length>,
    half_sweep: Angle,
}

/// One place across the surface.
struct Station {
    y: Length,
    z: Length,
    /// How far the surface leans there.
    lean: Angle,
}

impl Arc {
    fn at(layout: &Layout, width: Length) -> Self {
        let half_width = width / 2.0;
        match layout.playing_radius() {
            BoardRadius::Flat => Self { half_width, radius: None, half_sweep: Angle::ZERO },
            BoardRadius::Radius(radius) => {
                let half_sweep = Angle::radians(math::asin((half_width / radius).min(1.0)));
                Self { half_width, radius: Some(radius), half_sweep }
            }
        }
    }

    /// The `z` of the surface at the neck's edge.
    fn edge_z(&self) -> Length {
        self.radius.map_or(Length::ZERO, |radius| radius * (self.half_sweep.cos() - 1.0))
    }

    /// The line at a height above the surface, from edge to edge.
    fn line(&self, height: Length, tolerance: ChordTolerance) -> Vec<Point2> {
        let Some(radius) = self.radius else {
            return [-self.half_width, self.half_width].map(|y| Point2::new(y, height)).to_vec();
        };
        let (y, z) = ((radius + height) * self.half_sweep.sin(), (radius + height) * self.half_sweep.cos());
        let [from, to] = [-y, y].map(|y| Point2::new(y, z - radius));
        let arc = Segment::new(from, to, -math::tan(self.half_sweep.as_radians() / 2.0));
        let mut points = vec![from];
        points.extend(arc.flatten(tolerance));
        points.push(to);
        points
    }

    /// The places between which the surface is straight within the tolerance.
    fn stations(&self, tolerance: ChordTolerance) -> Vec<Station> {
        let line = self.line(Length::ZERO, tolerance);
        let lean =
            |y: f64| self.radius.map_or(Angle::ZERO, |radius| Angle::radians(math::asin(y / radius.as_mm())));
        line.into_iter()
            .map(|point| Station { y: Length::mm(point.x), z: Length::mm(point.y), lean: lean(point.x) })
            .collect()
    }
}

//! Which bodies do tests and benchmarks share?

use std::f64::consts::{FRAC_PI_8, PI};

use boxneck_geometry::{
    Body, BodyFault, Bore, BoreStep, Frame3, Loft, Outline, Point2, Point3, Section, Vector3, Vertex,
};
use units::{Length, math};

pub const DOWN: Vector3 = Vector3::mm(0.0, 0.0, -1.0);

pub fn outline(vertices: &[(f64, f64, f64)]) -> Outline {
    let vertices = vertices.iter().map(|&(x, y, bulge)| Vertex { point: Point2::mm(x, y), bulge });
    Outline::new(vertices.collect()).expect("a sound outline")
}

pub fn polygon(points: &[(f64, f64)]) -> Outline {
    Outline::polygon(points.iter().map(|&(x, y)| Point2::mm(x, y))).expect("a sound polygon")
}

/// A rectangle by its left, bottom, right and top.
pub fn rectangle(left: f64, bottom: f64, right: f64, top: f64) -> Outline {
    polygon(&[(left, bottom), (right, bottom), (right, top), (left, top)])
}

/// A rectangle about (0, 0) with quarter rounds of one radius at its corners.
pub fn rounded(width: f64, height: f64, radius: f64) -> Outline {
    let (x, y, r) = (width / 2.0, height / 2.0, radius);
    let quarter = math::tan(FRAC_PI_8);
    outline(&[
        (-x + r, -y, 0.0),
        (x - r, -y, quarter),
        (x, -y + r, 0.0),
        (x, y - r, quarter),
        (x - r, y, 0.0),
        (-x + r, y, quarter),
        (-x, y - r, 0.0),
        (-x, -y + r, quarter),
    ])
}

/// The area of [`rounded`]: the corners of a square less the circle inside it are missing.
pub fn rounded_area(width: f64, height: f64, radius: f64) -> f64 {
    width * height - (4.0 - PI) * radius * radius
}

pub fn circle(radius: f64) -> Outline {
    outline(&[(radius, 0.0, 1.0), (-radius, 0.0, 1.0)])
}

/// The loft between two outlines across x.
pub fn along_x(from: f64, start: &Outline, to: f64, end: &Outline) -> Loft {
    let section = |x, ring: &Outline| Section { frame: Frame3::across_x(Length::mm(x)), ring: ring.clone() };
    Loft { start: section(from, start), end: section(to, end) }
}

pub fn prism_along_x(from: f64, to: f64, ring: &Outline) -> Loft {
    along_x(from, ring, to, ring)
}

pub fn step(depth: f64, radius: f64) -> BoreStep {
    BoreStep { depth: Length::mm(depth), radius: Length::mm(radius) }
}

/// A bar 20 wide and 10 high with slots across its top, 0.6 wide and 2 deep, every 12.
pub fn slotted_bar(slots: usize) -> Result<Body, BodyFault> {
    let (whole, slotted) = (rectangle(0.0, 0.0, 20.0, 10.0), rectangle(0.0, 0.0, 20.0, 8.0));
    let mut lofts = Vec::new();
    for slot in 0..slots {
        let x = 12.0 * slot as f64;
        lofts.push(prism_along_x(x, x + 11.4, &whole));
        lofts.push(prism_along_x(x + 11.4, x + 12.0, &slotted));
    }
    let x = 12.0 * slots as f64;
    lofts.push(prism_along_x(x, x + 12.0, &whole));
    Body::new(lofts, Vec::new())
}

pub fn slotted_bar_volume(slots: usize) -> f64 {
    20.0 * 10.0 * 12.0 * (slots + 1) as f64 - 20.0 * 2.0 * 0.6 * slots as f64
}

/// A plate 60 x 30 x 12 with a plain, a counterbored, a countersunk, a flat blind and a pointed blind hole.
pub fn bored_plate() -> Result<Body, BodyFault> {
    let bores = vec![
        Bore::straight(Point3::mm(6.0, 15.0, 12.0), DOWN, Length::mm(2.0), Length::mm(12.0)),
        Bore::counterbored(Point3::mm(18.0, 15.0, 12.0), DOWN, step(12.0, 1.5), step(4.0, 4.0)),
        Bore::countersunk(
            Point3::mm(30.0, 15.0, 12.0),
            DOWN,
            step(12.0, 2.0),
            Length::mm(4.0),
            Length::mm(2.0),
        ),
        Bore::straight(Point3::mm(42.0, 15.0, 12.0), DOWN, Length::mm(3.0), Length::mm(7.0)),
        Bore {
            entry: Point3::mm(54.0, 15.0, 12.0),
            direction: DOWN,
            steps: vec![step(0.0, 2.0), step(6.0, 2.0), step(7.0, 0.0)],
        },
    ];
    Body::prism(Frame3::across_z(Length::ZERO), rectangle(0.0, 0.0, 60.0, 30.0), Length::mm(12.0), bores)
}

pub fn bored_plate_volume() -> f64 {
    // A frustum of a cone: pi h / 3 (R^2 + R r + r^2).
    let plain = PI * 4.0 * 12.0;
    let counterbored = PI * (16.0 * 4.0 + 2.25 * 8.0);
    let countersunk = PI * (2.0 / 3.0 * (16.0 + 8.0 + 4.0) + 4.0 * 10.0);
    let blind = PI * 9.0 * 7.0;
    let pointed = PI * (4.0 * 6.0 + 4.0 / 3.0);
    60.0 * 30.0 * 12.0 - plain - counterbored - countersunk - blind - pointed
}

/// A long bar that tapers, steps, widens to a head and has rounded corners all along.
pub fn stepped_bar(stations: usize) -> Result<Body, BodyFault> {
    let mut lofts = Vec::new();
    for station in 0..stations {
        let x = 20.0 * station as f64;
        let width = 40.0 + station as f64;
        let height = if station % 2 == 0 { 20.0 } else { 16.0 };
        lofts.push(along_x(x, &rounded(width, height, 4.0), x + 20.0, &rounded(width + 1.0, height, 4.0)));
    }
    Body::new(lofts, Vec::new())
}

/// A block 100 x 40 x 20 with a grid of bores through it.
pub fn bored_block(columns: usize, rows: usize) -> Result<Body, BodyFault> {
    let mut bores = Vec::new();
    for column in 0..columns {
        for row in 0..rows {
            let x = 100.0 * (column as f64 + 0.5) / columns as f64;
            let y = 40.0 * (row as f64 + 0.5) / rows as f64;
            bores.push(Bore::counterbored(Point3::mm(x, y, 20.0), DOWN, step(20.0, 1.0), step(6.0, 2.5)));
        }
    }
    Body::prism(Frame3::across_z(Length::ZERO), rectangle(0.0, 0.0, 100.0, 40.0), Length::mm(20.0), bores)
}

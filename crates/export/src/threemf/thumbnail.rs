//! What does a plate look like, in the small picture that file managers and slicers show of a file?
//!
//! The parts are drawn as one looks down on the bed from its front right corner, by the nearest triangle to each point of
//! the picture; nothing is drawn behind them, so that the picture stands on any ground.

use std::ops::Range;

use geometry::{Bounds2, Point2, Point3, Vector3};
use png::{BitDepth, ColorType, Encoder};

use super::{Plate, PlatePlace};

/// The sides of the picture in pixels.
const SIDE: usize = 256;

/// Points that are looked at along each side of a pixel: their mean smooths the edges.
const SAMPLES: usize = 3;

/// What stays free along each side of the picture, as a share of it.
const MARGIN: f64 = 0.05;

/// Where the picture's right, its top and whoever looks at it lie, seen from the bed: at right angles to each other.
const RIGHT: Vector3 = Vector3::mm(0.8, 0.6, 0.0);
const TOP: Vector3 = Vector3::mm(-0.48, 0.64, 0.6);
const VIEWER: Vector3 = Vector3::mm(0.36, -0.48, 0.8);

/// Where the light comes from: over the viewer's left shoulder, so that no two sides of a box look alike.
const LIGHT: Vector3 = Vector3::mm(-0.36, -0.48, 0.8);

/// A part in full light.
const COLOR: [f64; 3] = [126.0, 176.0, 222.0];

/// How bright a face is that the light does not reach.
const SHADE: f64 = 0.4;

/// A PNG picture of the plate.
pub(super) fn thumbnail(plate: &Plate) -> Vec<u8> {
    let triangles = triangles(plate);
    let mut image = Image::new(SIDE * SAMPLES);
    if let Some(view) = View::of(&triangles, image.side) {
        for corners in &triangles {
            image.draw(view.seen(corners), brightness(corners));
        }
    }
    png(&image.reduced(SAMPLES))
}

/// The triangles of every copy, where it lies.
fn triangles(plate: &Plate) -> Vec<[Point3; 3]> {
    let copies =
        plate.objects.iter().flat_map(|object| object.places.iter().map(move |place| (object, place)));
    copies
        .flat_map(|(object, place)| {
            object.mesh.corners().map(|corners| corners.map(|point| laid(point, place)))
        })
        .collect()
}

/// Where a point of an object comes to lie.
fn laid(point: Point3, place: &PlatePlace) -> Point3 {
    let room = place.room;
    if place.turned {
        Point3::mm(room.max.x - point.y, room.min.y + point.x, point.z)
    } else {
        Point3::mm(room.min.x + point.x, room.min.y + point.y, point.z)
    }
}

/// How bright a triangle looks, between 0 and 1.
fn brightness([a, b, c]: &[Point3; 3]) -> f64 {
    let normal = (*b - *a).cross(*c - *a).normalised();
    normal.map_or(SHADE, |normal| SHADE + (1.0 - SHADE) * normal.dot(LIGHT).max(0.0))
}

/// From the bed to the picture.
struct View {
    /// Points of the picture for a millimetre.
    scale: f64,
    /// What is seen in the picture's middle, in millimetres along [`RIGHT`] and [`TOP`].
    center: Point2,
    /// The picture's side in points.
    side: f64,
}

impl View {
    /// The view that shows all triangles as large as it can; nothing where there is nothing to see.
    fn of(triangles: &[[Point3; 3]], side: usize) -> Option<Self> {
        let bounds = Bounds2::of_points(triangles.iter().flatten().map(|point| on_picture(*point)))?;
        let side = side as f64;
        let scale = side * (1.0 - 2.0 * MARGIN) / bounds.width().max(bounds.height()).as_mm();
        scale.is_finite().then(|| Self { scale, center: bounds.center(), side })
    }

    /// Where corners are seen: to the right, down, and toward the viewer.
    fn seen(&self, corners: &[Point3; 3]) -> [Point3; 3] {
        corners.map(|point| {
            let Point2 { x, y } = on_picture(point);
            let [x, y] = [x - self.center.x, self.center.y - y].map(|at| self.side / 2.0 + at * self.scale);
            Point3::mm(x, y, point.to_vector().dot(VIEWER))
        })
    }
}

fn on_picture(point: Point3) -> Point2 {
    Point2::mm(point.to_vector().dot(RIGHT), point.to_vector().dot(TOP))
}

/// A square of points, each as bright as what is nearest to the viewer there.
struct Image {
    side: usize,
    /// How near to the viewer, and how bright; minus infinity where nothing is.
    points: Vec<(f64, f64)>,
}

impl Image {
    fn new(side: usize) -> Self {
        Self { side, points: vec![(f64::NEG_INFINITY, 0.0); side * side] }
    }

    /// Draws a triangle of one brightness over what lies behind it; one that looks away from the viewer is not seen.
    fn draw(&mut self, [a, b, c]: [Point3; 3], bright: f64) {
        // Down the picture, so that what turns left on the bed turns right here.
        let whole = Edge::of(b, a).at(c.x, c.y);
        if whole <= 0.0 {
            return;
        }
        let edges = [Edge::of(c, b), Edge::of(a, c), Edge::of(b, a)];
        let near = |x: f64, y: f64| {
            let [of_a, of_b, of_c] = [&edges[0], &edges[1], &edges[2]].map(|edge| edge.at(x, y) / whole);
            of_a * a.z + of_b * b.z + of_c * c.z
        };
        let (top, bottom) = (a.y.min(b.y).min(c.y), a.y.max(b.y).max(c.y));
        let (left, right) = (a.x.min(b.x).min(c.x), a.x.max(b.x).max(c.x));
        for row in self.between(top, bottom) {
            let y = row as f64 + 0.5;
            let [from, to] = edges.iter().fold([left, right], |span, edge| edge.clipped(span, y));
            let (first, step) = (near(0.5, y), near(1.5, y) - near(0.5, y));
            for column in self.between(from, to) {
                let near = first + step * column as f64;
                let point = &mut self.points[row * self.side + column];
                if near > point.0 {
                    *point = (near, bright);
                }
            }
        }
    }

    /// The rows or columns whose middles lie between two places.
    fn between(&self, from: f64, to: f64) -> Range<usize> {
        // The casts saturate.
        let within = |at: f64| ((at - 0.5).ceil().max(0.0) as usize).min(self.side);
        within(from)..within(to)
    }

    /// Red, green, blue and how solid, of each pixel that so many points a side make, row by row from the top.
    fn reduced(&self, samples: usize) -> Vec<u8> {
        let side = self.side / samples;
        let pixel = |index: usize| {
            let (row, column) = (index / side * samples, index % side * samples);
            let points = (row..row + samples).flat_map(|row| {
                self.points[row * self.side + column..][..samples].iter().filter(|(near, _)| near.is_finite())
            });
            let (count, light) =
                points.fold((0.0, 0.0), |(count, light), (_, bright)| (count + 1.0, light + bright));
            let mean = if count > 0.0 { light / count } else { 0.0 };
            let [red, green, blue] = COLOR.map(|full| (full * mean).round() as u8);
            [red, green, blue, (255.0 * count / (samples * samples) as f64).round() as u8]
        };
        (0..side * side).flat_map(pixel).collect()
    }
}

/// A line across the picture: `x`, `y` and what is added to them is 0 on it and more to its left.
struct Edge {
    x: f64,
    y: f64,
    rest: f64,
}

impl Edge {
    fn of(from: Point3, to: Point3) -> Self {
        let (x, y) = (from.y - to.y, to.x - from.x);
        Self { x, y, rest: -(x * from.x + y * from.y) }
    }

    fn at(&self, x: f64, y: f64) -> f64 {
        self.x * x + self.y * y + self.rest
    }

    /// What of a row lies to the left of the line.
    fn clipped(&self, [from, to]: [f64; 2], y: f64) -> [f64; 2] {
        let over = self.at(0.0, y);
        match self.x {
            slope if slope > 0.0 => [from.max(-over / slope), to],
            slope if slope < 0.0 => [from, to.min(-over / slope)],
            _ if over < 0.0 => [to, from],
            _ => [from, to],
        }
    }
}

/// Four bytes a pixel as a PNG file.
fn png(pixels: &[u8]) -> Vec<u8> {
    let mut bytes = Vec::new();
    let mut encoder = Encoder::new(&mut bytes, SIDE as u32, SIDE as u32);
    encoder.set_color(ColorType::Rgba);
    encoder.set_depth(BitDepth::Eight);
    let mut writer = encoder.write_header().expect("writing to memory cannot fail");
    writer.write_image_data(pixels).expect("there are as many pixels as the header says");
    writer.finish().expect("writing to memory cannot fail");
    bytes
}

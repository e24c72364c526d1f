//! Does a thing enter what a round bit has cut?
//!
//! A bit *reaches* the points that it covers while its middle stays wherever the bit does not cut into the part. What must
//! enter is a *mate*; what of it lies beyond the bit's reach is *lacking*.

use units::{ChordTolerance, Length};

use crate::body::triangulate;
use crate::{Contour, Frame3, Outline, OutlineFault, Point2, Point3, Segment, Shape, offset};

/// How far beyond the reach of a bit a mate stands at most: 0 where the mate enters what the bit cuts. `None` where the bit
/// itself does not go in.
///
/// The middle of the bit may go wherever it keeps its radius from the contour, on the contour's side for the bit; a point is
/// in reach when the middle may come as near as the radius. How far a mate stands beyond is its farthest point's distance
/// from there, less the radius.
///
/// - **Frame**: mate and contour lie in one plane, as they do when the one is in the other.
/// - **Accuracy**: proven to `within`: over all of the mate, area as well as edge, no point lacks more than what is told
///   plus `within`, and what is told is 0 where it would be `within` or less. The bit is taken thinner by half of `within`
///   on its way, so that a bite of exactly its size lets it in. Nothing is sampled: the mate is divided until each piece is
///   proven in reach or too small to matter.
/// - **Errors**: the line of the bit's middle touches itself so that no outline comes of it; a mate that is so thin that it
///   touches itself when its arcs are flattened to a quarter of `within`.
///
/// A bit of 4 mm leaves fillets of 2 mm in a rectangle, and the corner of a square mate stands `2 (sqrt 2 - 1)` beyond:
/// ```
/// use boxneck_geometry::{Contour, Outline, Point2, Relief, Shape, lack, relieved};
/// use units::Length;
///
/// let opening = Outline::rectangle(Point2::ORIGIN, Point2::mm(40.0, 20.0))?;
/// let (mate, bit, within) = (Shape::from(opening.clone()), Length::mm(4.0), Length::mm(0.01));
/// let found = lack(&mate, Contour::Opening, &mate, bit, within)?.expect("the bit goes in");
/// assert!((found.as_mm() - 2.0 * (2.0_f64.sqrt() - 1.0)).abs() < 0.02, "found {found}");
///
/// let bitten = relieved(&opening, Contour::Opening, bit, Relief::TBone).expect("the bites have room");
/// let found = lack(&mate, Contour::Opening, &bitten.into(), bit, within)?;
/// assert_eq!(found, Some(Length::ZERO), "the bites let it in");
/// # Ok::<(), boxneck_geometry::OutlineFault>(())
/// ```
pub fn lack(
    mate: &Shape,
    contour: Contour,
    cut: &Shape,
    diameter: Length,
    within: Length,
) -> Result<Option<Length>, OutlineFault> {
    let radius = diameter / 2.0;
    let chord = ChordTolerance::new(within / 4.0);
    let on_the_way = radius - within / 2.0;
    let loops = offset(cut, if contour == Contour::Outside { on_the_way } else { -on_the_way })?;
    if loops.is_empty() {
        return Ok(None);
    }
    let way = Way { edge: loops.iter().flat_map(Shape::segments).collect(), loops, contour };
    let found = way.farthest(&pieces(mate, chord)?, within * 0.75) + chord.deviation() - radius;
    Ok(Some(if found <= within { Length::ZERO } else { found }))
}

/// A triangle.
type Piece = [Point2; 3];

/// Triangles that cover a shape, but for the caps between its arcs and their chords.
fn pieces(shape: &Shape, chord: ChordTolerance) -> Result<Vec<Piece>, OutlineFault> {
    let points = shape
        .segments()
        .into_iter()
        .flat_map(|segment| std::iter::once(segment.from()).chain(segment.flatten(chord)));
    let flat = Outline::polygon(points)?.counter_clockwise();
    let plane = Frame3::across_z(Length::ZERO);
    let corners: Vec<Point3> = flat.vertices().iter().map(|vertex| plane.point(vertex.point)).collect();
    let around = (0..corners.len() as u32).collect();
    let triangles = triangulate(plane, &corners, &[around])
        .expect("an outline does not cross itself, so it has triangles");
    let place = |number: u32| flat.vertices()[number as usize].point;
    Ok(triangles.into_iter().map(|triangle| triangle.map(place)).collect())
}

/// Where the middle of a bit may go.
struct Way {
    loops: Vec<Shape>,
    edge: Vec<Segment>,
    contour: Contour,
}

impl Way {
    /// How far the farthest point of some triangles lies from the way, less `within` at most; 0 where all lie on it.
    fn farthest(&self, pieces: &[Piece], within: Length) -> Length {
        let mut open = pieces.to_vec();
        let mut found = open.iter().flatten().map(|&corner| self.distance(corner)).fold(0.0, f64::max);
        while let Some(piece) = open.pop() {
            if self.most(piece) <= found + within.as_mm() {
                continue;
            }
            let longest = (0..3).max_by(|&i, &j| side(piece, i).total_cmp(&side(piece, j))).unwrap_or(0);
            let [a, b, c] = [0, 1, 2].map(|step| piece[(longest + step) % 3]);
            let middle = a.lerp(b, 0.5);
            found = found.max(self.distance(middle));
            open.extend([[a, middle, c], [middle, b, c]]);
        }
        Length::mm(found)
    }

    /// What no point of a triangle exceeds in distance from the way, in millimetres.
    ///
    /// The distance changes by no more than the way from the triangle's middle; and the distance from a line or a point of
    /// the way is convex, so that it is largest at a corner.
    fn most(&self, piece: Piece) -> f64 {
        let middle = piece[0].lerp(piece[1], 0.5).lerp(piece[2], 1.0 / 3.0);
        let largest = |distance: &dyn Fn(Point2) -> f64| piece.map(distance).into_iter().fold(0.0, f64::max);
        let from_middle = self.distance(middle) + largest(&|corner| middle.distance(corner));
        let from_edge = |segment: &Segment| match segment {
            Segment::Line { .. } => largest(&|corner| segment.distance_to(corner).as_mm()),
            Segment::Arc { from, .. } => largest(&|corner| from.distance(corner)),
        };
        self.edge.iter().map(from_edge).fold(from_middle, f64::min)
    }

    /// Millimetres from a point to the way; negative on it, as far as it is to its edge.
    fn distance(&self, point: Point2) -> f64 {
        let enclosed = self.loops.iter().filter(|shape| shape.contains(point)).count() % 2 == 1;
        let from_edge = self.edge.iter().map(|segment| segment.distance_to(point).as_mm());
        let from_edge = from_edge.fold(f64::INFINITY, f64::min);
        if enclosed == (self.contour != Contour::Outside) { -from_edge } else { from_edge }
    }
}

/// How long a side of a triangle is, from a corner to the next, in millimetres.
fn side(piece: Piece, corner: usize) -> f64 {
    piece[corner].distance(piece[(corner + 1) % 3])
}

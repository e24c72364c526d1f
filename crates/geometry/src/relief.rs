//! How must an inside corner be widened, so that a round bit leaves nothing of it standing in the way of a square one?
//!
//! A *relief* is a bite of the bit's own radius that passes through the corner. Without one, the bit leaves a fillet.

use units::{Angle, Length, math};

use crate::{Contour, Outline, OutlineFault, Point2, Vector2, Vertex, WELD};

/// Where the bite lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Relief {
    /// Its middle lies on the bisector of the corner: it bites as much into the one edge as into the other.
    Dogbone,
    /// Its middle lies on the longer of the two edges, and the bite is taken out of that edge alone: the shorter one keeps
    /// its full face. Of edges that are equal to within [`WELD`], the one that the outline runs first.
    TBone,
}

/// Why corners cannot be relieved.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum ReliefFault {
    /// A bit without a size, or smaller than none.
    #[error("the diameter of the bit must be above 0 mm, found {diameter}")]
    NotPositive {
        /// The diameter that was given.
        diameter: Length,
    },
    /// The corner is so sharp that the bit cannot come as far as the bite without cutting the edges beside it.
    #[error("a corner must open by at least 90 deg to be relieved, found {opening} at ({}, {}) mm", at.x, at.y)]
    TooSharp {
        /// Where the corner is.
        at: Point2,
        /// The angle between its edges.
        opening: Angle,
    },
    /// The bites at the two ends of an edge do not have room beside each other.
    #[error("an edge must be at least {least} long for the corner relief at its ends, found {found} at ({}, {}) mm",
        at.x, at.y)]
    Overlap {
        /// Where the edge begins.
        at: Point2,
        /// How long it is.
        found: Length,
        /// How long it must be.
        least: Length,
    },
    /// A bite comes upon another part of the outline.
    #[error("the corner relief runs into another edge: {0}")]
    Outline(#[from] OutlineFault),
}

/// The least angle by which the outline turns at a corner that is relieved. Larger leaves corners that a mate would feel;
/// smaller bites where arcs run on smoothly: at 5 degrees a bit leaves 0.001 of its radius.
const TURN: Angle = Angle::degrees(5.0);

/// How far a corner may close beyond a right angle by rounding alone.
const ROUNDING: Angle = Angle::degrees(1e-6);

/// A contour whose inside corners are relieved for a bit: those of an opening that point outward, those of an outside that
/// point inward. It runs counter-clockwise.
///
/// Corners between two straight edges are relieved; where an arc begins or ends, and where the outline turns by less than 5
/// degrees, it stays as it is.
///
/// - **Accuracy**: closed form; each bite passes through its corner, to rounding.
/// - **Errors**: every [`ReliefFault`]; the first one found.
/// - **Source**: common practice, no source; the bites from the inscribed angle over their chord.
///
/// Each corner of a rectangle loses what a half circle has over the triangle in it:
/// ```
/// use boxneck_geometry::{Contour, Outline, Point2, Relief, relieved};
/// use units::Length;
///
/// let opening = Outline::rectangle(Point2::ORIGIN, Point2::mm(40.0, 20.0))?;
/// let bitten = relieved(&opening, Contour::Opening, Length::mm(4.0), Relief::Dogbone).expect("the bites have room");
/// let bite = std::f64::consts::PI * 4.0 / 2.0 - 4.0;
/// assert!((bitten.signed_area() - 800.0 - 4.0 * bite).abs() < 1e-9, "radius 2 mm, four corners");
/// # Ok::<(), boxneck_geometry::OutlineFault>(())
/// ```
pub fn relieved(
    outline: &Outline,
    contour: Contour,
    diameter: Length,
    relief: Relief,
) -> Result<Outline, ReliefFault> {
    if diameter <= Length::ZERO {
        return Err(ReliefFault::NotPositive { diameter });
    }
    let outline = outline.clone().counter_clockwise();
    let vertices = outline.vertices();
    let count = vertices.len();
    let corners = (0..count)
        .map(|i| {
            Corner::at(vertices[(i + count - 1) % count], vertices[i], vertices[(i + 1) % count], contour)
        })
        .collect::<Result<Vec<Option<Corner>>, ReliefFault>>()?;
    let bites: Vec<Option<Bite>> =
        corners.into_iter().map(|corner| corner.map(|corner| corner.bite(diameter / 2.0, relief))).collect();
    let mut bitten = Vec::with_capacity(2 * count);
    for i in 0..count {
        let next = (i + 1) % count;
        let room = |bite: Option<&Bite>, taken: fn(&Bite) -> f64| bite.map_or(0.0, taken);
        let taken =
            room(bites[i].as_ref(), |bite| bite.after) + room(bites[next].as_ref(), |bite| bite.before);
        let length = vertices[i].point.distance(vertices[next].point);
        let weld = WELD.distance().as_mm();
        if taken > 0.0 && taken > length + weld {
            let (found, least) = (Length::mm(length), Length::mm(taken));
            return Err(ReliefFault::Overlap { at: vertices[i].point, found, least });
        }
        match &bites[i] {
            None => bitten.push(vertices[i]),
            Some(bite) => bitten.extend([bite.begins, bite.ends]),
        }
        // Two bites that use up an edge join without a line between them.
        if taken > 0.0 && taken >= length - weld {
            bitten.pop();
        }
    }
    Ok(Outline::new(bitten)?)
}

/// A corner between two straight edges that a bit leaves rounded.
struct Corner {
    at: Point2,
    /// From the corner back along the edge that arrives, and on along the edge that leaves: length and direction.
    edges: [(f64, Vector2); 2],
    /// The angle between the edges.
    opening: f64,
    /// The sense in which the bite turns: that of the corner.
    sense: f64,
}

/// What takes a corner's place: an arc from `begins` to `ends`, which take up some of the edges.
struct Bite {
    begins: Vertex,
    ends: Vertex,
    /// Millimetres of the edge that arrives.
    before: f64,
    /// Millimetres of the edge that leaves.
    after: f64,
}

impl Corner {
    /// The corner at a vertex; nothing where a bit leaves none.
    fn at(
        before: Vertex,
        here: Vertex,
        after: Vertex,
        contour: Contour,
    ) -> Result<Option<Self>, ReliefFault> {
        if before.bulge != 0.0 || here.bulge != 0.0 {
            return Ok(None);
        }
        let (arrives, leaves) = (here.point - before.point, after.point - here.point);
        let turn = arrives.angle_to(leaves);
        let inside = if contour == Contour::Outside { -1.0 } else { 1.0 };
        if turn * inside < TURN {
            return Ok(None);
        }
        let opening = Angle::degrees(180.0) - turn.abs();
        if opening < Angle::degrees(90.0) - ROUNDING {
            return Err(ReliefFault::TooSharp { at: here.point, opening });
        }
        let edge = |way: Vector2| (way.length(), way * (1.0 / way.length()));
        Ok(Some(Self {
            at: here.point,
            edges: [edge(-arrives), edge(leaves)],
            opening: opening.as_radians(),
            sense: inside,
        }))
    }

    fn bite(&self, radius: Length, relief: Relief) -> Bite {
        let radius = radius.as_mm();
        let [(before, back), (after, on)] = self.edges;
        let arc = |[before, after]: [f64; 2], sweep: f64| Bite {
            begins: Vertex { point: self.at + back * before, bulge: self.sense * math::tan(sweep / 4.0) },
            ends: Vertex::sharp(self.at + on * after),
            before,
            after,
        };
        match relief {
            // The corner sees the chord under its opening, so that the arc through it covers a full turn less twice that.
            Relief::Dogbone => {
                let along = 2.0 * radius * math::cos(self.opening / 2.0);
                arc([along, along], std::f64::consts::TAU - 2.0 * self.opening)
            }
            Relief::TBone if before >= after - WELD.distance().as_mm() => {
                arc([2.0 * radius, 0.0], std::f64::consts::PI)
            }
            Relief::TBone => arc([0.0, 2.0 * radius], std::f64::consts::PI),
        }
    }
}

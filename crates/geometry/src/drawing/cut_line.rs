//! Where does the middle of a round bit, or of a beam, run so that the drawing is what remains?

use units::Length;

use super::{Drawing, Operation};
use crate::{OutlineFault, Shape, nearest_points, offset};

/// How much farther than its radius from an edge a bit may pass and still count as cutting it: what [`offset`] may be
/// off, twice. Larger lets a bit leave out an edge; smaller takes rounding for an edge that was left out.
const TOUCH: Length = Length::mm(2e-4);

/// The place up to which the largest bit is told, rounded down.
const TOLD: Length = Length::mm(0.01);

/// Why a bit cannot follow an operation's contour.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum CutLineFault {
    /// A bit without a size, or smaller than none.
    #[error("the diameter of the bit must be above 0 mm, found {diameter}")]
    NotPositive {
        /// The diameter that was given.
        diameter: Length,
    },
    /// The bit does not go in, or leaves out an edge between two inside corners.
    #[error("{} of the drawing \"{drawing}\" is too narrow somewhere for a bit of {diameter}, the widest bit that works \
        is {largest}", contour.words())]
    TooNarrow {
        /// The drawing's name.
        drawing: String,
        /// Which operation, from 0.
        operation: usize,
        /// What the operation cuts.
        contour: Contour,
        /// The diameter that was given.
        diameter: Length,
        /// The widest bit that cuts every edge of the contour and has way to go round it, rounded down to 0.01 mm.
        largest: Length,
    },
    /// The line of the bit's middle touches itself.
    #[error("a bit of {diameter} cannot follow {} of the drawing \"{drawing}\": {fault}", contour.words())]
    Outline {
        /// The drawing's name.
        drawing: String,
        /// Which operation, from 0.
        operation: usize,
        /// What the operation cuts.
        contour: Contour,
        /// The diameter that was given.
        diameter: Length,
        /// What is wrong with the line.
        fault: OutlineFault,
    },
}

/// What a bit cuts when it follows a contour.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Contour {
    /// The part's outside, with the bit outside it.
    Outside,
    /// An opening, with the bit inside it.
    Opening,
    /// The wall of a pocket, with the bit inside it.
    Pocket,
}

impl Contour {
    /// What people call it.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Outside => "the outside",
            Self::Opening => "an opening",
            Self::Pocket => "a pocket",
        }
    }
}

impl Operation {
    /// The contour that a bit follows on one side of it; nothing for what is drilled, sawn, marked or not cut.
    #[must_use]
    pub const fn contour(&self) -> Option<(Contour, &Shape)> {
        match self {
            Self::CutOutside(shape) => Some((Contour::Outside, shape)),
            Self::CutInside(shape) => Some((Contour::Opening, shape)),
            Self::Pocket { shape, .. } => Some((Contour::Pocket, shape)),
            _ => None,
        }
    }
}

/// The drawing of the line that the middle of a bit, or of a beam, follows: outsides grown by its radius, openings and
/// the walls of pockets shrunk by it.
///
/// What is drilled, slots (a single pass, drawn by its middle already), marks and guides stay as they are.
///
/// - **Accuracy**: that of [`offset`]; arcs stay arcs. An inside corner keeps the bit's radius in the part.
/// - **Errors**: a contour that is so narrow that the bit leaves out an edge between two inside corners, has no way to go
///   round, or more than one, with the widest bit that works; a diameter that is not above zero.
///
/// ```
/// use boxneck_geometry::{Datum, Drawing, Operation, Outline, Point2, Shape, cut_line};
/// use units::Length;
///
/// let rectangle = |x: f64, y: f64| Outline::rectangle(Point2::mm(-x, -y), Point2::mm(x, y)).map(Shape::Outline);
/// let plate = Drawing {
///     name: "plate".to_owned(),
///     title: "Plate".to_owned(),
///     datum: Datum { point: Point2::ORIGIN, meaning: "middle".to_owned() },
///     operations: vec![Operation::CutOutside(rectangle(20.0, 10.0)?), Operation::CutInside(rectangle(9.0, 2.0)?)],
/// };
/// let cut = cut_line(&plate, Length::mm(3.0)).expect("the opening is 4 mm wide");
/// let Operation::CutInside(line) = &cut.operations[1] else { panic!("it stays an opening") };
/// assert!((line.area() - 15.0 * 1.0).abs() < 1e-9, "18 mm by 4 mm shrink by the bit's diameter");
/// let fault = cut_line(&plate, Length::mm(6.0)).expect_err("the opening is 4 mm wide");
/// assert_eq!(
///     fault.to_string(),
///     "an opening of the drawing \"plate\" is too narrow somewhere for a bit of 6 mm, the widest bit that works is 3.99 mm",
///     "what to do"
/// );
/// # Ok::<(), boxneck_geometry::OutlineFault>(())
/// ```
pub fn cut_line(drawing: &Drawing, diameter: Length) -> Result<Drawing, CutLineFault> {
    if diameter <= Length::ZERO {
        return Err(CutLineFault::NotPositive { diameter });
    }
    let operations = drawing.operations.iter().enumerate().map(|(operation, cut)| {
        let Some((contour, shape)) = cut.contour() else { return Ok(cut.clone()) };
        let name = || drawing.name.clone();
        match bit_line(contour, shape, diameter) {
            Ok(Some(line)) => Ok(match cut {
                Operation::Pocket { depth, .. } => Operation::Pocket { shape: line, depth: *depth },
                Operation::CutInside(_) => Operation::CutInside(line),
                _ => Operation::CutOutside(line),
            }),
            Ok(None) => {
                let largest = widest_bit(contour, shape, diameter);
                Err(CutLineFault::TooNarrow { drawing: name(), operation, contour, diameter, largest })
            }
            Err(fault) => Err(CutLineFault::Outline { drawing: name(), operation, contour, diameter, fault }),
        }
    });
    Ok(Drawing { operations: operations.collect::<Result<_, _>>()?, ..drawing.clone() })
}

/// The one loop in which a bit cuts every edge of a contour; `None` where it cannot.
fn bit_line(contour: Contour, shape: &Shape, diameter: Length) -> Result<Option<Shape>, OutlineFault> {
    let radius = diameter / 2.0;
    let loops = offset(shape, if contour == Contour::Outside { radius } else { -radius })?;
    let [line] = loops.as_slice() else { return Ok(None) };
    let cuts_edge = |edge| {
        let nearest = nearest_points([edge], line.segments());
        nearest.is_some_and(|(on_edge, on_line)| Length::mm(on_edge.distance(on_line)) <= radius + TOUCH)
    };
    Ok(shape.segments().into_iter().all(cuts_edge).then(|| line.clone()))
}

/// The widest bit up to a diameter that cuts every edge of a contour: the diameter itself where it works, or else rounded
/// down to 0.01 mm.
#[must_use]
pub fn widest_bit(contour: Contour, shape: &Shape, up_to: Length) -> Length {
    let works = |diameter| matches!(bit_line(contour, shape, diameter), Ok(Some(_)));
    if works(up_to) {
        return up_to;
    }
    let (mut works_yet, mut fails) = (0, (up_to / TOLD).ceil() as u64);
    while works_yet + 1 < fails {
        let middle = works_yet + (fails - works_yet) / 2;
        if works(TOLD * middle as f64) { works_yet = middle } else { fails = middle }
    }
    TOLD * works_yet as f64
}

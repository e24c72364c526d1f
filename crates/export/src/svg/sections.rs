//! How wide is a long part between its ends?
//!
//! Where a corner of the outline is too far from both ends for their dimensions, the width there is measured across the
//! part itself, a little beside the corner; where the outline steps, on both sides of it.

use geometry::{Bounds2, Drawing, Operation, Point2, Segment, Shape, Vector2, meetings};
use units::{Length, LengthUnit};

use super::annotation::{Annotation, Role};
use super::stations::FARTHEST;
use super::wording::{size, width};
use crate::room::Room;

/// How near to the corner the width is taken. Larger shows in the last figure on a tapered part.
const NEAR: f64 = 1e-3;
/// How far from the corner the line is tried, from the nearest.
const ASIDE: [f64; 9] = [4.0, 6.0, 8.0, 11.0, 14.0, 18.0, 23.0, 29.0, 36.0];

/// The widths between the ends, each where there is room for it.
pub(super) fn widths(drawing: &Drawing, bounds: Bounds2, unit: LengthUnit, room: &mut Room) -> Annotation {
    let mut all = Annotation::default();
    for operation in &drawing.operations {
        let Operation::CutOutside(Shape::Outline(outline)) = operation else { continue };
        let segments: Vec<Segment> = outline.segments().collect();
        let mut corners: Vec<f64> = outline.vertices().iter().map(|vertex| vertex.point.x).collect();
        corners.retain(|x| x - bounds.min.x > FARTHEST && bounds.max.x - x > FARTHEST);
        corners.sort_by(f64::total_cmp);
        corners.dedup_by(|a, b| (*a - *b).abs() < 0.01);
        for x in corners {
            let sides = [-1.0, 1.0].map(|side| (side, across(&segments, bounds, x + side * NEAR)));
            let words =
                |across: Option<(f64, f64)>| across.map(|(low, high)| size(Length::mm(high - low), unit));
            let stepped = words(sides[0].1) != words(sides[1].1);
            let wanted = if stepped { &sides[..] } else { &sides[1..] };
            for (side, limits) in wanted {
                let Some((low, high)) = *limits else { continue };
                let words = size(Length::mm(high - low), unit);
                let place = ASIDE.iter().find_map(|aside| {
                    let at = x + side * aside;
                    let (low, high) = across(&segments, bounds, at)?;
                    let drawn = width_at(&words, at, low, high, *side);
                    drawn.fits(room).then_some(drawn)
                });
                if let Some(drawn) = place {
                    drawn.settle(room);
                    all.join(drawn);
                }
            }
        }
    }
    all
}

/// A line with arrows across the part, and its words beside it.
fn width_at(words: &str, at: f64, low: f64, high: f64, side: f64) -> Annotation {
    let mut drawn = Annotation::default();
    drawn.arrows(Point2::mm(at, low), Point2::mm(at, high));
    let beside = side * (1.2 + width(words) / 2.0);
    // Off the middle, where centre lines run.
    let middle = low + (high - low) * 0.3;
    drawn.text(words.to_owned(), Point2::mm(at, middle) + Vector2::mm(beside, 0.0), false);
    drawn.strokes.iter_mut().for_each(|stroke| stroke.role = Role::Dimension);
    drawn
}

/// The lowest and the highest place where the outline stands over a place along it.
fn across(segments: &[Segment], bounds: Bounds2, x: f64) -> Option<(f64, f64)> {
    let (from, to) = (Point2::mm(x, bounds.min.y - 1.0), Point2::mm(x, bounds.max.y + 1.0));
    let met = meetings(segments.iter().copied(), [Segment::Line { from, to }]);
    let heights = || met.iter().map(|point| point.y);
    let (low, high) = (heights().fold(f64::INFINITY, f64::min), heights().fold(f64::NEG_INFINITY, f64::max));
    (low < high).then_some((low, high))
}

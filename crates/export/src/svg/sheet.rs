//! Where does everything stand on a dimensioned drawing?
//!
//! What is measured goes outside the part: distances from the datum below it and on its left and right, sizes over all
//! above it and on a free side. Each side begins at the part and moves out until nothing lies on anything. Then the widths
//! of long parts, then what is said of holes, beside them where that is free.

use geometry::{Bounds2, Drawing, Operation, Point2, Shape, Vector2};
use units::{Length, LengthUnit};

use super::annotation::{Annotation, Role};
use super::side::{Side, Station, from_datum, overall};
use super::{callouts, sections, stations};
use crate::plan::Plan;
use crate::room::Room;

/// How far a side moves out in one go, and how often at most.
const STEP: f64 = 3.0;
const MOST_STEPS: u32 = 200;

/// How far the cross at the centre of something round reaches beyond it, or from its centre where it is small.
const CENTRE: f64 = 1.5;

/// Everything beside the part; `None` where something finds no place.
pub(super) fn annotated(drawing: &Drawing, plan: &Plan, unit: LengthUnit) -> Option<Annotation> {
    let mut room = Room::default();
    let operations = plan.layers.iter().flat_map(|(_, operations)| operations);
    operations.for_each(|operation| room.draw(operation.segments()));
    let mut all = centres(drawing);
    all.settle(&mut room);

    let bounds = plan.bounds;
    let cut = drawing.cut_bounds().or_else(|| drawing.bounds())?;
    let datum = drawing.datum.point;
    let origin = |side: Side| Station { along: side.along(datum), out: side.out(datum), reference: false };
    let edge = |side: Side| side.out(bounds.min).max(side.out(bounds.max));
    let mut put = |make: &dyn Fn(f64) -> Annotation, edge: f64| {
        let mut moved = (0..MOST_STEPS).map(|step| make(edge + STEP * f64::from(step)));
        let drawn = moved.find(|drawn| drawn.fits(&room))?;
        drawn.settle(&mut room);
        Some(drawn)
    };
    let mut below = stations::below(drawing, datum);
    stations::without_ends(&mut below, datum.x, stations::ends(Side::Above, cut));
    let (mut left, mut right) = stations::left_and_right(drawing, bounds, datum);
    let free = if right.is_empty() {
        Some(Side::Right)
    } else if left.is_empty() {
        Some(Side::Left)
    } else {
        None
    };
    if free.is_some() {
        let ends = stations::ends(Side::Left, cut);
        stations::without_ends(&mut left, datum.y, ends);
        stations::without_ends(&mut right, datum.y, ends);
    } else {
        // No side is left for the size over all: the two ends are measured instead.
        stations::with_ends(&mut left, &right, datum.y, stations::ends(Side::Left, cut));
    }
    all.join(put(
        &|edge| from_datum(Side::Below, edge, origin(Side::Below), &below, unit),
        edge(Side::Below),
    )?);
    all.join(put(&|edge| from_datum(Side::Left, edge, origin(Side::Left), &left, unit), edge(Side::Left))?);
    all.join(put(
        &|edge| from_datum(Side::Right, edge, origin(Side::Right), &right, unit),
        edge(Side::Right),
    )?);
    for side in [Some(Side::Above), free].into_iter().flatten() {
        let ends = stations::ends(side, cut);
        all.join(put(&|edge| overall(side, edge, ends, unit), edge(side))?);
    }
    all.join(sections::widths(drawing, cut, unit, &mut room));
    let top = all.bounds().map_or(bounds.max.y, |drawn| drawn.max.y.max(bounds.max.y));
    all.join(callouts::callouts(drawing, unit, top, &mut room)?);
    Some(all)
}

/// A cross at the centre of everything round that is cut.
fn centres(drawing: &Drawing) -> Annotation {
    let mut crosses = Annotation::default();
    let mut done: Vec<Point2> = Vec::new();
    for operation in &drawing.operations {
        let (Operation::Drill { circle, .. }
        | Operation::CutInside(Shape::Circle(circle))
        | Operation::Pocket { shape: Shape::Circle(circle), .. }) = operation
        else {
            continue;
        };
        if done.iter().any(|at| at.distance(circle.center) <= 0.01) {
            continue;
        }
        done.push(circle.center);
        let arm = (circle.radius.as_mm() * 0.6).min(CENTRE);
        for way in [Vector2::mm(arm, 0.0), Vector2::mm(0.0, arm)] {
            crosses.stroke(Role::Extension, circle.center - way, circle.center + way);
        }
    }
    crosses
}

/// The bounds of the drawing with all that stands beside it.
pub(super) fn bounds(plan: &Plan, annotation: &Annotation) -> Bounds2 {
    let drawn = annotation.bounds().map_or(plan.bounds, |bounds| bounds.union(plan.bounds));
    drawn.grown(Length::mm(1.0))
}

#[cfg(test)]
mod tests {
    use geometry::{Circle, Datum, HoleDepth, Outline, Path, Preflight};
    use proptest::prelude::*;

    use super::super::annotation::Text;
    use super::*;
    use crate::plan::plan;
    use crate::room::reaches;

    /// A plate with holes and slots in columns of their own, measured from somewhere on it.
    fn plate(size: (f64, f64), columns: &[(u8, f64, f64)], datum: (f64, f64)) -> Drawing {
        let (wide, high) = size;
        let outside =
            Outline::rectangle(Point2::ORIGIN, Point2::mm(wide, high)).expect("a rectangle is sound");
        let mut operations = vec![Operation::CutOutside(Shape::Outline(outside))];
        let column = wide / (columns.len() + 1) as f64;
        for (place, (kind, share, big)) in columns.iter().enumerate() {
            let at = Point2::mm(column * (place as f64 + 1.0), high * (0.25 + 0.5 * share));
            let diameter = Length::mm((column.min(high) * 0.4 * (0.2 + 0.8 * big)).max(0.3));
            let circle = Circle::of_diameter(at, diameter);
            let depth = Length::mm((big * 9.0).round() + 1.0);
            operations.push(match kind % 5 {
                0 => Operation::Drill { circle, depth: HoleDepth::Through },
                1 => Operation::Drill { circle, depth: HoleDepth::To(depth) },
                2 => Operation::CutInside(Shape::Circle(circle)),
                3 => {
                    let path =
                        Path::line(Point2::mm(at.x, 0.0), Point2::mm(at.x, high)).expect("a line is sound");
                    Operation::Slot { path, width: Length::mm(0.6), depth }
                }
                _ => {
                    let step = Vector2::mm(diameter.as_mm() / 2.0, diameter.as_mm() / 3.0);
                    Operation::Engrave(Path::line(at - step, at + step).expect("a line is sound"))
                }
            });
        }
        Drawing {
            name: "plate".into(),
            title: "Plate".into(),
            datum: Datum { point: Point2::mm(wide * datum.0, high * datum.1), meaning: "somewhere".into() },
            operations,
        }
    }

    #[test]
    fn words_do_not_shut_in_a_hole_that_has_yet_to_be_told_of() {
        // What is said of the second hole would stand right above the third, whose words fit nowhere but up there.
        let columns = [(0, 0.403, 0.0), (0, 0.011, 0.512), (0, 0.0, 0.057), (0, 0.0, 0.0)];
        let drawing = plate((122.1, 193.7), &columns, (0.0, 0.0));
        let plan = plan(&drawing).expect("there is something to draw");
        let drawn = annotated(&drawing, &plan, LengthUnit::Millimetre).expect("everything finds a place");
        let told = drawn.texts.iter().filter(|text| text.words.contains("through")).count();
        assert_eq!(told, 3, "three sizes of holes");
        assert_eq!(clash(&plan, &drawn), None, "nothing lies on anything");
    }

    /// Words on words, or lines through words: the first found.
    fn clash(plan: &Plan, drawn: &Annotation) -> Option<String> {
        let boxes: Vec<(&Text, Bounds2)> = drawn.texts.iter().map(|text| (text, text.bounds())).collect();
        for (place, (text, room)) in boxes.iter().enumerate() {
            if let Some((other, _)) = boxes[place + 1..].iter().find(|(_, other)| room.overlaps(*other)) {
                return Some(format!("{text:?} and {other:?}"));
            }
            if let Some(stroke) = drawn.strokes.iter().find(|stroke| reaches(stroke.from, stroke.to, *room)) {
                return Some(format!("{text:?} and {stroke:?}"));
            }
            let operations = plan.layers.iter().flat_map(|(_, operations)| operations);
            for segment in operations.flat_map(Operation::segments) {
                let corner = |share: f64| segment.point_at(share);
                let pieces = (0..64).map(|i| (corner(f64::from(i) / 64.0), corner(f64::from(i + 1) / 64.0)));
                if pieces.into_iter().any(|(from, to)| reaches(from, to, *room)) {
                    return Some(format!("{text:?} and {segment:?}"));
                }
            }
        }
        None
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(24))]

        #[test]
        fn nothing_lies_on_anything(
            size in (8.0..900.0_f64, 5.0..220.0_f64),
            columns in prop::collection::vec((any::<u8>(), 0.0..1.0_f64, 0.0..1.0_f64), 0..11),
            datum in (prop::sample::select(vec![0.0, 0.5, 0.37, 1.0]), prop::sample::select(vec![0.0, 0.5, 1.0])),
            inches in any::<bool>(),
        ) {
            let drawing = plate(size, &columns, datum);
            prop_assume!(drawing.faults(&Preflight::default()).is_empty());
            let plan = plan(&drawing).expect("there is something to draw");
            let unit = if inches { LengthUnit::Inch } else { LengthUnit::Millimetre };
            let drawn = annotated(&drawing, &plan, unit);
            prop_assert!(drawn.is_some(), "everything finds a place");
            let clash = drawn.and_then(|drawn| clash(&plan, &drawn));
            prop_assert!(clash.is_none(), "{}", clash.unwrap_or_default());
        }
    }
}

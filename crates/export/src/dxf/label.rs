//! Where on a part is room for its label, and how large may it be?
//!
//! Within the largest part of the drawing, clear of every line of it, guides and the datum's cross too, and outside everything that is taken
//! out; as near the part's middle as that allows, along the drawing or, where it finds room only so, up it.

use geometry::{Bounds2, Drawing, Operation, Path, Point2, Vector2};
use units::{Angle, Length};

use crate::lettering::{strokes, width};
use crate::plan::cross;
use crate::room::Room;

/// The heights of letters that are tried, from the largest. Smaller ones fill up under a bit; larger ones deface a part.
const HEIGHTS: [Length; 4] = [Length::mm(6.0), Length::mm(5.0), Length::mm(4.0), Length::mm(3.0)];

/// The room between letters and any line. Smaller lets a bit break through; larger finds no place on small parts.
const CLEAR: Length = Length::mm(1.5);

/// How many places are tried along and up the part.
const PLACES: usize = 48;

/// The strokes of the first wording that finds room, in the largest letters that do; `None` where none does.
pub(super) fn label(drawing: &Drawing, wordings: &[String]) -> Option<Vec<Operation>> {
    let outsides = drawing.operations.iter().filter_map(|operation| match operation {
        Operation::CutOutside(shape) => Some(shape),
        _ => None,
    });
    let part =
        outsides.reduce(|largest, shape| if shape.area() > largest.area() { shape } else { largest })?;
    let mut room = Room::default();
    let datum = cross(drawing.datum.point);
    drawing
        .operations
        .iter()
        .chain(datum.iter().flatten())
        .for_each(|operation| room.draw(operation.segments()));
    let sizes = wordings.iter().filter(|words| !words.trim().is_empty()).flat_map(|words| {
        HEIGHTS.into_iter().flat_map(move |height| [(words, height, false), (words, height, true)])
    });
    for (words, height, upward) in sizes {
        let size = Vector2::new(width(words, height), height);
        let extent = if upward { Vector2::mm(size.y, size.x) } else { size };
        let free = |place: &Bounds2| {
            room.is_free(place.grown(CLEAR))
                && part.contains(place.center())
                && !is_taken_out(drawing, place.center())
        };
        if let Some(place) = places(part.bounds(), extent).find(free) {
            let turn = |path: Path| if upward { path.rotated(Angle::degrees(90.0)) } else { path };
            let corner = if upward { Point2::mm(place.max.x, place.min.y) } else { place.min };
            let moved = |path| turn(path).translated(corner.to_vector());
            return Some(strokes(words, height).into_iter().map(moved).map(Operation::Engrave).collect());
        }
    }
    None
}

/// Whether a point is where something is cut out or cleared.
fn is_taken_out(drawing: &Drawing, point: Point2) -> bool {
    drawing.operations.iter().any(|operation| match operation {
        Operation::CutInside(shape) | Operation::Pocket { shape, .. } => shape.contains(point),
        Operation::Drill { circle, .. } => circle.contains(point),
        _ => false,
    })
}

/// Places of one size within bounds, those nearest the middle first.
fn places(bounds: Bounds2, size: Vector2) -> impl Iterator<Item = Bounds2> {
    let free = (bounds.max - bounds.min) - size;
    let middle = bounds.center();
    let shares = || (0..=PLACES).map(|place| place as f64 / PLACES as f64);
    let mut places: Vec<Bounds2> = shares()
        .flat_map(|x| shares().map(move |y| (x, y)))
        .filter(|_| free.x >= 0.0 && free.y >= 0.0)
        .map(|(x, y)| bounds.min + Vector2::mm(free.x * x, free.y * y))
        .map(|min| Bounds2 { min, max: min + size })
        .collect();
    places.sort_by(|a, b| a.center().distance(middle).total_cmp(&b.center().distance(middle)));
    places.into_iter()
}

#[cfg(test)]
mod tests {
    use geometry::{Circle, Datum, Outline, Preflight, Shape};

    use super::*;

    fn plate(width_mm: f64, height_mm: f64) -> Drawing {
        let outside = Outline::rectangle(Point2::ORIGIN, Point2::mm(width_mm, height_mm)).expect("sound");
        Drawing {
            name: "plate".into(),
            title: "Plate".into(),
            datum: Datum { point: Point2::ORIGIN, meaning: "lower left".into() },
            operations: vec![Operation::CutOutside(Shape::Outline(outside))],
        }
    }

    fn bounds(label: &[Operation]) -> Bounds2 {
        label.iter().map(Operation::bounds).reduce(Bounds2::union).expect("there are strokes")
    }

    fn words(words: &[&str]) -> Vec<String> {
        words.iter().map(ToString::to_string).collect()
    }

    #[test]
    fn an_empty_plate_has_it_in_its_middle_and_large() {
        let found = label(&plate(100.0, 40.0), &words(&["LID"])).expect("there is room");
        let bounds = bounds(&found);
        assert!(bounds.center().distance(Point2::mm(50.0, 20.0)) < 1e-9, "in the middle: {bounds:?}");
        assert!((bounds.height().as_mm() - 6.0).abs() < 1e-9, "6 mm high: {bounds:?}");
    }

    #[test]
    fn a_narrow_part_has_it_upward() {
        let found = bounds(&label(&plate(10.0, 100.0), &words(&["LONG WORDS"])).expect("there is room"));
        assert!(found.height() > found.width(), "it runs up the part: {found:?}");
    }

    #[test]
    fn a_hole_drives_it_aside_and_it_stays_sound() {
        let mut drawing = plate(60.0, 30.0);
        let hole = Circle::of_diameter(Point2::mm(30.0, 15.0), Length::mm(16.0));
        drawing.operations.push(Operation::CutInside(Shape::Circle(hole)));
        let found = label(&drawing, &words(&["NUT"])).expect("there is room beside the hole");
        for stroke in &found {
            let off = geometry::gap(stroke.segments(), hole.segments()).expect("both have segments");
            assert!(off >= CLEAR && !hole.contains(stroke.bounds().min), "clear of the hole, {off} off");
        }
        drawing.operations.extend(found);
        assert_eq!(drawing.faults(&Preflight::default()), [], "the label can be engraved");
    }

    #[test]
    fn the_shorter_wording_is_taken_where_the_long_one_has_no_room() {
        let wordings = words(&["A NAME MUCH TOO LONG FOR IT", "NUT"]);
        let found = label(&plate(24.0, 8.0), &wordings).expect("there is room for one");
        assert_eq!(found.len(), label(&plate(24.0, 8.0), &words(&["NUT"])).map_or(0, |l| l.len()), "NUT");
        assert_eq!(label(&plate(6.0, 5.0), &wordings), None, "and none on a chip");
    }
}

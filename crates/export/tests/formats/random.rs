//! Do random drawings come back as they were?

use boxneck_export::{ExportFault, Layer};
use geometry::{
    Bounds2, Circle, Datum, Drawing, HoleDepth, Operation, Outline, Path, Point2, Shape, Vector2, Vertex,
};
use proptest::prelude::*;
use units::Length;

use crate::dxf_file::{INCH, MILLIMETRE, bounds, check_near, extents, read, text};

/// The side of the cells in which operations are put, so that they do not meet.
const CELL: f64 = 40.0;

/// One operation about a centre, within 15 mm of it.
fn operation() -> impl Strategy<Value = fn(Point2, f64, f64) -> Operation> {
    let kinds: Vec<fn(Point2, f64, f64) -> Operation> = vec![
        |at, size, _| Operation::CutInside(Shape::Circle(Circle { center: at, radius: Length::mm(size) })),
        |at, size, bulge| Operation::CutInside(Shape::Outline(lens(at, size, bulge))),
        |at, size, bulge| Operation::Pocket {
            shape: Shape::Outline(lens(at, size, bulge)),
            depth: Length::mm(size / 3.0),
        },
        |at, size, _| Operation::Drill {
            circle: Circle { center: at, radius: Length::mm(size) },
            depth: HoleDepth::Through,
        },
        |at, size, _| Operation::Drill {
            circle: Circle { center: at, radius: Length::mm(size) },
            depth: HoleDepth::To(Length::mm(size)),
        },
        |at, size, bulge| Operation::Slot {
            path: bent(at, size, bulge),
            width: Length::mm(0.6),
            depth: Length::mm(2.0),
        },
        |at, size, bulge| Operation::Engrave(bent(at, size, bulge)),
        |at, size, _| Operation::Guide(bent(at, size, 0.0)),
    ];
    proptest::sample::select(kinds)
}

/// A square whose right side is an arc.
fn lens(at: Point2, size: f64, bulge: f64) -> Outline {
    let vertex = |x: f64, y: f64, bulge: f64| Vertex { point: Point2::mm(at.x + x, at.y + y), bulge };
    let sides = vec![
        vertex(-size, -size, 0.0),
        vertex(size, -size, bulge),
        vertex(size, size, 0.0),
        vertex(-size, size, 0.0),
    ];
    Outline::new(sides).expect("a square with one bent side is sound")
}

/// Across a cell, straight or along an arc.
fn bent(at: Point2, size: f64, bulge: f64) -> Path {
    let vertex = |x: f64, bulge: f64| Vertex { point: Point2::mm(at.x + x, at.y), bulge };
    Path::new(vec![vertex(-size, bulge), vertex(size, 0.0)]).expect("a line is sound")
}

prop_compose! {
    fn drawings()(
        parts in prop::collection::vec((operation(), 1.0..8.0_f64, -0.9..0.9_f64), 1..12),
        corner in (-500.0..500.0_f64, -500.0..500.0_f64),
    ) -> Drawing {
        let (x, y) = corner;
        let end = Point2::mm(x + CELL * parts.len() as f64, y + CELL);
        let outside = Outline::rectangle(Point2::mm(x, y), end).expect("a rectangle is sound");
        let mut operations = vec![Operation::CutOutside(Shape::Outline(outside))];
        for (place, (kind, size, bulge)) in parts.into_iter().enumerate() {
            let center = Point2::mm(x + CELL * (place as f64 + 0.5), y + CELL / 2.0);
            operations.push(kind(center, size, bulge));
        }
        Drawing {
            name: "random".into(),
            title: "Random".into(),
            datum: Datum { point: Point2::mm(x, y), meaning: "lower left corner".into() },
            operations,
        }
    }
}

/// The bounds of the drawing on the origin, with the datum's cross of 3 mm each way.
fn expected_extents(drawing: &Drawing) -> Bounds2 {
    let placed = drawing.at_origin();
    let cross = Bounds2::at(placed.datum.point).grown(Length::mm(3.0));
    placed.bounds().expect("there is something drawn").union(cross)
}

fn check_extents(found: Bounds2, expected: Bounds2, scale: f64, tolerance: f64) {
    for (found, expected, side) in [
        (found.min.x, expected.min.x, "left"),
        (found.min.y, expected.min.y, "bottom"),
        (found.max.x, expected.max.x, "right"),
        (found.max.y, expected.max.y, "top"),
    ] {
        check_near(found * scale, expected, tolerance, side);
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn count_layers_and_extents_survive(drawing in drawings()) {
        let file = read(&text(&drawing, MILLIMETRE));
        prop_assert_eq!(file.entities().count(), drawing.operations.len() + 2, "the datum's cross makes two more");
        // The datum's cross is put behind the drawing's own guides; layers keep the drawing's order within them.
        let placed = drawing.at_origin();
        let datum = Bounds2::at(placed.datum.point);
        let arm = |x: f64, y: f64| datum.union(Bounds2::at(placed.datum.point + Vector2::mm(x, y)));
        let cross = [arm(-3.0, 0.0).union(arm(3.0, 0.0)), arm(0.0, -3.0).union(arm(0.0, 3.0))];
        let own = placed.operations.iter().map(|operation| (Layer::of(operation), operation.bounds()));
        let mut expected: Vec<_> = own.chain(cross.map(|bounds| (Layer::Guide, bounds))).collect();
        expected.sort_by_key(|(layer, _)| *layer);
        for (entity, (layer, room)) in file.entities().zip(expected) {
            prop_assert_eq!(&entity.common.layer, &layer.name(), "the layer of each entity");
            check_extents(bounds(entity), room, 1.0, 1e-6);
        }
        check_extents(extents(&file), expected_extents(&drawing), 1.0, 1e-6);
        let header = &file.header;
        let (min, max) = (&header.minimum_drawing_extents, &header.maximum_drawing_extents);
        let told = Bounds2 { min: Point2::mm(min.x, min.y), max: Point2::mm(max.x, max.y) };
        check_extents(told, expected_extents(&drawing), 1.0, 1e-7);
    }

    #[test]
    fn inches_are_millimetres_scaled(drawing in drawings()) {
        let inches = read(&text(&drawing, INCH));
        check_extents(extents(&inches), expected_extents(&drawing), 25.4, 1e-6);
        let numbers = |text: &str| -> Vec<(String, String)> {
            let lines: Vec<_> = text.lines().collect();
            lines.chunks(2).map(|pair| (pair[0].into(), pair[1].into())).collect()
        };
        let entities = |text: String| {
            let (_, entities) = text.split_once("ENTITIES\n").expect("there are entities");
            numbers(entities.split_once("ENDSEC").expect("they end").0.trim_end().trim_end_matches("\n  0"))
        };
        for (mm, inch) in entities(text(&drawing, MILLIMETRE)).iter().zip(entities(text(&drawing, INCH))) {
            prop_assert_eq!(&mm.0, &inch.0, "the codes agree");
            let is_length = matches!(mm.0.trim(), "10" | "20" | "11" | "21" | "40");
            if is_length {
                let value = |text: &str| text.parse::<f64>().expect("a length is a number");
                check_near(value(&inch.1) * 25.4, value(&mm.1), 1e-6, "a length");
            } else {
                prop_assert_eq!(&mm.1, &inch.1, "what is no length is the same");
            }
        }
    }

    #[test]
    fn the_same_drawing_gives_the_same_bytes(drawing in drawings()) {
        prop_assert_eq!(text(&drawing, MILLIMETRE), text(&drawing.clone(), MILLIMETRE), "DXF");
        let svg = |drawing: &Drawing| boxneck_export::svg::write(drawing, &Default::default());
        let drawn = svg(&drawing);
        // One in many thousands has labels that stand in each other's way, and is refused for that alone.
        let is_sound = matches!(drawn, Ok(_) | Err(ExportFault::CrowdedLabels { .. }));
        prop_assert!(is_sound, "the drawing can be written: {drawn:?}");
        prop_assert_eq!(drawn, svg(&drawing.clone()), "SVG");
    }

    #[test]
    fn a_drawing_elsewhere_gives_the_same_size(drawing in drawings()) {
        let moved = drawing.translated(Vector2::mm(123.0, -45.5));
        check_extents(extents(&read(&text(&moved, MILLIMETRE))), expected_extents(&drawing), 1.0, 1e-6);
    }
}

//! A small drawing with one of everything.

use geometry::{Circle, Corner, Datum, Drawing, HoleDepth, Operation, Outline, Path, Point2, Shape, Vertex};
use units::Length;

pub fn hole(x: f64, y: f64, diameter_mm: f64) -> Circle {
    Circle::of_diameter(Point2::mm(x, y), Length::mm(diameter_mm))
}

/// A plate of 60 by 40 mm with rounded corners, away from the origin, its operations out of order.
pub fn plate() -> Drawing {
    let corner = |x: f64, y: f64| Corner { point: Point2::mm(x, y), radius: Length::mm(5.0) };
    let outside = Outline::rounded(&[corner(10., 20.), corner(70., 20.), corner(70., 60.), corner(10., 60.)])
        .expect("the plate is sound");
    let window = Outline::new(vec![
        Vertex { point: Point2::mm(30.0, 40.0), bulge: 0.0 },
        Vertex { point: Point2::mm(40.0, 40.0), bulge: 1.0 },
        Vertex { point: Point2::mm(40.0, 50.0), bulge: 0.0 },
        Vertex { point: Point2::mm(30.0, 50.0), bulge: 1.0 },
    ])
    .expect("the window is sound");
    let line = |x: f64, from: f64, to: f64| {
        Path::line(Point2::mm(x, from), Point2::mm(x, to)).expect("the line is sound")
    };
    let arc = Path::new(vec![
        Vertex { point: Point2::mm(50.0, 24.0), bulge: -0.5 },
        Vertex { point: Point2::mm(60.0, 24.0), bulge: 0.0 },
        Vertex { point: Point2::mm(64.0, 26.0), bulge: 0.0 },
    ])
    .expect("the mark is sound");
    Drawing {
        name: "plate".into(),
        title: "Plate <& sample>".into(),
        datum: Datum { point: Point2::mm(10.0, 40.0), meaning: "middle of the left edge".into() },
        operations: vec![
            Operation::CutOutside(Shape::Outline(outside)),
            Operation::Drill { circle: hole(16.0, 26.0, 3.175), depth: HoleDepth::Through },
            Operation::CutInside(Shape::Outline(window)),
            Operation::Guide(line(45.0, 15.0, 65.0)),
            Operation::Pocket { shape: Shape::Circle(hole(58.0, 45.0, 12.0)), depth: Length::mm(3.2) },
            Operation::Slot { path: line(20.0, 32.0, 48.0), width: Length::mm(0.6), depth: Length::mm(1.6) },
            Operation::Engrave(arc),
            Operation::Drill { circle: hole(16.0, 54.0, 8.0), depth: HoleDepth::To(Length::mm(12.0)) },
            Operation::GuideShape(Shape::Circle(hole(58.0, 45.0, 16.0))),
        ],
    }
}

//! How does a plane shape, y up, become markup, y down?

use std::fmt::Write;

use geometry::{Bounds2, Circle, Outline, Path, Point2, Vertex};
use units::Length;

use crate::number::decimal;

/// Decimals of a number in markup: a millionth of its unit.
const PLACES: usize = 6;

/// Where on the page a plane is drawn. The only place where y is turned over.
#[derive(Clone, Copy)]
pub(crate) struct Paper {
    /// Across the page, where x = 0 is.
    left: f64,
    /// Down the page, where y = 0 is.
    down: f64,
    /// Page units in a millimetre.
    scale: f64,
}

impl Paper {
    /// The page that shows bounds with their upper left corner at a place, at a scale in page units per millimetre.
    pub fn showing(bounds: Bounds2, left: f64, top: f64, scale: f64) -> Self {
        Self { left: left - bounds.min.x * scale, down: top + bounds.max.y * scale, scale }
    }

    /// Where a point is on the page.
    pub fn place(&self, point: Point2) -> (f64, f64) {
        (self.left + point.x * self.scale, self.down - point.y * self.scale)
    }

    /// How long a length is on the page.
    pub fn length(&self, length: Length) -> f64 {
        length.as_mm() * self.scale
    }

    /// A closed loop as path data.
    pub fn loop_data(&self, outline: &Outline) -> String {
        let vertices = outline.vertices();
        let mut data = self.open_data(vertices.iter().copied());
        if let (Some(last), Some(first)) = (vertices.last(), vertices.first()) {
            // The closing command draws a straight line by itself.
            if last.bulge != 0.0 {
                self.segment(&mut data, *last, first.point);
            }
        }
        data.push('Z');
        data
    }

    /// An open path as path data.
    pub fn path_data(&self, path: &Path) -> String {
        self.open_data(path.vertices().iter().copied())
    }

    /// The attributes of a circle.
    pub fn circle(&self, circle: &Circle) -> String {
        let (x, y) = self.place(circle.center);
        format!("cx=\"{}\" cy=\"{}\" r=\"{}\"", page(x), page(y), page(self.length(circle.radius)))
    }

    fn open_data(&self, vertices: impl Iterator<Item = Vertex>) -> String {
        let mut data = String::new();
        let mut before: Option<Vertex> = None;
        for vertex in vertices {
            match before {
                None => self.step(&mut data, "M", vertex.point),
                Some(from) => self.segment(&mut data, from, vertex.point),
            }
            before = Some(vertex);
        }
        data
    }

    /// A line, or a true arc: the radius follows from the chord and the bulge, and a left turn stays one to the eye,
    /// which with y down is the sweep that SVG calls 0.
    fn segment(&self, data: &mut String, from: Vertex, to: Point2) {
        let bulge = from.bulge;
        if bulge == 0.0 {
            return self.step(data, "L", to);
        }
        let radius = page(from.point.distance(to) * (1.0 + bulge * bulge) / (4.0 * bulge.abs()) * self.scale);
        let (large, sweep) = (u8::from(bulge.abs() > 1.0), u8::from(bulge < 0.0));
        self.step(data, &format!("A{radius} {radius} 0 {large} {sweep} "), to);
    }

    fn step(&self, data: &mut String, command: &str, to: Point2) {
        let (x, y) = self.place(to);
        // Writing to a string cannot fail.
        let _ = write!(data, "{command}{} {}", page(x), page(y));
    }
}

/// A number of page units.
pub(crate) fn page(value: f64) -> String {
    decimal(value, PLACES)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A page whose units are millimetres and whose y = 0 is 10 mm down.
    fn paper() -> Paper {
        Paper::showing(Bounds2 { min: Point2::ORIGIN, max: Point2::mm(10.0, 10.0) }, 0.0, 0.0, 1.0)
    }

    #[track_caller]
    fn check(vertices: &[(f64, f64, f64)], expected: &str) {
        let vertices =
            vertices.iter().map(|&(x, y, bulge)| Vertex { point: Point2::mm(x, y), bulge }).collect();
        let outline = Outline::new(vertices).expect("the outline is sound");
        assert_eq!(paper().loop_data(&outline), expected, "path data of {outline:?}");
    }

    #[test]
    fn y_is_turned_over() {
        check(&[(0.0, 0.0, 0.0), (4.0, 0.0, 0.0), (4.0, 3.0, 0.0)], "M0 10L4 10L4 7Z");
    }

    #[test]
    fn a_left_turn_stays_one_to_the_eye() {
        // A half disc on its flat side: from (4, 0) left and over to (0, 0).
        check(&[(0.0, 0.0, 0.0), (4.0, 0.0, 1.0)], "M0 10L4 10A2 2 0 0 0 0 10Z");
        // The same, run the other way: a right turn.
        check(&[(4.0, 0.0, 0.0), (0.0, 0.0, -1.0)], "M4 10L0 10A2 2 0 0 1 4 10Z");
    }

    #[test]
    fn more_than_half_a_circle_is_the_large_arc() {
        // Three quarters of a circle of radius 2 about (2, 2): bulge tan(270/4) = 1 + sqrt 2.
        let bulge = 1.0 + std::f64::consts::SQRT_2;
        check(&[(2.0, 0.0, bulge), (0.0, 2.0, 0.0)], "M2 10A2 2 0 1 0 0 8Z");
    }

    #[test]
    fn a_loop_of_two_arcs_draws_both() {
        check(&[(0.0, 0.0, 1.0), (4.0, 0.0, 1.0)], "M0 10A2 2 0 0 0 4 10A2 2 0 0 0 0 10Z");
    }
}

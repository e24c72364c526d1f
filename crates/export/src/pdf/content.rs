//! How are lines and words written in the language of a page?

use std::fmt::Write;

use geometry::{Bounds2, Circle, Point2, Segment, Vector2};
use units::{Angle, Length, math};

use super::sheet::Correction;
use super::template::{Pen, Words};
use super::typeface::Typeface;
use crate::number::decimal;
use crate::scene::Figure;

/// Decimals of a coordinate in points: steps of 3.5e-5 mm.
const PLACES: usize = 4;

/// The file's units in a millimetre: 72 to the inch.
pub(super) const POINTS: f64 = 72.0 / 25.4;

/// The most that one cubic curve turns through: an eighth of a circle deviates from it by 4e-6 of the radius.
const MOST_TURN: Angle = Angle::degrees(45.0);

/// What stands on one page, as it is written.
pub(super) struct Content {
    text: String,
    /// The middle of the sheet, which the correction leaves in its place.
    middle: Point2,
    factors: [f64; 2],
}

impl Content {
    /// An empty page of a size.
    pub fn on(sheet: [Length; 2], correction: Correction) -> Self {
        let middle = Point2::new(sheet[0] / 2.0, sheet[1] / 2.0);
        Self { text: String::new(), middle, factors: correction.factors() }
    }

    /// What has been written.
    pub fn into_bytes(self) -> Vec<u8> {
        self.text.into_bytes()
    }

    /// Draws a figure, moved from its own frame to the page.
    pub fn figure(&mut self, figure: &Figure, by: Vector2, pen: Pen) {
        self.pen(pen);
        self.run(figure.segments().into_iter(), by);
        self.operator(match figure {
            Figure::Path(_) => "S",
            Figure::Shape(_) => closing(pen),
        });
    }

    /// A straight line on the page.
    pub fn line(&mut self, from: Point2, to: Point2, pen: Pen) {
        self.pen(pen);
        self.run([Segment::Line { from, to }].into_iter(), Vector2::ZERO);
        self.operator("S");
    }

    /// A circle on the page.
    pub fn ring(&mut self, circle: &Circle, pen: Pen) {
        self.pen(pen);
        self.run(circle.segments().into_iter(), Vector2::ZERO);
        self.operator("s");
    }

    /// A rectangle on the page, tinted where the pen tints.
    pub fn rectangle(&mut self, bounds: Bounds2, pen: Pen) {
        self.pen(pen);
        self.corners(bounds);
        self.operator(closing(pen));
    }

    /// Words, moved from their own frame to the page.
    pub fn words(&mut self, words: &Words, by: Vector2, typeface: &mut Typeface) {
        let (x, y) = self.place(words.start(typeface) + by);
        let along = words.reading.direction();
        let (a, b) = (decimal(along.x, 0), decimal(along.y, 0));
        let c = decimal(-along.y, 0);
        let size = decimal(words.size.as_mm() * POINTS, PLACES);
        let glyphs = typeface.glyphs(&words.text);
        // Writing to a string cannot fail.
        let _ = writeln!(self.text, "BT 0 g /F {size} Tf {a} {b} {c} {a} {x} {y} Tm <{glyphs}> Tj ET");
    }

    /// Draws only within bounds, until [`Content::anywhere`].
    pub fn only_within(&mut self, bounds: Bounds2) {
        self.operator("q");
        self.corners(bounds);
        self.operator("h W n");
    }

    /// Draws anywhere again.
    pub fn anywhere(&mut self) {
        self.operator("Q");
    }

    fn pen(&mut self, pen: Pen) {
        let width = decimal(pen.width().as_mm() * POINTS, PLACES);
        let dashes: Vec<String> = pen.dashes().iter().map(|dash| decimal(dash * POINTS, PLACES)).collect();
        let grey = decimal(pen.grey(), 3);
        let _ = writeln!(self.text, "{width} w [{}] 0 d {grey} G", dashes.join(" "));
        if let Some(tint) = pen.tint() {
            let _ = writeln!(self.text, "{} g", decimal(tint, 3));
        }
    }

    fn corners(&mut self, Bounds2 { min, max }: Bounds2) {
        let corners = [min, Point2::mm(max.x, min.y), max, Point2::mm(min.x, max.y)];
        for (point, operator) in corners.into_iter().zip(["m", "l", "l", "l"]) {
            self.point(point, operator);
        }
    }

    /// Segments end to end.
    fn run(&mut self, segments: impl Iterator<Item = Segment>, by: Vector2) {
        for (place, segment) in segments.enumerate() {
            if place == 0 {
                self.point(segment.from() + by, "m");
            }
            match segment {
                Segment::Line { to, .. } => self.point(to + by, "l"),
                Segment::Arc { from, center, sweep, .. } => self.arc(from + by, center + by, sweep),
            }
        }
    }

    /// An arc as cubic curves, whose inner points lie on the tangents at its ends.
    fn arc(&mut self, from: Point2, center: Point2, sweep: Angle) {
        let count = (sweep.abs() / MOST_TURN).ceil().max(1.0);
        let step = sweep / count;
        let reach = 4.0 / 3.0 * math::tan(step.as_radians() / 4.0);
        let mut here = from;
        for piece in 1..=count as usize {
            let there = from.rotated_about(center, step * piece as f64);
            let (leaving, arriving) = ((here - center).left() * reach, (there - center).left() * reach);
            for inner in [here + leaving, there - arriving] {
                let (x, y) = self.place(inner);
                let _ = write!(self.text, "{x} {y} ");
            }
            self.point(there, "c");
            here = there;
        }
    }

    fn point(&mut self, point: Point2, operator: &str) {
        let (x, y) = self.place(point);
        let _ = writeln!(self.text, "{x} {y} {operator}");
    }

    fn operator(&mut self, operator: &str) {
        self.text.push_str(operator);
        self.text.push('\n');
    }

    /// A place on the page in points, the printer's error undone.
    fn place(&self, point: Point2) -> (String, String) {
        let off = point - self.middle;
        let x = self.middle.x + off.x * self.factors[0];
        let y = self.middle.y + off.y * self.factors[1];
        (decimal(x * POINTS, PLACES), decimal(y * POINTS, PLACES))
    }
}

/// Closes a shape, draws its edge and tints it where the pen does.
const fn closing(pen: Pen) -> &'static str {
    if pen.tint().is_some() { "b" } else { "s" }
}

#[cfg(test)]
mod tests {
    use super::*;

    const A4: [Length; 2] = [Length::mm(297.0), Length::mm(210.0)];

    fn numbers(content: Content) -> Vec<Vec<f64>> {
        let text = String::from_utf8(content.into_bytes()).expect("operators are text");
        let line = |line: &str| line.split(' ').filter_map(|word| word.parse().ok()).collect();
        text.lines().map(line).collect()
    }

    #[test]
    fn a_line_is_in_points_from_the_lower_left() {
        let mut content = Content::on(A4, Correction::NONE);
        content.line(Point2::mm(25.4, 12.7), Point2::mm(125.4, 12.7), Pen::Fine);
        let found = numbers(content);
        assert_eq!(found[1], [72.0, 36.0], "an inch and half an inch");
        assert_eq!(found[2], [355.4646, 36.0], "100 mm are 283.4646 points");
    }

    #[test]
    fn a_printer_that_prints_short_gets_longer_lines() {
        let measured = [Length::mm(99.0), Length::mm(102.0)];
        let mut content = Content::on(A4, Correction::measured(measured).expect("a printer may do that"));
        content.line(Point2::mm(100.0, 50.0), Point2::mm(200.0, 150.0), Pen::Fine);
        let found = numbers(content);
        let printed =
            [0, 1].map(|axis| (found[2][axis] - found[1][axis]) / POINTS * measured[axis].as_mm() / 100.0);
        for length in printed {
            assert!((length - 100.0).abs() < 1e-3, "100 mm come out as {length} mm");
        }
    }

    #[track_caller]
    fn check_arc(radius: f64) {
        let circle = Circle { center: Point2::mm(140.0, 100.0), radius: Length::mm(radius) };
        let mut content = Content::on(A4, Correction::NONE);
        content.ring(&circle, Pen::Fine);
        let found = numbers(content);
        let mut here = [found[1][0], found[1][1]];
        let mut worst = 0.0_f64;
        for curve in found.iter().filter(|line| line.len() == 6) {
            let ends = |axis: usize| [here[axis], curve[axis], curve[axis + 2], curve[axis + 4]];
            for share in [0.2, 0.5, 0.8] {
                let rest = 1.0 - share;
                let weights = [
                    rest * rest * rest,
                    3.0 * rest * rest * share,
                    3.0 * rest * share * share,
                    share * share * share,
                ];
                let at = [0, 1].map(|axis| {
                    ends(axis).iter().zip(weights).map(|(end, weight)| end * weight).sum::<f64>() / POINTS
                });
                worst = worst.max((circle.center.distance(Point2::mm(at[0], at[1])) - radius).abs());
            }
            here = [curve[4], curve[5]];
        }
        let most = 1e-5 * radius + 4e-5;
        assert!(worst > 0.0 && worst < most, "a circle of {radius} mm is {worst} mm off, at most {most}");
    }

    #[test]
    fn circles_are_round() {
        check_arc(0.8);
        check_arc(20.0);
        check_arc(90.0);
    }
}

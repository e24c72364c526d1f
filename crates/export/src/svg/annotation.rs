//! What is put on a drawing beside the part itself, so that it can be read?

use std::fmt::Write;

use geometry::{Bounds2, Point2, Vector2};
use units::Length;

use super::wording::{SIZE, width};
use crate::markup::escaped;
use crate::paper::{Paper, page};
use crate::room::Room;

/// The room round words. Smaller lets a line touch a figure; larger finds no place on small parts.
const CLEAR: Length = Length::mm(0.5);
/// How long an arrowhead is, and half as wide as a third of that.
pub(super) const HEAD: f64 = 2.4;
/// The radius of the ring at the origin of running dimensions.
const RING: f64 = 0.9;

/// Words on the drawing.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Text {
    pub words: String,
    pub center: Point2,
    /// Whether they run up the page instead of along it.
    pub upward: bool,
}

/// What a thin line is there for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Role {
    /// From the part to a dimension line.
    Extension,
    /// Along what is measured, or from words to what they are about.
    Dimension,
}

/// A thin, straight line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Stroke {
    pub from: Point2,
    pub to: Point2,
    pub role: Role,
}

/// An arrowhead.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Head {
    pub tip: Point2,
    /// Where it points, of length 1.
    pub toward: Vector2,
}

/// Words and lines in the drawing's frame, y up.
#[derive(Clone, Debug, PartialEq, Default)]
pub(super) struct Annotation {
    pub texts: Vec<Text>,
    pub strokes: Vec<Stroke>,
    pub heads: Vec<Head>,
    pub rings: Vec<Point2>,
}

impl Text {
    /// The room that the words take at most.
    pub fn bounds(&self) -> Bounds2 {
        let (along, high) = (width(&self.words) / 2.0, SIZE / 2.0);
        let half = if self.upward { Vector2::mm(high, along) } else { Vector2::mm(along, high) };
        Bounds2 { min: self.center - half, max: self.center + half }
    }
}

impl Annotation {
    pub fn text(&mut self, words: String, center: Point2, upward: bool) {
        self.texts.push(Text { words, center, upward });
    }

    pub fn stroke(&mut self, role: Role, from: Point2, to: Point2) {
        self.strokes.push(Stroke { from, to, role });
    }

    /// A line with arrowheads at both ends.
    pub fn arrows(&mut self, from: Point2, to: Point2) {
        self.stroke(Role::Dimension, from, to);
        if let Some(toward) = (to - from).normalised() {
            self.heads.extend([Head { tip: to, toward }, Head { tip: from, toward: -toward }]);
        }
    }

    /// Whether it can be put where it is: no words on lines or on other words, and no line through words.
    pub fn fits(&self, room: &Room) -> bool {
        self.texts.iter().all(|text| room.is_free(text.bounds().grown(CLEAR)))
            && self.strokes.iter().all(|stroke| !room.crosses_words(stroke.from, stroke.to))
    }

    /// Takes up its room.
    pub fn settle(&self, room: &mut Room) {
        self.texts.iter().for_each(|text| room.fill(text.bounds().grown(CLEAR)));
        self.strokes.iter().for_each(|stroke| room.line(stroke.from, stroke.to));
    }

    /// Adds another's words and lines.
    pub fn join(&mut self, other: Self) {
        self.texts.extend(other.texts);
        self.strokes.extend(other.strokes);
        self.heads.extend(other.heads);
        self.rings.extend(other.rings);
    }

    /// The bounds of all of it; `None` when there is nothing.
    pub fn bounds(&self) -> Option<Bounds2> {
        let words = self.texts.iter().map(Text::bounds);
        let lines = self.strokes.iter().map(|stroke| Bounds2::at(stroke.from).union(Bounds2::at(stroke.to)));
        words.chain(lines).reduce(Bounds2::union)
    }

    /// As markup.
    pub fn write(&self, paper: &Paper) -> String {
        let mut markup =
            String::from("<g class=\"dimensions\" fill=\"none\" stroke=\"#333\" stroke-width=\"0.15\">\n");
        // Writing to a string cannot fail.
        for Stroke { from, to, role } in &self.strokes {
            let ((x1, y1), (x2, y2)) = (paper.place(*from), paper.place(*to));
            let colour = if *role == Role::Extension { " stroke=\"#8a8a8a\"" } else { "" };
            let _ = writeln!(
                markup,
                "<path d=\"M{} {}L{} {}\"{colour}/>",
                page(x1),
                page(y1),
                page(x2),
                page(y2)
            );
        }
        for Head { tip, toward } in &self.heads {
            let back = *tip - *toward * HEAD;
            let corners = [*tip, back + toward.left() * (HEAD / 6.0), back - toward.left() * (HEAD / 6.0)];
            let [a, b, c] =
                corners.map(|corner| paper.place(corner)).map(|(x, y)| format!("{} {}", page(x), page(y)));
            let _ = writeln!(markup, "<path d=\"M{a}L{b}L{c}Z\" fill=\"#333\" stroke=\"none\"/>");
        }
        for ring in &self.rings {
            let (x, y) = paper.place(*ring);
            let _ = writeln!(
                markup,
                "<circle cx=\"{}\" cy=\"{}\" r=\"{RING}\" fill=\"#fff\"/>",
                page(x),
                page(y)
            );
        }
        markup.push_str("</g>\n");
        let _ = writeln!(
            markup,
            "<g class=\"words\" fill=\"#111\" font-family=\"sans-serif\" font-size=\"{SIZE}\" text-anchor=\"middle\">"
        );
        for Text { words, center, upward } in &self.texts {
            let (x, y) = paper.place(*center);
            let turn = if *upward {
                format!(" transform=\"rotate(-90 {} {})\"", page(x), page(y))
            } else {
                String::new()
            };
            // The middle of figures is this far above their foot.
            let foot = y + 0.36 * SIZE;
            let _ = writeln!(
                markup,
                "<text x=\"{}\" y=\"{}\"{turn}>{}</text>",
                page(x),
                page(foot),
                escaped(words)
            );
        }
        markup.push_str("</g>\n");
        markup
    }
}

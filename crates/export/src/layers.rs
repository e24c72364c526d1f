//! Which layer does an operation go on, and in which colour?
//!
//! A layer's name tells the whole operation, because the name is what survives every program on the way to a machine:
//!
//! | layer | what is on it |
//! | --- | --- |
//! | `CUT_OUTER` | cut along the outside; the part is what is inside |
//! | `TAB` | on request: the stretches of the outside that hold the part in its blank, left standing or cut less deep |
//! | `CUT_INNER` | cut along the inside; an opening |
//! | `POCKET_D3_2` | clear what is inside to a depth of 3.2 mm; a circle on it is a flat-bottomed hole of its diameter |
//! | `DRILL_D8_0` | drill through, 8.0 mm in diameter |
//! | `SLOT` | one pass along the centre line; width and depth are told in the SVG and wherever the part is described |
//! | `ENGRAVE` | a mark on the face |
//! | `GUIDE` | not cut: centre lines, mating parts, the datum's cross |
//!
//! A blind hole goes on the pocket layer of its depth: there the layer tells the depth and the circle the diameter,
//! and nobody who sets one depth for a whole layer drills it through. Numbers in names are millimetres, in inch files too,
//! to 0.001 mm, with at least one decimal and `_` for the point. Names are ASCII in `[A-Z0-9_]`; nothing is on layer 0.

use geometry::{HoleDepth, Operation};
use units::Length;

/// A layer; layers are ordered as they stand in a file: guides first, inner cuts before outer ones.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Layer {
    /// Not cut.
    Guide,
    /// A mark on the face.
    Engrave,
    /// A recess or a blind hole, by its depth.
    Pocket(Micrometres),
    /// One pass along a centre line.
    Slot,
    /// A hole through the part, by its diameter.
    Drill(Micrometres),
    /// An opening.
    CutInner,
    /// What is left standing of the part's edge.
    Tab,
    /// The part's edge.
    CutOuter,
}

/// A length to 0.001 mm, as it stands in a layer's name.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Micrometres(u32);

/// A colour, as drawings and as pictures say it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Colour {
    /// The number of a like colour among the 255 fixed ones that R2000 drawings know.
    pub index: u8,
    /// Red, green and blue, sRGB.
    pub rgb: [u8; 3],
}

impl Micrometres {
    /// The nearest; a negative length becomes zero.
    #[must_use]
    pub fn nearest(length: Length) -> Self {
        // The cast saturates.
        Self((length.as_mm() * 1000.0).round() as u32)
    }

    /// Whole millimetres, the point, and one to three decimals.
    pub(crate) fn written(self, point: char) -> String {
        let decimals = format!("{:03}", self.0 % 1000);
        let (first, rest) = decimals.split_at(1);
        format!("{}{point}{first}{}", self.0 / 1000, rest.trim_end_matches('0'))
    }
}

impl Layer {
    /// The layer of an operation.
    #[must_use]
    pub fn of(operation: &Operation) -> Self {
        match operation {
            Operation::CutOutside(_) => Self::CutOuter,
            Operation::CutInside(_) => Self::CutInner,
            Operation::Pocket { depth, .. } => Self::Pocket(Micrometres::nearest(*depth)),
            Operation::Drill { depth: HoleDepth::To(depth), .. } => {
                Self::Pocket(Micrometres::nearest(*depth))
            }
            Operation::Drill { circle, depth: HoleDepth::Through } => {
                Self::Drill(Micrometres::nearest(circle.radius * 2.0))
            }
            Operation::Slot { .. } => Self::Slot,
            Operation::Engrave(_) => Self::Engrave,
            Operation::Guide(_) | Operation::GuideShape(_) | Operation::Mate(_) => Self::Guide,
        }
    }

    /// Its name in drawings.
    #[must_use]
    pub fn name(self) -> String {
        match self {
            Self::Guide => "GUIDE".into(),
            Self::Engrave => "ENGRAVE".into(),
            Self::Pocket(depth) => format!("POCKET_D{}", depth.written('_')),
            Self::Slot => "SLOT".into(),
            Self::Drill(diameter) => format!("DRILL_D{}", diameter.written('_')),
            Self::CutInner => "CUT_INNER".into(),
            Self::Tab => "TAB".into(),
            Self::CutOuter => "CUT_OUTER".into(),
        }
    }

    /// What is done there, for people.
    #[must_use]
    pub fn title(self) -> String {
        match self {
            Self::Guide => "guide, not cut".into(),
            Self::Engrave => "engrave".into(),
            Self::Pocket(depth) => format!("pocket {} mm deep", depth.written('.')),
            Self::Slot => "slot, one pass along the line".into(),
            Self::Drill(diameter) => format!("drill through, {} mm in diameter", diameter.written('.')),
            Self::CutInner => "cut out the opening".into(),
            Self::Tab => "tab, left standing or cut less deep".into(),
            Self::CutOuter => "cut out the part".into(),
        }
    }

    /// The family that shares a colour, in lower case with dashes: the class in markup.
    #[must_use]
    pub const fn class(self) -> &'static str {
        match self {
            Self::Guide => "guide",
            Self::Engrave => "engrave",
            Self::Pocket(_) => "pocket",
            Self::Slot => "slot",
            Self::Drill(_) => "drill",
            Self::CutInner => "cut-inner",
            Self::Tab => "tab",
            Self::CutOuter => "cut-outer",
        }
    }

    /// Its colour.
    ///
    /// Both sets were searched for: every two colours differ by at least 22 CIE76 units, to normal sight and with
    /// protanopia, deuteranopia or tritanopia (simulated after Machado, Oliveira and Fernandes 2009), and the sRGB
    /// ones keep a contrast of 3 to 1 (WCAG 2) with white and with a dark page. There is no eighth such sRGB colour:
    /// that of tabs, which pictures do not show, differs by 19.
    #[must_use]
    pub const fn colour(self) -> Colour {
        let (index, rgb) = match self {
            Self::Guide => (8, [0x80, 0x80, 0x80]),
            Self::Engrave => (200, [0x7F, 0x3D, 0xE1]),
            Self::Pocket(_) => (93, [0x10, 0xA9, 0x63]),
            Self::Slot => (25, [0x8B, 0x59, 0x20]),
            Self::Drill(_) => (191, [0xB9, 0x71, 0xE6]),
            Self::CutInner => (155, [0x39, 0x6B, 0x90]),
            Self::Tab => (30, [0xFC, 0x48, 0x54]),
            Self::CutOuter => (32, [0xDA, 0x73, 0x02]),
        };
        Colour { index, rgb }
    }
}

impl Colour {
    /// As style sheets write it: `#da7302`.
    #[must_use]
    pub fn hex(self) -> String {
        let [red, green, blue] = self.rgb;
        format!("#{red:02x}{green:02x}{blue:02x}")
    }
}

#[cfg(test)]
mod tests {
    use geometry::{Circle, Point2, Shape};

    use super::*;

    const EACH: [Layer; 8] = [
        Layer::Guide,
        Layer::Engrave,
        Layer::Pocket(Micrometres(3200)),
        Layer::Slot,
        Layer::Drill(Micrometres(8000)),
        Layer::CutInner,
        Layer::Tab,
        Layer::CutOuter,
    ];

    fn hole(diameter_mm: f64) -> Circle {
        Circle::of_diameter(Point2::ORIGIN, Length::mm(diameter_mm))
    }

    #[track_caller]
    fn check(operation: &Operation, expected: &str) {
        assert_eq!(Layer::of(operation).name(), expected, "the layer of {operation:?}");
    }

    #[test]
    fn cuts_say_their_side() {
        check(&Operation::CutOutside(Shape::Circle(hole(20.0))), "CUT_OUTER");
        check(&Operation::CutInside(Shape::Circle(hole(20.0))), "CUT_INNER");
        check(&Operation::GuideShape(Shape::Circle(hole(20.0))), "GUIDE");
        check(&Operation::Mate(Shape::Circle(hole(20.0))), "GUIDE");
    }

    #[test]
    fn a_pocket_says_its_depth() {
        let pocket = |depth| Operation::Pocket { shape: Shape::Circle(hole(20.0)), depth: Length::mm(depth) };
        check(&pocket(3.2), "POCKET_D3_2");
        check(&pocket(0.05), "POCKET_D0_05");
    }

    #[test]
    fn a_hole_through_says_its_diameter() {
        let drill = |diameter| Operation::Drill { circle: hole(diameter), depth: HoleDepth::Through };
        check(&drill(8.0), "DRILL_D8_0");
        check(&drill(3.175), "DRILL_D3_175");
        check(&drill(4.76), "DRILL_D4_76");
    }

    #[test]
    fn a_blind_hole_says_its_depth() {
        check(
            &Operation::Drill { circle: hole(8.0), depth: HoleDepth::To(Length::mm(12.0)) },
            "POCKET_D12_0",
        );
    }

    #[test]
    fn names_are_plain() {
        for layer in EACH {
            let name = layer.name();
            let plain = |c: char| c.is_ascii_uppercase() || c.is_ascii_digit() || c == '_';
            assert!(name.chars().all(plain), "{name} is in [A-Z0-9_]");
        }
    }

    /// Relative luminance and contrast by WCAG 2.1.
    fn luminance(rgb: [u8; 3]) -> f64 {
        let linear = |channel: u8| {
            let value = f64::from(channel) / 255.0;
            if value <= 0.04045 { value / 12.92 } else { units::math::pow((value + 0.055) / 1.055, 2.4) }
        };
        0.2126 * linear(rgb[0]) + 0.7152 * linear(rgb[1]) + 0.0722 * linear(rgb[2])
    }

    #[test]
    fn every_colour_is_seen_on_white_and_on_a_dark_page() {
        for layer in EACH {
            let own = luminance(layer.colour().rgb) + 0.05;
            let on_white = 1.05 / own;
            let on_dark = own / (luminance([0x12, 0x14, 0x18]) + 0.05);
            let least = on_white.min(on_dark);
            assert!(least >= 3.0, "{layer:?} has a contrast of {least:.2}, at least 3 is wanted");
        }
    }
}

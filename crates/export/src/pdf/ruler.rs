//! How does a page show that it was printed at true size?
//!
//! Two rulers each way, from one zero: 100 mm with a tick every 10 mm, 4 in with a tick every half inch.

use geometry::{Point2, Vector2};
use units::Length;

use super::content::Content;
use super::template::{Pen, Reading, Side, Words};
use super::typeface::Typeface;

/// From the zero's corner to the line of millimetres, and to that of inches, square to the ruler.
const LINES: [f64; 2] = [4.7, 2.3];
/// A tick, a tick in the middle or at the ends.
const TICKS: [f64; 2] = [1.0, 1.8];
const WORDS: Length = Length::mm(2.1);

/// Both rulers from a corner of the page; they take [`super::pages::FOOT`] or [`super::pages::BAND`] to the left of the
/// way that they read.
pub(super) fn rulers(content: &mut Content, corner: Point2, reading: Reading, typeface: &mut Typeface) {
    let along = reading.direction();
    // Across a page, away from its edge is up; along its left edge, away from it is right.
    let inward = match reading {
        Reading::Across => along.left(),
        Reading::Up => -along.left(),
    };
    let kinds = [(10.0, 10, "100 mm", 1.0), (12.7, 8, "4 in", -1.0)];
    for ((step, count, words, outward), off) in kinds.into_iter().zip(LINES) {
        let zero = corner + inward * off;
        let at = |place: usize| zero + along * (step * place as f64);
        content.line(zero, at(count), Pen::Station);
        for place in 0..=count {
            let long = place % (count / 2) == 0;
            let tick: Vector2 = inward * (outward * TICKS[usize::from(long)]);
            content.line(at(place), at(place) + tick, Pen::Station);
        }
        let words = Words {
            at: at(count) + along * 1.2 + inward * (outward * 0.9),
            side: Side::Start,
            reading,
            size: WORDS,
            text: words.into(),
        };
        content.words(&words, Vector2::ZERO, typeface);
    }
}

//! Where beside a thing is there room for words?

use geometry::{Bounds2, Segment, Vector2};
use units::Length;

use super::template::{Reading, Side, Words};
use super::typeface::Typeface;
use crate::room::Room;

/// Room between the thing and the words; more than [`CLEAR`], so that a thing is not in the way of its own words.
const BESIDE: f64 = 0.7;
/// Room that words keep from lines and from one another.
const CLEAR: Length = Length::mm(0.3);

/// What words must not lie on.
pub(super) struct Taken {
    lines: Room,
    words: Vec<Bounds2>,
}

impl Taken {
    /// By lines.
    pub fn by(segments: impl IntoIterator<Item = Segment>) -> Self {
        let mut lines = Room::default();
        lines.draw(segments);
        Self { lines, words: Vec::new() }
    }

    /// The same words beside each of several like things; where not each has room for them, once, with the number of
    /// things before them; nothing where there is no room even for that.
    pub fn beside_each(
        &mut self,
        things: &[Bounds2],
        size: Length,
        text: &str,
        typeface: &Typeface,
    ) -> Vec<Words> {
        let before = self.words.len();
        let each: Option<Vec<Words>> =
            things.iter().map(|thing| self.beside(*thing, size, text, typeface)).collect();
        each.unwrap_or_else(|| {
            self.words.truncate(before);
            let once = format!("{} × {text}", things.len());
            things.iter().find_map(|thing| self.beside(*thing, size, &once, typeface)).into_iter().collect()
        })
    }

    /// Words beside a thing, on the first of its eight sides that is free, and then taken; nothing where none is.
    fn beside(&mut self, thing: Bounds2, size: Length, text: &str, typeface: &Typeface) -> Option<Words> {
        let (center, half) = (thing.center(), thing.width().as_mm() / 2.0);
        let (tall, rise) = (thing.height().as_mm() / 2.0, size.as_mm() / 2.0);
        let (out, up) = (half + BESIDE, tall + BESIDE + rise);
        let (near, high) = (half * 0.7 + BESIDE, tall * 0.7 + BESIDE / 2.0 + rise);
        let sides = [
            (out, 0.0, Side::Start),
            (-out, 0.0, Side::End),
            (0.0, up, Side::Middle),
            (0.0, -up, Side::Middle),
            (near, high, Side::Start),
            (near, -high, Side::Start),
            (-near, high, Side::End),
            (-near, -high, Side::End),
        ];
        let (words, bounds) = sides.into_iter().find_map(|(x, y, side)| {
            let at = center + Vector2::mm(x, y);
            let words = Words { at, side, reading: Reading::Across, size, text: text.into() };
            let bounds = words.bounds(typeface);
            self.is_free(bounds).then_some((words, bounds))
        })?;
        self.words.push(bounds);
        Some(words)
    }

    fn is_free(&self, bounds: Bounds2) -> bool {
        let clear = bounds.grown(CLEAR);
        self.words.iter().all(|words| !words.overlaps(clear)) && self.lines.is_free(clear)
    }
}

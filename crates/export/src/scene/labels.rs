//! Where do the labels of a view stand, so that none lies on another or on the drawing?
//!
//! Each label goes to the strip on its thing's side of the view; what lies in the middle goes to the emptier strip.
//! Within a strip labels keep the order of their things. Where they do not fit side by side they take turns in two or
//! more rows, with room for the lines of the farther rows between the words of the nearer ones.

use super::{Item, MARGIN, View, WIDTH};

/// From the drawing's edge to where lines bend.
pub(super) const BEND: f64 = 12.0;
/// From the bend to the nearest row of words.
pub(super) const RISE: f64 = 4.0;
/// From row to row.
pub(super) const ROW: f64 = 19.0;

/// The room that one letter is given: 0.6 of the letters' height, more than sans-serif faces use on average. Smaller
/// lets words run into each other in wide faces.
const LETTER: f64 = 8.0;
/// Between words in a row.
const BETWEEN_WORDS: f64 = 14.0;
/// Between words and a line that passes them.
const BESIDE_LINE: f64 = 6.0;
/// More rows than this are no longer read.
const MOST_ROWS: usize = 6;

/// The labels on one side of a view.
#[derive(Debug, Default)]
pub(super) struct Strip<'a> {
    /// From left to right.
    pub labels: Vec<Placed<'a>>,
    rows: usize,
}

/// A label in its place.
#[derive(Debug)]
pub(super) struct Placed<'a> {
    /// The number of the item in its view.
    pub item: usize,
    /// What it says.
    pub words: &'a str,
    /// Where its middle is, across the page.
    pub x: f64,
    /// Its row, from 0 beside the drawing.
    pub row: usize,
}

impl Strip<'_> {
    /// The height that the strip takes.
    pub fn height(&self) -> f64 {
        if self.labels.is_empty() { 0.0 } else { BEND + RISE + ROW * self.rows as f64 }
    }
}

/// A label that seeks its place.
#[derive(Clone, Copy)]
struct Wish<'a> {
    item: usize,
    words: &'a str,
    x: f64,
}

impl Wish<'_> {
    fn half(&self) -> f64 {
        self.words.chars().count() as f64 * LETTER / 2.0
    }
}

/// The strips above and below a view; `None` where the labels of one find no place.
///
/// `middle` is the height of the view's middle, in its frame; `from_left` tells where an item's middle is on the page.
pub(super) fn strips<'a>(
    view: &'a View,
    middle: f64,
    from_left: impl Fn(&Item) -> f64,
) -> Option<(Strip<'a>, Strip<'a>)> {
    let (mut above, mut below) = (Vec::new(), Vec::new());
    let mut wishes: Vec<(f64, Wish<'a>)> = Vec::new();
    for (number, item) in view.items.iter().enumerate() {
        if let Some(words) = &item.label {
            let height = item.figure.bounds().center().y - middle;
            wishes.push((height, Wish { item: number, words, x: from_left(item) }));
        }
    }
    wishes.sort_by(|a, b| a.1.x.total_cmp(&b.1.x));
    for (height, wish) in wishes {
        // Half a millimetre is no side.
        let upward = if height.abs() > 0.5 { height > 0.0 } else { above.len() <= below.len() };
        if upward { above.push(wish) } else { below.push(wish) }
    }
    Some((strip(&above)?, strip(&below)?))
}

fn strip<'a>(wishes: &[Wish<'a>]) -> Option<Strip<'a>> {
    (1..=MOST_ROWS).find_map(|rows| {
        let places = places(wishes, rows)?;
        let placed = wishes.iter().zip(places).enumerate().map(|(i, (wish, x))| Placed {
            item: wish.item,
            words: wish.words,
            x,
            row: i % rows,
        });
        Some(Strip { labels: placed.collect(), rows: rows.min(wishes.len()) })
    })
}

/// The middles of labels that take turns in rows, each as near to its thing as the others let it.
///
/// Pushed from left to right and pushed from right to left are two arrangements that hold all distances; so does their
/// mean, and it favours neither side.
fn places(wishes: &[Wish<'_>], rows: usize) -> Option<Vec<f64>> {
    let (left, right) = (MARGIN, WIDTH - MARGIN);
    let count = wishes.len();
    let apart = |i: usize, j: usize| {
        let (a, b) = (&wishes[i], &wishes[j]);
        match (i % rows).cmp(&(j % rows)) {
            std::cmp::Ordering::Equal => a.half() + b.half() + BETWEEN_WORDS,
            std::cmp::Ordering::Less => a.half() + BESIDE_LINE,
            std::cmp::Ordering::Greater => b.half() + BESIDE_LINE,
        }
    };
    // Things at one place would otherwise have their lines drawn on each other.
    let push_right = |x: &mut [f64]| {
        for i in 0..count {
            let least = (0..i).map(|j| x[j] + apart(j, i)).fold(left + wishes[i].half(), f64::max);
            x[i] = x[i].max(least);
        }
    };
    let push_left = |x: &mut [f64]| {
        for i in (0..count).rev() {
            let most = (i + 1..count).map(|j| x[j] - apart(i, j)).fold(right - wishes[i].half(), f64::min);
            x[i] = x[i].min(most);
        }
    };
    let mut from_left: Vec<f64> = wishes.iter().map(|wish| wish.x).collect();
    let mut from_right = from_left.clone();
    push_right(&mut from_left);
    push_left(&mut from_left);
    push_left(&mut from_right);
    push_right(&mut from_right);
    let fits = |x: &[f64]| {
        let inside = (0..count)
            .all(|i| x[i] - wishes[i].half() >= left - 1e-6 && x[i] + wishes[i].half() <= right + 1e-6);
        inside && (0..count).all(|i| (i + 1..count).all(|j| x[j] - x[i] >= apart(i, j) - 1e-6))
    };
    (fits(&from_left) && fits(&from_right))
        .then(|| from_left.iter().zip(&from_right).map(|(a, b)| (a + b) / 2.0).collect())
}

//! How is something pointed out, and where do the words of upright marks stand?

use std::fmt::Write;

use super::plane::Plane;
use super::{Chart, LEADING, LETTERS, Mark, WIDTH, is_drawn, room, unit};
use crate::markup::escaped;

/// Between two words in a row.
const BETWEEN: f64 = 12.0;
/// From a line to its words.
const BESIDE: f64 = 5.0;

/// Words above the plot: where their line is, on which side of it they stand, and their row from the top.
struct Placed<'a> {
    at: f64,
    is_to_the_right: bool,
    row: usize,
    words: &'a str,
}

/// Upright marks. Words stand to the right of their line where they fit, else to the left of it.
fn placed(chart: &Chart, x: impl Fn(f64) -> f64) -> Vec<Placed<'_>> {
    let mut uprights: Vec<(f64, &str)> = chart
        .marks
        .iter()
        .filter_map(|mark| match mark {
            Mark::Upright { at, words } if is_drawn(*at) => Some((*at, words.as_str())),
            _ => None,
        })
        .collect();
    uprights.sort_by(|a, b| a.0.total_cmp(&b.0));
    let wide = |words: &str| room(words) + BESIDE;
    let (right, mut left): (Vec<_>, Vec<_>) =
        uprights.into_iter().partition(|(at, words)| x(*at) + wide(words) <= WIDTH);
    left.reverse();
    let right_rows = rows(right.iter().map(|(at, words)| [x(*at), x(*at) + wide(words)]));
    let left_rows = rows(left.iter().map(|(at, words)| [-x(*at), wide(words) - x(*at)]));
    let farthest = right.iter().map(|(at, words)| x(*at) + wide(words)).fold(0.0, f64::max);
    let nearest = left.iter().map(|(at, words)| x(*at) - wide(words)).fold(WIDTH, f64::min);
    // Where they would meet, those on the left of their lines stand above.
    let below =
        if farthest + BETWEEN <= nearest { 0 } else { left_rows.iter().max().map_or(0, |row| row + 1) };
    let to_the_right = right.into_iter().zip(right_rows).map(|(mark, row)| (mark, row + below, true));
    let to_the_left = left.into_iter().zip(left_rows).map(|(mark, row)| (mark, row, false));
    to_the_right
        .chain(to_the_left)
        .map(|((at, words), row, is_to_the_right)| Placed { at, is_to_the_right, row, words })
        .collect()
}

/// A row for each stretch of words that begins at its own line, in the order of the lines: below those that begin before it and
/// reach as far, so that a line passes no words on its way down.
fn rows(stretches: impl Iterator<Item = [f64; 2]>) -> Vec<usize> {
    let mut ends: Vec<f64> = Vec::new();
    stretches
        .map(|[from, to]| {
            let is_free = |end: &f64| end + BETWEEN <= from;
            if ends.iter().all(is_free) {
                ends.clear();
            } else if ends.last().is_some_and(is_free) {
                ends.pop();
            }
            ends.push(to);
            ends.len() - 1
        })
        .collect()
}

/// The height that the words of upright marks take above the plot.
pub(super) fn height(chart: &Chart, x: impl Fn(f64) -> f64) -> f64 {
    placed(chart, x).iter().map(|placed| placed.row + 1).max().unwrap_or(0) as f64 * LEADING
}

/// Every mark; the words of level ones and rings stand in the key.
pub(super) fn marks(chart: &Chart, plane: &Plane) -> String {
    let mut text = String::new();
    let uprights = placed(chart, |at| plane.x(at));
    let rows = uprights.iter().map(|placed| placed.row + 1).max().unwrap_or(0);
    // Writing to a string cannot fail.
    let baseline = |row: usize| plane.top - 7.0 - LEADING * (rows - 1 - row) as f64;
    for Placed { at, row, .. } in &uprights {
        let [line, from, bottom] = [plane.x(*at), baseline(*row) - LETTERS + 2.0, plane.bottom()].map(unit);
        let _ = writeln!(text, "<path class=\"mark\" d=\"M{line} {from}V{bottom}\"/>");
    }
    for Placed { at, is_to_the_right, row, words } in uprights {
        let (side, beside) = if is_to_the_right { ("", BESIDE) } else { (" end", -BESIDE) };
        let ([x, y], words) = ([plane.x(at) + beside, baseline(row)].map(unit), escaped(words));
        let _ = writeln!(text, "<text class=\"marked{side}\" x=\"{x}\" y=\"{y}\">{words}</text>");
    }
    for mark in &chart.marks {
        match mark {
            Mark::Level { at, words } if is_drawn(*at) => {
                let [left, right, y] = [plane.left, plane.right(), plane.y(*at)].map(unit);
                let words = escaped(words);
                let _ = writeln!(
                    text,
                    "<path class=\"mark\" d=\"M{left} {y}H{right}\"><title>{words}</title></path>"
                );
            }
            Mark::Ring { at: (x, y), words } if is_drawn(*x) && is_drawn(*y) => {
                let ([x, y], words) = ([plane.x(*x), plane.y(*y)].map(unit), escaped(words));
                let _ = writeln!(
                    text,
                    "<circle class=\"ring\" cx=\"{x}\" cy=\"{y}\" r=\"8\"><title>{words}</title></circle>"
                );
            }
            _ => {}
        }
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(stretches: &[[f64; 2]], expected: &[usize]) {
        assert_eq!(rows(stretches.iter().copied()), expected, "rows of {stretches:?}");
    }

    #[test]
    fn words_that_meet_stand_in_rows() {
        check(&[[0.0, 50.0], [100.0, 150.0]], &[0, 0]);
        check(&[[0.0, 50.0], [20.0, 80.0], [40.0, 90.0]], &[0, 1, 2]);
        check(&[[0.0, 300.0], [20.0, 80.0], [100.0, 150.0]], &[0, 1, 1]);
        check(&[[0.0, 60.0], [20.0, 80.0], [100.0, 150.0]], &[0, 1, 0]);
    }
}

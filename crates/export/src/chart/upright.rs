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

/// Upright marks from left to right. Words stand to the right of their line where they fit, each in a row below those that
/// begin before it and reach as far: so a line passes no words on its way down.
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
    let mut ends: Vec<f64> = Vec::new();
    let mut all = Vec::new();
    for (at, words) in uprights {
        let (line, wide) = (x(at), room(words) + BESIDE);
        let is_to_the_right = line + wide <= WIDTH;
        let [from, to] = if is_to_the_right { [line, line + wide] } else { [line - wide, line] };
        let is_free = |end: &f64| end + BETWEEN <= from;
        if ends.iter().all(is_free) {
            ends = vec![to];
        } else if ends.last().is_some_and(is_free) {
            ends.pop();
            ends.push(to);
        } else {
            ends.push(to);
        }
        all.push(Placed { at, is_to_the_right, row: ends.len() - 1, words });
    }
    all
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

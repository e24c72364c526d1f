//! What are the lines, bands and marks of a chart called?

use std::fmt::Write;

use super::{Chart, Form, LEADING, LETTERS, Mark, RIGHT, WIDTH, look, room, unit};
use crate::markup::escaped;

/// The width of a sample.
const SAMPLE: f64 = 30.0;
/// From a sample to its words.
const BESIDE: f64 = 6.0;
/// Between two entries.
const BETWEEN: f64 = 16.0;

/// One line of the key with its place: the left edge and the row.
pub(super) struct Entry<'a> {
    sample: Sample,
    words: &'a str,
    left: f64,
    row: usize,
}

#[derive(Clone, Copy)]
enum Sample {
    Series(Form, usize),
    Band,
    Level,
    Ring,
}

/// The entries, side by side as far as they fit.
pub(super) fn key(chart: &Chart) -> Vec<Entry<'_>> {
    let series =
        chart.series.iter().map(|series| (Sample::Series(series.form, series.look), series.name.as_str()));
    let bands = chart.bands.iter().map(|band| (Sample::Band, band.words.as_str()));
    let marks = chart.marks.iter().filter_map(|mark| match mark {
        Mark::Level { words, .. } => Some((Sample::Level, words.as_str())),
        Mark::Ring { words, .. } => Some((Sample::Ring, words.as_str())),
        Mark::Upright { .. } => None,
    });
    let mut entries: Vec<Entry<'_>> = Vec::new();
    let (mut left, mut row) = (2.0, 0);
    for (sample, words) in series.chain(bands).chain(marks).filter(|(_, words)| !words.is_empty()) {
        let wide = SAMPLE + BESIDE + room(words);
        if left > 2.0 && left + wide > WIDTH - RIGHT {
            (left, row) = (2.0, row + 1);
        }
        entries.push(Entry { sample, words, left, row });
        left += wide + BETWEEN;
    }
    entries
}

/// The height that the key takes.
pub(super) fn height(entries: &[Entry<'_>]) -> f64 {
    entries.last().map_or(0.0, |last| 6.0 + LEADING * (last.row + 1) as f64)
}

/// The key as markup, below a place.
pub(super) fn write(entries: &[Entry<'_>], top: f64) -> String {
    let mut text = String::new();
    for Entry { sample, words, left, row } in entries {
        let y = top + 6.0 + LEADING * *row as f64 + LETTERS / 2.0;
        let (right, middle) = (left + SAMPLE, left + SAMPLE / 2.0);
        let line = format!("M{} {}H{}", unit(*left), unit(y), unit(right));
        let patch = |class: &str| {
            let [x, y, wide, high] = [*left, y - 6.0, SAMPLE, 12.0].map(unit);
            format!("<rect class=\"{class}\" x=\"{x}\" y=\"{y}\" width=\"{wide}\" height=\"{high}\"/>")
        };
        let drawn = match sample {
            Sample::Band => patch("band"),
            Sample::Level => format!("<path class=\"mark\" d=\"{line}\"/>"),
            Sample::Ring => {
                format!("<circle class=\"ring\" cx=\"{}\" cy=\"{}\" r=\"6\"/>", unit(middle), unit(y))
            }
            Sample::Series(form, number) => {
                let stroke = format!("<path class=\"line\" d=\"{line}\"/>");
                let marker = format!("<path class=\"marker\" d=\"{}\"/>", look::marker(*number, middle, y));
                let inside = match form {
                    Form::Line | Form::Steps => stroke,
                    Form::MarkedLine => stroke + &marker,
                    Form::Scatter => marker,
                    Form::Bars => patch("bar"),
                };
                format!("<g class=\"{}\">{inside}</g>", look::class(*number))
            }
        };
        // Writing to a string cannot fail.
        let _ = writeln!(
            text,
            "{drawn}\n<text x=\"{}\" y=\"{}\">{}</text>",
            unit(right + BESIDE),
            unit(y + LETTERS * 0.35),
            escaped(words)
        );
    }
    text
}

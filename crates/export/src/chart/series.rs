//! How are the points of a series drawn?

use std::fmt::Write;

use super::plane::Plane;
use super::{Chart, Form, LARGEST, Series, Ticks, drawn, look, unit};
use crate::markup::escaped;
use crate::number::decimal;

/// Up to so many points each tells its numbers when it is pointed at. More makes pages heavy.
const MOST_TOLD: usize = 120;

/// One series; `place` is its number among all of the chart.
pub(super) fn series(chart: &Chart, place: usize, series: &Series, plane: &Plane) -> String {
    let mut text = format!("<g class=\"{}\">\n", look::class(series.look));
    // Writing to a string cannot fail.
    if let Some(data) = line_data(series, plane) {
        let _ = writeln!(text, "<path class=\"line\" d=\"{data}\"/>");
    }
    let told = |point: (f64, f64)| {
        let is_told = series.points.len() <= MOST_TOLD;
        is_told.then(|| format!("<title>{}</title>", escaped(&words(chart, series, point))))
    };
    match series.form {
        Form::Bars => {
            let all = || chart.series.iter().enumerate().filter(|(_, other)| other.form == Form::Bars);
            let (count, before) = (all().count(), all().filter(|(other, _)| *other < place).count());
            let wide = plane.bars / count as f64;
            for (x, y) in drawn(series) {
                let from = x - plane.bars / 2.0 + wide * before as f64;
                let (left, right) = (plane.x(from), plane.x(from + wide));
                let (top, bottom) = (plane.y(y.max(0.0)), plane.y(y.min(0.0)));
                let [left, wide, top, high] = [left, right - left, top, bottom - top].map(unit);
                let _ = writeln!(
                    text,
                    "<rect class=\"bar\" x=\"{left}\" y=\"{top}\" width=\"{wide}\" height=\"{high}\">{}</rect>",
                    told((x, y)).unwrap_or_default()
                );
            }
        }
        Form::MarkedLine | Form::Scatter => {
            for point in drawn(series) {
                let data = look::marker(series.look, plane.x(point.0), plane.y(point.1));
                let title = told(point).unwrap_or_default();
                let _ = writeln!(text, "<path class=\"marker\" d=\"{data}\">{title}</path>");
            }
        }
        Form::Line | Form::Steps => {}
    }
    text.push_str("</g>\n");
    text
}

/// The line through the points; it ends at one that cannot be drawn and begins again after it.
fn line_data(series: &Series, plane: &Plane) -> Option<String> {
    if matches!(series.form, Form::Scatter | Form::Bars) {
        return None;
    }
    let mut data = String::new();
    let mut is_drawing = false;
    for &(x, y) in &series.points {
        if !(x.abs() <= LARGEST && y.abs() <= LARGEST) {
            is_drawing = false;
            continue;
        }
        let [x, y] = [plane.x(x), plane.y(y)].map(unit);
        let _ = match (is_drawing, series.form) {
            (false, _) => write!(data, "M{x} {y}"),
            (true, Form::Steps) => write!(data, "H{x}V{y}"),
            (true, _) => write!(data, "L{x} {y}"),
        };
        is_drawing = true;
    }
    Some(data)
}

/// What a point tells of itself.
fn words(chart: &Chart, series: &Series, (x, y): (f64, f64)) -> String {
    let name = if series.name.is_empty() { String::new() } else { format!("{}: ", series.name) };
    let across = match &chart.across.ticks {
        Ticks::Named(named) | Ticks::Spaced(named) => {
            named.iter().find(|(at, _)| *at == x).map(|(_, name)| name.clone())
        }
        Ticks::Round | Ticks::Whole => None,
    };
    let across = across.unwrap_or_else(|| decimal(x, 3));
    format!("{name}{} {across}; {} {}", chart.across.words, chart.up.words, decimal(y, 3))
}

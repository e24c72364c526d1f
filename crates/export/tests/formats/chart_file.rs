//! Is a chart well-formed markup that shows all that it is given?

use boxneck_export::ExportFault;
use boxneck_export::chart::{Axis, Band, Chart, Form, Mark, Series, Side, Ticks, write};

use crate::golden;

fn series(name: &str, form: Form, look: usize, points: &[(f64, f64)]) -> Series {
    Series { name: name.into(), form, look, points: points.to_vec() }
}

fn chart(series: Vec<Series>) -> Chart {
    let axis = |words: &str| Axis { words: words.into(), ..Axis::default() };
    Chart {
        label: "Heat <over> time".into(),
        across: axis("time, s"),
        up: axis("heat, K"),
        bands: Vec::new(),
        series,
        marks: Vec::new(),
    }
}

/// One of everything.
fn full() -> Chart {
    let mut full = chart(vec![
        series(
            "first",
            Form::MarkedLine,
            0,
            &[(0.0, 1.0), (1.0, 2.5), (2.0, f64::NAN), (3.0, -1.0), (4.0, 2.0)],
        ),
        series("second", Form::Steps, 1, &[(0.0, 0.0), (2.0, 1.0), (4.0, 3.0)]),
        series("third & last", Form::Scatter, 2, &[(0.5, 0.5), (3.5, 2.75)]),
    ]);
    full.bands = vec![Band { words: "too cold".into(), along: Side::Up, range: [f64::NEG_INFINITY, 0.0] }];
    full.marks = vec![
        Mark::Upright { at: 1.5, words: "recommended: 1.5 s".into() },
        Mark::Upright { at: 1.7, words: "as it is: 1.7 s".into() },
        Mark::Level { at: 2.25, words: "limit".into() },
        Mark::Ring { at: (3.0, -1.0), words: "coldest".into() },
    ];
    full
}

#[test]
fn a_chart_is_what_it_was_when_last_looked_at() {
    golden::check("chart.svg", &write(&full()).expect("it has points"));
}

#[test]
fn everything_is_named_once() {
    let text = write(&full()).expect("it has points");
    for words in [
        "first",
        "second",
        "third &amp; last",
        "too cold",
        "recommended: 1.5 s",
        "as it is: 1.7 s",
        "limit",
        "coldest",
    ] {
        let found = text.matches(&format!(">{words}</text>")).count();
        assert_eq!(found, 1, "\"{words}\" stands once in the chart");
    }
    assert!(text.contains("aria-label=\"Heat &lt;over&gt; time\""), "the label is escaped: {text}");
    assert!(!text.contains("NaN") && !text.contains("inf"), "only numbers are written: {text}");
}

#[test]
fn a_point_that_cannot_be_drawn_breaks_the_line() {
    let text = write(&full()).expect("it has points");
    let line = text.lines().find(|line| line.contains("class=\"line\"")).expect("there is a line");
    assert_eq!(line.matches('M').count(), 2, "the line begins again: {line}");
}

#[test]
fn bars_stand_side_by_side_on_the_ground() {
    let bars = [(1.0, 3.0), (2.0, -1.0)];
    let mut chart = chart(vec![series("a", Form::Bars, 0, &bars), series("b", Form::Bars, 1, &bars)]);
    let long = "a name that is much too long to lie beside another";
    chart.across.ticks = Ticks::Named(vec![(1.0, "one".into()), (2.0, long.into())]);
    let text = write(&chart).expect("it has points");
    let lefts: Vec<f64> = text
        .lines()
        .filter(|line| line.contains("class=\"bar\" x") && line.contains("<title>"))
        .map(|line| line.split('"').nth(3).and_then(|x| x.parse().ok()).expect("a bar has a place"))
        .collect();
    assert_eq!(lefts.len(), 4, "two bars of two series: {text}");
    assert!(lefts[0] < lefts[2] && lefts[2] < lefts[1] && lefts[1] < lefts[3], "in turns: {lefts:?}");
    assert!(text.contains("rotate(-90)") && text.contains('\u{2026}'), "a long name stands upright, cut off");
    assert!(text.contains(&format!("{long};")), "and is told in full by its bar");
}

#[test]
fn a_chart_of_one_point_is_drawn_and_one_of_none_refused() {
    let one = chart(vec![series("", Form::Scatter, 9, &[(5.0, 0.0)])]);
    assert!(write(&one).is_ok(), "one point has room round it");
    let none = chart(vec![series("", Form::Line, 0, &[(f64::INFINITY, 1.0), (1e300, 2.0)])]);
    let expected = ExportFault::NothingToDraw { name: "Heat <over> time".into() };
    assert_eq!(write(&none), Err(expected), "what is beyond all measure is not drawn");
}

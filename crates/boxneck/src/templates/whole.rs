//! Frets and strings over the full length: what does one lay under the instrument, or over it, to see that all is in place?

use export::pdf::{Mark, Pen, Reading, Side, Template};
use export::scene::Figure;
use geometry::{Circle, Outline, OutlineFault, Path, Point2, Shape};
use layout::{Layout, Place};
use parts::neck_outline;
use units::Length;

use super::stations::{distance, stations, unit_word};
use super::{line, words};

/// Room between the neck's edge and the words beside it.
const BESIDE: f64 = 1.0;
/// Sizes of the words: numbers of frets, distances, names.
const NUMBER: f64 = 2.8;
const SMALL: f64 = 2.0;

/// From above, headstock left, in the instrument frame's `x` and `y`.
pub(super) fn template(layout: &Layout) -> Result<Template, OutlineFault> {
    let mut marks = neck(layout)?;
    marks.extend(frets(layout)?);
    marks.extend(strings(layout)?);
    marks.extend(names(layout)?);
    let scale_length = layout.spec().scale.length;
    let unit = layout.spec().units;
    Ok(Template {
        name: "frets and strings".into(),
        title: "Frets and strings, from above".into(),
        notes: vec![
            format!("Scale length {} {unit}", distance(scale_length, unit)),
            format!("Distances in {}, each from the crown of the zero fret", unit_word(unit)),
            "Datum: centre line at the crown of the zero fret".into(),
        ],
        marks,
    })
}

/// Half the width of the neck.
fn half_width(layout: &Layout, x: Length) -> f64 {
    layout.neck().width(x).as_mm() / 2.0
}

fn neck(layout: &Layout) -> Result<Vec<Mark>, OutlineFault> {
    let neck = layout.neck();
    let outline = neck_outline(layout, neck.tail_end_x)?;
    let nut = layout.nut();
    let half = nut.length / 2.0;
    let block = Outline::rectangle(Point2::new(nut.rear_x, -half), Point2::new(nut.front_x, half))?;
    let mut marks = vec![
        Mark::Figure(Figure::Shape(Shape::Outline(block)), Pen::Hole),
        Mark::Figure(Figure::Shape(Shape::Outline(outline)), Pen::Cut),
        line(
            Point2::new(neck.head_end_x, Length::ZERO),
            Point2::new(neck.tail_end_x.max(layout.spec().scale.length), Length::ZERO),
            Pen::Guide,
        )?,
    ];
    for tuner in layout.tuners() {
        let circle = Circle::of_diameter(flat(tuner.bore), tuner.diameter);
        marks.push(Mark::Figure(Figure::Shape(Shape::Circle(circle)), Pen::Hole));
    }
    Ok(marks)
}

fn frets(layout: &Layout) -> Result<Vec<Mark>, OutlineFault> {
    let unit = layout.spec().units;
    let mut marks = Vec::new();
    for station in stations(layout) {
        let (x, half) = (station.x.as_mm(), half_width(layout, station.x));
        let pen = if station.number == 0 { Pen::Slot } else { Pen::Station };
        marks.push(line(Point2::mm(x, -half), Point2::mm(x, half), pen)?);
        let below = Point2::mm(x, -half - BESIDE - NUMBER / 2.0);
        marks.push(words(below, Side::Middle, Reading::Across, NUMBER, station.number.to_string()));
        let above = Point2::mm(x, half + BESIDE);
        marks.push(words(above, Side::Start, Reading::Up, SMALL, distance(station.x, unit)));
    }
    Ok(marks)
}

/// Each string from nut to tail, and where its crest belongs.
fn strings(layout: &Layout) -> Result<Vec<Mark>, OutlineFault> {
    let mut marks = Vec::new();
    for string in layout.strings() {
        let run = [string.post, string.nut, string.saddle, string.tail].map(flat);
        marks.push(Mark::Figure(Figure::Path(Path::polyline(run)?), Pen::Strand));
        let crest = flat(string.saddle);
        marks.push(line(Point2::mm(crest.x, crest.y - 1.5), Point2::mm(crest.x, crest.y + 1.5), Pen::Hole)?);
    }
    Ok(marks)
}

/// Lines across at the heel, the box and the saddle; their names stand below the numbers of the frets.
fn names(layout: &Layout) -> Result<Vec<Mark>, OutlineFault> {
    let (neck, nut, unit) = (layout.neck(), layout.nut(), layout.spec().units);
    let scale_length = layout.spec().scale.length;
    let mut places = vec![
        ("nut".to_owned(), (nut.rear_x + nut.front_x) / 2.0, None),
        (format!("end of the box {}", distance(neck.box_x, unit)), neck.box_x, Some(Pen::Guide)),
        (format!("saddle line {}", distance(scale_length, unit)), scale_length, Some(Pen::Station)),
    ];
    if let Some(heel) = layout.heel() {
        places.push((format!("heel {}", distance(heel.front_x, unit)), heel.front_x, Some(Pen::Guide)));
    }
    let mut marks = Vec::new();
    for (name, x, pen) in places {
        let half = half_width(layout, x).max(crossed(layout, x));
        if let Some(pen) = pen {
            marks.push(line(Point2::mm(x.as_mm(), -half), Point2::mm(x.as_mm(), half), pen)?);
        }
        let at = Point2::mm(x.as_mm(), -half - BESIDE * 2.0 - NUMBER);
        marks.push(words(at, Side::End, Reading::Up, SMALL, name));
    }
    Ok(marks)
}

/// How far out a line across must reach to cross every string: beyond the neck only at the saddle.
fn crossed(layout: &Layout, x: Length) -> f64 {
    let at_saddle = x >= layout.spec().scale.length;
    if at_saddle { layout.spec().saddle.spread.as_mm() / 2.0 + 4.0 } else { 0.0 }
}

fn flat(place: Place) -> Point2 {
    Point2::new(place.x, place.y)
}

//! A strip with every station: what does one glue on a neck, or fold round it, to mark its frets?

use export::pdf::{Mark, Pen, Reading, Side, Template};
use export::scene::Figure;
use geometry::{Outline, OutlineFault, Point2, Shape};
use layout::Layout;
use units::Length;

use super::stations::{distance, stations, unit_word};
use super::{line, words};

/// How far the strip reaches beyond the nut and the last thing on it.
const BEYOND: Length = Length::mm(4.0);
/// The least width of the flaps that are folded down the neck's sides: a word fits on it.
const LEAST_FLAP: Length = Length::mm(12.0);
/// Sizes of the words.
const NUMBER: f64 = 2.8;
const SMALL: f64 = 2.0;

/// From above, nut left, in the instrument frame's `x`; the flaps are folded down along the neck's edges.
pub(super) fn template(layout: &Layout) -> Result<Template, OutlineFault> {
    let neck = layout.neck();
    let ends = [neck.nut_front_x - BEYOND, neck.box_x];
    let flap = layout.spec().neck.thickness.max(LEAST_FLAP);
    let edge = |x: Length, side: f64, out: Length| Point2::new(x, (neck.width(x) / 2.0 + out) * side);
    let stops = [ends[0], neck.nut_front_x, ends[1]];
    let bass = stops.iter().map(|x| edge(*x, -1.0, flap));
    let treble = stops.iter().rev().map(|x| edge(*x, 1.0, flap));
    let outline = Outline::polygon(bass.chain(treble))?;
    let mut marks = vec![Mark::Figure(Figure::Shape(Shape::Outline(outline)), Pen::Cut)];
    for side in [-1.0, 1.0] {
        for pair in stops.windows(2) {
            marks.push(line(
                edge(pair[0], side, Length::ZERO),
                edge(pair[1], side, Length::ZERO),
                Pen::Fold,
            )?);
        }
    }
    marks.push(line(Point2::new(ends[0], Length::ZERO), Point2::new(ends[1], Length::ZERO), Pen::Guide)?);
    let unit = layout.spec().units;
    for station in stations(layout) {
        let x = station.x;
        marks.push(line(edge(x, -1.0, flap), edge(x, 1.0, flap), Pen::Station)?);
        let beside = |side: f64, out: f64| {
            let at = edge(x, side, Length::ZERO);
            Point2::mm(at.x - NUMBER / 2.0 - 0.2, at.y + out)
        };
        marks.push(words(beside(-1.0, -1.0), Side::End, Reading::Up, NUMBER, station.number.to_string()));
        marks.push(words(beside(1.0, 1.0), Side::Start, Reading::Up, SMALL, distance(x, unit)));
    }
    if let Some(heel) = layout.heel() {
        let x = heel.front_x;
        marks.push(line(edge(x, -1.0, flap), edge(x, 1.0, flap), Pen::Guide)?);
        let at = edge(x, 1.0, flap - Length::mm(1.0));
        marks.push(words(Point2::mm(at.x - 1.4, at.y), Side::End, Reading::Up, SMALL, "heel"));
    }
    Ok(Template {
        name: "fret strip".into(),
        title: "Fret strip, to glue on the neck".into(),
        notes: vec![
            "Fold along the dash-dotted lines, lay 0 on the zero fret's crown and the dashed line on the centre line, and \
             carry every station over with a knife"
                .into(),
            format!("Distances in {}, each from the crown of the zero fret", unit_word(unit)),
            "The strip ends at the box".into(),
        ],
        marks,
    })
}

//! How do numbers become a chart that can stand in a page?
//!
//! An SVG element without a style of its own: a [`crate::page::Page`] that has charts has [`STYLE`] once, which follows the
//! reader's light or dark page. Every series has a colour, a dash and a marker, so that nothing hangs on hue alone. Words never lie on
//! the plot: what series, bands and level marks are called stands in a key under it, what upright marks are called above it.

mod axis;
mod key;
mod look;
mod plane;
mod series;
mod upright;

use crate::ExportFault;
use crate::markup::escaped;
use crate::number::decimal;
use plane::Plane;

pub use look::{LOOKS, STYLE};

/// A chart.
#[derive(Clone, Debug, PartialEq)]
pub struct Chart {
    /// What it shows, in a sentence, for those who cannot see it and for messages.
    pub label: String,
    /// From left to right.
    pub across: Axis,
    /// From bottom to top.
    pub up: Axis,
    /// What lies behind everything.
    pub bands: Vec<Band>,
    /// From back to front.
    pub series: Vec<Series>,
    /// What is pointed out.
    pub marks: Vec<Mark>,
}

/// What is told along one side.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Axis {
    /// What is measured, with its unit: "height, mm".
    pub words: String,
    /// Where it is told.
    pub ticks: Ticks,
    /// Values that the axis reaches whether or not there are points: `vec![0.0]` shows the zero.
    pub reaches: Vec<f64>,
}

/// Where an axis is told.
#[derive(Clone, Debug, PartialEq, Default)]
pub enum Ticks {
    /// At round numbers.
    #[default]
    Round,
    /// At round numbers without decimals.
    Whole,
    /// At these values, by these names; upright along the bottom where they do not fit side by side.
    Named(Vec<(f64, String)>),
    /// At these values by these names, the most wanted first; one that has no room beside those before it in this list is
    /// left out along the bottom.
    Spaced(Vec<(f64, String)>),
}

/// Points that belong together.
#[derive(Clone, Debug, PartialEq)]
pub struct Series {
    /// What they are, for the key; not in it where this is empty.
    pub name: String,
    /// How they are drawn.
    pub form: Form,
    /// Which colour, dash and marker, counted round [`LOOKS`].
    pub look: usize,
    /// Across and up. One that is not a finite number, or beyond a million million, is left out and breaks the line.
    pub points: Vec<(f64, f64)>,
}

/// How points are drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Form {
    /// A line through them.
    Line,
    /// A line through them, and a marker at each.
    MarkedLine,
    /// A line that keeps each height until the next point.
    Steps,
    /// A marker at each.
    Scatter,
    /// A bar from 0 to each; the bars of several series stand side by side.
    Bars,
}

/// A part of the plane that means something.
#[derive(Clone, Debug, PartialEq)]
pub struct Band {
    /// What it means, for the key.
    pub words: String,
    /// Along which side it is measured.
    pub along: Side,
    /// From and to; infinite for as far as the plot goes.
    pub range: [f64; 2],
}

/// One side of the plot.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// Left and right.
    Across,
    /// Bottom and top.
    Up,
}

/// Something to look at.
#[derive(Clone, Debug, PartialEq)]
pub enum Mark {
    /// A line from bottom to top.
    Upright {
        /// Where.
        at: f64,
        /// What is there.
        words: String,
    },
    /// A line from left to right.
    Level {
        /// How high.
        at: f64,
        /// What is there.
        words: String,
    },
    /// A ring round a point.
    Ring {
        /// Across and up.
        at: (f64, f64),
        /// What is there.
        words: String,
    },
}

/// The width of every chart, in page units (pixels, where nothing else is said). Wider makes words too small on a phone.
const WIDTH: f64 = 440.0;
/// The height of the plot itself.
const PLOT: f64 = 220.0;
/// The height of letters.
const LETTERS: f64 = 13.0;
/// From line to line of words.
const LEADING: f64 = 19.0;
/// The room at the right edge, for half a tick's words.
const RIGHT: f64 = 16.0;
/// Beyond this a number is a mistake.
const LARGEST: f64 = 1e12;

/// A chart as the markup of an `<svg>` element of class `chart`.
///
/// - **Units**: page units; numbers of points in the unit that the axis says.
/// - **Accuracy**: places on the page to a hundredth of a unit.
/// - **Errors**: [`ExportFault::NothingToDraw`] without a single point that can be drawn.
pub fn write(chart: &Chart) -> Result<String, ExportFault> {
    let nothing = || ExportFault::NothingToDraw { name: chart.label.clone() };
    let plane = Plane::of(chart).ok_or_else(nothing)?;
    let key = key::key(chart);
    let height = plane.foot() + key::height(&key);
    let [width, height] = [WIDTH, height.ceil()].map(unit);
    let mut text = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"chart\" viewBox=\"0 0 {width} {height}\" role=\"img\" \
         aria-label=\"{}\">\n",
        escaped(&chart.label)
    );
    for band in &chart.bands {
        text.push_str(&plane.band(band));
    }
    text.push_str(&axis::axes(chart, &plane));
    for (place, series) in chart.series.iter().enumerate() {
        text.push_str(&series::series(chart, place, series, &plane));
    }
    text.push_str(&upright::marks(chart, &plane));
    text.push_str(&key::write(&key, plane.foot()));
    text.push_str("</svg>\n");
    Ok(text)
}

/// A number of page units.
fn unit(value: f64) -> String {
    decimal(value, 2)
}

/// Whether a number can be drawn.
fn is_drawn(value: f64) -> bool {
    value.abs() <= LARGEST
}

/// The points of a series that can be drawn.
fn drawn(series: &Series) -> impl Iterator<Item = (f64, f64)> {
    series.points.iter().copied().filter(|(x, y)| is_drawn(*x) && is_drawn(*y))
}

/// The room that words take: wider than sans-serif faces use on average, so that words never meet.
fn room(words: &str) -> f64 {
    words.chars().map(|letter| if letter < '\u{2e80}' { 0.56 } else { 1.05 }).sum::<f64>() * LETTERS
}

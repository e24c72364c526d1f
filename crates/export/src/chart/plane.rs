//! Where on the page does a value lie?

use super::{
    Band, Chart, Form, LEADING, LETTERS, PLOT, RIGHT, Side, WIDTH, axis, drawn, is_drawn, room, unit, upright,
};
use crate::chart::Mark;

/// The plot: its frame on the page, its ranges and its ticks.
pub(super) struct Plane {
    /// The plot's left edge.
    pub left: f64,
    /// Its upper edge.
    pub top: f64,
    across: [f64; 2],
    up: [f64; 2],
    /// Values and words along the bottom.
    pub across_ticks: Vec<(f64, String)>,
    /// Values and words along the left.
    pub up_ticks: Vec<(f64, String)>,
    /// Whether the words along the bottom stand upright.
    pub names_are_upright: bool,
    /// The height that they take.
    names: f64,
    /// The width of all bars at one place, as a difference of values.
    pub bars: f64,
}

impl Plane {
    /// The plot of a chart; nothing where it has no point that can be drawn.
    pub fn of(chart: &Chart) -> Option<Self> {
        chart.series.iter().find_map(|series| drawn(series).next())?;
        let points = || chart.series.iter().flat_map(drawn);
        let marked = |side: Side| {
            chart.marks.iter().filter_map(move |mark| match (mark, side) {
                (Mark::Upright { at, .. }, Side::Across) | (Mark::Level { at, .. }, Side::Up) => Some(*at),
                (Mark::Ring { at, .. }, Side::Across) => Some(at.0),
                (Mark::Ring { at, .. }, Side::Up) => Some(at.1),
                _ => None,
            })
        };
        let bars = bar_room(chart);
        let half = bars / 2.0;
        let wanted = chart.across.reaches.iter().copied().chain(marked(Side::Across));
        let across = axis::reach(points().flat_map(|(x, _)| [x - half, x + half]).chain(wanted))?;
        let ground = (bars > 0.0).then_some(0.0);
        let wanted = chart.up.reaches.iter().copied().chain(marked(Side::Up)).chain(ground);
        let (up, up_ticks) = axis::up(&chart.up, axis::reach(points().map(|(_, y)| y).chain(wanted))?);
        let left = up_ticks.iter().map(|(_, words)| room(words)).fold(20.0, f64::max) + 10.0;
        let width = WIDTH - RIGHT - left;
        let across_ticks = axis::across(&chart.across, across, width);
        let x = |at: f64| left + (at - across[0]) / (across[1] - across[0]) * width;
        let names_are_upright = axis::are_upright(&chart.across, &across_ticks, x);
        let names = if names_are_upright {
            across_ticks.iter().map(|(_, name)| room(&axis::upright_name(name))).fold(0.0, f64::max) + 8.0
        } else {
            LETTERS + 9.0
        };
        let top = LEADING + 8.0 + upright::height(chart, x);
        Some(Self { left, top, across, up, across_ticks, up_ticks, names_are_upright, names, bars })
    }

    /// The plot's right edge.
    pub fn right(&self) -> f64 {
        WIDTH - RIGHT
    }

    /// The plot's lower edge.
    pub fn bottom(&self) -> f64 {
        self.top + PLOT
    }

    /// Where the words along the bottom end.
    pub fn names_bottom(&self) -> f64 {
        self.bottom() + self.names
    }

    /// Where the axes with their words end.
    pub fn foot(&self) -> f64 {
        self.names_bottom() + LEADING + 4.0
    }

    /// Across the page.
    pub fn x(&self, value: f64) -> f64 {
        let [low, high] = self.across;
        self.left + (value - low) / (high - low) * (self.right() - self.left)
    }

    /// Down the page.
    pub fn y(&self, value: f64) -> f64 {
        let [low, high] = self.up;
        self.bottom() - (value - low) / (high - low) * PLOT
    }

    /// A band, as far as the plot goes.
    pub fn band(&self, band: &Band) -> String {
        let [low, high] = match band.along {
            Side::Across => self.across,
            Side::Up => self.up,
        };
        let [from, to] = [band.range[0].max(low), band.range[1].min(high)];
        if !(is_drawn(from) && is_drawn(to) && from < to) {
            return String::new();
        }
        let (x, y, wide, high) = match band.along {
            Side::Across => (self.x(from), self.top, self.x(to) - self.x(from), PLOT),
            Side::Up => (self.left, self.y(to), self.right() - self.left, self.y(from) - self.y(to)),
        };
        let [x, y, wide, high] = [x, y, wide, high].map(unit);
        format!("<rect class=\"band\" x=\"{x}\" y=\"{y}\" width=\"{wide}\" height=\"{high}\"/>\n")
    }
}

/// The room for bars at one place: four fifths of the least way from one to the next.
fn bar_room(chart: &Chart) -> f64 {
    let bars = chart.series.iter().filter(|series| series.form == Form::Bars);
    let mut places: Vec<f64> = bars.flat_map(drawn).map(|(x, _)| x).collect();
    places.sort_by(f64::total_cmp);
    places.dedup();
    match places.as_slice() {
        [] => 0.0,
        [_] => 0.8,
        places => places.windows(2).map(|pair| pair[1] - pair[0]).fold(f64::INFINITY, f64::min) * 0.8,
    }
}

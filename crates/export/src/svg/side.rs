//! How are places measured on one side of a part: each from the datum, with nothing that adds up?
//!
//! Few and far apart, each has a dimension line of its own from the datum, the shortest nearest the part. Otherwise all
//! stand on one line that runs from a ring at the datum (ISO 129-1, running dimensions), each with its distance at its
//! end; words that would meet are spread, with bent lines to them.

use geometry::{Point2, Vector2};
use units::{Length, LengthUnit};

use super::annotation::{Annotation, HEAD, Head, Role};
use super::wording::{SIZE, size, width};

/// From the drawing to the first line. Smaller looks like part of it.
const FIRST: f64 = 7.0;
/// From one dimension line to the next: letters and room on both sides of them.
const ROW: f64 = 6.0;
/// From a dimension line to the words on it.
const ABOVE: f64 = 0.7;
/// How far an extension line goes beyond its dimension line.
const BEYOND: f64 = 1.2;
/// The way that lines have to bend in to where their words are.
const BEND: f64 = 5.0;
/// From one word to the next where they stand side by side.
const PITCH: f64 = SIZE + 1.2;
/// The most dimension lines of their own on one side of the datum. More are quicker read on one line.
const MOST_ROWS: usize = 3;

/// A side of the part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Side {
    Above,
    Below,
    Left,
    Right,
}

/// A place that is measured: where it is along the side, and how far out its own line begins.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Station {
    pub along: f64,
    pub out: f64,
    /// Not cut, and measured for reference only.
    pub reference: bool,
}

impl Side {
    /// How far along the side a point is.
    pub const fn along(self, point: Point2) -> f64 {
        if self.is_level() { point.x } else { point.y }
    }

    /// How far out on the side a point is.
    pub const fn out(self, point: Point2) -> f64 {
        match self {
            Self::Above => point.y,
            Self::Below => -point.y,
            Self::Left => -point.x,
            Self::Right => point.x,
        }
    }

    const fn is_level(self) -> bool {
        matches!(self, Self::Above | Self::Below)
    }

    fn point(self, along: f64, out: f64) -> Point2 {
        match self {
            Self::Above => Point2::mm(along, out),
            Self::Below => Point2::mm(along, -out),
            Self::Left => Point2::mm(-out, along),
            Self::Right => Point2::mm(out, along),
        }
    }

    fn direction(self, sign: f64) -> Vector2 {
        if self.is_level() { Vector2::mm(sign, 0.0) } else { Vector2::mm(0.0, sign) }
    }

    /// From a dimension line to the words on it: up the page, or to the left of one that runs up it.
    fn onto_line(self) -> f64 {
        let up = ABOVE + SIZE / 2.0;
        if matches!(self, Self::Above | Self::Left) { up } else { -up }
    }
}

/// The distances of stations from the datum, beginning beyond `edge`; stations are in order along the side.
pub(super) fn from_datum(
    side: Side,
    edge: f64,
    datum: Station,
    stations: &[Station],
    unit: LengthUnit,
) -> Annotation {
    if stations.is_empty() {
        return Annotation::default();
    }
    let words = |station: &Station| {
        let words = size(Length::mm((station.along - datum.along).abs()), unit);
        if station.reference { format!("({words})") } else { words }
    };
    let (before, after): (Vec<_>, Vec<_>) = stations.iter().partition(|station| station.along < datum.along);
    let roomy =
        |station: &Station| (station.along - datum.along).abs() >= width(&words(station)) + 2.0 * HEAD + 1.0;
    let few = before.len() <= MOST_ROWS && after.len() <= MOST_ROWS && stations.iter().all(roomy);
    let mut drawn = Annotation::default();
    if few {
        // Farther rows' lines pass the nearer rows beyond their ends.
        let before = before.iter().rev().enumerate();
        for (row, station) in before.chain(after.iter().enumerate()) {
            let line = edge + FIRST + ROW * row as f64;
            extension(&mut drawn, side, station, line);
            drawn.arrows(side.point(datum.along, line), side.point(station.along, line));
            let middle = side.point((datum.along + station.along) / 2.0, line + side.onto_line());
            drawn.text(words(station), middle, !side.is_level());
        }
        let rows = before_and_after(stations, datum.along);
        extension(&mut drawn, side, &datum, edge + FIRST + ROW * (rows.saturating_sub(1)) as f64);
        return drawn;
    }
    let line = edge + FIRST;
    let wished: Vec<f64> = stations.iter().map(|station| station.along).collect();
    extension(&mut drawn, side, &datum, line);
    drawn.rings.push(side.point(datum.along, line));
    let (first, last) = (wished[0].min(datum.along), wished[wished.len() - 1].max(datum.along));
    drawn.stroke(Role::Dimension, side.point(first, line), side.point(last, line));
    for (station, place) in stations.iter().zip(spread(&wished, PITCH)) {
        extension(&mut drawn, side, station, line);
        let tip = side.point(station.along, line);
        drawn.heads.push(Head { tip, toward: side.direction((station.along - datum.along).signum()) });
        let (bend, end) = (line + BEYOND, line + BEYOND + BEND);
        drawn.stroke(Role::Extension, side.point(station.along, bend), side.point(place, end));
        let words = words(station);
        let middle = side.point(place, end + ABOVE + width(&words) / 2.0);
        drawn.text(words, middle, side.is_level());
    }
    drawn
}

/// How far it is from one end to the other, on the first line of a side.
pub(super) fn overall(side: Side, edge: f64, ends: [Station; 2], unit: LengthUnit) -> Annotation {
    let line = edge + FIRST;
    let [from, to] = ends.map(|end| end.along);
    let words = size(Length::mm(to - from), unit);
    let mut drawn = Annotation::default();
    ends.iter().for_each(|end| extension(&mut drawn, side, end, line));
    let long = width(&words);
    if to - from >= long + 2.0 * HEAD + 1.0 {
        drawn.arrows(side.point(from, line), side.point(to, line));
        drawn.text(words, side.point((from + to) / 2.0, line + side.onto_line()), !side.is_level());
        return drawn;
    }
    // Too short for its words: the arrows come from outside, and the words stand beyond the far end.
    let tail = 2.0 * HEAD;
    drawn.stroke(Role::Dimension, side.point(from - tail, line), side.point(to + tail + long, line));
    drawn.heads.push(Head { tip: side.point(from, line), toward: side.direction(1.0) });
    drawn.heads.push(Head { tip: side.point(to, line), toward: side.direction(-1.0) });
    drawn.text(words, side.point(to + tail + long / 2.0, line + side.onto_line()), !side.is_level());
    drawn
}

/// The larger of the numbers of stations on the two sides of the datum.
fn before_and_after(stations: &[Station], datum: f64) -> usize {
    let before = stations.iter().filter(|station| station.along < datum).count();
    before.max(stations.len() - before)
}

/// The thin line from a station out to its dimension line, and a little beyond.
fn extension(drawn: &mut Annotation, side: Side, station: &Station, line: f64) {
    let (from, to) = (side.point(station.along, station.out + 0.8), side.point(station.along, line + BEYOND));
    drawn.stroke(Role::Extension, from, to);
}

/// The places nearest to those wished for, in the same order, that are at least so far apart.
///
/// With the pitch taken off step by step, "in order and apart" becomes "in order", and the nearest such row is found by
/// pooling neighbours that are out of order (isotonic regression).
fn spread(wished: &[f64], pitch: f64) -> Vec<f64> {
    let mut pools: Vec<(f64, usize)> = Vec::new();
    for (place, wish) in wished.iter().enumerate() {
        pools.push((wish - pitch * place as f64, 1));
        while let [.., (before, many), (last, more)] = *pools.as_slice() {
            if before <= last {
                break;
            }
            pools.truncate(pools.len() - 2);
            let mean = (before * many as f64 + last * more as f64) / (many + more) as f64;
            pools.push((mean, many + more));
        }
    }
    let levels = pools.iter().flat_map(|(level, many)| std::iter::repeat_n(*level, *many));
    levels.enumerate().map(|(place, level)| level + pitch * place as f64).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(wished: &[f64], expected: &[f64]) {
        let found = spread(wished, 4.0);
        let off = found.iter().zip(expected).map(|(a, b)| (a - b).abs()).fold(0.0, f64::max);
        assert!(
            found.len() == expected.len() && off < 1e-9,
            "{wished:?} become {expected:?}, found {found:?}"
        );
    }

    #[test]
    fn words_with_room_stay() {
        check(&[0.0, 4.0, 20.0], &[0.0, 4.0, 20.0]);
        check(&[], &[]);
    }

    #[test]
    fn words_without_room_part_evenly() {
        check(&[10.0, 10.0], &[8.0, 12.0]);
        check(&[0.0, 1.0, 2.0, 30.0], &[-3.0, 1.0, 5.0, 30.0]);
        check(&[0.0, 5.0, 6.0], &[-1.0 / 3.0, 11.0 / 3.0, 23.0 / 3.0]);
    }
}

//! Where is an axis told, and how is it drawn?

use std::fmt::Write;

use super::plane::Plane;
use super::{Axis, Chart, LARGEST, LEADING, LETTERS, PLOT, Ticks, WIDTH, room, unit};
use crate::markup::escaped;
use crate::number::decimal;

/// Between the words of two ticks.
const BETWEEN: f64 = 12.0;
/// Names that stand upright are cut off after so many letters.
const LONGEST_NAME: usize = 24;

/// The powers of ten, exact.
const POWERS: [f64; 13] = [1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12];

/// 1, 2 or 5 times a power of ten.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Step {
    mantissa: u8,
    decade: i32,
}

impl Step {
    /// Every step, the finest first.
    fn all(finest_decade: i32) -> impl Iterator<Item = Self> {
        (finest_decade..=12).flat_map(|decade| [1, 2, 5].map(|mantissa| Self { mantissa, decade }))
    }

    /// So many steps, as near as a number can be to what is written.
    pub fn times(self, count: f64) -> f64 {
        let power = POWERS[self.decade.unsigned_abs() as usize];
        let whole = count * f64::from(self.mantissa);
        if self.decade < 0 { whole / power } else { whole * power }
    }

    /// How many decimals its multiples have.
    pub fn places(self) -> usize {
        usize::try_from(-self.decade).unwrap_or(0)
    }

    /// The finest step of which `fits` holds.
    pub fn finest(ticks: &Ticks, fits: impl Fn(Self) -> bool) -> Self {
        let finest_decade = if *ticks == Ticks::Whole { 0 } else { -12 };
        Self::all(finest_decade).find(|step| fits(*step)).unwrap_or(Self { mantissa: 5, decade: 12 })
    }

    /// The multiples within a range, with a hair for rounding.
    fn within(self, [low, high]: [f64; 2]) -> impl Iterator<Item = f64> {
        let one = self.times(1.0);
        let first = (low / one - 1e-9).ceil();
        let count = ((high / one + 1e-9).floor() - first).clamp(-1.0, 200.0);
        (0..=count as i32).map(move |number| self.times(first + f64::from(number)))
    }

    /// Each multiple within a range, as it is written.
    pub fn written(self, range: [f64; 2]) -> Vec<(f64, String)> {
        self.within(range).map(|value| (value, decimal(value, self.places()))).collect()
    }
}

/// The least and the most of values, widened where they are one.
pub(super) fn reach(values: impl Iterator<Item = f64>) -> Option<[f64; 2]> {
    let [low, high] = values
        .filter(|value| value.abs() <= LARGEST)
        .map(|value| [value, value])
        .reduce(|[low, high], [other, _]| [low.min(other), high.max(other)])?;
    if high - low > 1e-9 * high.abs().max(low.abs()).max(1e-6) {
        return Some([low, high]);
    }
    let half = (low.abs() * 0.1).max(0.5);
    Some([low - half, high + half])
}

/// The ticks across: as many as fit side by side.
pub(super) fn across(axis: &Axis, range: [f64; 2], width: f64) -> Vec<(f64, String)> {
    let per_value = width / (range[1] - range[0]);
    let is_within = |(at, _): &&(f64, String)| (range[0]..=range[1]).contains(at);
    match &axis.ticks {
        Ticks::Named(named) => return named.iter().filter(is_within).cloned().collect(),
        Ticks::Spaced(named) => return spaced(named.iter().filter(is_within), per_value),
        Ticks::Round | Ticks::Whole => {}
    }
    let fits = |step: Step| {
        let apart = step.times(1.0) * per_value;
        apart >= 14.0 && step.written(range).iter().all(|(_, words)| room(words) + BETWEEN <= apart)
    };
    Step::finest(&axis.ticks, fits).written(range)
}

/// Those names that have room beside the ones that are wanted more, in the order in which they lie.
fn spaced<'a>(named: impl Iterator<Item = &'a (f64, String)>, per_value: f64) -> Vec<(f64, String)> {
    let mut shown: Vec<(f64, String)> = Vec::new();
    for (at, name) in named {
        let is_free = shown.iter().all(|(shown_at, other)| {
            (room(other) + room(name)) / 2.0 + BETWEEN / 2.0 <= (at - shown_at).abs() * per_value
        });
        if is_free {
            shown.push((*at, name.clone()));
        }
    }
    shown.sort_by(|(one, _), (other, _)| one.total_cmp(other));
    shown
}

/// Whether names across must stand upright: they would meet, or run over the edge. `x` tells where a value lies.
pub(super) fn are_upright(axis: &Axis, ticks: &[(f64, String)], x: impl Fn(f64) -> f64) -> bool {
    let meet = |pair: &[(f64, String)]| {
        let apart = (x(pair[1].0) - x(pair[0].0)).abs();
        (room(&pair[0].1) + room(&pair[1].1)) / 2.0 + BETWEEN / 2.0 > apart
    };
    let over = |(at, name): &(f64, String)| {
        let half = room(name) / 2.0;
        x(*at) < half || x(*at) + half > WIDTH
    };
    matches!(axis.ticks, Ticks::Named(_)) && (ticks.windows(2).any(meet) || ticks.iter().any(over))
}

/// A name that stands upright, cut off where it is too long.
pub(super) fn upright_name(name: &str) -> String {
    if name.chars().count() <= LONGEST_NAME {
        return name.to_owned();
    }
    name.chars().take(LONGEST_NAME - 1).chain(['\u{2026}']).collect()
}

/// Grid, ticks and what is measured.
pub(super) fn axes(chart: &Chart, plane: &Plane) -> String {
    let [left, right] = [plane.left, plane.right()].map(unit);
    let [top, bottom] = [plane.top, plane.bottom()].map(unit);
    let mut text = String::new();
    // Writing to a string cannot fail.
    for (at, words) in &plane.up_ticks {
        let y = plane.y(*at);
        let class = if *at == 0.0 { "zero" } else { "grid" };
        let _ = writeln!(text, "<path class=\"{class}\" d=\"M{left} {}H{right}\"/>", unit(y));
        let (x, baseline) = (unit(plane.left - 6.0), unit(y + LETTERS * 0.35));
        let _ = writeln!(text, "<text class=\"end\" x=\"{x}\" y=\"{baseline}\">{}</text>", escaped(words));
    }
    for (at, words) in &plane.across_ticks {
        let x = unit(plane.x(*at));
        let _ = writeln!(text, "<path class=\"grid\" d=\"M{x} {top}V{bottom}\"/>");
        let y = plane.bottom() + LETTERS + 7.0;
        let _ = if plane.names_are_upright {
            let (x, y) = (plane.x(*at) + LETTERS * 0.35, plane.bottom() + 6.0);
            let (x, y) = (unit(x), unit(y));
            let words = escaped(&upright_name(words));
            writeln!(text, "<text class=\"end\" transform=\"translate({x} {y})rotate(-90)\">{words}</text>")
        } else {
            let x = unit(plane.x(*at).min(WIDTH - 1.0 - room(words) / 2.0));
            writeln!(text, "<text class=\"middle\" x=\"{x}\" y=\"{}\">{}</text>", unit(y), escaped(words))
        };
    }
    let _ = writeln!(text, "<path class=\"frame\" d=\"M{left} {top}V{bottom}H{right}\"/>");
    let words = escaped(&chart.up.words);
    let _ = writeln!(text, "<text class=\"what\" x=\"2\" y=\"{}\">{words}</text>", unit(LETTERS + 1.0));
    let (middle, baseline) = ((plane.left + plane.right()) / 2.0, plane.names_bottom() + LEADING - 4.0);
    let words = escaped(&chart.across.words);
    let (middle, baseline) = (unit(middle), unit(baseline));
    let _ = writeln!(text, "<text class=\"what middle\" x=\"{middle}\" y=\"{baseline}\">{words}</text>");
    text
}

/// The step and the range up: whole steps below and above what is reached.
pub(super) fn up(axis: &Axis, [low, high]: [f64; 2]) -> ([f64; 2], Vec<(f64, String)>) {
    if let Ticks::Named(named) | Ticks::Spaced(named) = &axis.ticks {
        return ([low, high], named.clone());
    }
    // Two lines of words must fit from tick to tick, with whole steps at both ends.
    let most = PLOT / (2.0 * LETTERS);
    let ends = |step: Step| {
        let one = step.times(1.0);
        [(low / one + 1e-9).floor(), (high / one - 1e-9).ceil()]
    };
    let step = Step::finest(&axis.ticks, |step| {
        let [first, last] = ends(step);
        last - first <= most
    });
    let [first, last] = ends(step);
    let range = [step.times(first), step.times(last.max(first + 1.0))];
    (range, step.written(range))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check_up(low: f64, high: f64, ticks: Ticks, expected: &[&str]) {
        let (range, found) = up(&Axis { ticks, ..Axis::default() }, [low, high]);
        let words: Vec<&str> = found.iter().map(|(_, words)| words.as_str()).collect();
        assert_eq!(words, expected, "ticks from {low} to {high}");
        assert!(range[0] <= low && range[1] >= high, "{range:?} holds {low} to {high}");
    }

    #[test]
    fn ticks_are_round() {
        check_up(0.0, 10.0, Ticks::Round, &["0", "2", "4", "6", "8", "10"]);
        check_up(-0.31, 0.27, Ticks::Round, &["-0.4", "-0.3", "-0.2", "-0.1", "0", "0.1", "0.2", "0.3"]);
        check_up(
            2_300.0,
            9_100.0,
            Ticks::Round,
            &["2000", "3000", "4000", "5000", "6000", "7000", "8000", "9000", "10000"],
        );
    }

    #[test]
    fn whole_ticks_have_no_decimals() {
        check_up(0.0, 2.0, Ticks::Whole, &["0", "1", "2"]);
        check_up(0.2, 0.7, Ticks::Whole, &["0", "1"]);
    }

    #[test]
    fn decimals_do_not_gather_rounding() {
        let found = Step { mantissa: 1, decade: -1 }.written([0.0, 0.7]);
        let expected = ["0", "0.1", "0.2", "0.3", "0.4", "0.5", "0.6", "0.7"];
        assert_eq!(found.iter().map(|(_, words)| words.as_str()).collect::<Vec<_>>(), expected, "tenths");
        assert_eq!(found[3].0, 0.3, "a tick is the nearest number to what it says");
    }

    #[test]
    fn a_single_value_is_given_room() {
        assert_eq!(reach([3.0].into_iter()), Some([2.5, 3.5]), "round a small value");
        assert_eq!(reach([100.0].into_iter()), Some([90.0, 110.0]), "round a large value");
        assert_eq!(reach([f64::NAN, f64::INFINITY].into_iter()), None, "nothing can be drawn");
    }

    #[test]
    fn words_across_do_not_meet() {
        for (low, high, width) in [(0.0, 36.0, 380.0), (-12.5, 987_654.0, 300.0), (0.0001, 0.0002, 380.0)] {
            let found = across(&Axis::default(), [low, high], width);
            assert!(found.len() >= 2, "from {low} to {high} there are at least two ticks: {found:?}");
            for pair in found.windows(2) {
                let apart = (pair[1].0 - pair[0].0) * width / (high - low);
                assert!(apart > room(&pair[0].1), "{pair:?} are {apart} apart");
            }
        }
    }

    #[test]
    fn a_name_without_room_is_left_out() {
        for (wanted, expected) in
            [([0.0, 10.0, 12.0, 30.0], [0.0, 10.0, 30.0]), ([12.0, 0.0, 10.0, 30.0], [0.0, 12.0, 30.0])]
        {
            let named: Vec<(f64, String)> = wanted.map(|at| (at, format!("{at}"))).to_vec();
            let axis = Axis { ticks: Ticks::Spaced(named), ..Axis::default() };
            let found: Vec<f64> = across(&axis, [0.0, 30.0], 120.0).iter().map(|(at, _)| *at).collect();
            assert_eq!(found, expected, "12 lies too near 10, and the one that is named first stays");
        }
    }

    #[test]
    fn long_names_are_cut_off() {
        assert_eq!(upright_name("short"), "short", "a short name stays");
        assert_eq!(upright_name(&"x".repeat(30)).chars().count(), LONGEST_NAME, "a long one is cut");
    }
}

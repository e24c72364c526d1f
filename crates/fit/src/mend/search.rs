//! How far must one key be turned?

use spec::Document;

use super::Change;
use super::dial::{Dial, dials};
use super::trial::{Aim, Before};

/// Places at which a dial is tried, each way. More finds narrower windows; each costs a layout.
const PLACES: i64 = 12;

/// Changes that cure and are tried on all checks, for each way of each dial. More finds a window behind a spoiled one;
/// each may cost the parts and the buzz.
const TRIALS: usize = 3;

/// What turning one key came to.
#[derive(Clone, Debug, Default)]
pub(super) struct Cure {
    /// The smallest change that cures and spoils nothing.
    pub(super) change: Option<Change>,
    /// Changes that cure and spoil a check, the smallest first.
    pub(super) spoils: Vec<(Change, &'static str)>,
}

/// The smallest change of one key with which the aim is reached and no check is worse than before.
///
/// The places that are tried lie close together near the present value and farther apart away from it; between the first place
/// that cures and the last before it that does not, the limit is found by halving.
pub(super) fn nearest_cure(before: &Before<'_>, aim: &Aim<'_>, document: &Document, key: &str) -> Cure {
    let mut found = Cure::default();
    let mut least = i64::MAX;
    for dial in dials(document, key) {
        let (click, spoils) = turn(before, aim, document, &dial);
        found.spoils.extend(spoils);
        if let Some(click) = click.filter(|click| click.abs() < least) {
            least = click.abs();
            found.change = Some(change(&dial, click));
        }
    }
    found
}

fn change(dial: &Dial, click: i64) -> Change {
    Change { key: dial.key.clone(), from: dial.from.clone(), to: dial.at(click) }
}

/// A few changes of one key, from small to large both ways: to see what it can do beside another.
pub(super) fn some_turns(document: &Document, key: &str) -> Vec<Change> {
    const SHARES: [f64; 4] = [0.02, 0.08, 0.2, 0.5];
    let turns = |dial: &Dial| {
        let clicks =
            SHARES.iter().flat_map(|share| dial.ends().map(|end| (end as f64 * share).round() as i64));
        let mut clicks: Vec<i64> = clicks.filter(|click| *click != 0).collect();
        clicks.dedup();
        clicks.into_iter().map(|click| change(dial, click)).collect::<Vec<_>>()
    };
    dials(document, key).iter().filter(|dial| dial.is_ordered()).flat_map(turns).collect()
}

/// The click that cures, and what others would spoil.
fn turn(
    before: &Before<'_>,
    aim: &Aim<'_>,
    document: &Document,
    dial: &Dial,
) -> (Option<i64>, Vec<(Change, &'static str)>) {
    let at = |click: i64| document.with_override(&dial.key, &dial.at(click));
    let cures = |click: i64| before.reaches(aim, &at(click));
    let mut spoils = Vec::new();
    // Of each way: the last place that did not cure, and how many that did have been tried in full.
    let mut ways = [(0_i64, 0_usize); 2];
    let all = if dial.is_ordered() { places(dial.ends()) } else { (1..=dial.ends()[1]).collect() };
    for place in all {
        let (sick, tried) = &mut ways[usize::from(place > 0)];
        if *tried == TRIALS {
            continue;
        }
        if !cures(place) {
            *sick = place;
            continue;
        }
        let click = if dial.is_ordered() && *tried == 0 { limit(*sick, place, cures) } else { place };
        *tried += 1;
        match before.spoiled_by(aim, &at(click)) {
            Ok(()) => return (Some(click), spoils),
            Err(check) => spoils.extend(check.map(|check| (change(dial, click), check))),
        }
    }
    (None, spoils)
}

/// The click nearest to `sick` that cures, where `well` does and `sick` does not.
fn limit(mut sick: i64, mut well: i64, cures: impl Fn(i64) -> bool) -> i64 {
    while (well - sick).abs() > 1 {
        let middle = sick + (well - sick) / 2;
        *if cures(middle) { &mut well } else { &mut sick } = middle;
    }
    well
}

/// The clicks to try, from the smallest turn to the largest, in steps that grow with the cube of their number.
fn places([down, up]: [i64; 2]) -> Vec<i64> {
    let way = |end: i64| {
        (1..=PLACES).map(move |number| {
            let share = (number * number * number) as f64 / (PLACES * PLACES * PLACES) as f64;
            (end as f64 * share).round() as i64
        })
    };
    let mut places: Vec<i64> = way(down).chain(way(up)).filter(|place| *place != 0).collect();
    places.sort_by_key(|place| (place.abs(), *place));
    places.dedup();
    places
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn places_go_out_to_both_ends() {
        let places = places([-400, 2000]);
        assert_eq!(places.iter().min(), Some(&-400), "down to the end");
        assert_eq!(places.iter().max(), Some(&2000), "up to the end");
        assert!(places.is_sorted_by_key(|place| place.abs()), "the nearest first: {places:?}");
    }

    #[test]
    fn a_short_dial_is_tried_at_every_click() {
        let places = places([-2, 3]);
        assert_eq!(places, [-1, 1, -2, 2, 3], "each once");
    }

    #[test]
    fn the_limit_is_the_nearest_that_cures() {
        for edge in [1, 7, 63, 100] {
            assert_eq!(limit(0, 100, |click| click >= edge), edge, "upward");
            assert_eq!(limit(0, -100, |click| click <= -edge), -edge, "downward");
        }
    }
}

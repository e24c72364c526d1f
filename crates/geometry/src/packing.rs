//! Where on a sheet do rectangles go, so that none meets another?
//!
//! After the *maximal rectangles* method: what is left of a sheet is kept as the list of the largest free rectangles,
//! which may overlap one another, and the next rectangle goes into a corner of one of them (J. Jylänki, *A Thousand
//! Ways to Pack the Bin*, 2010, section 2.4; from memory). Large rectangles go first. It gives no fullest packing, but always
//! the same one. Several rules of choosing the corner are tried, and the one that needs the fewest sheets counts.

use units::Length;

use crate::{Bounds2, Point2, Vector2, WELD};

/// Where a rectangle went.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Packed {
    /// On which sheet, counted from 0.
    pub sheet: usize,
    /// The room that it takes there; the sheet's lower left corner is the origin.
    pub room: Bounds2,
    /// Whether it was turned by a quarter.
    pub turned: bool,
}

/// The places of rectangles on as few equal sheets as the method finds.
///
/// - **Shape**: sizes across and up, one place each in the same order; `None` for a rectangle that no sheet holds even
///   turned.
/// - **Units**: millimetres. Between any two rectangles of a sheet there is at least `gap`; at the sheet's edge there
///   need be none.
/// - **Accuracy**: a rectangle as large as the sheet, to within [`WELD`], fits it.
#[must_use]
pub fn pack(sizes: &[[Length; 2]], sheet: [Length; 2], gap: Length) -> Vec<Option<Packed>> {
    let used = |places: &[Option<Packed>]| places.iter().flatten().map(|place| place.sheet + 1).max();
    let tries = RULES.map(|rule| pack_by(rule, sizes, sheet, gap));
    // Of equals, the first.
    tries.into_iter().min_by_key(|places| used(places)).unwrap_or_default()
}

/// How a place is chosen. No rule is best for every set of rectangles; the first makes the neatest sheets.
const RULES: [Rule; 4] = [
    Rule { corner: Corner::Huddled, turning: Turning::Freely },
    Rule { corner: Corner::Huddled, turning: Turning::WhereNeeded },
    Rule { corner: Corner::Tight, turning: Turning::Freely },
    Rule { corner: Corner::Tight, turning: Turning::WhereNeeded },
];

#[derive(Clone, Copy, Debug)]
struct Rule {
    corner: Corner,
    turning: Turning,
}

/// Which of the free corners a rectangle goes into.
#[derive(Clone, Copy, Debug)]
enum Corner {
    /// The one that keeps everything nearest to the sheet's lower left corner.
    Huddled,
    /// The one where the shorter of the two strips left beside it is the narrowest.
    Tight,
}

/// When a rectangle is turned by a quarter.
#[derive(Clone, Copy, Debug)]
enum Turning {
    /// Whenever a turned one has the better corner.
    Freely,
    /// Only where the sheet has no corner for it as it came.
    WhereNeeded,
}

fn pack_by(rule: Rule, sizes: &[[Length; 2]], sheet: [Length; 2], gap: Length) -> Vec<Option<Packed>> {
    // Every rectangle carries the gap on its right and above it, and so does the sheet.
    let gap = Vector2::new(gap, gap);
    let whole = Point2::ORIGIN + Vector2::new(sheet[0], sheet[1]) + gap;
    let mut sheets: Vec<Sheet> = Vec::new();
    let mut places = vec![None; sizes.len()];
    for index in largest_first(sizes) {
        let [across, up] = sizes[index];
        let upright = Vector2::new(across, up) + gap;
        let turned = Vector2::new(up, across) + gap;
        let place = |sheet: &Sheet| sheet.best(rule, [upright, turned], whole);
        let found = sheets.iter().enumerate().find_map(|(number, sheet)| Some((number, place(sheet)?)));
        let Some((number, (corner, is_turned))) = found.or_else(|| {
            let fresh = Sheet { free: vec![Bounds2 { min: Point2::ORIGIN, max: whole }] };
            let corner = place(&fresh)?;
            sheets.push(fresh);
            Some((sheets.len() - 1, corner))
        }) else {
            continue;
        };
        let size = if is_turned { turned } else { upright };
        sheets[number].take(Bounds2 { min: corner, max: corner + size });
        let room = Bounds2 { min: corner, max: corner + size - gap };
        places[index] = Some(Packed { sheet: number, room, turned: is_turned });
    }
    places
}

/// The order in which rectangles are placed: by the longer side, then by the shorter one, then as they came.
fn largest_first(sizes: &[[Length; 2]]) -> Vec<usize> {
    let sides = |index: usize| {
        let [across, up] = sizes[index];
        [across.max(up).as_mm(), across.min(up).as_mm()]
    };
    let mut order: Vec<usize> = (0..sizes.len()).collect();
    order.sort_by(|&one, &other| {
        let ([long, short], [other_long, other_short]) = (sides(one), sides(other));
        other_long.total_cmp(&long).then(other_short.total_cmp(&short))
    });
    order
}

/// What is left of a sheet: the largest free rectangles.
struct Sheet {
    free: Vec<Bounds2>,
}

impl Sheet {
    /// The corner that a rule prefers and whether to turn the rectangle for it.
    fn best(&self, rule: Rule, [upright, turned]: [Vector2; 2], whole: Point2) -> Option<(Point2, bool)> {
        let upright = self.best_corner(rule.corner, upright, whole);
        let turned = || self.best_corner(rule.corner, turned, whole);
        match (rule.turning, upright) {
            (Turning::WhereNeeded, Some((_, corner))) => Some((corner, false)),
            (Turning::WhereNeeded, None) => turned().map(|(_, corner)| (corner, true)),
            (Turning::Freely, upright) => {
                let ways = upright.map(|(cost, corner)| (cost, corner, false)).into_iter();
                ways.chain(turned().map(|(cost, corner)| (cost, corner, true)))
                    .reduce(|one, other| if other.0 < one.0 { other } else { one })
                    .map(|(_, corner, is_turned)| (corner, is_turned))
            }
        }
    }

    /// The best corner for a rectangle of one size, the first of equals, and what it costs.
    fn best_corner(&self, corner: Corner, size: Vector2, whole: Point2) -> Option<([f64; 2], Point2)> {
        let slack = WELD.distance().as_mm();
        let fits = self.free.iter().filter_map(|free| {
            let far = free.min + size;
            let beside = [free.max.x - far.x, free.max.y - far.y];
            let cost = match corner {
                Corner::Huddled => {
                    let reach = [far.x / whole.x, far.y / whole.y];
                    [reach[0].max(reach[1]), reach[0].min(reach[1])]
                }
                Corner::Tight => [beside[0].min(beside[1]), beside[0].max(beside[1])],
            };
            (beside[0] >= -slack && beside[1] >= -slack).then_some((cost, free.min))
        });
        fits.reduce(|one, other| if other.0 < one.0 { other } else { one })
    }

    /// Takes a rectangle out of what is free.
    fn take(&mut self, taken: Bounds2) {
        let slack = WELD.distance().as_mm();
        let mut left: Vec<Bounds2> = Vec::new();
        for free in &self.free {
            let apart = taken.min.x >= free.max.x - slack
                || taken.max.x <= free.min.x + slack
                || taken.min.y >= free.max.y - slack
                || taken.max.y <= free.min.y + slack;
            if apart {
                left.push(*free);
                continue;
            }
            let Bounds2 { min, max } = *free;
            left.extend(
                [
                    Bounds2 { min, max: Point2::mm(taken.min.x, max.y) },
                    Bounds2 { min: Point2::mm(taken.max.x, min.y), max },
                    Bounds2 { min, max: Point2::mm(max.x, taken.min.y) },
                    Bounds2 { min: Point2::mm(min.x, taken.max.y), max },
                ]
                .into_iter()
                .filter(|rest| rest.max.x - rest.min.x > slack && rest.max.y - rest.min.y > slack),
            );
        }
        // Of two free rectangles of which one holds the other, the larger is enough; of equal ones, the first.
        let kept = (0..left.len()).filter(|&index| {
            !left.iter().enumerate().any(|(other, room)| {
                other != index
                    && room.contains_bounds(left[index])
                    && (other < index || !left[index].contains_bounds(*room))
            })
        });
        self.free = kept.map(|index| left[index]).collect();
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn sizes(mm: &[[f64; 2]]) -> Vec<[Length; 2]> {
        mm.iter().map(|size| size.map(Length::mm)).collect()
    }

    /// On how many sheets rectangles go, and how many go on none.
    #[track_caller]
    fn check(rectangles_mm: &[[f64; 2]], sheet_mm: [f64; 2], gap_mm: f64, sheets: usize, left_over: usize) {
        let places = pack(&sizes(rectangles_mm), sheet_mm.map(Length::mm), Length::mm(gap_mm));
        let used = places.iter().flatten().map(|place| place.sheet + 1).max().unwrap_or(0);
        let none = places.iter().filter(|place| place.is_none()).count();
        assert_eq!((used, none), (sheets, left_over), "{rectangles_mm:?} on {sheet_mm:?}: {places:?}");
    }

    #[test]
    fn nothing_needs_no_sheet() {
        check(&[], [200.0, 200.0], 5.0, 0, 0);
    }

    #[test]
    fn what_is_as_large_as_the_sheet_fits() {
        check(&[[200.0, 100.0]], [200.0, 100.0], 5.0, 1, 0);
        check(&[[100.0, 200.0]], [200.0, 100.0], 5.0, 1, 0);
    }

    #[test]
    fn what_is_larger_does_not() {
        check(&[[200.1, 100.0]], [200.0, 100.0], 5.0, 0, 1);
        check(&[[150.0, 150.0], [20.0, 20.0]], [200.0, 100.0], 5.0, 1, 1);
    }

    #[test]
    fn four_quarters_fill_a_sheet() {
        check(&[[100.0, 50.0]; 4], [200.0, 100.0], 0.0, 1, 0);
        check(&[[97.5, 47.5]; 4], [200.0, 100.0], 5.0, 1, 0);
        check(&[[97.6, 47.5]; 4], [200.0, 100.0], 5.0, 2, 0);
    }

    #[test]
    fn a_strip_is_turned_into_what_is_left() {
        check(&[[180.0, 100.0], [100.0, 20.0]], [200.0, 100.0], 0.0, 1, 0);
    }

    proptest! {
        #[test]
        fn every_rectangle_keeps_its_size_its_sheet_and_its_distance(
            rectangles in prop::collection::vec([1.0..120.0, 1.0..120.0f64], 0..40),
            gap_mm in 0.0..8.0f64,
        ) {
            let sheet = [Length::mm(110.0), Length::mm(90.0)];
            let places = pack(&sizes(&rectangles), sheet, Length::mm(gap_mm));
            for (place, [across, up]) in places.iter().zip(&rectangles) {
                let fits = across.max(*up) <= 110.0 && across.min(*up) <= 90.0;
                prop_assert_eq!(place.is_some(), fits, "{} by {}", across, up);
                let Some(Packed { room, turned, .. }) = place else { continue };
                let size = if *turned { [up, across] } else { [across, up] };
                prop_assert!((room.width().as_mm() - size[0]).abs() < 1e-9, "it keeps its size across");
                prop_assert!((room.height().as_mm() - size[1]).abs() < 1e-9, "it keeps its size up");
                let inside = room.min.x >= 0.0 && room.min.y >= 0.0
                    && room.max.x <= 110.0 + 1e-6 && room.max.y <= 90.0 + 1e-6;
                prop_assert!(inside, "{:?} is on the sheet", room);
            }
            let placed: Vec<Packed> = places.into_iter().flatten().collect();
            for (index, one) in placed.iter().enumerate() {
                for other in placed[..index].iter().filter(|other| other.sheet == one.sheet) {
                    let near = one.room.grown(Length::mm(gap_mm - 1e-5));
                    prop_assert!(!near.overlaps(other.room), "{:?} is too near to {:?}", one, other);
                }
            }
        }
    }
}

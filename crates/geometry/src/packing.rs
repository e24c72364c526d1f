//! Where on which sheets do rectangles go, so that none meets another and as little as possible is paid for?
//!
//! After the *maximal rectangles* method: what is left of a sheet is kept as the list of the largest free rectangles,
//! which may overlap one another, and the next rectangle goes into a corner of one of them (J. Jylänki, *A Thousand
//! Ways to Pack the Bin*, 2010, section 2.4; from memory). Large rectangles go first. It gives no fullest packing, but always
//! the same one. Several rules of choosing the order, the corner and the sheet are tried, and what leaves the fewest
//! rectangles over, then costs least, then takes the smallest sheets counts.

mod room;

use units::Length;

use crate::least_cost::{Stock, least_cost};
use crate::{Bounds2, WELD};
use room::{RULES, Room, Rule};

/// A rectangle that wants a place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rectangle {
    /// Across and up.
    pub size: [Length; 2],
    /// Whether it may be turned by a quarter.
    pub may_turn: bool,
}

/// A kind of sheet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sheet {
    /// Across and up.
    pub size: [Length; 2],
    /// How many there are; without end where nothing is said.
    pub count: Option<usize>,
    /// What one costs, in whole units of the caller's choice; what is to be used up first costs nothing.
    pub cost: u64,
}

/// Where a rectangle went.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Packed {
    /// On which sheet of the packing, counted from 0.
    pub sheet: usize,
    /// The room that it takes there; the sheet's lower left corner is the origin.
    pub room: Bounds2,
    /// Whether it was turned by a quarter.
    pub turned: bool,
}

/// Rectangles on sheets.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Packing {
    /// The kind of each sheet in use.
    pub sheets: Vec<usize>,
    /// One place a rectangle, in the same order; `None` for one that no sheet holds, or for which the sheets do not suffice.
    pub places: Vec<Option<Packed>>,
    /// What the sheets cost.
    pub cost: u64,
    /// Sheets that cost less have not the area for everything that found a place, with the gaps.
    pub least_cost: u64,
}

/// How many rectangles are too many for trying every rule. Larger takes seconds; smaller wastes sheets.
const MANY: usize = 600;

/// The places of rectangles on sheets.
///
/// - **Units**: millimetres. Between any two rectangles of a sheet there is at least `gap`; at the sheet's edge there
///   need be none.
/// - **Accuracy**: a rectangle as large as the sheet, to within [`WELD`], fits it. [`Packing::least_cost`] says how
///   far from the best the packing can be at most.
#[must_use]
pub fn pack(rectangles: &[Rectangle], sheets: &[Sheet], gap: Length) -> Packing {
    let rules = if rectangles.len() > MANY { &RULES[..1] } else { &RULES[..] };
    let mut best: Option<Packing> = None;
    let is_best =
        |packing: &Packing| packing.cost == packing.least_cost && packing.places.iter().all(Option::is_some);
    for preferred in 0..sheets.len() {
        let kinds = order_of_kinds(sheets, preferred);
        for rule in rules {
            if best.as_ref().is_some_and(is_best) {
                break;
            }
            let packing = Packer { rectangles, sheets, gap, rule: *rule }.packed(&kinds);
            // Of equals, the first.
            if best.as_ref().is_none_or(|best| worth(&packing, sheets) < worth(best, sheets)) {
                best = Some(packing);
            }
        }
    }
    best.unwrap_or_else(|| Packing { places: vec![None; rectangles.len()], ..Packing::default() })
}

/// What costs nothing first, the smallest of it before the rest; then the preferred kind; then the cheapest by its area.
fn order_of_kinds(sheets: &[Sheet], preferred: usize) -> Vec<usize> {
    let mut order: Vec<usize> = (0..sheets.len()).collect();
    let rank = |kind: usize| {
        let Sheet { size, cost, .. } = sheets[kind];
        let area = size[0].as_mm() * size[1].as_mm();
        let group = if cost == 0 { 0 } else { 1 + u8::from(kind != preferred) };
        (group, if cost == 0 { area } else { cost as f64 / area })
    };
    order.sort_by(|&one, &other| {
        let ([one, other], by) = ([rank(one), rank(other)], |pair: (u8, f64)| pair.1);
        one.0.cmp(&other.0).then(by(one).total_cmp(&by(other)))
    });
    order
}

/// What counts of a packing: rectangles left over, cost, area in whole square millimetres.
fn worth(packing: &Packing, sheets: &[Sheet]) -> (usize, u64, u64) {
    let missing = packing.places.iter().filter(|place| place.is_none()).count();
    let area = |kind: &usize| sheets[*kind].size[0].as_mm() * sheets[*kind].size[1].as_mm();
    (missing, packing.cost, packing.sheets.iter().map(area).sum::<f64>() as u64)
}

/// One way of packing.
#[derive(Clone, Copy)]
struct Packer<'a> {
    rectangles: &'a [Rectangle],
    sheets: &'a [Sheet],
    gap: Length,
    rule: Rule,
}

impl Packer<'_> {
    /// All rectangles; a new sheet is of the first kind that has one left and holds the rectangle.
    fn packed(&self, kinds: &[usize]) -> Packing {
        let order = self.rule.order(self.rectangles);
        let mut used = vec![0; self.sheets.len()];
        let mut rooms: Vec<(usize, Room)> = Vec::new();
        let mut places = vec![None; self.rectangles.len()];
        for index in order {
            let rectangle = self.rectangles[index];
            let found = rooms
                .iter()
                .enumerate()
                .find_map(|(number, (_, room))| Some((number, room.best(self.rule, rectangle, self.gap)?)));
            let found = found.or_else(|| {
                let is_left = |kind: usize| self.sheets[kind].count.is_none_or(|count| used[kind] < count);
                let (kind, room, place) = kinds.iter().filter(|kind| is_left(**kind)).find_map(|&kind| {
                    let room = Room::of(self.sheets[kind].size, self.gap);
                    let place = room.best(self.rule, rectangle, self.gap)?;
                    Some((kind, room, place))
                })?;
                used[kind] += 1;
                rooms.push((kind, room));
                Some((rooms.len() - 1, place))
            });
            places[index] = found.map(|(sheet, place)| {
                let room = rooms[sheet].1.take(rectangle, place, self.gap);
                Packed { sheet, room, turned: place.turned }
            });
        }
        let mut packing = Packing {
            sheets: rooms.into_iter().map(|(kind, _)| kind).collect(),
            places,
            ..Packing::default()
        };
        self.onto_cheaper_sheets(&mut packing, &mut used);
        packing.cost = packing.sheets.iter().map(|kind| self.sheets[*kind].cost).sum();
        packing.least_cost = self.least_cost(&packing.places).min(packing.cost);
        packing
    }

    /// Moves what lies on a sheet to a sheet of a cheaper or smaller kind, where one of those holds all of it.
    fn onto_cheaper_sheets(&self, packing: &mut Packing, used: &mut [usize]) {
        let price = |kind: usize| {
            let [across, up] = self.sheets[kind].size;
            (self.sheets[kind].cost, (across.as_mm() * up.as_mm()) as u64)
        };
        let mut kinds: Vec<usize> = (0..self.sheets.len()).collect();
        kinds.sort_by_key(|&kind| price(kind));
        for sheet in (0..packing.sheets.len()).rev() {
            let own = packing.sheets[sheet];
            let on_it: Vec<usize> = (0..packing.places.len())
                .filter(|&index| packing.places[index].is_some_and(|place| place.sheet == sheet))
                .collect();
            let rectangles: Vec<Rectangle> = on_it.iter().map(|&index| self.rectangles[index]).collect();
            for &kind in kinds.iter().take_while(|&&kind| price(kind) < price(own)) {
                if self.sheets[kind].count.is_some_and(|count| used[kind] >= count) {
                    continue;
                }
                let Some(places) = (Packer { rectangles: &rectangles, ..*self }).on_one(kind) else {
                    continue;
                };
                for (index, place) in on_it.iter().zip(places) {
                    packing.places[*index] = Some(Packed { sheet, ..place });
                }
                packing.sheets[sheet] = kind;
                used[own] -= 1;
                used[kind] += 1;
                break;
            }
        }
    }

    /// The places of all rectangles on one sheet, where it holds them.
    fn on_one(&self, kind: usize) -> Option<Vec<Packed>> {
        let mut room = Room::of(self.sheets[kind].size, self.gap);
        let mut places = vec![None; self.rectangles.len()];
        for index in self.rule.order(self.rectangles) {
            let place = room.best(self.rule, self.rectangles[index], self.gap)?;
            let room = room.take(self.rectangles[index], place, self.gap);
            places[index] = Some(Packed { sheet: 0, room, turned: place.turned });
        }
        places.into_iter().collect()
    }

    fn least_cost(&self, places: &[Option<Packed>]) -> u64 {
        let square_micrometres = |[across, up]: [Length; 2]| {
            let side = |length: Length| ((length + self.gap).as_mm() * 1000.0).floor() as i128;
            side(across) * side(up)
        };
        let placed = self.rectangles.iter().zip(places).filter(|(_, place)| place.is_some());
        let amount = placed.map(|(rectangle, _)| square_micrometres(rectangle.size)).sum();
        let stock = |sheet: &Sheet| Stock {
            // A sheet may hold a little more than its size, by what is welded.
            holds: square_micrometres(sheet.size.map(|side| side + WELD.distance() * 2.0)),
            count: sheet.count.unwrap_or(places.len()),
            cost: sheet.cost.into(),
        };
        least_cost(amount, self.sheets.iter().map(stock).collect()) as u64
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn turnable(mm: &[[f64; 2]]) -> Vec<Rectangle> {
        mm.iter().map(|size| Rectangle { size: size.map(Length::mm), may_turn: true }).collect()
    }

    fn sheet(mm: [f64; 2], count: Option<usize>, cost: u64) -> Sheet {
        Sheet { size: mm.map(Length::mm), count, cost }
    }

    /// On how many sheets rectangles go, and how many go on none.
    #[track_caller]
    fn check(rectangles_mm: &[[f64; 2]], sheet_mm: [f64; 2], gap_mm: f64, sheets: usize, left_over: usize) {
        let packing = pack(&turnable(rectangles_mm), &[sheet(sheet_mm, None, 1)], Length::mm(gap_mm));
        let none = packing.places.iter().filter(|place| place.is_none()).count();
        assert_eq!((packing.sheets.len(), none), (sheets, left_over), "{rectangles_mm:?}: {packing:?}");
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

    #[test]
    fn what_may_not_be_turned_is_not() {
        let long = Rectangle { size: [40.0, 90.0].map(Length::mm), may_turn: false };
        let packing = pack(&[long], &[sheet([100.0, 50.0], None, 1)], Length::ZERO);
        assert_eq!(packing.places, [None], "the sheet is not high enough");
        let packing =
            pack(&[Rectangle { may_turn: true, ..long }], &[sheet([100.0, 50.0], None, 1)], Length::ZERO);
        assert!(packing.places[0].is_some_and(|place| place.turned), "it lies along the sheet");
    }

    #[test]
    fn what_costs_nothing_is_used_up_first_and_the_last_sheet_is_the_smallest_that_does() {
        let kinds = [
            sheet([200.0, 100.0], None, 20),
            sheet([100.0, 60.0], Some(1), 0),
            sheet([100.0, 100.0], None, 12),
        ];
        let packing = pack(&turnable(&[[90.0, 50.0]; 4]), &kinds, Length::mm(5.0));
        let mut used = packing.sheets.clone();
        used.sort_unstable();
        assert_eq!((used, packing.cost), (vec![0, 1], 20), "one on the offcut, three on the large one");
        let packing = pack(&turnable(&[[90.0, 50.0]; 2]), &kinds, Length::mm(5.0));
        assert_eq!(packing.cost, 12, "one on the offcut, one on the small one: {packing:?}");
    }

    #[test]
    fn sheets_may_run_out() {
        let packing = pack(&turnable(&[[90.0, 50.0]; 4]), &[sheet([100.0, 60.0], Some(3), 1)], Length::ZERO);
        let placed = packing.places.iter().flatten().count();
        assert_eq!((placed, packing.cost, packing.least_cost), (3, 3, 3), "three sheets, three places");
        assert_eq!(
            pack(&turnable(&[[1.0, 1.0]]), &[], Length::ZERO).places,
            [None],
            "without sheets no place"
        );
    }

    proptest! {
        #[test]
        fn every_rectangle_keeps_its_size_its_sheet_and_its_distance(
            rectangles in prop::collection::vec(([1.0..120.0, 1.0..120.0f64], any::<bool>()), 0..40),
            count in prop::option::of(0..3usize),
            gap_mm in 0.0..8.0f64,
        ) {
            let sizes_mm = [[110.0, 90.0], [60.0, 70.0]];
            let kinds = [sheet(sizes_mm[0], None, 7), sheet(sizes_mm[1], count, 2)];
            let wanted: Vec<Rectangle> = rectangles
                .iter()
                .map(|(size, may_turn)| Rectangle { size: size.map(Length::mm), may_turn: *may_turn })
                .collect();
            let packing = pack(&wanted, &kinds, Length::mm(gap_mm));
            for (place, ([across, up], may_turn)) in packing.places.iter().zip(&rectangles) {
                let lies = |across: f64, up: f64| across <= 110.0 && up <= 90.0;
                let fits = lies(*across, *up) || *may_turn && lies(*up, *across);
                prop_assert_eq!(place.is_some(), fits, "{} by {}", across, up);
                let Some(Packed { room, turned, sheet }) = place else { continue };
                prop_assert!(*may_turn || !turned, "the grain is kept");
                let size = if *turned { [up, across] } else { [across, up] };
                prop_assert!((room.width().as_mm() - size[0]).abs() < 1e-9, "it keeps its size across");
                prop_assert!((room.height().as_mm() - size[1]).abs() < 1e-9, "it keeps its size up");
                let [width, height] = sizes_mm[packing.sheets[*sheet]];
                let inside = room.min.x >= 0.0 && room.min.y >= 0.0
                    && room.max.x <= width + 1e-6 && room.max.y <= height + 1e-6;
                prop_assert!(inside, "{:?} is on the sheet", room);
            }
            let placed: Vec<Packed> = packing.places.iter().copied().flatten().collect();
            for (index, one) in placed.iter().enumerate() {
                for other in placed[..index].iter().filter(|other| other.sheet == one.sheet) {
                    let near = one.room.grown(Length::mm(gap_mm - 1e-5));
                    prop_assert!(!near.overlaps(other.room), "{:?} is too near to {:?}", one, other);
                }
            }
            let small = packing.sheets.iter().filter(|kind| **kind == 1).count();
            prop_assert!(count.is_none_or(|count| small <= count), "no more sheets than there are");
            prop_assert!(packing.least_cost <= packing.cost, "a bound is a bound");
            prop_assert_eq!(&pack(&wanted, &kinds, Length::mm(gap_mm)), &packing, "the same again");
        }
    }
}

//! What is left of a sheet: the largest free rectangles.

use units::Length;

use super::Rectangle;
use crate::{Bounds2, Point2, Vector2, WELD};

/// How a place is chosen. No rule is best for every set of rectangles; the first makes the neatest sheets.
pub(super) const RULES: [Rule; 12] = {
    let mut rules = [Rule { first: First::LongSide, corner: Corner::Huddled, turning: Turning::Freely }; 12];
    let orders = [First::LongSide, First::Area, First::Height];
    let mut at = 0;
    while at < rules.len() {
        rules[at] = Rule {
            first: orders[at / 4],
            corner: if at % 4 < 2 { Corner::Huddled } else { Corner::Tight },
            turning: if at % 2 == 0 { Turning::Freely } else { Turning::WhereNeeded },
        };
        at += 1;
    }
    rules
};

#[derive(Clone, Copy, Debug)]
pub(super) struct Rule {
    first: First,
    corner: Corner,
    turning: Turning,
}

/// Which rectangles are placed first.
#[derive(Clone, Copy, Debug)]
enum First {
    /// Those with the longer longer side, then with the longer shorter one.
    LongSide,
    /// Those with the larger area.
    Area,
    /// The taller ones, then the wider ones.
    Height,
}

/// Which of the free corners a rectangle goes into.
#[derive(Clone, Copy, Debug)]
enum Corner {
    /// The one that keeps everything nearest to the sheet's lower left corner.
    Huddled,
    /// The one where the shorter of the two strips left beside it is the narrowest.
    Tight,
}

/// When a rectangle that may be turned is.
#[derive(Clone, Copy, Debug)]
enum Turning {
    /// Whenever a turned one has the better corner.
    Freely,
    /// Only where the sheet has no corner for it as it came.
    WhereNeeded,
}

/// A free corner for a rectangle.
#[derive(Clone, Copy, Debug)]
pub(super) struct Place {
    corner: Point2,
    /// Whether the rectangle is turned by a quarter.
    pub turned: bool,
}

/// What is left of a sheet.
pub(super) struct Room {
    free: Vec<Bounds2>,
    whole: Point2,
}

impl Rule {
    /// The order in which rectangles are placed; equals as they came.
    pub fn order(self, rectangles: &[Rectangle]) -> Vec<usize> {
        let keys = |index: usize| {
            let [across, up] = rectangles[index].size.map(Length::as_mm);
            match self.first {
                First::LongSide => [across.max(up), across.min(up)],
                First::Area => [across * up, across.max(up)],
                First::Height => [up, across],
            }
        };
        let mut order: Vec<usize> = (0..rectangles.len()).collect();
        order.sort_by(|&one, &other| {
            let ([first, second], [other_first, other_second]) = (keys(one), keys(other));
            other_first.total_cmp(&first).then(other_second.total_cmp(&second))
        });
        order
    }
}

/// What a rectangle takes: every rectangle carries the gap on its right and above it, and so does the sheet.
fn taken(rectangle: Rectangle, turned: bool, gap: Length) -> Vector2 {
    let [across, up] = rectangle.size;
    Vector2::new(gap, gap) + if turned { Vector2::new(up, across) } else { Vector2::new(across, up) }
}

impl Room {
    /// An empty sheet.
    pub fn of(size: [Length; 2], gap: Length) -> Self {
        let whole = Point2::ORIGIN + Vector2::new(size[0], size[1]) + Vector2::new(gap, gap);
        Self { free: vec![Bounds2 { min: Point2::ORIGIN, max: whole }], whole }
    }

    /// The corner that a rule prefers, and whether to turn the rectangle for it.
    pub fn best(&self, rule: Rule, rectangle: Rectangle, gap: Length) -> Option<Place> {
        let upright = self.best_corner(rule.corner, taken(rectangle, false, gap));
        let turned = || {
            let found =
                rectangle.may_turn.then(|| self.best_corner(rule.corner, taken(rectangle, true, gap)));
            found.flatten()
        };
        match (rule.turning, upright) {
            (Turning::WhereNeeded, Some((_, corner))) => Some(Place { corner, turned: false }),
            (Turning::WhereNeeded, None) => turned().map(|(_, corner)| Place { corner, turned: true }),
            (Turning::Freely, upright) => {
                let ways = upright.map(|(cost, corner)| (cost, Place { corner, turned: false })).into_iter();
                ways.chain(turned().map(|(cost, corner)| (cost, Place { corner, turned: true })))
                    .reduce(|one, other| if other.0 < one.0 { other } else { one })
                    .map(|(_, place)| place)
            }
        }
    }

    /// The best corner for a rectangle of one size, the first of equals, and what it costs.
    fn best_corner(&self, corner: Corner, size: Vector2) -> Option<([f64; 2], Point2)> {
        let slack = WELD.distance().as_mm();
        let fits = self.free.iter().filter_map(|free| {
            let far = free.min + size;
            let beside = [free.max.x - far.x, free.max.y - far.y];
            let cost = match corner {
                Corner::Huddled => {
                    let reach = [far.x / self.whole.x, far.y / self.whole.y];
                    [reach[0].max(reach[1]), reach[0].min(reach[1])]
                }
                Corner::Tight => [beside[0].min(beside[1]), beside[0].max(beside[1])],
            };
            (beside[0] >= -slack && beside[1] >= -slack).then_some((cost, free.min))
        });
        fits.reduce(|one, other| if other.0 < one.0 { other } else { one })
    }

    /// Takes a rectangle's place out of what is free; the room that it has without its gap.
    pub fn take(&mut self, rectangle: Rectangle, place: Place, gap: Length) -> Bounds2 {
        let size = taken(rectangle, place.turned, gap);
        self.take_out(Bounds2 { min: place.corner, max: place.corner + size });
        Bounds2 { min: place.corner, max: place.corner + size - Vector2::new(gap, gap) }
    }

    fn take_out(&mut self, taken: Bounds2) {
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

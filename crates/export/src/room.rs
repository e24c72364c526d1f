//! Where is room for words among lines and other words?

use geometry::{Bounds2, Point2, Segment};
use units::{ChordTolerance, Length};

/// How far the chords of an arc may stray from it here. Larger lets words touch an arc; smaller only takes time.
const CHORD: ChordTolerance = ChordTolerance::new(Length::mm(0.05));

/// A plane with what is already on it.
#[derive(Clone, Debug, Default)]
pub(crate) struct Room {
    lines: Vec<(Point2, Point2)>,
    boxes: Vec<Bounds2>,
}

impl Room {
    /// Puts the pieces of a contour there.
    pub fn draw(&mut self, segments: impl IntoIterator<Item = Segment>) {
        for segment in segments {
            let mut before = segment.from();
            for point in segment.flatten(CHORD).into_iter().chain([segment.to()]) {
                self.lines.push((before, point));
                before = point;
            }
        }
    }

    /// Puts a box of words there.
    pub fn fill(&mut self, words: Bounds2) {
        self.boxes.push(words);
    }

    /// Puts a straight line there.
    pub fn line(&mut self, from: Point2, to: Point2) {
        self.lines.push((from, to));
    }

    /// Whether a straight line would run through words.
    pub fn crosses_words(&self, from: Point2, to: Point2) -> bool {
        self.boxes.iter().any(|taken| reaches(from, to, *taken))
    }

    /// How many lines a straight line would cross; those that it only touches do not count.
    pub fn crossings(&self, from: Point2, to: Point2) -> usize {
        let side = |a: Point2, b: Point2, c: Point2| (b - a).cross(c - a);
        let crosses = |(a, b): &&(Point2, Point2)| {
            side(from, to, *a) * side(from, to, *b) < -1e-9 && side(*a, *b, from) * side(*a, *b, to) < -1e-9
        };
        self.lines.iter().filter(crosses).count()
    }

    /// Whether a straight line would run along another: beside it, within 0.8 mm, for 2 mm and more, to within some 8 degrees.
    pub fn runs_along(&self, from: Point2, to: Point2) -> bool {
        let Some(way) = (to - from).normalised() else { return false };
        let long = (to - from).length();
        self.lines.iter().any(|(a, b)| {
            let step = *b - *a;
            if way.cross(step).abs() > 0.14 * step.length() {
                return false;
            }
            let (first, last) = (way.dot(*a - from), way.dot(*b - from));
            let (low, high) = (first.min(last).max(0.0), first.max(last).min(long));
            let middle = ((low + high) / 2.0 - first) / (last - first);
            high - low >= 2.0 && way.cross(a.lerp(*b, middle) - from).abs() < 0.8
        })
    }

    /// Whether no line and no words reach into a box.
    pub fn is_free(&self, place: Bounds2) -> bool {
        self.boxes.iter().all(|taken| !taken.overlaps(place))
            && self.lines.iter().all(|(from, to)| !reaches(*from, *to, place))
    }
}

/// Whether a straight line has a point in a box, edges included.
pub(crate) fn reaches(from: Point2, to: Point2, place: Bounds2) -> bool {
    let along = to - from;
    let mut shares = (0.0_f64, 1.0_f64);
    for (start, step, low, high) in
        [(from.x, along.x, place.min.x, place.max.x), (from.y, along.y, place.min.y, place.max.y)]
    {
        if step == 0.0 {
            if start < low || start > high {
                return false;
            }
            continue;
        }
        let (enter, leave) = ((low - start) / step, (high - start) / step);
        shares = (shares.0.max(enter.min(leave)), shares.1.min(enter.max(leave)));
    }
    shares.0 <= shares.1
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(from: (f64, f64), to: (f64, f64), expected: bool) {
        let place = Bounds2 { min: Point2::mm(0.0, 0.0), max: Point2::mm(4.0, 2.0) };
        let found = reaches(Point2::mm(from.0, from.1), Point2::mm(to.0, to.1), place);
        assert_eq!(found, expected, "the line from {from:?} to {to:?} and the box");
    }

    #[test]
    fn lines_through_a_box_reach_it() {
        check((-1.0, 1.0), (5.0, 1.0), true);
        check((1.0, 1.0), (2.0, 1.5), true);
        check((-1.0, 3.5), (5.0, -1.0), true);
        check((4.0, -1.0), (4.0, 5.0), true);
    }

    #[test]
    fn lines_beside_a_box_do_not() {
        check((-1.0, 3.0), (5.0, 3.0), false);
        check((-1.0, 1.0), (-0.5, 1.0), false);
        check((3.5, 4.0), (7.0, 0.5), false);
        check((5.0, -1.0), (5.0, 5.0), false);
    }

    #[test]
    fn lines_side_by_side_run_along_each_other() {
        let mut room = Room::default();
        room.line(Point2::mm(0.0, 0.0), Point2::mm(20.0, 0.0));
        let along = |from: (f64, f64), to: (f64, f64)| {
            room.runs_along(Point2::mm(from.0, from.1), Point2::mm(to.0, to.1))
        };
        assert!(along((5.0, 0.5), (15.0, 0.5)), "beside it");
        assert!(along((15.0, 0.0), (30.0, 0.0)), "on it, and beyond");
        assert!(!along((5.0, 1.0), (15.0, 1.0)), "farther off");
        assert!(!along((5.0, 0.1), (6.5, 0.1)), "for a short way");
        assert!(!along((5.0, -3.0), (15.0, 3.0)), "across it");
    }

    #[test]
    fn an_arc_keeps_words_off_its_belly() {
        let mut room = Room::default();
        room.draw([Segment::new(Point2::mm(0.0, 0.0), Point2::mm(10.0, 0.0), -1.0)]);
        let at = |x: f64, y: f64| Bounds2::at(Point2::mm(x, y)).grown(Length::mm(0.5));
        assert!(room.is_free(at(5.0, 2.0)), "there is room within the arch");
        assert!(!room.is_free(at(5.0, 5.2)), "there is none on its crown");
    }
}

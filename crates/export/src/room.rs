//! Where is room for words among lines?

use geometry::{Bounds2, Point2, Segment};
use units::{ChordTolerance, Length};

/// How far the chords of an arc may stray from it here. Larger lets words touch an arc; smaller only takes time.
const CHORD: ChordTolerance = ChordTolerance::new(Length::mm(0.05));

/// A plane with what is already on it.
#[derive(Clone, Debug, Default)]
pub(crate) struct Room {
    lines: Vec<(Point2, Point2)>,
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

    /// Whether no line reaches into a box.
    pub fn is_free(&self, place: Bounds2) -> bool {
        self.lines.iter().all(|(from, to)| !reaches(*from, *to, place))
    }
}

/// Whether a straight line has a point in a box, edges included.
fn reaches(from: Point2, to: Point2, place: Bounds2) -> bool {
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
    fn an_arc_keeps_words_off_its_belly() {
        let mut room = Room::default();
        room.draw([Segment::new(Point2::mm(0.0, 0.0), Point2::mm(10.0, 0.0), -1.0)]);
        let at = |x: f64, y: f64| Bounds2::at(Point2::mm(x, y)).grown(Length::mm(0.5));
        assert!(room.is_free(at(5.0, 2.0)), "there is room within the arch");
        assert!(!room.is_free(at(5.0, 5.2)), "there is none on its crown");
    }
}

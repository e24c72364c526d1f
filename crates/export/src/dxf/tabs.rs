//! Where is an outer cut interrupted, so that the part stays in its blank?
//!
//! The outline is written in stretches: what is cut through stays on `CUT_OUTER`, and the tabs between lie on `TAB`,
//! end to end, so that together they are the whole outline. Whoever has a laser switches `TAB` off; whoever has a
//! router cuts it less deep. Tabs lie within one side each, on straight sides where these have room for all of them,
//! and go where the longest stretch would otherwise be free; on a plate, to the middles of its four edges. A small outline gets
//! as many as it has room for.

use geometry::{Path, Segment, Shape, Vertex};
use units::{Length, math};

/// How many widths of a tab each tab has for itself, at least. Smaller lets tabs grow together; larger leaves no room
/// on small parts.
const ROOM: f64 = 2.0;

/// An outline in stretches.
pub(super) struct Stretches {
    /// What is cut through.
    pub cut: Vec<Path>,
    /// What is left standing.
    pub tabs: Vec<Path>,
}

/// The stretches of an outer cut with up to so many tabs, each so wide along it: as many as it has room for; `None` where
/// there is room for none.
pub(super) fn stretches(outside: &Shape, count: usize, width: Length) -> Option<Stretches> {
    let segments = outside.segments();
    let straight = |segment: &Segment| matches!(segment, Segment::Line { .. });
    let on_straight = shared_out(&segments, count, width, straight);
    let counts = if on_straight.iter().sum::<usize>() == count {
        on_straight
    } else {
        shared_out(&segments, count, width, |_| true)
    };
    let mut stretches = Stretches { cut: Vec::new(), tabs: Vec::new() };
    // Begun within the first side that has a tab, so that no stretch is parted at the outline's first vertex.
    let first = counts.iter().position(|count| *count > 0)?;
    let mut open: Vec<Segment> = Vec::new();
    let mut head: Option<Vec<Segment>> = None;
    let order = (first..segments.len()).chain(0..first);
    for (segment, count) in order.map(|at| (&segments[at], counts[at])) {
        let half = width / segment.length() / 2.0;
        let mut from = 0.0;
        for place in 0..count {
            let middle = (place as f64 + 0.5) / count as f64;
            open.push(piece(segment, from, middle - half));
            let before = std::mem::take(&mut open);
            if head.is_none() {
                head = Some(before);
            } else {
                stretches.cut.push(joined(&before));
            }
            stretches.tabs.push(joined(&[piece(segment, middle - half, middle + half)]));
            from = middle + half;
        }
        open.push(piece(segment, from, 1.0));
    }
    open.extend(head.into_iter().flatten());
    stretches.cut.push(joined(&open));
    Some(stretches)
}

/// How many tabs each side gets, up to so many together: one after the other goes where the stretches between them are longest.
fn shared_out(
    segments: &[Segment],
    count: usize,
    width: Length,
    may_hold: impl Fn(&Segment) -> bool,
) -> Vec<usize> {
    let mut counts = vec![0_usize; segments.len()];
    for _ in 0..count {
        let stretch = |at: usize| segments[at].length() / (counts[at] + 1) as f64;
        let roomy = |at: &usize| may_hold(&segments[*at]) && stretch(*at) >= width * ROOM;
        // Of equally long ones the first: a later one must be longer by more than rounding.
        let longest = (0..segments.len())
            .filter(roomy)
            .reduce(|best, at| if stretch(at) > stretch(best) + Length::mm(1e-6) { at } else { best });
        let Some(longest) = longest else { break };
        counts[longest] += 1;
    }
    counts
}

/// The part of a segment between two shares of the way along.
fn piece(segment: &Segment, from: f64, to: f64) -> Segment {
    let bulge = math::tan(segment.sweep().as_radians() * (to - from) / 4.0);
    Segment::new(segment.point_at(from), segment.point_at(to), bulge)
}

fn joined(segments: &[Segment]) -> Path {
    let mut vertices: Vec<Vertex> =
        segments.iter().map(|segment| Vertex { point: segment.from(), bulge: segment.bulge() }).collect();
    vertices.extend(segments.last().map(|last| Vertex::sharp(last.to())));
    Path::new(vertices).expect("pieces of a sound outline that are longer than half a tab are sound")
}

#[cfg(test)]
mod tests {
    use geometry::{Circle, Outline, Point2};

    use super::*;

    fn plate() -> Shape {
        Shape::Outline(
            Outline::rectangle(Point2::ORIGIN, Point2::mm(80.0, 50.0)).expect("the plate is sound"),
        )
    }

    fn total(paths: &[Path]) -> f64 {
        paths.iter().map(|path| path.length().as_mm()).sum()
    }

    #[track_caller]
    fn check(outside: &Shape, count: usize, width_mm: f64) {
        let found = stretches(outside, count, Length::mm(width_mm)).expect("there is room");
        assert_eq!((found.cut.len(), found.tabs.len()), (count, count), "as many stretches as tabs");
        for tab in &found.tabs {
            let off = (tab.length().as_mm() - width_mm).abs();
            assert!(off < 1e-9, "each tab is {width_mm} mm wide, off by {off:e}");
        }
        let off = total(&found.cut) + total(&found.tabs) - outside.perimeter().as_mm();
        assert!(off.abs() < 1e-9, "together they are the outline, off by {off:e} mm");
        for cut in &found.cut {
            let begins = found.tabs.iter().any(|tab| tab.end().distance(cut.start()) < 1e-9);
            let ends = found.tabs.iter().any(|tab| tab.start().distance(cut.end()) < 1e-9);
            assert!(begins && ends, "a stretch runs from tab to tab");
        }
    }

    #[test]
    fn four_tabs_go_to_the_middles_of_four_edges() {
        check(&plate(), 4, 6.0);
        let found = stretches(&plate(), 4, Length::mm(6.0)).expect("there is room");
        for middle in [(40.0, 0.0), (80.0, 25.0), (40.0, 50.0), (0.0, 25.0)] {
            let middle = Point2::mm(middle.0, middle.1);
            let on = |tab: &Path| tab.start().lerp(tab.end(), 0.5).distance(middle) < 1e-9;
            assert_eq!(found.tabs.iter().filter(|tab| on(tab)).count(), 1, "one tab about {middle:?}");
        }
    }

    #[test]
    fn other_counts_and_shapes_have_tabs_too() {
        for count in [1, 2, 3, 5, 8] {
            check(&plate(), count, 4.0);
        }
        let disc = Shape::Circle(Circle::of_diameter(Point2::mm(3.0, 4.0), Length::mm(60.0)));
        for count in [1, 2, 3, 4] {
            check(&disc, count, 6.0);
        }
    }

    #[test]
    fn where_there_is_no_room_for_all_there_are_as_many_as_fit() {
        // Each tab wants 12 mm of a side: six on each of 80 and four on each of 50.
        let count = |asked: usize| {
            stretches(&plate(), asked, Length::mm(6.0)).map(|found| (found.cut.len(), found.tabs.len()))
        };
        assert_eq!(count(20), Some((20, 20)), "all of twenty");
        assert_eq!(count(21), Some((20, 20)), "twenty of twenty-one");
        assert!(stretches(&plate(), 1, Length::mm(41.0)).is_none(), "none as wide as half a side");
    }
}

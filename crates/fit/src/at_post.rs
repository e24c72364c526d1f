//! Where does a string come to its tuner's post, seen from above?

use layout::{POST_DIAMETER, StringPath, Tuner};
use units::{Length, math};

/// The end of the string's straight way from the nut: the side of the post from which it comes, `x` and `y`.
///
/// A string is wound so that it leaves its post on the side where it is wanted; one that comes straight at the post may
/// leave it anywhere between.
pub(crate) fn end(string: &StringPath, tuner: &Tuner) -> [Length; 2] {
    let radius = POST_DIAMETER / 2.0;
    let aside = (string.nut.y - tuner.post.y).max(-radius).min(radius);
    [tuner.post.x, tuner.post.y + aside]
}

/// From a point to the straight way between two others, all in one plane.
pub(crate) fn from_way(point: [Length; 2], ends: [[Length; 2]; 2]) -> Length {
    let [[px, py], [ax, ay], [bx, by]] = [point, ends[0], ends[1]].map(|at| at.map(Length::as_mm));
    let (along, across) = (bx - ax, by - ay);
    let length = along * along + across * across;
    let share =
        if length > 0.0 { (((px - ax) * along + (py - ay) * across) / length).clamp(0.0, 1.0) } else { 0.0 };
    Length::mm(math::hypot(px - ax - along * share, py - ay - across * share))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(point_mm: [f64; 2], expected_mm: f64) {
        let ends = [[0.0, 0.0], [10.0, 0.0]].map(|end: [f64; 2]| end.map(Length::mm));
        let found = from_way(point_mm.map(Length::mm), ends).as_mm();
        assert!((found - expected_mm).abs() < 1e-12, "from {point_mm:?}: {found}, expected {expected_mm}");
    }

    #[test]
    fn beside_the_way() {
        check([4.0, -3.0], 3.0);
    }

    // Three, four, five.
    #[test]
    fn beyond_its_end() {
        check([13.0, 4.0], 5.0);
    }
}

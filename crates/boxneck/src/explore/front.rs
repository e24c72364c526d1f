//! Which plans are the best compromises between two measures?

/// The places of those points that no other beats in both values, from the best first value to the best second; of equal points the
/// first.
///
/// - **Shape**: pairs of which less is better in; places in the list out. Points without end in either value are left out.
pub(super) fn front(points: &[[f64; 2]]) -> Vec<usize> {
    let mut order: Vec<usize> =
        (0..points.len()).filter(|place| points[*place].iter().all(|value| value.is_finite())).collect();
    order.sort_by(|one, other| {
        let [one_point, other_point] = [points[*one], points[*other]];
        one_point[0]
            .total_cmp(&other_point[0])
            .then(one_point[1].total_cmp(&other_point[1]))
            .then(one.cmp(other))
    });
    let mut least = f64::INFINITY;
    order.retain(|place| {
        let is_better = points[*place][1] < least;
        least = least.min(points[*place][1]);
        is_better
    });
    order
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_beaten_in_both_is_left_out() {
        let points = [[1.0, 5.0], [2.0, 3.0], [2.5, 3.5], [4.0, 1.0], [4.0, 1.0], [f64::INFINITY, 0.0]];
        assert_eq!(front(&points), [0, 1, 3], "the compromises from left to right");
    }

    proptest::proptest! {
        #[test]
        fn every_point_is_on_the_front_or_beaten(
            points in proptest::collection::vec((0..8_i8, 0..8_i8), 1..40)
        ) {
            let points: Vec<[f64; 2]> = points.iter().map(|(one, other)| [f64::from(*one), f64::from(*other)]).collect();
            let found = front(&points);
            let beats = |one: [f64; 2], other: [f64; 2]| one[0] <= other[0] && one[1] <= other[1] && one != other;
            for (place, point) in points.iter().enumerate() {
                let is_beaten = points.iter().any(|other| beats(*other, *point));
                let is_kept = found.iter().any(|kept| points[*kept] == *point);
                proptest::prop_assert_eq!(is_kept, !is_beaten, "point {} of {:?}", place, points);
            }
        }
    }
}

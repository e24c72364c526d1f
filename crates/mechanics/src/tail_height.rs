//! Which one height of the tail serves the whole set of strings best?

use units::Length;

use crate::{
    MechanicsError,
    drift::{StringPath, slipping_drift},
    root::crossing,
    string_model::StringModel,
};

/// Between which heights the tail anchor may be put.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HeightLimits {
    /// The lowest height of the anchor.
    pub lowest: Length,
    /// The highest.
    pub highest: Length,
}

/// The height that was found, and what it leaves.
#[derive(Clone, Debug, PartialEq)]
pub struct TailHeight {
    /// Height of the tail anchor.
    pub height: Length,
    /// The largest drift of any string, in cents without sign.
    pub worst_cents: f64,
    /// Drift in cents of each string for the saddle moved toward the tail, and forward.
    pub drifts_cents: Vec<[f64; 2]>,
    /// Which limit the height lies on, if it lies on one: a better height is out of reach.
    pub limit: Option<Limit>,
}

/// An end of the range of heights.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Limit {
    /// The lowest height.
    Lowest,
    /// The highest height; it is the lowest crest where that is lower than the limit asked for.
    Highest,
}

/// Tail height at which the worst drift of any string, for the saddle slid either way, is smallest.
///
/// Each string's drift falls all the way as the tail rises, so the worst drift is smallest where the sharpest and the
/// flattest are equally far out, and there is one such height.
///
/// - **Shape**: strings with their paths, the travel each way, and limits in; one height out. The paths' own tail
///   heights are not used.
/// - **Units**: millimetres inside [`Length`]; cents.
/// - **Frame**: instrument frame.
/// - **Accuracy**: the minimax to the last bits, for strings that slip freely; the limits are clipped to the lowest crest.
/// - **Errors**: [`MechanicsError::Empty`] without strings; [`MechanicsError::NoRoom`]; [`MechanicsError::NotPositive`] for
///   a travel of zero or one past the tail; [`MechanicsError::Slack`] when even the best height leaves a string slack.
/// - **Source**: derived, from [`slipping_drift`].
pub fn recommended_tail_height(
    strings: &[(StringModel, StringPath)],
    travel: Length,
    limits: HeightLimits,
) -> Result<TailHeight, MechanicsError> {
    crate::error::positive("travel in mm", travel.as_mm())?;
    let crests = strings.iter().map(|(_, path)| path.line.saddle_height);
    let lowest_crest = crests.reduce(Length::min).ok_or(MechanicsError::Empty { what: "strings" })?;
    let (lowest, highest) = (limits.lowest, limits.highest.min(lowest_crest));
    if lowest >= highest {
        return Err(MechanicsError::NoRoom { lowest, highest });
    }
    for (_, path) in strings {
        crate::drift::path_length(path, travel)?;
        crate::drift::path_length(path, -travel)?;
    }

    // Sharpest plus flattest: falls all the way as the tail rises, and is zero where both are equally far out.
    let balance = |height_mm: f64| {
        let extremes = Extremes::at(strings, travel, Length::mm(height_mm));
        if extremes.sharpest == f64::INFINITY { f64::INFINITY } else { extremes.sharpest + extremes.flattest }
    };
    let (height, limit) = match crossing(lowest.as_mm(), highest.as_mm(), balance) {
        Some(height_mm) => (Length::mm(height_mm), None),
        None if balance(lowest.as_mm()) < 0.0 => (lowest, Some(Limit::Lowest)),
        None => (highest, Some(Limit::Highest)),
    };
    let drifts = strings.iter().map(|(string, path)| {
        let path = StringPath { tail_height: height, ..*path };
        Ok([slipping_drift(string, &path, travel)?, slipping_drift(string, &path, -travel)?])
    });
    let drifts_cents = drifts.collect::<Result<Vec<_>, _>>()?;
    let worst_cents = worst(&drifts_cents);
    Ok(TailHeight { height, worst_cents, drifts_cents, limit })
}

/// The largest drift without sign.
fn worst(drifts_cents: &[[f64; 2]]) -> f64 {
    drifts_cents.iter().flatten().fold(0.0, |worst, drift| worst.max(drift.abs()))
}

/// Largest and smallest of all drifts, each counted in the sense of a saddle moved toward the tail.
struct Extremes {
    sharpest: f64,
    flattest: f64,
}

impl Extremes {
    fn at(strings: &[(StringModel, StringPath)], travel: Length, height: Length) -> Self {
        let mut extremes = Self { sharpest: f64::NEG_INFINITY, flattest: f64::INFINITY };
        for (string, path) in strings {
            let path = StringPath { tail_height: height, ..*path };
            // A string gone slack has fallen without end.
            let drift = |travel| slipping_drift(string, &path, travel).unwrap_or(f64::NEG_INFINITY);
            for drift in [drift(travel), -drift(-travel)] {
                extremes.sharpest = extremes.sharpest.max(drift);
                extremes.flattest = extremes.flattest.min(drift);
            }
        }
        extremes
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{
        drift::worked_path,
        string_model::tests::{E4, G3, plain, wound_d3},
    };

    const LIMITS: HeightLimits = HeightLimits { lowest: Length::mm(-30.0), highest: Length::mm(9.0) };

    fn set() -> Vec<(StringModel, StringPath)> {
        [plain(0.010, E4), plain(0.017, G3), wound_d3()].map(|string| (string, worked_path(0.0))).to_vec()
    }

    fn worst_at(strings: &[(StringModel, StringPath)], travel: Length, height_mm: f64) -> f64 {
        let drifts = strings.iter().flat_map(|(string, path)| {
            let path = StringPath { tail_height: Length::mm(height_mm), ..*path };
            [travel, -travel]
                .map(|travel| slipping_drift(string, &path, travel).unwrap_or(f64::INFINITY).abs())
        });
        drifts.fold(0.0, f64::max)
    }

    #[test]
    fn three_strings_share_one_height() {
        let found = recommended_tail_height(&set(), Length::mm(1.0), LIMITS).expect("a sound set");
        // Between the break-even tails of the stiffest and the softest string: 6.1 and 10.1 degrees at 70 mm (derived).
        assert!((-2.5..2.6).contains(&found.height.as_mm()), "found {:?}", found.height);
        assert_eq!(found.limit, None, "the best height lies inside the limits");
        assert!(found.worst_cents < 2.0, "left with {} cents", found.worst_cents);
    }

    #[test]
    fn one_string_comes_to_rest_at_its_own_break_even() {
        let string = plain(0.017, G3);
        let travel = Length::mm(0.01);
        let found =
            recommended_tail_height(&[(string, worked_path(0.0))], travel, LIMITS).expect("a sound set");
        let even = crate::break_even::break_even(&string, &worked_path(0.0)).expect("sound").expect("a root");
        let apart = (found.height - even.tail_height).as_mm();
        assert!(apart.abs() < 0.01, "{:?} and {:?}", found.height, even.tail_height);
    }

    #[test]
    fn limits_hold() {
        let low = HeightLimits { lowest: Length::mm(-30.0), highest: Length::mm(-20.0) };
        let found = recommended_tail_height(&set(), Length::mm(1.0), low).expect("a sound set");
        assert_eq!(
            (found.height, found.limit),
            (Length::mm(-20.0), Some(Limit::Highest)),
            "as high as it may be"
        );
        let high = HeightLimits { lowest: Length::mm(7.0), highest: Length::mm(20.0) };
        let found = recommended_tail_height(&set(), Length::mm(1.0), high).expect("a sound set");
        assert_eq!(
            (found.height, found.limit),
            (Length::mm(7.0), Some(Limit::Lowest)),
            "as low as it may be"
        );
    }

    #[test]
    fn questions_without_an_answer() {
        let travel = Length::mm(1.0);
        let found = recommended_tail_height(&[], travel, LIMITS);
        assert_eq!(found, Err(MechanicsError::Empty { what: "strings" }), "no strings");
        let above = HeightLimits { lowest: Length::mm(11.0), highest: Length::mm(20.0) };
        let found = recommended_tail_height(&set(), travel, above);
        assert!(matches!(found, Err(MechanicsError::NoRoom { .. })), "above the crest: {found:?}");
        let found = recommended_tail_height(&set(), Length::mm(80.0), LIMITS);
        assert!(matches!(found, Err(MechanicsError::NotPositive { .. })), "past the tail: {found:?}");
    }

    proptest::proptest! {
        #![proptest_config(proptest::test_runner::Config::with_cases(48))]
        #[test]
        fn no_sampled_height_is_better(
            crests_mm in proptest::collection::vec(4.0..16.0_f64, 1..6),
            tail_mm in 15.0..90.0_f64,
            travel_mm in 0.1..5.0_f64,
            lowest_mm in -40.0..0.0_f64,
            room_mm in 1.0..40.0_f64,
        ) {
            let models = [plain(0.010, E4), plain(0.017, G3), wound_d3()];
            let strings: Vec<_> = crests_mm.iter().enumerate().map(|(n, &crest_mm)| {
                let mut path = worked_path(0.0);
                path.line.saddle_height = Length::mm(crest_mm);
                path.tail_distance = Length::mm(tail_mm);
                (models[n % 3], path)
            }).collect();
            let limits = HeightLimits { lowest: Length::mm(lowest_mm), highest: Length::mm(lowest_mm + room_mm) };
            let travel = Length::mm(travel_mm);
            let lowest_crest = crests_mm.iter().copied().fold(f64::INFINITY, f64::min);
            let highest_mm = limits.highest.as_mm().min(lowest_crest);
            match recommended_tail_height(&strings, travel, limits) {
                Ok(found) => for sample in 0..=400 {
                    let height_mm = lowest_mm + (highest_mm - lowest_mm) * f64::from(sample) / 400.0;
                    let sampled = worst_at(&strings, travel, height_mm);
                    proptest::prop_assert!(found.worst_cents <= sampled + 1e-9, "{} at {:?}, but {sampled} at {height_mm}",
                        found.worst_cents, found.height);
                },
                // Only where every height within the limits leaves some string slack.
                Err(MechanicsError::Slack { .. }) => proptest::prop_assert!(
                    worst_at(&strings, travel, highest_mm).is_infinite(), "slack, though the highest tail is not"),
                Err(error) => proptest::prop_assert!(false, "unexpected: {error}"),
            }
        }
    }
}

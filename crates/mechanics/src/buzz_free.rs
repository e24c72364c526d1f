//! How many instruments out of a hundred are free of buzz, and how high must the strings be for nearly all of them?

use units::Length;

use crate::{
    MechanicsError,
    buzz::HeightScatter,
    clearance::{PlayedString, margins},
    error::positive,
    random::Random,
    string_line::Fret,
};

/// How many instruments to try, and from which seed: the same two give the same answer everywhere.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Trials {
    /// How many instruments. Fewer make the shares coarser (half over the root of this); more cost time in proportion.
    pub count: u32,
    /// The seed of [`Random`].
    pub seed: u64,
}

/// Instruments of one plan whose crowns stray, sorted by how far their saddle must be raised to be free of buzz.
///
/// One draw of heights serves all strings and every question, so that two plans are compared on the same instruments.
#[derive(Clone, Debug, PartialEq)]
pub struct Instruments {
    needed_raise_mm: Vec<f64>,
}

/// Draws instruments whose crown heights stray from the plan.
///
/// A crown keeps its height all across the neck. Room over a fret is linear in the saddle's height, so each instrument has one
/// least height at which all of its strings are free; nothing is searched for.
///
/// - **Shape**: the strings over one list of frets, scatter and trials in; instruments to be asked out.
/// - **Units**: millimetres.
/// - **Accuracy**: sampling: a share found from n trials strays by sqrt(share (1 - share)/n).
/// - **Errors**: [`MechanicsError::Empty`] without strings, frets or trials; [`MechanicsError::OutOfOrder`];
///   [`MechanicsError::OutsideRange`] for a scatter below zero.
/// - **Source**: Monte Carlo over [`margins`], with [`Random`].
pub fn draw_instruments(
    strings: &[PlayedString],
    frets: &[Fret],
    scatter: &HeightScatter,
    trials: Trials,
) -> Result<Instruments, MechanicsError> {
    let over_one: Vec<(PlayedString, &[Fret])> = strings.iter().map(|string| (*string, frets)).collect();
    draw_instruments_crowned(&over_one, scatter, trials)
}

/// The same for strings that meet their frets at heights of their own, as over a board that is crowned across the strings.
///
/// Each string comes with its own crowns, of the same frets in the same order; a fret that strays, strays under all of them.
///
/// - **Errors**: as for [`draw_instruments`]; [`MechanicsError::Empty`] too for a string that has fewer frets than the first.
pub fn draw_instruments_crowned(
    strings: &[(PlayedString, &[Fret])],
    scatter: &HeightScatter,
    trials: Trials,
) -> Result<Instruments, MechanicsError> {
    scatter.check()?;
    let count = strings.first().map_or(0, |(_, frets)| frets.len());
    let uneven_lists = strings.iter().any(|(_, frets)| frets.len() != count);
    for (missing, what) in [
        (strings.is_empty(), "strings"),
        (count == 0 || uneven_lists, "frets"),
        (trials.count == 0, "trials"),
    ] {
        if missing {
            return Err(MechanicsError::Empty { what });
        }
    }
    let mut pairs = Vec::new();
    for (string, frets) in strings {
        // The raise that takes away this pair's room is -room/share; crowns that stray add to it.
        let pair = |margin: &crate::clearance::Margin| Pair {
            fretted: margin.fretted,
            over: margin.over,
            planned_mm: -margin.room().as_mm() / margin.share,
            for_fretted: -(1.0 - margin.share) / margin.share,
            for_over: 1.0 / margin.share,
        };
        pairs.extend(margins(string, frets)?.iter().map(pair));
    }

    let mut random = Random::new(trials.seed);
    let mut strays = vec![[0.0; ABREAST]; count + 1];
    let mut draw = |wanted: usize| {
        for lane in 0..wanted {
            strays[0][lane] = scatter.zero_fret.as_mm() * random.normal();
            for stray in &mut strays[1..] {
                stray[lane] = scatter.frets.as_mm() * random.normal();
            }
        }
        let mut raises = [f64::NEG_INFINITY; ABREAST];
        for pair in &pairs {
            let raise = pair.raise_mm(&strays);
            for lane in 0..ABREAST {
                raises[lane] = if raise[lane] > raises[lane] { raise[lane] } else { raises[lane] };
            }
        }
        raises
    };
    let total = trials.count as usize;
    let mut needed_raise_mm: Vec<f64> = Vec::with_capacity(total);
    while needed_raise_mm.len() < total {
        let wanted = ABREAST.min(total - needed_raise_mm.len());
        needed_raise_mm.extend(&draw(wanted)[..wanted]);
    }
    needed_raise_mm.sort_by(f64::total_cmp);
    Ok(Instruments { needed_raise_mm })
}

impl Instruments {
    /// Share of the instruments that are free of buzz when all saddles stand higher than planned by some height.
    #[must_use]
    pub fn share_free(&self, raise: Length) -> f64 {
        let free = self.needed_raise_mm.partition_point(|&needed| needed <= raise.as_mm());
        free as f64 / self.needed_raise_mm.len() as f64
    }

    /// How far all saddles must stand higher than planned for at least a share of the instruments to be free; negative when they
    /// may be lower. The action over a fret changes by this times that fret's share of the way to the saddle.
    ///
    /// - **Errors**: [`MechanicsError::OutsideRange`] for a share not above 0 or above 1.
    pub fn raise_for(&self, share: f64) -> Result<Length, MechanicsError> {
        let count = self.needed_raise_mm.len();
        let quantity = "share of instruments";
        positive(quantity, share)?;
        if share > 1.0 {
            return Err(MechanicsError::OutsideRange { quantity, above: 0.0, below: 1.0, value: share });
        }
        // Rounding of share times count must not ask for one instrument more.
        let free = (share * count as f64 - 1e-9).ceil().max(1.0) as usize;
        Ok(Length::mm(self.needed_raise_mm[free - 1]))
    }
}

/// Share of instruments that is meant by "nearly all" when nobody says otherwise: common practice, no source.
pub const NEARLY_ALL: f64 = 0.95;

/// Instruments that are worked out side by side, so that a pair is looked up once for all of them and the processor's wide
/// registers are filled; the numbers are the same for any.
const ABREAST: usize = 8;

/// One string pressed to one fret over another: the raise that it needs is linear in both heights.
struct Pair {
    fretted: usize,
    over: usize,
    planned_mm: f64,
    for_fretted: f64,
    for_over: f64,
}

impl Pair {
    /// The raise that each of the instruments needs whose crowns stray so.
    fn raise_mm(&self, strays: &[[f64; ABREAST]]) -> [f64; ABREAST] {
        let (fretted, over) = (&strays[self.fretted], &strays[self.over]);
        std::array::from_fn(|lane| {
            self.planned_mm + self.for_fretted * fretted[lane] + self.for_over * over[lane]
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{buzz::touch_probability, clearance::tests::played, string_line::tests::level_frets};

    const SCATTER: HeightScatter = HeightScatter { frets: Length::mm(0.08), zero_fret: Length::mm(0.02) };
    const TRIALS: Trials = Trials { count: 4000, seed: 1 };

    #[test]
    fn each_string_is_held_against_its_own_crowns() {
        let (low, high) = (level_frets(648.0, 12, 0.0), {
            let mut frets = level_frets(648.0, 12, 0.0);
            frets[4].crown_height = Length::mm(1.5);
            frets
        });
        let level = HeightScatter { frets: Length::ZERO, zero_fret: Length::ZERO };
        let trials = Trials { count: 1, seed: 1 };
        let raise = |strings: &[(PlayedString, &[Fret])]| {
            let drawn = draw_instruments_crowned(strings, &level, trials).expect("sound");
            drawn.raise_for(1.0).expect("one instrument")
        };
        let (alone, both) =
            (raise(&[(played(2.0), &high)]), raise(&[(played(2.0), &low), (played(2.0), &high)]));
        assert_eq!(alone, both, "the string over the high crown decides, whichever comes first");
        assert!(raise(&[(played(2.0), &low)]) < both, "a level list wants less");
    }

    #[test]
    fn one_pair_is_the_closed_form() {
        // One fret alone: the open string over it.
        let (string, frets) = (played(2.5), level_frets(648.0, 1, 0.0));
        let drawn = draw_instruments(&[string], &frets, &SCATTER, TRIALS).expect("sound");
        let margin = margins(&string, &frets).expect("in order")[0];
        let expected = 1.0 - touch_probability(&margin, &SCATTER).expect("sound");
        let error = (expected * (1.0 - expected) / f64::from(TRIALS.count)).sqrt();
        let found = drawn.share_free(Length::ZERO);
        assert!(expected > 0.05 && expected < 0.95, "{expected} would be no test");
        assert!((found - expected).abs() < 4.0 * error, "found {found}, expected {expected}");
    }

    #[test]
    fn the_raise_is_the_least_that_does_it() {
        let (strings, frets) = ([played(1.0), played(1.4)], level_frets(648.0, 18, 0.0));
        let drawn = draw_instruments(&strings, &frets, &SCATTER, TRIALS).expect("sound");
        let raise = drawn.raise_for(NEARLY_ALL).expect("a share");
        assert!(drawn.share_free(raise) >= NEARLY_ALL, "found {}", drawn.share_free(raise));
        assert!(drawn.share_free(raise - Length::mm(1e-6)) < NEARLY_ALL, "a micrometre less would do");
        // The same instruments, planned that much higher, are that free.
        let raised = strings.map(|mut string| {
            string.line.saddle_height = string.line.saddle_height + raise + Length::mm(1e-9);
            string
        });
        let again = draw_instruments(&raised, &frets, &SCATTER, TRIALS).expect("sound");
        assert!(again.share_free(Length::ZERO) >= NEARLY_ALL, "found {}", again.share_free(Length::ZERO));
    }

    #[test]
    fn the_same_seed_draws_the_same_instruments() {
        let draw = || draw_instruments(&[played(1.0)], &level_frets(648.0, 9, 0.0), &SCATTER, TRIALS);
        assert_eq!(draw(), draw(), "nothing but the seed decides");
    }

    #[test]
    fn nothing_to_draw_is_refused() {
        let found = draw_instruments(&[], &level_frets(648.0, 9, 0.0), &SCATTER, TRIALS);
        assert_eq!(found, Err(MechanicsError::Empty { what: "strings" }), "no strings");
        let drawn =
            draw_instruments(&[played(1.0)], &level_frets(648.0, 9, 0.0), &SCATTER, TRIALS).expect("sound");
        assert!(
            drawn.raise_for(0.0).is_err() && drawn.raise_for(1.01).is_err(),
            "shares lie between 0 and 1"
        );
    }

    proptest::proptest! {
        #![proptest_config(proptest::test_runner::Config::with_cases(64))]
        #[test]
        fn without_scatter_all_or_none_are_free(action_mm in 0.1..4.0_f64, raise_mm in -2.0..2.0_f64) {
            let none = HeightScatter { frets: Length::ZERO, zero_fret: Length::ZERO };
            let trials = Trials { count: 20, seed: 3 };
            let drawn = draw_instruments(&[played(action_mm)], &level_frets(648.0, 18, 0.0), &none, trials).expect("sound");
            let share = drawn.share_free(Length::mm(raise_mm));
            proptest::prop_assert!(share == 0.0 || share == 1.0, "found {share}");
        }

        #[test]
        fn higher_strings_are_never_less_free(action_mm in 0.5..2.0_f64, more_mm in 0.0..1.0_f64) {
            let trials = Trials { count: 200, seed: 3 };
            let free = |action_mm| draw_instruments(&[played(action_mm)], &level_frets(648.0, 12, 0.0), &SCATTER, trials)
                .expect("sound").share_free(Length::ZERO);
            proptest::prop_assert!(free(action_mm + more_mm) >= free(action_mm), "from {action_mm} by {more_mm}");
        }
    }
}

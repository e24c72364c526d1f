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

/// By how much the crowns of many instruments stray, in standard deviations: what chance has to say of any plan with as many
/// frets, whatever it looks like, so that plans are compared on the same instruments and nothing is drawn twice.
///
/// **Source**: normal numbers of one stream of [`Random`]; of each instrument first the zero fret's, then the frets'.
#[derive(Clone, Debug, PartialEq)]
pub struct Strays {
    trials: Trials,
    frets: usize,
    /// Of [`ABREAST`] instruments after each other all crowns, from the zero fret's on.
    normal: Vec<[f64; ABREAST]>,
    /// The farthest that any strays, up or down.
    farthest: f64,
}

impl Strays {
    /// Those of so many frets beside the zero fret.
    #[must_use]
    pub fn drawn(frets: usize, trials: Trials) -> Self {
        let mut random = Random::new(trials.seed);
        let crowns = frets + 1;
        let count = trials.count as usize;
        let mut normal = vec![[0.0; ABREAST]; crowns * count.div_ceil(ABREAST)];
        let mut farthest = 0.0_f64;
        for instrument in 0..count {
            let abreast = &mut normal[instrument / ABREAST * crowns..][..crowns];
            for crown in abreast {
                let stray = random.normal();
                farthest = farthest.max(stray.abs());
                crown[instrument % ABREAST] = stray;
            }
        }
        Self { trials, frets, normal, farthest }
    }

    /// How many frets there are beside the zero fret.
    #[must_use]
    pub const fn frets(&self) -> usize {
        self.frets
    }
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
/// - **Shape**: the strings over one list of frets, scatter and strays in; instruments to be asked out.
/// - **Units**: millimetres.
/// - **Accuracy**: sampling: a share found from n trials strays by sqrt(share (1 - share)/n).
/// - **Errors**: [`MechanicsError::Empty`] without strings, trials, or as many frets as stray; [`MechanicsError::OutOfOrder`];
///   [`MechanicsError::OutsideRange`] for a scatter below zero.
/// - **Source**: Monte Carlo over [`margins`], with [`Strays`].
pub fn draw_instruments(
    strings: &[PlayedString],
    frets: &[Fret],
    scatter: &HeightScatter,
    strays: &Strays,
) -> Result<Instruments, MechanicsError> {
    let over_one: Vec<(PlayedString, &[Fret])> = strings.iter().map(|string| (*string, frets)).collect();
    draw_instruments_crowned(&over_one, scatter, strays)
}

/// The same for strings that meet their frets at heights of their own, as over a board that is crowned across the strings.
///
/// Each string comes with its own crowns, of the same frets in the same order; a fret that strays, strays under all of them.
///
/// - **Errors**: as for [`draw_instruments`].
pub fn draw_instruments_crowned(
    strings: &[(PlayedString, &[Fret])],
    scatter: &HeightScatter,
    strays: &Strays,
) -> Result<Instruments, MechanicsError> {
    scatter.check()?;
    let uneven_lists = strings.iter().any(|(_, frets)| frets.len() != strays.frets);
    for (missing, what) in [
        (strings.is_empty(), "strings"),
        (strays.frets == 0 || uneven_lists, "frets"),
        (strays.trials.count == 0, "trials"),
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

    let farthest = scatter.frets.max(scatter.zero_fret) * strays.farthest;
    let pairs = deciding(pairs, farthest.as_mm());
    let total = strays.trials.count as usize;
    let mut needed_raise_mm: Vec<f64> = Vec::with_capacity(total.next_multiple_of(ABREAST));
    let mut strayed = vec![[0.0; ABREAST]; strays.frets + 1];
    for normal in strays.normal.chunks_exact(strays.frets + 1) {
        for (index, (crown, normal)) in strayed.iter_mut().zip(normal).enumerate() {
            let deviation = if index == 0 { scatter.zero_fret } else { scatter.frets };
            *crown = normal.map(|normal| deviation.as_mm() * normal);
        }
        let mut raises = [f64::NEG_INFINITY; ABREAST];
        for pair in &pairs {
            let raise = pair.raise_mm(&strayed);
            for lane in 0..ABREAST {
                raises[lane] = if raise[lane] > raises[lane] { raise[lane] } else { raises[lane] };
            }
        }
        needed_raise_mm.extend(raises);
    }
    needed_raise_mm.truncate(total);
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
    /// Whether it asks for no less than another over the same frets, however they stray within a length.
    fn outdoes(&self, other: &Self, farthest_mm: f64) -> bool {
        let strayed = (self.for_fretted - other.for_fretted).abs() + (self.for_over - other.for_over).abs();
        // What rounding may leave of raises of some millimetres.
        self.planned_mm - other.planned_mm >= strayed * farthest_mm + 1e-9
    }

    /// The raise that each of the instruments needs whose crowns stray so.
    fn raise_mm(&self, strays: &[[f64; ABREAST]]) -> [f64; ABREAST] {
        let (fretted, over) = (&strays[self.fretted], &strays[self.over]);
        std::array::from_fn(|lane| {
            self.planned_mm + self.for_fretted * fretted[lane] + self.for_over * over[lane]
        })
    }
}

/// The pairs that may ask for the highest raise, where no crown strays farther than a length: of strings over the same two frets it
/// is nearly always the lowest alone.
fn deciding(mut pairs: Vec<Pair>, farthest_mm: f64) -> Vec<Pair> {
    pairs.sort_by(|one, other| {
        let frets = (one.fretted, one.over).cmp(&(other.fretted, other.over));
        frets.then(other.planned_mm.total_cmp(&one.planned_mm))
    });
    let mut kept: Vec<Pair> = Vec::with_capacity(pairs.len());
    let mut first = 0;
    for pair in pairs {
        if kept.get(first).is_some_and(|first| (first.fretted, first.over) != (pair.fretted, pair.over)) {
            first = kept.len();
        }
        if !kept.get(first).is_some_and(|first| first.outdoes(&pair, farthest_mm)) {
            kept.push(pair);
        }
    }
    kept
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
        let strays = Strays::drawn(12, Trials { count: 1, seed: 1 });
        let raise = |strings: &[(PlayedString, &[Fret])]| {
            let drawn = draw_instruments_crowned(strings, &level, &strays).expect("sound");
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
        let drawn = draw_instruments(&[string], &frets, &SCATTER, &Strays::drawn(1, TRIALS)).expect("sound");
        let margin = margins(&string, &frets).expect("in order")[0];
        let expected = 1.0 - touch_probability(&margin, &SCATTER).expect("sound");
        let error = (expected * (1.0 - expected) / f64::from(TRIALS.count)).sqrt();
        let found = drawn.share_free(Length::ZERO);
        assert!(expected > 0.05 && expected < 0.95, "{expected} would be no test");
        assert!((found - expected).abs() < 4.0 * error, "found {found}, expected {expected}");
    }

    #[test]
    fn what_cannot_decide_is_left_out_and_nothing_else() {
        let (strings, frets) = ([1.0, 1.2, 1.21, 3.0].map(played), level_frets(648.0, 18, 0.0));
        // One instrument of each of many seeds, so that each is compared by itself.
        for seed in 0..200 {
            let strays = Strays::drawn(18, Trials { count: 1, seed });
            let raise = |strings: &[PlayedString]| {
                let drawn = draw_instruments(strings, &frets, &SCATTER, &strays).expect("sound");
                drawn.raise_for(1.0).expect("one instrument")
            };
            let highest = strings.iter().map(|string| raise(&[*string])).reduce(Length::max);
            assert_eq!(Some(raise(&strings)), highest, "of what the strings ask for alone, seed {seed}");
        }
        let pair =
            |planned_mm, for_over| Pair { fretted: 0, over: 1, planned_mm, for_fretted: -1.0, for_over };
        let kept = |pairs| deciding(pairs, 0.1).iter().map(|pair| pair.planned_mm).collect::<Vec<_>>();
        assert_eq!(kept(vec![pair(0.3, 2.0), pair(0.5, 2.0)]), [0.5], "the lower string decides");
        assert_eq!(kept(vec![pair(0.45, 3.0), pair(0.5, 2.0)]), [0.5, 0.45], "a steeper one may");
        let elsewhere = Pair { over: 2, ..pair(0.1, 2.0) };
        assert_eq!(kept(vec![elsewhere, pair(0.5, 2.0)]), [0.5, 0.1], "and so may other frets");
    }

    #[test]
    fn the_raise_is_the_least_that_does_it() {
        let (strings, frets) = ([played(1.0), played(1.4)], level_frets(648.0, 18, 0.0));
        let strays = Strays::drawn(18, TRIALS);
        let drawn = draw_instruments(&strings, &frets, &SCATTER, &strays).expect("sound");
        let raise = drawn.raise_for(NEARLY_ALL).expect("a share");
        assert!(drawn.share_free(raise) >= NEARLY_ALL, "found {}", drawn.share_free(raise));
        assert!(drawn.share_free(raise - Length::mm(1e-6)) < NEARLY_ALL, "a micrometre less would do");
        // The same instruments, planned that much higher, are that free.
        let raised = strings.map(|mut string| {
            string.line.saddle_height = string.line.saddle_height + raise + Length::mm(1e-9);
            string
        });
        let again = draw_instruments(&raised, &frets, &SCATTER, &strays).expect("sound");
        assert!(again.share_free(Length::ZERO) >= NEARLY_ALL, "found {}", again.share_free(Length::ZERO));
    }

    #[test]
    fn the_same_seed_draws_the_same_instruments() {
        assert_eq!(Strays::drawn(9, TRIALS), Strays::drawn(9, TRIALS), "nothing but the seed decides");
        let other = Trials { seed: 2, ..TRIALS };
        assert_ne!(Strays::drawn(9, TRIALS).normal, Strays::drawn(9, other).normal, "and the seed does");
    }

    #[test]
    fn instruments_are_drawn_one_after_the_other() {
        // However many are drawn, abreast or not, the first ones stay the same.
        let first = |count: u32| {
            let strays = Strays::drawn(2, Trials { count, seed: 5 });
            [0, 1, 2].map(|crown| strays.normal[crown][0])
        };
        let mut random = Random::new(5);
        let expected = [(); 3].map(|()| random.normal());
        assert_eq!([first(1), first(13)], [expected; 2], "zero fret, first fret, second fret");
    }

    #[test]
    fn nothing_to_draw_is_refused() {
        let strays = Strays::drawn(9, TRIALS);
        let found = draw_instruments(&[], &level_frets(648.0, 9, 0.0), &SCATTER, &strays);
        assert_eq!(found, Err(MechanicsError::Empty { what: "strings" }), "no strings");
        let played = [played(1.0)];
        let of = |frets: u32, strays: &Strays| {
            draw_instruments(&played, &level_frets(648.0, frets, 0.0), &SCATTER, strays)
        };
        assert_eq!(of(8, &strays), Err(MechanicsError::Empty { what: "frets" }), "fewer frets than stray");
        let none = Strays::drawn(9, Trials { count: 0, seed: 1 });
        assert_eq!(of(9, &none), Err(MechanicsError::Empty { what: "trials" }), "no instruments");
        let drawn = of(9, &strays).expect("sound");
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
            let strays = Strays::drawn(18, Trials { count: 20, seed: 3 });
            let drawn = draw_instruments(&[played(action_mm)], &level_frets(648.0, 18, 0.0), &none, &strays).expect("sound");
            let share = drawn.share_free(Length::mm(raise_mm));
            proptest::prop_assert!(share == 0.0 || share == 1.0, "found {share}");
        }

        #[test]
        fn higher_strings_are_never_less_free(action_mm in 0.5..2.0_f64, more_mm in 0.0..1.0_f64) {
            let strays = Strays::drawn(12, Trials { count: 200, seed: 3 });
            let free = |action_mm| draw_instruments(&[played(action_mm)], &level_frets(648.0, 12, 0.0), &SCATTER, &strays)
                .expect("sound").share_free(Length::ZERO);
            proptest::prop_assert!(free(action_mm + more_mm) >= free(action_mm), "from {action_mm} by {more_mm}");
        }
    }
}

//! What holds of instruments that were made a little off their plan?

use boxneck::layout::built::{Deviations, built};
use boxneck::layout::tolerances::trial;
use proptest::prelude::*;

use crate::random_document::{config, instrument};

proptest! {
    #![proptest_config(config(60))]

    #[test]
    fn made_as_planned_it_plays_as_planned(instrument in instrument()) {
        let (layout, playing) = (instrument.layout(), instrument.playing());
        // A plan whose frets do not lie in order cannot be strung, made well or not.
        let Ok(made) = built(layout, playing.player(), &Deviations::default()) else { return Ok(()) };
        for (index, string) in made.strings.iter().enumerate() {
            prop_assert_eq!(&string.line, &layout.runs()[index].line, "where string {} bears", index);
            prop_assert_eq!(&string.actions, &layout.strings()[index].actions, "its actions");
            prop_assert_eq!(&string.cents, &playing.tuning()[index].after_cents, "its errors");
            let drift = playing.drift().strings[index].cents_per_mm;
            prop_assert!(string.drift_cents_per_mm.total_cmp(&drift).is_eq(), "its drift: {}", string.drift_cents_per_mm);
        }
    }

    /// Whatever the tolerances: an instrument, or the reason why there is none.
    #[test]
    fn chance_makes_an_instrument_or_says_why_not(instrument in instrument(), seed in any::<u64>(), index in any::<u64>()) {
        let _ = trial(instrument.layout(), instrument.playing().player(), seed, index);
    }
}

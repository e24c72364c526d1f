//! Are the drawings of an instrument that no check fails fit to be cut?

use boxneck::geometry::Preflight;
use proptest::prelude::*;

use crate::random_document::{config, sound_instrument};

proptest! {
    #![proptest_config(config(60))]

    #[test]
    fn no_drawing_has_a_fault(instrument in sound_instrument()) {
        for part in &instrument.parts().parts {
            for drawing in &part.drawings {
                let faults = drawing.faults(&Preflight::default());
                prop_assert!(
                    faults.is_empty(),
                    "{}: {:?}\n{}",
                    drawing.name,
                    faults,
                    instrument.document().source()
                );
                prop_assert!(drawing.cut_bounds().is_some(), "{} cuts something out", drawing.name);
            }
        }
    }
}

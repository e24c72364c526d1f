//! What is done at the bench, in which order?

use units::{Angle, Length};

use super::outlook::Outlook;
use crate::string_path::StringNumber;

/// One step of work, and how the instrument plays after it.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// What is done.
    pub work: Work,
    /// How it plays then, once it is tuned.
    pub after: Outlook,
}

/// One kind of work.
#[derive(Clone, Debug, PartialEq)]
pub enum Work {
    /// A string is exchanged for one of another gauge.
    ChangeString {
        /// Which string.
        number: StringNumber,
        /// Its diameter now.
        from: Length,
        /// The diameter of the new one.
        to: Length,
    },
    /// The string holes of the tail are moved up; down where negative.
    MoveTail {
        /// How far.
        up: Length,
    },
    /// The slots of the nut are filed down, so that the strings press on a zero fret that is lower than planned.
    LowerNut {
        /// How far.
        by: Length,
    },
    /// Wires are tapped down.
    TapWires {
        /// The number of each fret, and how far it goes down.
        taps: Vec<(u8, Length)>,
    },
    /// The saddle is shimmed where it goes up, and planed where it goes down.
    SetSaddleHeight {
        /// How far up under the bass string.
        bass: Length,
        /// How far up under the treble string.
        treble: Length,
    },
    /// The saddle is slid; one that is let in stays, and its crests are filed to there.
    SlideSaddle {
        /// How far toward the tail under the bass string.
        bass: Length,
        /// How far toward the tail under the treble string.
        treble: Length,
        /// How far it is turned against where it stands: positive where the treble end goes toward the tail.
        turned: Angle,
    },
}

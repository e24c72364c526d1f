//! Why can a question about plans not be answered?

use crate::instrument::Refusal;

/// A question that has no answer as it stands; every message names what to write instead.
#[derive(Clone, Debug, thiserror::Error)]
#[non_exhaustive]
pub enum ExploreFault {
    /// The document that is to be varied describes no instrument itself.
    #[error(transparent)]
    Document(#[from] Refusal),
    /// A key that cannot be varied as asked.
    #[error("--vary {text}: {why}")]
    Key {
        /// What was asked.
        text: String,
        /// What is wrong, and what works.
        why: String,
    },
    /// A condition that cannot be read.
    #[error("--want {text}: {why}")]
    Condition {
        /// What was asked.
        text: String,
        /// What is wrong, and what works.
        why: String,
    },
    /// A measure that is not there.
    #[error("--best {text}: {why}")]
    Measure {
        /// What was asked.
        text: String,
        /// What there is.
        why: String,
    },
    /// A lock on nothing.
    #[error("--lock {text}: {why}")]
    Lock {
        /// What was asked.
        text: String,
        /// What is wrong, and what works.
        why: String,
    },
    /// No key is left to vary.
    #[error("there is no key to vary: {0}")]
    NothingToVary(String),
    /// None of the plans is an instrument.
    #[error("none of the {plans} plans is an instrument; of the first: {why}")]
    NoInstrument {
        /// How many were tried.
        plans: usize,
        /// What is wrong with the first.
        why: String,
    },
}

//! What is an instrument really like that somebody has measured, and what is to be done so that it plays as it was meant to?
//!
//! [`estimate()`] looks for the [`Deviations`](crate::built::Deviations) that explain the readings best: what nobody has read stays as
//! likely as the document's tolerances say. [`work_order`] then looks for the least work after which the strings lie as high as the
//! document wants, buzz nowhere and are in tune, and says what to expect after each [`Step`].
//!
//! Both ask [`built()`](crate::built::built()) how an instrument plays; nothing here knows more physics than it does.

mod estimate;
mod intonation;
mod outlook;
mod seat;
mod sensitivity;
mod step;
mod tail;
mod tapping;
mod unknown;
mod what_is_read;
mod work_order;

pub use estimate::{Estimate, Estimated, Judged, estimate};
pub use outlook::{Contact, Outlook, StringOutlook, Uncertain};
pub use step::{Step, Work};
pub use tapping::{StringOver, Tapping, TappingCase, least_tapping};
pub use unknown::Unknown;
pub use work_order::{IN_TUNE_CENTS, WorkOrder, work_order};

use mechanics::MechanicsError;

use crate::built::BuiltFault;

/// Why nothing can be said about a measured instrument.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum SetupFault {
    /// The plan itself, or the instrument that the readings describe, cannot be strung.
    #[error(transparent)]
    CannotBeStrung(#[from] BuiltFault),
    /// No work frees the strings.
    #[error("no wires and no saddle free the strings: {0}")]
    NoWay(#[from] MechanicsError),
}

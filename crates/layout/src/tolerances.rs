//! How far do instruments of one plan differ, and which dimension deserves the most care?
//!
//! The document says how well each [`Dimension`] is held. [`trial`] draws one instrument with such errors and asks
//! [`built`](crate::built::built()) how it plays; [`report`] sums up many of them by [`Outcome`]. A trial depends on seed and index
//! alone, so that trials may be made in any order, on any number of threads, and come out the same.
//!
//! Two answers are given to "how much does this dimension matter". The first order says how an outcome answers to small errors,
//! by its slopes at the plan: exact where physics is linear, blind where an outcome is the worst of many. The share is counted on the
//! trials themselves: each is made once more with that dimension alone drawn anew.

mod dimension;
mod outcome;
mod report;
mod trial;

pub use dimension::Dimension;
pub(crate) use dimension::as_planned;
pub use outcome::{Outcome, Outcomes};
pub use report::{Care, Cause, Spread, ToleranceReport, report};
pub use trial::{Trial, trial};

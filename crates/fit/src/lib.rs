//! What does not fit?
//!
//! Each check is a file here and a line in [`findings`]. A check borrows the models and returns [`Finding`]s: data first
//! (an id, the measured value, the limit, where the limit comes from, what it concerns), words second. A check that
//! holds says so too, so that what was looked at can be shown. What a failure forbids is decided elsewhere.

mod bed_room;
mod break_over_nut;
mod break_over_saddle;
mod checks;
mod compensation_room;
mod drawing_clean;
mod finding;
mod free_of_buzz;
mod frets_reached;
mod lid_sink;
mod neck_load;
mod part_made;
mod saddle_drift;
mod saddle_stands;
mod string_edge;
mod string_gap;
mod string_load;
mod subject;
mod tail_on_box;

pub use checks::{checks, findings, findings_of};
pub use finding::{Bound, Check, Concern, Finding, Measure, Severity, Source};
pub use subject::Subject;

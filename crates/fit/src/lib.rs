//! What does not fit?
//!
//! Each check is a file here and a line in [`findings`]. A check borrows the models and returns [`Finding`]s: data first
//! (an id, the measured value, the limit, where the limit comes from, what it concerns), words second. A check that
//! holds says so too, so that what was looked at can be shown. What a failure forbids is decided elsewhere.

mod bed_room;
mod bit_enters;
mod break_over_nut;
mod break_over_saddle;
mod bushing_reach;
mod checks;
mod compensation_room;
mod drawing_clean;
mod drawing_words;
mod face;
mod finding;
mod free_of_buzz;
mod frets_reached;
mod hardware_clear;
mod heel_glue;
mod heel_in_box;
mod heel_reach;
mod lid_sink;
mod mate_enters;
mod neck_load;
mod neck_relief;
mod neck_stress;
mod opening_clear;
mod opening_edge;
mod opening_gap;
mod part_made;
mod plank_length;
mod plank_thickness;
mod plank_width;
mod print_layer;
mod print_overhang;
mod print_walls;
mod printed;
mod saddle_drift;
mod saddle_stands;
mod slot_floor;
mod sound_hole_open;
mod string_edge;
mod string_gap;
mod string_load;
mod subject;
mod tail_on_box;
mod tongue_above_bottom;
mod tongue_thickness;
mod tongue_under_lid;
mod wire_bend;
mod wire_gap;
mod wire_seat;
mod zero_fret_step;

pub use checks::{checks, findings, findings_of};
pub use finding::{Bound, Check, Concern, Finding, Measure, Severity, Source};
pub use subject::Subject;

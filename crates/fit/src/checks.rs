//! Which checks are there? One line each.

use crate::finding::{Check, Finding};
use crate::subject::Subject;
use crate::{
    bed_room, break_over_nut, break_over_saddle, compensation_room, drawing_clean, free_of_buzz,
    frets_reached, lid_sink, neck_load, part_made, saddle_drift, saddle_stands, string_edge, string_gap,
    string_load, tail_on_box,
};

/// A check and how it is made.
#[derive(Clone, Copy)]
struct Rule(Check, fn(&Subject) -> Vec<Finding>);

/// Every check, in the order of the bench.
const RULES: &[Rule] = &[
    Rule(frets_reached::CHECK, frets_reached::check),
    Rule(string_edge::CHECK, string_edge::check),
    Rule(string_gap::CHECK, string_gap::check),
    Rule(break_over_nut::CHECK, break_over_nut::check),
    Rule(break_over_saddle::CHECK, break_over_saddle::check),
    Rule(tail_on_box::CHECK, tail_on_box::check),
    Rule(string_load::CHECK, string_load::check),
    Rule(saddle_drift::CHECK, saddle_drift::check),
    Rule(compensation_room::CHECK, compensation_room::check),
    Rule(free_of_buzz::CHECK, free_of_buzz::check),
    Rule(neck_load::CHECK, neck_load::check),
    Rule(lid_sink::CHECK, lid_sink::check),
    Rule(saddle_stands::CHECK, saddle_stands::check),
    Rule(part_made::CHECK, part_made::check),
    Rule(drawing_clean::CHECK, drawing_clean::check),
    Rule(bed_room::CHECK, bed_room::check),
];

/// Every check, in the order of the bench.
pub fn checks() -> impl Iterator<Item = &'static Check> {
    RULES.iter().map(|rule| &rule.0)
}

/// What every check finds, those that hold included.
#[must_use]
pub fn findings(subject: &Subject) -> Vec<Finding> {
    RULES.iter().flat_map(|rule| (rule.1)(subject)).collect()
}

/// What one check finds, by its id; nothing where no check is called so. Costs no more than that check looks at.
#[must_use]
pub fn findings_of(id: &str, subject: &Subject) -> Vec<Finding> {
    RULES.iter().filter(|rule| rule.0.id == id).flat_map(|rule| (rule.1)(subject)).collect()
}

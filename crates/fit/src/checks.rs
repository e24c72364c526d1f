//! Which checks are there? One line each.

use crate::finding::{Check, Finding};
use crate::subject::Subject;
use crate::{
    break_over_nut, break_over_saddle, compensation_room, drawing_clean, free_of_buzz, frets_reached,
    lid_sink, neck_load, part_made, saddle_drift, saddle_stands, string_edge, string_gap, string_load,
    tail_on_box,
};

/// Every check, in the order of the bench.
pub const CHECKS: [Check; 15] = [
    frets_reached::CHECK,
    string_edge::CHECK,
    string_gap::CHECK,
    break_over_nut::CHECK,
    break_over_saddle::CHECK,
    tail_on_box::CHECK,
    string_load::CHECK,
    saddle_drift::CHECK,
    compensation_room::CHECK,
    free_of_buzz::CHECK,
    neck_load::CHECK,
    lid_sink::CHECK,
    saddle_stands::CHECK,
    part_made::CHECK,
    drawing_clean::CHECK,
];

/// What every check finds, those that hold included.
#[must_use]
pub fn findings(subject: &Subject<'_>) -> Vec<Finding> {
    let checks: [fn(&Subject<'_>) -> Vec<Finding>; CHECKS.len()] = [
        frets_reached::check,
        string_edge::check,
        string_gap::check,
        break_over_nut::check,
        break_over_saddle::check,
        tail_on_box::check,
        string_load::check,
        saddle_drift::check,
        compensation_room::check,
        free_of_buzz::check,
        neck_load::check,
        lid_sink::check,
        saddle_stands::check,
        part_made::check,
        drawing_clean::check,
    ];
    checks.iter().flat_map(|check| check(subject)).collect()
}

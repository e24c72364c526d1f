//! Which checks are there? One line each.

use crate::finding::{Check, Finding};
use crate::subject::Subject;
use crate::{
    break_over_nut, break_over_saddle, drawing_clean, frets_reached, part_made, string_edge, string_gap,
    tail_on_box,
};

/// Every check, in the order of the bench.
pub const CHECKS: [Check; 8] = [
    frets_reached::CHECK,
    string_edge::CHECK,
    string_gap::CHECK,
    break_over_nut::CHECK,
    break_over_saddle::CHECK,
    tail_on_box::CHECK,
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
        part_made::check,
        drawing_clean::check,
    ];
    checks.iter().flat_map(|check| check(subject)).collect()
}

//! Which checks are there? One line each.

use crate::finding::{Check, Finding};
use crate::subject::Subject;
use crate::{
    air_before_nut, ball_fits, ball_held, ball_seat, bed_room, bit_enters, break_over_nut, break_over_saddle,
    bushing_reach, button_reach, compensation_room, drawing_clean, free_of_buzz, frets_reached,
    hardware_clear, heel_glue, heel_in_box, heel_reach, lid_sink, mate_enters, neck_load, neck_relief,
    neck_stress, nut_foot, nut_slot_depth, nut_wall, opening_clear, opening_edge, opening_gap, part_made,
    parts_clear, parts_touch, plank_length, plank_thickness, plank_width, post_distance, print_layer,
    print_overhang, print_walls, saddle_across, saddle_before_tail, saddle_drift, saddle_height,
    saddle_on_lid, saddle_over_opening, saddle_slender, saddle_stands, slot_floor, sound_hole_open,
    string_bore, string_edge, string_gap, string_gap_at_saddle, string_load, string_past_posts,
    tail_bore_edge, tail_bore_gap, tail_clears_neck, tail_on_box, tail_screw_clear, tail_screws_in_wall,
    tongue_above_bottom, tongue_thickness, tongue_under_lid, tuner_bodies, tuner_buttons, tuner_edge,
    tuner_gap, tuner_reach, turn_at_nut, wire_bend, wire_gap, wire_seat, zero_fret_press, zero_fret_step,
};

/// A check and how it is made.
#[derive(Clone, Copy)]
struct Rule(Check, fn(&Subject) -> Vec<Finding>);

/// Every check, in the order of the bench.
const RULES: &[Rule] = &[
    Rule(plank_length::CHECK, plank_length::check),
    Rule(plank_width::CHECK, plank_width::check),
    Rule(plank_thickness::CHECK, plank_thickness::check),
    Rule(frets_reached::CHECK, frets_reached::check),
    Rule(zero_fret_step::CHECK, zero_fret_step::check),
    Rule(wire_gap::CHECK, wire_gap::check),
    Rule(wire_seat::CHECK, wire_seat::check),
    Rule(wire_bend::CHECK, wire_bend::check),
    Rule(string_edge::CHECK, string_edge::check),
    Rule(string_gap::CHECK, string_gap::check),
    Rule(nut_wall::CHECK, nut_wall::check),
    Rule(nut_slot_depth::CHECK, nut_slot_depth::check),
    Rule(nut_foot::CHECK, nut_foot::check),
    Rule(air_before_nut::CHECK, air_before_nut::check),
    Rule(zero_fret_press::CHECK, zero_fret_press::check),
    Rule(break_over_nut::CHECK, break_over_nut::check),
    Rule(turn_at_nut::CHECK, turn_at_nut::check),
    Rule(break_over_saddle::CHECK, break_over_saddle::check),
    Rule(string_gap_at_saddle::CHECK, string_gap_at_saddle::check),
    Rule(string_load::CHECK, string_load::check),
    Rule(saddle_on_lid::CHECK, saddle_on_lid::check),
    Rule(saddle_across::CHECK, saddle_across::check),
    Rule(saddle_over_opening::CHECK, saddle_over_opening::check),
    Rule(saddle_before_tail::CHECK, saddle_before_tail::check),
    Rule(saddle_height::CHECK, saddle_height::check),
    Rule(saddle_slender::CHECK, saddle_slender::check),
    Rule(saddle_stands::CHECK, saddle_stands::check),
    Rule(saddle_drift::CHECK, saddle_drift::check),
    Rule(compensation_room::CHECK, compensation_room::check),
    Rule(tail_on_box::CHECK, tail_on_box::check),
    Rule(tail_clears_neck::CHECK, tail_clears_neck::check),
    Rule(tail_bore_edge::CHECK, tail_bore_edge::check),
    Rule(tail_bore_gap::CHECK, tail_bore_gap::check),
    Rule(tail_screw_clear::CHECK, tail_screw_clear::check),
    Rule(tail_screws_in_wall::CHECK, tail_screws_in_wall::check),
    Rule(ball_seat::CHECK, ball_seat::check),
    Rule(ball_fits::CHECK, ball_fits::check),
    Rule(ball_held::CHECK, ball_held::check),
    Rule(string_bore::CHECK, string_bore::check),
    Rule(post_distance::CHECK, post_distance::check),
    Rule(string_past_posts::CHECK, string_past_posts::check),
    Rule(tuner_edge::CHECK, tuner_edge::check),
    Rule(tuner_gap::CHECK, tuner_gap::check),
    Rule(tuner_bodies::CHECK, tuner_bodies::check),
    Rule(tuner_buttons::CHECK, tuner_buttons::check),
    Rule(button_reach::CHECK, button_reach::check),
    Rule(tuner_reach::CHECK, tuner_reach::check),
    Rule(free_of_buzz::CHECK, free_of_buzz::check),
    Rule(neck_load::CHECK, neck_load::check),
    Rule(neck_relief::CHECK, neck_relief::check),
    Rule(neck_stress::CHECK, neck_stress::check),
    Rule(slot_floor::CHECK, slot_floor::check),
    Rule(tongue_thickness::CHECK, tongue_thickness::check),
    Rule(tongue_under_lid::CHECK, tongue_under_lid::check),
    Rule(tongue_above_bottom::CHECK, tongue_above_bottom::check),
    Rule(heel_reach::CHECK, heel_reach::check),
    Rule(heel_glue::CHECK, heel_glue::check),
    Rule(heel_in_box::CHECK, heel_in_box::check),
    Rule(lid_sink::CHECK, lid_sink::check),
    Rule(opening_edge::CHECK, opening_edge::check),
    Rule(opening_gap::CHECK, opening_gap::check),
    Rule(opening_clear::CHECK, opening_clear::check),
    Rule(sound_hole_open::CHECK, sound_hole_open::check),
    Rule(hardware_clear::CHECK, hardware_clear::check),
    Rule(bushing_reach::CHECK, bushing_reach::check),
    Rule(print_walls::CHECK, print_walls::check),
    Rule(print_overhang::CHECK, print_overhang::check),
    Rule(print_layer::CHECK, print_layer::check),
    Rule(part_made::CHECK, part_made::check),
    Rule(parts_touch::CHECK, parts_touch::check),
    Rule(parts_clear::CHECK, parts_clear::check),
    Rule(drawing_clean::CHECK, drawing_clean::check),
    Rule(bed_room::CHECK, bed_room::check),
    Rule(bit_enters::CHECK, bit_enters::check),
    Rule(mate_enters::CHECK, mate_enters::check),
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

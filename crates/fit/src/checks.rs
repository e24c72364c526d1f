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
struct Rule {
    check: Check,
    make: fn(&Subject) -> Vec<Finding>,
    is_deep: bool,
}

impl Rule {
    /// A check of the plan alone: where everything goes and how it plays.
    const fn of_plan(check: Check, make: fn(&Subject) -> Vec<Finding>) -> Self {
        Self { check, make, is_deep: false }
    }

    /// A check that looks at the parts, at how solids meet or at instruments drawn by lot, which takes many times as long.
    const fn deep(check: Check, make: fn(&Subject) -> Vec<Finding>) -> Self {
        Self { check, make, is_deep: true }
    }
}

/// Every check, in the order of the bench.
const RULES: &[Rule] = &[
    Rule::of_plan(plank_length::CHECK, plank_length::check),
    Rule::of_plan(plank_width::CHECK, plank_width::check),
    Rule::of_plan(plank_thickness::CHECK, plank_thickness::check),
    Rule::of_plan(frets_reached::CHECK, frets_reached::check),
    Rule::of_plan(zero_fret_step::CHECK, zero_fret_step::check),
    Rule::of_plan(wire_gap::CHECK, wire_gap::check),
    Rule::of_plan(wire_seat::CHECK, wire_seat::check),
    Rule::of_plan(wire_bend::CHECK, wire_bend::check),
    Rule::of_plan(string_edge::CHECK, string_edge::check),
    Rule::of_plan(string_gap::CHECK, string_gap::check),
    Rule::of_plan(nut_wall::CHECK, nut_wall::check),
    Rule::of_plan(nut_slot_depth::CHECK, nut_slot_depth::check),
    Rule::of_plan(nut_foot::CHECK, nut_foot::check),
    Rule::of_plan(air_before_nut::CHECK, air_before_nut::check),
    Rule::of_plan(zero_fret_press::CHECK, zero_fret_press::check),
    Rule::of_plan(break_over_nut::CHECK, break_over_nut::check),
    Rule::of_plan(turn_at_nut::CHECK, turn_at_nut::check),
    Rule::of_plan(break_over_saddle::CHECK, break_over_saddle::check),
    Rule::of_plan(string_gap_at_saddle::CHECK, string_gap_at_saddle::check),
    Rule::of_plan(string_load::CHECK, string_load::check),
    Rule::of_plan(saddle_on_lid::CHECK, saddle_on_lid::check),
    Rule::of_plan(saddle_across::CHECK, saddle_across::check),
    Rule::of_plan(saddle_over_opening::CHECK, saddle_over_opening::check),
    Rule::of_plan(saddle_before_tail::CHECK, saddle_before_tail::check),
    Rule::of_plan(saddle_height::CHECK, saddle_height::check),
    Rule::of_plan(saddle_slender::CHECK, saddle_slender::check),
    Rule::of_plan(saddle_stands::CHECK, saddle_stands::check),
    Rule::of_plan(saddle_drift::CHECK, saddle_drift::check),
    Rule::of_plan(compensation_room::CHECK, compensation_room::check),
    Rule::of_plan(tail_on_box::CHECK, tail_on_box::check),
    Rule::of_plan(tail_clears_neck::CHECK, tail_clears_neck::check),
    Rule::of_plan(tail_bore_edge::CHECK, tail_bore_edge::check),
    Rule::of_plan(tail_bore_gap::CHECK, tail_bore_gap::check),
    Rule::of_plan(tail_screw_clear::CHECK, tail_screw_clear::check),
    Rule::of_plan(tail_screws_in_wall::CHECK, tail_screws_in_wall::check),
    Rule::of_plan(ball_seat::CHECK, ball_seat::check),
    Rule::of_plan(ball_fits::CHECK, ball_fits::check),
    Rule::of_plan(ball_held::CHECK, ball_held::check),
    Rule::of_plan(string_bore::CHECK, string_bore::check),
    Rule::of_plan(post_distance::CHECK, post_distance::check),
    Rule::of_plan(string_past_posts::CHECK, string_past_posts::check),
    Rule::of_plan(tuner_edge::CHECK, tuner_edge::check),
    Rule::of_plan(tuner_gap::CHECK, tuner_gap::check),
    Rule::of_plan(tuner_bodies::CHECK, tuner_bodies::check),
    Rule::of_plan(tuner_buttons::CHECK, tuner_buttons::check),
    Rule::of_plan(button_reach::CHECK, button_reach::check),
    Rule::of_plan(tuner_reach::CHECK, tuner_reach::check),
    Rule::deep(free_of_buzz::CHECK, free_of_buzz::check),
    Rule::of_plan(neck_load::CHECK, neck_load::check),
    Rule::of_plan(neck_relief::CHECK, neck_relief::check),
    Rule::of_plan(neck_stress::CHECK, neck_stress::check),
    Rule::of_plan(slot_floor::CHECK, slot_floor::check),
    Rule::of_plan(tongue_thickness::CHECK, tongue_thickness::check),
    Rule::of_plan(tongue_under_lid::CHECK, tongue_under_lid::check),
    Rule::of_plan(tongue_above_bottom::CHECK, tongue_above_bottom::check),
    Rule::of_plan(heel_reach::CHECK, heel_reach::check),
    Rule::of_plan(heel_glue::CHECK, heel_glue::check),
    Rule::of_plan(heel_in_box::CHECK, heel_in_box::check),
    Rule::of_plan(lid_sink::CHECK, lid_sink::check),
    Rule::of_plan(opening_edge::CHECK, opening_edge::check),
    Rule::of_plan(opening_gap::CHECK, opening_gap::check),
    Rule::of_plan(opening_clear::CHECK, opening_clear::check),
    Rule::of_plan(sound_hole_open::CHECK, sound_hole_open::check),
    Rule::of_plan(hardware_clear::CHECK, hardware_clear::check),
    Rule::of_plan(bushing_reach::CHECK, bushing_reach::check),
    Rule::of_plan(print_walls::CHECK, print_walls::check),
    Rule::of_plan(print_overhang::CHECK, print_overhang::check),
    Rule::of_plan(print_layer::CHECK, print_layer::check),
    Rule::deep(part_made::CHECK, part_made::check),
    Rule::deep(parts_touch::CHECK, parts_touch::check),
    Rule::deep(parts_clear::CHECK, parts_clear::check),
    Rule::deep(drawing_clean::CHECK, drawing_clean::check),
    Rule::deep(bed_room::CHECK, bed_room::check),
    Rule::deep(bit_enters::CHECK, bit_enters::check),
    Rule::deep(mate_enters::CHECK, mate_enters::check),
];

/// Every check, in the order of the bench.
pub fn checks() -> impl Iterator<Item = &'static Check> {
    RULES.iter().map(|rule| &rule.check)
}

/// What every check finds, those that hold included.
#[must_use]
pub fn findings(subject: &Subject) -> Vec<Finding> {
    RULES.iter().flat_map(|rule| (rule.make)(subject)).collect()
}

/// What one check finds, by its id; nothing where no check is called so. Costs no more than that check looks at.
#[must_use]
pub fn findings_of(id: &str, subject: &Subject) -> Vec<Finding> {
    RULES.iter().filter(|rule| rule.check.id == id).flat_map(|rule| (rule.make)(subject)).collect()
}

/// What those checks find that look at the plan alone: at neither parts nor solids nor instruments drawn by lot. For who goes
/// through many plans, and makes the rest of the checks on the few that are left.
#[must_use]
pub fn findings_of_plan(subject: &Subject) -> Vec<Finding> {
    RULES.iter().filter(|rule| !rule.is_deep).flat_map(|rule| (rule.make)(subject)).collect()
}

#[cfg(test)]
mod tests {
    use layout::playing::Player;
    use spec::Spec;

    use super::*;

    #[test]
    fn a_check_of_the_plan_looks_at_nothing_deeper() {
        let layout = layout::layout(&Spec::default()).expect("the default plan can be laid out");
        let untouched = Subject::new(layout.clone(), Player::default()).effort();
        for rule in RULES {
            let subject = Subject::new(layout.clone(), Player::default());
            let _ = (rule.make)(&subject);
            assert_eq!(
                subject.effort() > untouched,
                rule.is_deep,
                "{} looks no deeper than its line says",
                rule.check.id
            );
        }
    }
}

//! Does an instrument that was made a little off its plan play as the laws of levers and strings say?

use layout::Layout;
use layout::built::{AcrossSaddle, Built, BuiltFault, Deviations, FretDeviation, built};
use layout::playing::{Player, Playing};
use proptest::prelude::*;
use spec::Document;
use units::Length;

const SPECS: [(&str, &str); 8] = [
    ("afternoon-one-string", include_str!("../../../specs/afternoon-one-string.toml")),
    ("kitchen-four-string", include_str!("../../../specs/kitchen-four-string.toml")),
    ("left-hand-six", include_str!("../../../specs/left-hand-six.toml")),
    ("meadow-diatonic", include_str!("../../../specs/meadow-diatonic.toml")),
    ("porch-three-string", include_str!("../../../specs/porch-three-string.toml")),
    ("runaway-low-tail", include_str!("../../../specs/runaway-low-tail.toml")),
    ("travel-short-four", include_str!("../../../specs/travel-short-four.toml")),
    ("uneven-wires", include_str!("../../../specs/uneven-wires.toml")),
];

const PORCH: &str = SPECS[4].1;

fn document(text: &str) -> Document {
    Document::parse(text.as_bytes())
}

fn laid_out(document: &Document) -> Layout {
    let (spec, _) = document.read().into_result().unwrap_or_else(|faults| panic!("unsound: {faults:#?}"));
    layout::layout(&spec).unwrap_or_else(|fault| panic!("cannot be laid out: {fault}"))
}

/// The porch instrument with the box square to the neck, so that the closed forms need no angle.
fn porch() -> Layout {
    laid_out(&document(PORCH).with_override("neck.back_angle", "0 deg"))
}

fn made(layout: &Layout, deviations: &Deviations) -> Built {
    built(layout, &Player::default(), deviations).unwrap_or_else(|fault| panic!("{deviations:?}: {fault}"))
}

/// One fret made otherwise.
fn one_fret(index: usize, deviation: FretDeviation) -> Deviations {
    let mut frets = vec![FretDeviation::default(); index + 1];
    frets[index] = deviation;
    Deviations { frets, ..Deviations::default() }
}

fn mm(value: f64) -> Length {
    Length::mm(value)
}

#[test]
fn as_planned_it_plays_as_planned_to_the_last_bit() {
    for (name, text) in SPECS {
        let layout = laid_out(&document(text));
        let playing = Playing::new(layout.clone(), Player { trials: 1, ..Player::default() });
        let buzz = playing.buzz().expect("every one of them has frets");
        for (index, string) in made(&layout, &Deviations::default()).strings.iter().enumerate() {
            let run = &layout.runs()[index];
            assert_eq!(string.line, run.line, "{name}: where string {index} bears");
            assert_eq!(string.action, run.line.action_over(&run.measured_over), "{name}: its action");
            assert_eq!(string.actions, layout.strings()[index].actions, "{name}: its actions");
            assert_eq!(string.cents, playing.tuning()[index].after_cents, "{name}: its errors");
            let drift = playing.drift().strings[index].cents_per_mm;
            assert_eq!(string.drift_cents_per_mm, drift, "{name}: its drift");
            assert_eq!(string.room(), Some(buzz.tightest[index].room), "{name}: its room");
        }
    }
}

/// Holds the change of action under each string against an expected one for each string's setback, in mm.
#[track_caller]
fn check_action(deviations: &Deviations, expected: impl Fn(&Layout, f64) -> f64) {
    let layout = porch();
    let planned = made(&layout, &Deviations::default());
    for (string, planned) in made(&layout, deviations).strings.iter().zip(&planned.strings) {
        let found = (string.action - planned.action).as_mm();
        let expected = expected(&layout, planned.line.saddle_place().as_mm());
        assert!((found - expected).abs() < 2e-4, "{deviations:?}: found {found} mm, expected {expected} mm");
    }
}

/// The lever of the octave between zero fret and crest; a half but for the setback.
fn octave_share(layout: &Layout, crest_mm: f64) -> f64 {
    layout.spec().scale.length.as_mm() / 2.0 / crest_mm
}

#[test]
fn a_saddle_raised_raises_the_action_over_the_octave_by_half() {
    let raised = Deviations { saddle_height: AcrossSaddle::even(mm(0.4)), ..Deviations::default() };
    check_action(&raised, |layout, crest| 0.4 * octave_share(layout, crest));
}
#[test]
fn a_zero_fret_lowered_lowers_it_by_half() {
    let lowered = Deviations { zero_fret_height: mm(-0.3), ..Deviations::default() };
    check_action(&lowered, |layout, crest| -0.3 * (1.0 - octave_share(layout, crest)));
}
#[test]
fn a_high_octave_fret_takes_all_of_its_height_away() {
    let octave = porch().frets().frets.iter().position(|fret| fret.semitone == 12).expect("an octave fret");
    check_action(&one_fret(octave, FretDeviation { height: mm(0.2), place: mm(0.0) }), |_, _| -0.2);
}
#[test]
fn another_fret_changes_nothing_there() {
    check_action(&one_fret(3, FretDeviation { height: mm(0.2), place: mm(0.1) }), |_, _| 0.0);
}
#[test]
fn a_neck_set_forward_lifts_the_saddle_as_a_lever_about_the_box_end() {
    // The zero fret rises by h about the edge at e: seen from the neck, the crest at s rises by h (s - e)/e.
    let forward = Deviations { neck_set: mm(0.5), ..Deviations::default() };
    check_action(&forward, |layout, crest| {
        let edge = layout.frame().neck_end_x.as_mm();
        0.5 * (crest - edge) / edge * octave_share(layout, crest)
    });
}

#[test]
fn a_tilted_saddle_raises_each_string_by_its_place_across() {
    let layout = porch();
    let tilted = AcrossSaddle { bass: mm(-0.2), treble: mm(0.4) };
    let found = made(&layout, &Deviations { saddle_height: tilted, ..Deviations::default() });
    let planned = made(&layout, &Deviations::default());
    let crests = &layout.saddle().crests;
    let (bass, treble) = (crests[0].across, crests[2].across);
    for (index, (string, planned)) in found.strings.iter().zip(&planned.strings).enumerate() {
        let rise = (string.line.saddle_height - planned.line.saddle_height).as_mm();
        let expected = -0.2 + 0.6 * ((crests[index].across - bass) / (treble - bass));
        assert!((rise - expected).abs() < 1e-12, "string {index}: found {rise} mm, expected {expected} mm");
    }
}

#[test]
fn a_fret_moved_changes_its_pitch_by_its_share_of_the_rest() {
    // (1200/ln 2) d/(sounding length), sharp toward the saddle; the stretch changes with it by far less.
    let layout = porch();
    let planned = made(&layout, &Deviations::default());
    for fret in [0, 4, 11, 14] {
        let moved = made(&layout, &one_fret(fret, FretDeviation { height: mm(0.0), place: mm(0.05) }));
        for (string, planned) in moved.strings.iter().zip(&planned.strings) {
            let sounding = planned.line.saddle_place() - layout.frets().frets[fret].x;
            let expected = 1200.0 / std::f64::consts::LN_2 * (mm(0.05) / sounding);
            let found = string.cents[fret] - planned.cents[fret];
            assert!(
                (found / expected - 1.0).abs() < 0.03,
                "fret {fret}: found {found}, expected {expected} cents"
            );
            let others =
                string.cents.iter().zip(&planned.cents).enumerate().filter(|(other, _)| *other != fret);
            assert!(
                others.into_iter().all(|(_, (found, planned))| found == planned),
                "fret {fret} alone changes"
            );
        }
    }
}

#[test]
fn a_crest_on_the_saddle_line_is_as_out_of_tune_as_playing_says() {
    let layout = laid_out(&document(SPECS[0].1).with_override("neck.back_angle", "0 deg"));
    let playing = Playing::new(layout.clone(), Player { trials: 1, ..Player::default() });
    let tuning = &playing.tuning()[0];
    let forward = Deviations { saddle_place: AcrossSaddle::even(-tuning.setback), ..Deviations::default() };
    for (found, expected) in made(&layout, &forward).strings[0].cents.iter().zip(&tuning.before_cents) {
        assert!((found - expected).abs() < 1e-9, "found {found}, expected {expected} cents");
    }
}

/// A tail made otherwise is the tail of another plan: nothing else of that plan depends on it.
#[track_caller]
fn check_tail(key: &str, planned_mm: f64, by_mm: f64, deviations: &Deviations) {
    let here = document(PORCH).with_override(key, &format!("{planned_mm} mm"));
    let there = here.with_override(key, &format!("{} mm", planned_mm + by_mm));
    let found = made(&laid_out(&here), deviations);
    let expected = Playing::new(laid_out(&there), Player { trials: 1, ..Player::default() });
    for (string, drift) in found.strings.iter().zip(&expected.drift().strings) {
        let (found, expected) = (string.drift_cents_per_mm, drift.cents_per_mm);
        assert!((found - expected).abs() < 1e-9, "{key}: found {found}, expected {expected} cents per mm");
    }
}

#[test]
fn a_tail_made_higher_drifts_as_a_plan_with_a_higher_tail() {
    check_tail("tail.hole_height", 4.0, 0.7, &Deviations { tail_height: mm(0.7), ..Deviations::default() });
}
#[test]
fn a_tail_made_farther_away_drifts_as_a_plan_with_a_farther_tail() {
    check_tail("tail.distance", 30.0, 1.5, &Deviations { tail_distance: mm(1.5), ..Deviations::default() });
}

#[test]
fn a_left_handed_instrument_is_as_far_off_as_its_mirror() {
    let [right, left] = ["right", "left"].map(|handed| {
        let layout = laid_out(&document(PORCH).with_override("handed", handed));
        let tilted = AcrossSaddle { bass: mm(-0.2), treble: mm(0.4) };
        made(&layout, &Deviations { saddle_height: tilted, saddle_place: tilted, ..Deviations::default() })
    });
    assert_eq!(right, left, "bass stays bass");
}

#[test]
fn a_thicker_string_pulls_harder_and_bends_the_neck_further() {
    let layout = porch();
    let planned = made(&layout, &Deviations::default());
    let by = mm(0.02);
    let thicker = Deviations { string_diameters: vec![by; 3], ..Deviations::default() };
    // Tension goes with the square of the diameter, and the bow with the tension of all strings.
    let pull = |more: Length| -> f64 {
        let string_pull = |string: &layout::TunedString| {
            let (tension, diameter) =
                (string.model.nominal.tension(), string.model.nominal.body().diameter());
            let ratio = (diameter + more) / diameter;
            tension.as_newtons() * ratio * ratio
        };
        layout.tuned().iter().map(string_pull).sum()
    };
    let lower = layout.bow().at(layout.runs()[0].measured_over.place) * (pull(by) / pull(mm(0.0)) - 1.0);
    assert!(lower > mm(0.001), "the neck bends enough to see: {lower}");
    for (string, planned) in made(&layout, &thicker).strings.iter().zip(&planned.strings) {
        let found = (string.action - planned.action - lower).as_mm();
        assert!(found.abs() < 1e-9, "the octave lies lower by {lower}, off by {found} mm");
        assert!(string.cents != planned.cents, "a thicker string is stiffer and pulled harder");
    }
}

#[test]
fn what_cannot_be_strung_is_said() {
    let layout = porch();
    for deviations in [
        one_fret(5, FretDeviation { height: mm(0.0), place: mm(100.0) }),
        Deviations { saddle_place: AcrossSaddle::even(mm(-500.0)), ..Deviations::default() },
        Deviations { string_diameters: vec![mm(-3.0)], ..Deviations::default() },
    ] {
        let found = built(&layout, &Player::default(), &deviations);
        assert!(matches!(found, Err(BuiltFault::CannotBeStrung(_))), "{deviations:?} gave {found:?}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, failure_persistence: None, ..ProptestConfig::default() })]

    /// Small errors add up, and half an error does half: what a fit by finite differences stands on.
    #[test]
    fn small_errors_act_in_proportion(
        neck_mm in -0.4..0.4_f64, zero_fret_mm in -0.05..0.05_f64, bass_mm in -0.2..0.2_f64,
        treble_mm in -0.2..0.2_f64, place_mm in -0.3..0.3_f64, fret_mm in -0.1..0.1_f64,
    ) {
        let layout = porch();
        let scaled = |by: f64| {
            let deviations = Deviations {
                neck_set: mm(neck_mm * by),
                zero_fret_height: mm(zero_fret_mm * by),
                saddle_height: AcrossSaddle { bass: mm(bass_mm * by), treble: mm(treble_mm * by) },
                saddle_place: AcrossSaddle::even(mm(place_mm * by)),
                ..one_fret(7, FretDeviation { height: mm(fret_mm * by), place: mm(fret_mm * by) })
            };
            made(&layout, &deviations)
        };
        let [none, half, whole] = [0.0, 0.5, 1.0].map(scaled);
        for ((none, half), whole) in none.strings.iter().zip(&half.strings).zip(&whole.strings) {
            let bent = (none.action + whole.action) / 2.0 - half.action;
            prop_assert!(bent.abs() < mm(2e-4), "the action is off the straight line by {bent}");
            for ((none, half), whole) in none.cents.iter().zip(&half.cents).zip(&whole.cents) {
                let bent = (none + whole) / 2.0 - half;
                prop_assert!(bent.abs() < 0.05, "the error is off the straight line by {bent} cents");
            }
        }
    }
}

//! Where the best plan is known in closed form, is it found?

use boxneck::explore::{Method, measure_named};
use boxneck::layout::playing::{Player, Playing};
use boxneck::units::math;

use super::{Words, answered};

/// A plan of round numbers: the neck is parallel to the lid, so that the wall is square to the strings.
fn plan(extra: &str) -> String {
    format!(
        "units = \"mm\"\n[scale]\nlength = 640\nfrets = 12\n[neck]\nback_angle = 0\n[frets]\nwire = 1.2\n[saddle]\n\
         from_tail_end = 60\n[box]\nlength = 250\n{extra}"
    )
}

/// Frets whose wire and a millimetre of free neck lie before the heel, by the inverse of the frets' places.
fn frets_before(front: f64, scale_length: f64) -> f64 {
    let last = front - 1.2 / 2.0 - 1.0;
    (12.0 * math::log2(scale_length / (scale_length - last)) + 1e-9).floor()
}

#[test]
fn the_most_frets_are_those_before_the_heel() {
    let words = Words {
        vary: &["heel.reach=10 mm..60 mm:2.5 mm", "scale.length=600 mm..680 mm:5 mm"],
        want: &["fails<=100"],
        best: &["wrapped-frets"],
        ..Words::default()
    };
    let answer = answered(&plan(""), words);
    assert_eq!(answer.plans.len(), 21 * 17, "every combination");
    let frets = measure_named("wrapped-frets").expect("a measure");
    let mut most = 0.0_f64;
    for plan in &answer.plans {
        let reach = 10.0 + 2.5 * f64::from(plan.places[0]);
        let scale_length = 600.0 + 5.0 * f64::from(plan.places[1]);
        let expected = frets_before(scale_length - (250.0 - 60.0) - reach, scale_length);
        assert_eq!(
            answer.value(plan, frets),
            Some(expected),
            "heel {reach} mm, scale length {scale_length} mm"
        );
        most = most.max(expected);
    }
    let best = &answer.told[0];
    assert_eq!(best.value(frets), Some(most), "the best has the most of all");
    let text = best.document.to_text().expect("a document");
    assert!(text.contains(&format!("frets = {most}")), "and its document asks for them:\n{text}");
}

/// A single plain string over a floating saddle.
fn one_string(extra: &str) -> String {
    format!("{}[[strings]]\npitch = \"G3\"\ndiameter = 0.43\n", plan(extra))
}

#[test]
fn the_tail_of_least_drift_is_that_of_the_closed_form() {
    let words = Words {
        vary: &["tail.hole_height=1 mm..9 mm:0.1 mm"],
        want: &["fails<=100"],
        best: &["drift"],
        ..Words::default()
    };
    let document = one_string("");
    let answer = answered(&document, words);
    let best = &answer.told[0];
    let (spec, _) = best.document.read().into_result().expect("a sound document");
    let playing = Playing::new(boxneck::layout::layout(&spec).expect("laid out"), Player::default());
    let (_, height) = playing.drift().strings[0].break_even.expect("a tail angle at which nothing drifts");
    let height = height.as_mm();
    assert!((1.5..8.5).contains(&height), "a height of {height} mm on the edge would be no test");
    let apart = (spec.tail.hole_height.as_mm() - height).abs();
    assert!(apart <= 0.05 + 1e-6, "found {}, the closed form says {height} mm", spec.tail.hole_height);
}

#[test]
fn a_swarm_finds_what_the_grid_finds() {
    let axes: &[&str] = &[
        "tail.hole_height=1 mm..9 mm:0.1 mm",
        "tail.distance=20 mm..45 mm:0.5 mm",
        "heel.reach=10 mm..60 mm:2.5 mm",
        "scale.length=600 mm..680 mm:5 mm",
    ];
    let best = ["wrapped-frets", "drift"];
    let document = one_string("");
    let words =
        Words { vary: axes, want: &["fails<=100"], best: &best, plans: Some(6000), ..Words::default() };
    let swarm = answered(&document, words);
    assert!(matches!(swarm.method, Method::Swarm { .. }), "one and a half million combinations are too many");
    assert!(swarm.plans.len() <= 6000, "{} plans, no more than allowed", swarm.plans.len());
    let [frets, drift] = best.map(|name| measure_named(name).expect("a measure"));
    // The most frets are known in closed form; a drift of nearly nothing is within reach of the tail.
    let most = frets_before(680.0 - 190.0 - 10.0, 680.0);
    assert_eq!(swarm.told[0].value(frets), Some(most), "the most frets");
    let found = swarm.told[0].value(drift).expect("a drift");
    assert!(found < 0.1, "the best of them drifts by {found} cents");
}

#[test]
fn the_lowest_action_of_uneven_wires_is_that_of_the_draw() {
    let document = super::of_specs("uneven-wires");
    let words = Words {
        vary: &["action.height=6 mm..10 mm:0.05 mm"],
        want: &["free-of-buzz>=95 %", "fails<=100"],
        best: &["action"],
        ..Words::default()
    };
    let answer = answered(&document, words);
    let best = &answer.told[0];
    assert!(best.holds(), "some action frees 19 of 20");
    let [action, safe] = ["action", "safe-action"].map(|name| measure_named(name).expect("a measure"));
    let (found, needed) = (best.value(action).expect("told"), best.value(safe).expect("told"));
    // Room over a fret is linear in the saddle's height: the draw itself says what is needed.
    assert!(
        found >= needed - 1e-9 && found < needed + 0.05 + 1e-9,
        "found {found} mm, the draw needs {needed} mm"
    );
}

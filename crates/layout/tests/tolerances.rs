//! Do many instruments of one plan differ as their tolerances say they must?

use std::sync::LazyLock;

use layout::Layout;
use layout::built::BuiltFault;
use layout::playing::{Player, Playing};
use layout::tolerances::{Dimension, Outcome, Spread, ToleranceReport, Trial, report, trial};
use spec::Document;

const PORCH: &str = include_str!("../../../specs/porch-three-string.toml");

/// The porch instrument with no tolerances at all but these; keys and values in mm.
fn laid_out(held_to: &[(&str, f64)]) -> Layout {
    let plan = Document::parse(PORCH.as_bytes()).with_override("neck.back_angle", "0 deg");
    let perfect =
        Dimension::ALL.into_iter().fold(plan, |plan, dimension| plan.with_override(dimension.key(), "0 mm"));
    let held = held_to.iter().fold(perfect, |plan, (key, mm)| plan.with_override(key, &format!("{mm} mm")));
    let (spec, _) = held.read().into_result().unwrap_or_else(|faults| panic!("unsound: {faults:#?}"));
    layout::layout(&spec).unwrap_or_else(|fault| panic!("cannot be laid out: {fault}"))
}

fn tried(layout: &Layout, count: u64) -> ToleranceReport {
    let player = Player::default();
    let trials: Result<Vec<Trial>, BuiltFault> =
        (0..count).map(|index| trial(layout, &player, 1, index)).collect();
    let trials = trials.unwrap_or_else(|fault| panic!("{fault}"));
    report(layout, &player, &trials).unwrap_or_else(|fault| panic!("{fault}"))
}

fn spread_of(report: &ToleranceReport, outcome: Outcome) -> &Spread {
    report
        .spreads
        .iter()
        .find(|spread| spread.outcome == outcome)
        .expect("a plan with frets has every outcome")
}

/// Everything that moves the action, by a small part of what hands are good for.
const SMALL: [(&str, f64); 7] = [
    ("tolerances.neck_set", 0.1),
    ("tolerances.zero_fret_height", 0.02),
    ("frets.height_scatter", 0.01),
    ("tolerances.fret_place", 0.02),
    ("tolerances.saddle_height", 0.04),
    ("tolerances.saddle_place", 0.1),
    ("tolerances.tail_height", 0.1),
];

/// One draw for the questions that need many instruments.
static MANY: LazyLock<ToleranceReport> = LazyLock::new(|| tried(&laid_out(&SMALL), 3000));

#[test]
fn the_action_spreads_as_its_levers_say() {
    let layout = laid_out(&SMALL);
    let spread = spread_of(&MANY, Outcome::Action);

    // Closed form, strings on a lever from zero fret to crest: the octave lies half way, but for the setback.
    let strings = layout.runs().len() as f64;
    let mean = |of: &dyn Fn(usize) -> f64| (0..layout.runs().len()).map(of).sum::<f64>() / strings;
    let crest = |string: usize| layout.runs()[string].line.saddle_place().as_mm();
    let octave = layout.spec().scale.length.as_mm() / 2.0;
    let edge = layout.frame().neck_end_x.as_mm();
    let crests = &layout.saddle().crests;
    let across =
        |string: usize| (crests[string].across - crests[0].across) / (crests[2].across - crests[0].across);
    let neck_set = 0.1 * mean(&|string| (crest(string) - edge) / edge * octave / crest(string));
    let zero_fret = 0.02 * mean(&|string| 1.0 - octave / crest(string));
    let bass = 0.04 * mean(&|string| (1.0 - across(string)) * octave / crest(string));
    let treble = 0.04 * mean(&|string| across(string) * octave / crest(string));
    let octave_fret = 0.01;
    let squares = [neck_set, zero_fret, bass, treble, octave_fret].map(|deviation| deviation * deviation);
    let expected = squares.iter().sum::<f64>().sqrt();

    let found = spread.first_order_deviation;
    assert!((found / expected - 1.0).abs() < 0.002, "first order {found} mm, expected {expected} mm");
    // A deviation counted on n strays by 1/sqrt(2 n) of itself, 1.3 % here.
    let found = spread.deviation;
    assert!((found / expected - 1.0).abs() < 0.03, "counted {found} mm, expected {expected} mm");
    assert!((spread.mean - spread.planned).abs() < 4.0 * expected / 3000.0_f64.sqrt(), "found {spread:?}");
    // 5 % and 95 % of a normal spread lie 1.645 deviations out (tables, from memory).
    for (found, expected) in [(spread.low, -1.645 * expected), (spread.high, 1.645 * expected)] {
        let found = found - spread.planned;
        assert!(
            (found / expected - 1.0).abs() < 0.06,
            "quantile {found} mm from plan, expected {expected} mm"
        );
    }
}

#[test]
fn where_physics_is_linear_both_kinds_of_share_agree() {
    let spread = spread_of(&MANY, Outcome::Action);
    let (mut whole, mut first_order) = (0.0, 0.0);
    for cause in &spread.causes {
        assert!((cause.share - cause.first_order_share).abs() < 0.04, "they part in {cause:?}");
        whole += cause.share;
        first_order += cause.first_order_share;
    }
    assert!((whole - 1.0).abs() < 0.06, "shares of a sum add up to {whole}");
    assert!((first_order - 1.0).abs() < 1e-12, "first orders add up to {first_order}");
    assert!(spread.causes.is_sorted_by(|a, b| a.share >= b.share), "ranked: {:?}", spread.causes);
}

#[test]
fn uneven_frets_alone_buzz_as_often_as_playing_says() {
    let layout = laid_out(&[("frets.height_scatter", 0.06)]);
    let player = Player { trials: 2000, ..Player::default() };
    let playing = Playing::new(layout.clone(), player);
    let expected = playing.buzz().expect("a plan with frets").share_free;
    let found = tried(&layout, 600).free_of_buzz.expect("a plan with frets");
    assert!((0.02..0.98).contains(&expected), "a share of {expected} would test nothing");
    let error = (expected * (1.0 - expected) * (1.0 / 600.0 + 1.0 / 2000.0)).sqrt();
    assert!((found - expected).abs() < 4.0 * error, "found {found}, playing says {expected}, within {error}");
}

#[test]
fn the_worst_of_many_errors_is_worse_than_its_slopes_know() {
    // Every fret is misplaced: the worst of them is rarely the one that is worst on the plan, whose slope is all that the first
    // order sees.
    let report = tried(&laid_out(&[("tolerances.fret_place", 0.25)]), 400);
    let worst = spread_of(&report, Outcome::WorstCents);
    assert!(
        worst.mean > worst.planned + 3.0 * worst.deviation / 20.0,
        "errors do not make it better: {worst:?}"
    );
    let cause = worst.causes[0];
    assert_eq!(cause.dimension, Dimension::FretPlaces, "nothing else strays: {worst:?}");
    // 400 pairs: the share strays by about a fourteenth.
    assert!((cause.share - 1.0).abs() < 0.3, "all of the spread is theirs: {cause:?}");
}

#[test]
fn with_hand_tools_the_tails_height_spreads_the_drift_and_the_necks_set_the_action() {
    // The levers: half of 0.3 mm of saddle at each of two ends, the whole of 0.06 mm of fret, and (s - e)/(2 e) of 0.8 mm of neck.
    let plan = Document::parse(PORCH.as_bytes());
    let (spec, _) = plan.read().into_result().unwrap_or_else(|faults| panic!("unsound: {faults:#?}"));
    let report = tried(&layout::layout(&spec).unwrap_or_else(|fault| panic!("{fault}")), 300);
    assert_eq!(report.spreads.len(), Outcome::ALL.len(), "every outcome is told");
    assert_eq!(
        spread_of(&report, Outcome::Action).causes[0].dimension,
        Dimension::NeckSet,
        "the commonest fault"
    );
    assert_eq!(
        spread_of(&report, Outcome::WorstDrift).causes[0].dimension,
        Dimension::TailHeight,
        "the fall behind"
    );
    assert!(report.care.is_sorted_by(|a, b| a.mean_share >= b.mean_share), "ranked: {:?}", report.care);
}

#[test]
fn what_is_held_perfectly_spreads_nothing() {
    let report = tried(&laid_out(&[]), 20);
    for spread in &report.spreads {
        assert_eq!([spread.deviation, spread.first_order_deviation], [0.0, 0.0], "{spread:?}");
        assert_eq!([spread.low, spread.high], [spread.planned; 2], "{spread:?}");
        assert!(
            spread.causes.iter().all(|cause| cause.share == 0.0 && cause.first_order_share == 0.0),
            "{spread:?}"
        );
    }
    let one = tried(&laid_out(&[("tolerances.tail_height", 0.5)]), 40);
    let drift = spread_of(&one, Outcome::WorstDrift);
    assert!(drift.deviation > 0.0, "the tail is not where it should be: {drift:?}");
    assert_eq!(spread_of(&one, Outcome::Action).deviation, 0.0, "and the action does not ask for the tail");
    assert_eq!(one.care[0].dimension, Dimension::TailHeight, "the only thing to take care with");
}

#[test]
fn a_trial_depends_on_seed_and_index_alone() {
    let layout = laid_out(&SMALL);
    let of = |seed, index| trial(&layout, &Player::default(), seed, index).expect("can be strung").outcomes;
    assert_eq!(of(1, 7), of(1, 7), "the same question has the same answer");
    assert_ne!(of(1, 7), of(1, 8), "another instrument is another instrument");
    assert_ne!(of(1, 7), of(2, 7), "under another seed as well");
}

#[test]
fn tolerances_wider_than_the_frets_are_apart_are_told() {
    let wide = Document::parse(
        b"[scale]\nlength = \"200 mm\"\nfrets = 36\n[saddle]\nfrom_tail_end = \"80 mm\"\n[box]\nlength = \"100 mm\"\nholes = []\n\
        [heel]\nreach = 0\n[frets]\nkind = \"seated wire\"\nwire = \"0.4 mm\"\n[tolerances]\nfret_place = \"1 mm\"\n",
    );
    let (spec, _) = wide.read().into_result().unwrap_or_else(|faults| panic!("unsound: {faults:#?}"));
    let layout = layout::layout(&spec).unwrap_or_else(|fault| panic!("cannot be laid out: {fault}"));
    let found = (0..1000).map(|index| trial(&layout, &Player::default(), 1, index)).find(Result::is_err);
    assert!(matches!(found, Some(Err(BuiltFault::CannotBeStrung(_)))), "found {found:?}");
}

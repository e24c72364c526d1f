//! Does the estimate know how well it knows, and does the work order make a badly made instrument play?

#[path = "setup/bench.rs"]
mod bench;

use bench::{Bench, PORCH, UNEVEN};
use layout::setup::{IN_TUNE_CENTS, Unknown, Work, work_order};
use layout::tolerances::Dimension;
use mechanics::random::Random;
use spec::measured::{Measured, Reading, ReadingOf};

/// How many instruments are made by lot.
const CASES: u64 = 1000;

#[test]
fn what_is_estimated_lies_within_its_uncertainty_as_often_as_is_said() {
    let bench = Bench::new(PORCH);
    // Within one deviation, and within two.
    let (mut within, mut count, mut sharpness) = ([0.0, 0.0], 0.0, 0.0);
    for index in 0..150 {
        let mut random = Random::stream(7, index);
        let truth = bench.made(&mut random);
        let found = bench.estimated(&bench.measured(&truth, &mut random));
        for (fret, made) in truth.frets.iter().enumerate() {
            let unknown = Unknown::Part { dimension: Dimension::FretHeights, number: fret };
            let told =
                found.unknowns.iter().find(|told| told.unknown == unknown).expect("every fret is told");
            let off = (made.height.as_mm() - told.value).abs() / told.error;
            sharpness += told.error / told.expected_error;
            within[0] += f64::from(u8::from(off < 1.0));
            within[1] += f64::from(u8::from(off < 2.0));
            count += 1.0;
        }
    }
    assert!(sharpness / count < 0.6, "the readings tell much of the heights: {}", sharpness / count);
    // The normal distribution's own; heights of one instrument are not independent, so that its 150 instruments count, not its frets.
    for (within, said) in within.into_iter().zip([0.6827, 0.9545]) {
        let share: f64 = within / count;
        assert!((share - said).abs() < 0.03, "{share} of {count} heights, said {said}");
    }
}

#[test]
fn following_the_work_order_frees_every_string_and_brings_it_in_tune() {
    let cases: Vec<(Bench, u64)> = [PORCH, UNEVEN].map(Bench::new).into_iter().zip([0, CASES / 2]).collect();
    let (mut free, mut in_tune, mut octaves, mut buzzed, mut worst_note) = (0, 0, 0, 0, 0);
    let (mut tapped, mut too_high) = (0.0, 0);
    std::thread::scope(|scope| {
        let runs: Vec<_> = cases
            .iter()
            .map(|(bench, first)| {
                scope.spawn(move || {
                    (*first..first + CASES / 2).map(|index| bench.followed(index)).collect::<Vec<_>>()
                })
            })
            .collect();
        for followed in runs.into_iter().flat_map(|run| run.join().expect("no case panics")) {
            tapped += followed.tapped_mm / CASES as f64;
            too_high += u32::from(followed.above_wanted_mm > 0.01);
            buzzed += u32::from(followed.buzzed_before);
            free += u32::from(followed.room_mm >= 0.0);
            in_tune += u32::from(followed.worst_rms_cents <= IN_TUNE_CENTS);
            octaves += u32::from(followed.worst_octave_cents <= 5.0);
            worst_note += u32::from(followed.worst_cents <= 5.0);
        }
    });
    let told = format!(
        "of {CASES}: {buzzed} buzzed; then {free} free, {in_tune} in tune (root mean square), {octaves} at the octave, \
        {worst_note} at every fret; {tapped:.1} mm tapped on average, {too_high} cannot be as low as wanted"
    );
    assert!(buzzed > 300, "there was something to cure: {told}");
    let enough = (CASES * 95 / 100) as u32;
    assert!(free >= enough, "free of buzz: {told}");
    assert!(in_tune >= enough, "every string within 5 cents, root mean square: {told}");
    assert!(octaves >= enough, "every octave within 5 cents: {told}");
}

#[test]
fn a_reading_that_contradicts_the_others_is_named_with_what_it_should_be() {
    let bench = Bench::new(PORCH);
    let mut random = Random::stream(3, 1);
    let truth = bench.made(&mut random);
    let mut measured = bench.measured(&truth, &mut random);
    let blunder = ReadingOf::StringHeight { string: 3, fret: 12 };
    let place = measured.readings.iter().position(|reading| reading.of == blunder).expect("it is measured");
    let right = measured.readings[place].value;
    // Tenths of an inch read as millimetres: the commonest slip at a rule with two scales.
    measured.readings[place].value = right + 1.0;
    let found = bench.estimated(&measured);
    let named: Vec<ReadingOf> = found.contradictions().iter().map(|judged| judged.reading.of).collect();
    assert_eq!(named, [blunder], "that one and no other");
    let judged = found.contradictions()[0];
    assert!(
        (judged.others - right).abs() < 4.0 * units::math::hypot(judged.others_error, 0.05),
        "{judged:?}, it was {right}"
    );
    assert!(judged.normalised > 4.0, "far above: {judged:?}");
}

#[test]
fn nothing_measured_is_the_plan_and_its_tolerances() {
    let bench = Bench::new(PORCH);
    let found = bench.estimated(&Measured::default());
    assert!(found.contradictions().is_empty(), "nothing contradicts nothing");
    for told in &found.unknowns {
        assert_eq!(told.value, 0.0, "as planned: {told:?}");
        assert!((told.error - told.expected_error).abs() < 1e-12, "as sure as the document: {told:?}");
    }
}

#[test]
fn an_instrument_as_planned_asks_for_no_work() {
    // So high that no wire is too high as surely as is wanted though it is measured only so well, with a tail to match.
    let bench = Bench::with(PORCH, &[("action.height", "4 mm"), ("tail.hole_height", "6 mm")]);
    let as_planned = layout::built::Deviations::default();
    let found = bench.estimated(&bench.measured_exactly(&as_planned));
    let order = work_order(&bench.layout, &bench.player, &found).expect("it can be strung");
    let works: Vec<&Work> = order.steps.iter().map(|step| &step.work).collect();
    assert!(works.is_empty(), "it plays as it should: {works:?}");
    assert!(order.is_free() && order.is_in_tune(), "and is said to");
}

#[test]
fn no_wire_is_tapped_deeper_than_its_seat_allows() {
    let bench = Bench::new(UNEVEN);
    let wire = bench.layout.spec().frets.wire.diameter();
    for index in 0..40 {
        let mut random = Random::stream(11, index);
        let truth = bench.made(&mut random);
        let found = bench.estimated(&bench.measured(&truth, &mut random));
        let order = work_order(&bench.layout, &bench.player, &found).expect("it can be worked on");
        for step in &order.steps {
            let Work::TapWires { taps } = &step.work else { continue };
            for (number, tap) in taps {
                let fret = usize::from(*number) - 1;
                let stands = bench.layout.frets().frets[fret].crown + found.deviations.frets[fret].height;
                assert!(stands - *tap >= wire / 2.0, "fret {number} keeps half of its wire: {tap}");
            }
        }
    }
}

#[test]
fn a_buzz_that_is_heard_raises_the_fret_that_it_is_heard_on() {
    let bench = Bench::new(PORCH);
    let of = ReadingOf::Buzz { string: 1, fret: 2, over: Some(4) };
    let found = bench.estimated(&Measured { readings: vec![bench::reading(of, 0.0)] });
    let heights: Vec<f64> = found.deviations.frets.iter().map(|fret| fret.height.as_mm()).collect();
    let highest = heights.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    assert!(heights[3] > 0.02 && heights[3] == highest, "fret 4 stands up: {heights:?}");
    assert!(heights[1] < 0.0, "and fret 2 lies low: {heights:?}");
}

#[test]
fn more_readings_of_one_thing_are_surer() {
    let bench = Bench::new(PORCH);
    let of = ReadingOf::FretHeight { fret: 5 };
    let error = |count: usize| {
        let readings: Vec<Reading> = (0..count).map(|_| bench::reading(of, 1.3)).collect();
        let found = bench.estimated(&Measured { readings });
        let unknown = Unknown::Part { dimension: Dimension::FretHeights, number: 4 };
        found.unknowns.iter().find(|told| told.unknown == unknown).expect("it is there").error
    };
    // Closed form: 1/root of (1/0.08^2 + n/0.03^2).
    for count in [1, 4] {
        let expected = 1.0 / (1.0 / 0.0064 + count as f64 / 0.0009).sqrt();
        assert!(
            (error(count) - expected).abs() < 1e-9,
            "{count}: found {}, expected {expected}",
            error(count)
        );
    }
}

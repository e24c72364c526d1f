//! Are the answers sound: ranked, the same on any number of threads, honest where nothing holds?

use boxneck::explore::{Answer, Condition, Method, measure_named};
use boxneck::export::table;

use super::{Words, answered, of_specs};

/// "With this box and this heel, how do I get 15 wrapped frets?"
const FIFTEEN: Words<'_> =
    Words { vary: &[], want: &["wrapped-frets>=15"], best: &[], lock: &["box", "heel"], plans: None };

/// Too short a scale for its box.
const SHORT: &str = "name = \"Short\"\nunits = \"mm\"\n[scale]\nlength = 560\nfrets = 12\n[heel]\nreach = 30\n[saddle]\n\
                     from_tail_end = 45\n";

fn everything(answer: &Answer) -> (String, String, String) {
    let table = table::write(&answer.table()).expect("a table");
    (answer.to_text(), table, answer.record().to_string())
}

#[test]
fn fifteen_wrapped_frets_out_of_the_box() {
    let answer = answered(SHORT, FIFTEEN);
    assert!(answer.are_suggested, "the keys come from what moves frets");
    assert!(
        answer.axes.iter().all(|axis| !axis.key.starts_with("box") && !axis.key.starts_with("heel")),
        "locked"
    );
    let best = &answer.told[0];
    assert!(best.holds(), "some plan has them:\n{}", answer.to_text());
    let frets = measure_named("wrapped-frets").expect("a measure");
    assert!(best.value(frets).is_some_and(|frets| frets >= 15.0), "fifteen or more");
    let (spec, _) = best.document.read().into_result().expect("a sound document");
    assert_eq!(spec.scale.frets, 15, "the document asks for them");
    let text = best.document.to_text().expect("a document");
    assert!(text.starts_with("name = \"Short\"\nunits = \"mm\"\n"), "the person's own text is kept:\n{text}");
}

#[test]
fn keys_that_cure_what_stands_in_the_way_are_tried_too() {
    // Higher strings want more setback than the saddle has room for.
    let words =
        Words { want: &["free-of-buzz>=95 %"], lock: &["frets"], plans: Some(1000), ..Words::default() };
    let answer = answered(&of_specs("porch-three-string"), words);
    assert!(answer.told[0].holds(), "some plan holds:\n{}", answer.to_text());
    let keys: Vec<&str> = answer.axes.iter().map(|axis| axis.key.as_str()).collect();
    assert!(keys.contains(&"action.height"), "what moves buzz: {keys:?}");
    assert!(keys.iter().any(|key| key.starts_with("saddle.")), "and what makes room for it: {keys:?}");
}

#[test]
fn tail_height_and_saddle_place_that_let_me_intonate() {
    let document = of_specs("runaway-low-tail");
    let words = Words {
        vary: &["tail.hole_height=2 mm..20 mm:0.5 mm", "saddle.from_tail_end=50 mm..80 mm:2 mm"],
        want: &["drift<=5 cents", "error<=8 cents"],
        ..Words::default()
    };
    let answer = answered(&document, words);
    assert!(answer.told[0].holds(), "there are such places:\n{}", answer.to_text());
    let drift = measure_named("drift").expect("a measure");
    for told in &answer.told {
        assert!(told.value(drift).is_some_and(|cents| cents <= 5.0 + 1e-9), "each lets the saddle be slid");
    }
}

#[test]
fn plans_come_in_order_and_each_that_holds_before_each_that_does_not() {
    let words = Words {
        vary: &["tail.hole_height=1 mm..9 mm:0.5 mm", "action.height=2 mm..4 mm:0.2 mm"],
        want: &["drift<=5 cents"],
        best: &["error"],
        ..Words::default()
    };
    let answer = answered(&of_specs("porch-three-string"), words);
    let first_miss = answer.order.iter().position(|place| !answer.plans[*place].holds());
    assert_eq!(
        first_miss,
        Some(answer.holding).filter(|holding| *holding < answer.plans.len()),
        "those that hold come first"
    );
    let error = measure_named("error").expect("a measure");
    let values: Vec<f64> = answer.order[..answer.holding]
        .iter()
        .filter_map(|place| answer.value(&answer.plans[*place], error))
        .collect();
    assert!(values.is_sorted(), "in the order of their errors");
    let mut places = answer.order.clone();
    places.sort_unstable();
    assert!(places.iter().enumerate().all(|(index, place)| index == *place), "each plan once");
}

#[test]
fn threads_change_nothing() {
    let document = of_specs("porch-three-string");
    let grid = Words {
        vary: &["tail.hole_height=1 mm..9 mm:0.5 mm", "scale.length=25 in..26 in:1/8 in"],
        want: &["drift<=5 cents"],
        best: &["safe-action"],
        plans: None,
        lock: &[],
    };
    let swarm = Words { plans: Some(100), ..grid };
    for (words, is_swarm) in [(grid, false), (swarm, true)] {
        let on = |threads: usize| {
            let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().expect("threads");
            pool.install(|| answered(&document, words))
        };
        let (one, four) = (on(1), on(4));
        assert_eq!(matches!(one.method, Method::Swarm { .. }), is_swarm, "as asked");
        assert_eq!(everything(&one), everything(&four), "one thread and four");
    }
}

#[test]
fn the_smallest_clash_names_its_conditions_and_the_nearest_plans() {
    let words = Words {
        vary: &["heel.reach=20 mm..60 mm:5 mm"],
        want: &["wrapped-frets>=18", "neck-length>=100 mm", "relief<=0.5 mm"],
        ..Words::default()
    };
    let answer = answered(SHORT, words);
    assert_eq!(answer.holding, 0, "no heel leaves room for eighteen");
    assert!(!answer.told[0].holds(), "the nearest is told, and does not hold");
    let clash = answer.clashes.first().expect("nothing holds");
    let [Condition::Want(want)] = clash.conditions.as_slice() else {
        panic!("one alone: {:?}", clash.conditions)
    };
    assert_eq!(want.measure.name, "wrapped-frets", "the one that no plan holds");
    let nearest = &clash.nearest[0];
    // Of the plans that hold all else, none has more.
    let frets = measure_named("wrapped-frets").expect("a measure");
    let others = answer.plans.iter().filter(|plan| answer.broken(plan) == clash.conditions);
    let most = others.filter_map(|plan| answer.value(plan, frets)).fold(0.0, f64::max);
    assert_eq!(nearest.value, Some(most), "the nearest has the most");
    assert!((1.0..18.0).contains(&most), "and still too few: {most}");
}

#[test]
fn two_wants_that_pull_apart_clash_and_have_a_front() {
    let words = Words {
        vary: &["action.height=1 mm..9 mm:0.25 mm"],
        want: &["free-of-buzz>=95 %", "action<=4 mm", "fails<=100"],
        ..Words::default()
    };
    let answer = answered(&of_specs("uneven-wires"), words);
    let clash = answer.clashes.first().expect("low and free of buzz cannot both be had");
    let names: Vec<String> = clash.conditions.iter().map(ToString::to_string).collect();
    assert_eq!(names, ["free-of-buzz >= 95 %", "action <= 4 mm"], "the two, and nothing else");
    assert_eq!(clash.nearest.len(), 2, "a plan that gives up each");
    let front = answer.fronts.first().expect("they pull apart");
    assert_eq!(front.measures.map(|measure| measure.name), ["free-of-buzz", "action"], "these two");
    let points: Vec<[f64; 2]> = front
        .plans
        .iter()
        .map(|place| {
            front.measures.map(|measure| answer.value(&answer.plans[*place], measure).expect("measured"))
        })
        .collect();
    assert!(
        points.windows(2).all(|pair| pair[1][0] < pair[0][0] && pair[1][1] < pair[0][1]),
        "lower and less free: {points:?}"
    );
}

#[test]
fn a_limit_says_what_the_next_turn_breaks() {
    let words = Words {
        vary: &["tail.hole_height=2 mm..20 mm:0.5 mm"],
        want: &["drift<=5 cents"],
        ..Words::default()
    };
    let answer = answered(&of_specs("runaway-low-tail"), words);
    let best = &answer.told[0];
    assert!(best.holds(), "some height is right:\n{}", answer.to_text());
    // The nearer to the document the better, were it not for the drift.
    let [limit] = best.limits.as_slice() else { panic!("one key, one limit: {:?}", best.limits) };
    assert_eq!(limit.key, "tail.hole_height", "the key");
    let [Condition::Want(want)] = limit.breaks.as_slice() else { panic!("one condition: {limit:?}") };
    assert_eq!(want.measure.name, "drift", "the next turn lets the strings run away");
}

#[test]
fn the_files_are_the_plans_and_the_table() {
    let answer = answered(SHORT, FIFTEEN);
    let files = answer.files().expect("files");
    let paths: Vec<&str> = files.iter().map(|file| file.path.as_str()).collect();
    assert_eq!(paths.first(), Some(&"plan-1.toml"), "the best plan first");
    assert_eq!(paths.last(), Some(&"manifest.json"), "the manifest last");
    let plan = boxneck::spec::Document::parse(&files[0].bytes);
    let again = boxneck::Instrument::of(&plan).expect("the written plan is an instrument");
    let frets = again.layout().frets().reach.room.wrapped;
    assert!(frets >= 15, "read again it has {frets}");
}

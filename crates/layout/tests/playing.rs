//! Is it true of every plan what the trade knows: a low tail drifts, uneven wires want height, tension bends?

use layout::Layout;
use layout::playing::{BuzzReport, Player, Playing};
use mechanics::drift::{BehindZeroFret, StringPath, slipping_drift};
use mechanics::string_line::StringLine;
use mechanics::string_model::StringModel;
use proptest::prelude::*;
use spec::Document;
use units::Length;

const LOW_TAIL: &str = include_str!("../../../specs/runaway-low-tail.toml");
const UNEVEN: &str = include_str!("../../../specs/uneven-wires.toml");

fn document(text: &str) -> Document {
    Document::parse(text.as_bytes())
}

fn laid_out(document: &Document) -> Layout {
    let (spec, _) = document.read().into_result().unwrap_or_else(|faults| panic!("unsound: {faults:#?}"));
    layout::layout(&spec).unwrap_or_else(|fault| panic!("cannot be laid out: {fault}"))
}

/// A thousand instruments are drawn where the share matters, a few where it does not.
fn played_by(document: &Document, trials: u32) -> (Layout, Playing) {
    let layout = laid_out(document);
    let playing = Playing::new(layout.clone(), Player { trials, ..Player::default() });
    (layout, playing)
}

fn buzz_of(playing: &Playing) -> &BuzzReport {
    playing.buzz().expect("a plan with frets has something to say of buzz")
}

fn worst_slipping(playing: &Playing) -> f64 {
    playing.drift().strings.iter().fold(0.0, |worst, drift| worst.max(drift.slipping_cents.abs()))
}

#[test]
fn a_low_tail_makes_strings_sharp_by_tens_of_cents_and_the_advised_height_cures_it() {
    let low = document(LOW_TAIL);
    let (_, playing) = played_by(&low, 1);
    for drift in &playing.drift().strings {
        assert!(drift.slipping_cents > 10.0, "sharp by tens of cents, found {}", drift.slipping_cents);
        assert!(drift.dragged_cents > drift.slipping_cents, "friction adds to it");
    }
    assert!(worst_slipping(&playing) > 20.0, "the worst string, found {}", worst_slipping(&playing));

    let advice = playing.drift().advice.as_ref().expect("a block on the lid has room for another height");
    let advised = format!("{} mm", advice.hole_height.as_mm());
    let (cured, playing) = played_by(&low.with_override("tail.hole_height", &advised), 1);
    let left = worst_slipping(&playing);
    assert!(left <= 4.0, "a few cents are left, found {left}");
    assert!((left - advice.worst_cents).abs() <= 1.0, "{left} for the promised {}", advice.worst_cents);
    assert_eq!(cured.tail().kind, layout::TailKind::BlockOnLid, "the cure leaves the tail what it was");
}

#[test]
fn the_advised_height_leaves_a_tail_on_the_end_on_the_end() {
    let on_end = document(LOW_TAIL)
        .with_override("saddle.from_tail_end", "30 mm")
        .with_override("tail.hole_height", "-8 mm");
    let (layout, playing) = played_by(&on_end, 1);
    assert_eq!(layout.tail().kind, layout::TailKind::BlockOnEnd, "holes below the lid");
    let advice = playing.drift().advice.as_ref().expect("there is room below the lid");
    assert_eq!(advice.hole_height, Length::ZERO, "as high as a block on the end may have them");
    assert!(advice.is_at_limit, "a better height lies out of reach");
}

#[test]
fn uneven_wires_want_a_clearly_higher_action_than_level_ones() {
    let (_, playing) = played_by(&document(UNEVEN), 1000);
    let buzz = buzz_of(&playing);
    let more = buzz.lowest_action - buzz.lowest_action_level;
    assert!(more >= Length::mm(0.5), "uneven crowns want {more} more");
}

#[test]
fn the_lowest_action_rises_with_the_scatter() {
    let uneven = document(UNEVEN);
    let lowest = ["0 mm", "0.02 mm", "0.05 mm", "0.1 mm", "0.2 mm", "0.4 mm"].map(|scatter| {
        let (_, playing) = played_by(&uneven.with_override("frets.height_scatter", scatter), 1000);
        buzz_of(&playing).lowest_action
    });
    assert!(lowest.is_sorted_by(|a, b| a < b), "each scatter wants more than the one before: {lowest:?}");
}

#[test]
fn a_heel_bears_with_the_stick_and_not_on_it() {
    let with_heel = document(LOW_TAIL);
    let stress = |document: &Document| played_by(document, 1).1.neck().stress();
    let stick = stress(&with_heel.with_override("heel.reach", "0 mm"));
    // A heel moves the neutral axis away from the strings; a stick that bore all of that would bear half as much again.
    // The strings run a little differently over the stiffer neck, which is what the hundredth is for.
    for depth in ["40 mm", "50 mm", "60 mm"] {
        let found = stress(&with_heel.with_override("heel.depth", depth));
        assert!(found <= stick * 1.01, "a heel of {depth}: {found} where the bare stick bears {stick}");
    }
}

/// Changes in realistic ranges that leave the plan sound.
#[derive(Clone, Debug)]
struct Changes {
    start: &'static str,
    scale_mm: f64,
    action_mm: f64,
    hole_height_mm: f64,
    thickness_mm: f64,
    pitch_steps: usize,
}

fn changes() -> impl Strategy<Value = Changes> {
    let start = prop::sample::select(vec![LOW_TAIL, UNEVEN]);
    (start, 560.0..680.0, 2.0..5.0, 3.2..11.0, 20.0..30.0, 0_usize..3).prop_map(
        |(start, scale_mm, action_mm, hole_height_mm, thickness_mm, pitch_steps)| Changes {
            start,
            scale_mm,
            action_mm,
            hole_height_mm,
            thickness_mm,
            pitch_steps,
        },
    )
}

/// The open pitches of the plans, each with two above.
const PITCHES: [[&str; 3]; 3] = [["A2", "E3", "A3"], ["A#2", "F3", "A#3"], ["B2", "F#3", "B3"]];

impl Changes {
    fn document(&self) -> Document {
        let lengths = [
            ("scale.length", self.scale_mm),
            ("action.height", self.action_mm),
            ("tail.hole_height", self.hole_height_mm),
            ("neck.thickness", self.thickness_mm),
        ];
        let changed = lengths.iter().fold(document(self.start), |document, (key, value)| {
            document.with_override(key, &format!("{value} mm"))
        });
        at_pitches(&changed, self.pitch_steps)
    }
}

fn at_pitches(document: &Document, steps: usize) -> Document {
    PITCHES[steps].iter().enumerate().fold(document.clone(), |document, (index, pitch)| {
        document.with_override(&format!("strings.{}.pitch", index + 1), pitch)
    })
}

/// The strings' paths along and above the lid, as a saddle that slides on the lid meets them.
fn paths(layout: &Layout) -> Vec<(StringModel, StringPath)> {
    let frame = layout.frame();
    let path = |path: &layout::StringPath| StringPath {
        line: StringLine {
            scale_length: frame.along(path.saddle) - frame.along(path.zero_fret),
            zero_fret_height: frame.above(path.zero_fret),
            saddle_height: frame.above(path.saddle),
            saddle_setback: Length::ZERO,
            zero_fret_setback: Length::ZERO,
        },
        tail_distance: frame.along(path.tail) - frame.along(path.saddle),
        tail_height: frame.above(path.tail),
        behind_zero_fret: BehindZeroFret::Fixed,
    };
    layout
        .tuned()
        .iter()
        .zip(layout.strings())
        .map(|(string, run)| (string.model.nominal, path(run)))
        .collect()
}

/// The worst drift of any string for a millimetre either way, with the holes at a height.
fn worst_either_way(paths: &[(StringModel, StringPath)], height: Length) -> f64 {
    paths.iter().fold(0.0, |worst, (model, path)| {
        let path = StringPath { tail_height: height, ..*path };
        [1.0, -1.0].into_iter().fold(worst, |worst: f64, travel| {
            worst.max(slipping_drift(model, &path, Length::mm(travel)).map_or(f64::INFINITY, f64::abs))
        })
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn raising_the_tail_never_steepens_the_break(changes in changes(), raise_mm in 0.1..3.0) {
        let low = laid_out(&changes.document());
        let raised = Changes { hole_height_mm: changes.hole_height_mm + raise_mm, ..changes };
        let high = laid_out(&raised.document());
        // A string that rises to its hole turns the other way: what presses on the saddle is the fall.
        let falls = |string: &layout::StringPath, layout: &Layout| {
            string.front_angle(layout.frame()) + string.tail_angle(layout.frame())
        };
        for (before, after) in low.strings().iter().zip(high.strings()) {
            let (fell, falls) = (falls(before, &low), falls(after, &high));
            prop_assert!(falls < fell, "falls by {falls} after {fell}");
            if falls.as_degrees() > 0.0 {
                let (before, after) = (before.break_at_saddle(), after.break_at_saddle());
                prop_assert!(after <= before, "breaks by {after} after {before}");
            }
        }
    }

    #[test]
    fn the_advised_tail_height_has_the_least_worst_drift(changes in changes(), sample in 0.0..1.0) {
        let (layout, playing) = played_by(&changes.document(), 1);
        let Some(advice) = &playing.drift().advice else { return Ok(()) };
        let paths = paths(&layout);
        let ends = [&advice.curve[0], &advice.curve[advice.curve.len() - 1]].map(|place| place.hole_height);
        let sampled = ends[0] + (ends[1] - ends[0]) * sample;
        let advised = worst_either_way(&paths, advice.hole_height);
        prop_assert!((advised - advice.worst_cents).abs() <= 1e-9, "{advised} and {}", advice.worst_cents);
        let other = worst_either_way(&paths, sampled);
        prop_assert!(advised <= other + 1e-9, "{sampled} leaves {other}, {} {advised}", advice.hole_height);
    }

    #[test]
    fn compensation_never_raises_the_error(changes in changes()) {
        let (_, playing) = played_by(&changes.document(), 1);
        for tuning in playing.tuning() {
            prop_assert!(!tuning.before_cents.is_empty(), "these plans have frets in order");
            let (before, after) = (tuning.rms_before(), tuning.rms_after());
            prop_assert!(after < before, "{after} cents after {before}");
        }
    }

    #[test]
    fn a_higher_pitch_pulls_harder_and_lifts_the_head_more(changes in changes()) {
        let steps = [0, 1, 2].map(|steps| *played_by(&at_pitches(&changes.document(), steps), 1).1.neck());
        for pair in steps.windows(2) {
            prop_assert!(pair[1].tension > pair[0].tension, "tension rises with pitch");
            prop_assert!(pair[1].droop >= pair[0].droop, "droop {} after {}", pair[1].droop, pair[0].droop);
        }
    }

    #[test]
    fn level_crowns_leave_nothing_to_chance(changes in changes()) {
        let level = changes.document().with_override("frets.height_scatter", "0 mm");
        let (layout, playing) = played_by(&level, 20);
        let buzz = buzz_of(&playing);
        let is_sure = |share: f64| share == 0.0 || share == 1.0;
        prop_assert!(is_sure(buzz.share_free), "share free {}", buzz.share_free);
        for (tightest, rooms) in buzz.tightest.iter().zip(&buzz.least_room) {
            prop_assert_eq!(rooms.len(), layout.frets().frets.len(), "pressed at each but the last, and open");
            let least = rooms.iter().copied().fold(Length::mm(1e6), Length::min);
            prop_assert_eq!(least, tightest.room, "the tightest place is among them");
            prop_assert!(is_sure(tightest.probability), "probability {}", tightest.probability);
            prop_assert_eq!(tightest.probability == 1.0, tightest.room < Length::ZERO);
        }
        let touches = buzz.tightest.iter().any(|tightest| tightest.room < Length::ZERO);
        prop_assert_eq!(buzz.share_free == 0.0, touches, "it is free when no string touches");
        prop_assert_eq!(buzz.lowest_action, buzz.lowest_action_level);
    }

    #[test]
    fn the_strung_action_is_the_wanted_one(changes in changes(), fret in 5_u8..13) {
        let wanted = changes.document().with_override("action.fret", &fret.to_string());
        let layout = laid_out(&wanted);
        let there = layout.frets().frets.iter().position(|station| station.semitone == fret);
        let there = there.expect("these plans have frets up to the octave");
        for string in layout.strings() {
            let off = string.actions[there].as_mm() - changes.action_mm;
            prop_assert!(off.abs() <= 1e-9, "off by {off} mm over fret {fret}");
        }
    }

    #[test]
    fn a_left_handed_instrument_plays_the_same(changes in changes()) {
        let right = changes.document();
        let left = right.with_override("handed", "left");
        // Written out, because a drift that cannot be told is not a number and equals nothing.
        let told = |document: &Document| {
            let (_, playing) = played_by(document, 50);
            let (pulls, neck, tuning) = (playing.pulls(), playing.neck(), playing.tuning());
            format!("{pulls:?} {neck:?} {tuning:?} {:?} {:?} {:?}", playing.drift(), playing.saddle(), playing.buzz())
        };
        prop_assert_eq!(told(&right), told(&left), "the same to the last bit");
    }
}

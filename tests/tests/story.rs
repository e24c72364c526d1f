//! Does the whole story hold: plan, check, mend, make, string up, measure, set up, done?
//!
//! The bench is simulated: the instrument is made with a tail that is too low and with uneven wires, and is measured with tools that
//! read to a twentieth of a millimetre and a tuner that reads to a cent. What is written and read is what a person writes and reads.

use std::fmt::Write as _;
use std::path::Path;

use boxneck::layout::built::{AcrossSaddle, Built, Deviations, FretDeviation, built};
use boxneck::layout::playing::Player;
use boxneck::layout::{Layout, layout};
use boxneck::mechanics::intonation::root_mean_square;
use boxneck::spec::Document;
use boxneck::units::Length;
use boxneck_tests::{Call, call};
use serde_json::Value;

/// How far the wires lie from the plan, in mm: soft wire, wrapped by hand in a hurry.
const UNEVEN_MM: [f64; 18] = [
    0.03, -0.06, 0.21, -0.02, 0.16, 0.01, -0.12, 0.17, 0.04, -0.05, 0.02, 0.22, -0.08, 0.05, 0.12, -0.03,
    0.06, -0.1,
];

fn mm(value: f64) -> Length {
    Length::mm(value)
}

/// What the tool shows: to a twentieth of a millimetre.
fn shown(value: Length) -> f64 {
    (value.as_mm() * 20.0).round() / 20.0
}

struct Instrument {
    layout: Layout,
    made: Deviations,
}

impl Instrument {
    fn made_from(document: &Path) -> Self {
        let text = std::fs::read(document).expect("the mended plan");
        let (spec, _) = Document::parse(&text).read().into_result().expect("a sound plan");
        let layout = layout(&spec).expect("it can be laid out");
        let heights = UNEVEN_MM.iter().take(layout.frets().frets.len());
        let frets = heights.map(|height| FretDeviation { height: mm(*height), place: mm(0.0) }).collect();
        let made = Deviations {
            frets,
            tail_height: mm(-1.5),
            neck_set: mm(-0.5),
            saddle_place: AcrossSaddle { bass: mm(-1.2), treble: mm(-0.4) },
            ..Deviations::default()
        };
        Self { layout, made }
    }

    fn plays(&self) -> Built {
        built(&self.layout, &Player::default(), &self.made).expect("it can be strung")
    }

    fn is_free(&self) -> bool {
        self.plays().strings.iter().all(|string| string.room() >= Some(Length::ZERO))
    }

    fn worst_rms_cents(&self) -> f64 {
        self.plays().strings.iter().map(|string| root_mean_square(&string.cents)).fold(0.0, f64::max)
    }

    fn worst_drift(&self) -> f64 {
        self.plays().strings.iter().map(|string| string.drift_cents_per_mm.abs()).fold(0.0, f64::max)
    }

    /// Holds it against what a player wants.
    #[track_caller]
    fn holds(&self) {
        assert!(self.is_free(), "no string touches: {:?}", self.made);
        assert!(self.worst_rms_cents() <= 5.0, "in tune: {}", self.worst_rms_cents());
        assert!(self.worst_drift() <= 6.0, "the open strings stay: {}", self.worst_drift());
    }

    /// What the builder writes down.
    fn measured(&self) -> String {
        let (layout, plays) = (&self.layout, self.plays());
        let spec = layout.spec();
        let frets = &layout.frets().frets;
        let mut text = String::from("units = \"mm\"\n[straightedge_gaps]\n");
        let edge = mm(1.8);
        writeln!(text, "0 = {}", shown(edge - spec.zero_fret.crown_height)).expect("text");
        for (fret, raised) in frets.iter().zip(&plays.raised) {
            let crown = fret.crown - layout.bow().at(fret.x) + *raised;
            writeln!(text, "{} = {}", fret.number, shown(edge - crown)).expect("text");
        }
        writeln!(text, "[tail]\nheight = {}", shown(spec.tail.hole_height + self.made.tail_height))
            .expect("text");
        let places: Vec<f64> = plays.strings.iter().map(|string| shown(string.line.saddle_place())).collect();
        writeln!(text, "[saddle]\nplaces = {places:?}").expect("text");
        for fret in [1, 12] {
            let heights: Vec<f64> =
                plays.strings.iter().map(|string| shown(string.actions[fret - 1])).collect();
            writeln!(text, "[[string_heights]]\nfret = {fret}\nheights = {heights:?}").expect("text");
        }
        for (index, string) in plays.strings.iter().enumerate() {
            let notes: Vec<String> =
                [5, 7, 12].iter().map(|fret| format!("{fret} = {:.0}", string.cents[fret - 1])).collect();
            let number = plays.strings.len() - index;
            writeln!(text, "[[tuner]]\nstring = {number}\ncents = {{ 0 = 0, {} }}", notes.join(", "))
                .expect("text");
            if let Some(touch) = string.margins.iter().find(|margin| margin.room() < Length::ZERO) {
                writeln!(text, "[[buzz]]\nstring = {number}\nfret = {}", touch.fretted).expect("text");
            }
        }
        text
    }

    /// Does what a step says.
    fn work(&mut self, work: &Value) {
        let by = |key: &str| mm(work[key].as_f64().unwrap_or_else(|| panic!("expected {key}: {work}")));
        let made = &mut self.made;
        match work["kind"].as_str().unwrap_or_default() {
            "move tail" => made.tail_height = made.tail_height + by("up_mm"),
            "tap wires" => {
                for tap in work["taps"].as_array().expect("a list of wires") {
                    let fret = tap["fret"].as_u64().expect("its number") as usize - 1;
                    made.frets[fret].height =
                        made.frets[fret].height - mm(tap["down_mm"].as_f64().expect("how far"));
                }
            }
            "set saddle height" => {
                made.saddle_height.bass = made.saddle_height.bass + by("bass_up_mm");
                made.saddle_height.treble = made.saddle_height.treble + by("treble_up_mm");
            }
            "slide saddle" => {
                made.saddle_place.bass = made.saddle_place.bass + by("bass_toward_tail_mm");
                made.saddle_place.treble = made.saddle_place.treble + by("treble_toward_tail_mm");
            }
            "lower nut" => {}
            other => panic!("nobody asked for {other}"),
        }
    }
}

/// Measures the instrument and asks what to do.
fn set_up(folder: &Path, instrument: &Instrument) -> (Call, Value) {
    std::fs::write(folder.join("measured.toml"), instrument.measured()).expect("what was measured");
    let said = call(folder, &["setup", "mine.toml", "--measured", "measured.toml", "--format", "json"]);
    let record: Value = serde_json::from_str(&said.stdout)
        .unwrap_or_else(|fault| panic!("{fault}: {}{}", said.stdout, said.stderr));
    (said, record["setup"].clone())
}

#[test]
fn from_a_plan_to_an_instrument_that_plays() {
    let place = tempfile::tempdir().expect("a folder to work in");
    let folder = place.path();
    let plan = folder.join("mine.toml");

    // Plan: a start of the program's own, with strings as high as a slide wants them.
    assert_eq!(call(folder, &["new", "mine.toml"]).code, Some(0), "a document to begin from");
    let text = std::fs::read_to_string(&plan).expect("it was written");
    let changed = text
        .replace("height = \"2.8 mm\"", "height = \"4 mm\"")
        .replace("adjust        = \"8 mm\"", "adjust        = \"13 mm\"")
        .replace("height_scatter = \"0.08 mm\"", "height_scatter = \"0.06 mm\"");
    std::fs::write(&plan, changed).expect("a changed plan");

    // Check and mend.
    let checked = call(folder, &["check", "mine.toml"]);
    assert!(
        checked.stdout.contains("saddle-drift"),
        "the tail is too low for such strings: {}",
        checked.stdout
    );
    let mended = call(folder, &["check", "--mend", "--in-place", "mine.toml"]);
    assert!(mended.stdout.contains("MENDED  written to mine.toml; everything holds"), "{}", mended.stdout);
    let checked = call(folder, &["check", "mine.toml"]);
    assert_eq!(checked.code, Some(0), "{}", checked.stdout);
    assert!(!checked.stdout.contains("saddle-drift"), "it is cured: {}", checked.stdout);

    // Make.
    let made = call(folder, &["make", "mine.toml", "--formats", "dxf,svg,csv"]);
    assert_eq!(made.code, Some(0), "{}{}", made.stdout, made.stderr);
    assert!(folder.join("outputs/porch-three-string/manifest.json").exists(), "the files are there");

    // String up, and measure.
    let mut instrument = Instrument::made_from(&plan);
    assert!(!instrument.is_free(), "uneven wires buzz");
    assert!(instrument.worst_drift() > 6.0, "the open strings run away: {}", instrument.worst_drift());
    let (said, found) = set_up(folder, &instrument);
    assert_eq!(said.code, Some(0), "{found:#}\n{}", said.stderr);
    assert_eq!(found["holds"], true, "it can be cured: {found:#}");

    // Set up, step by step.
    let steps = found["steps"].as_array().expect("a list of steps");
    let kinds: Vec<&str> = steps.iter().filter_map(|step| step["work"]["kind"].as_str()).collect();
    for kind in ["move tail", "tap wires", "slide saddle"] {
        assert!(kinds.contains(&kind), "{kind} is among {kinds:?}");
    }
    let page = call(folder, &["setup", "mine.toml", "--measured", "measured.toml"]).stdout;
    assert!(page.contains("WHAT TO DO, IN THIS ORDER\n   1  "), "{page}");
    for line in page.lines() {
        assert!(line.chars().count() <= 100, "a line of more than 100 columns: {line}");
    }
    for step in steps {
        instrument.work(&step["work"]);
    }

    // It plays. Measured again, it asks for the last touch to the saddle at most, and then for nothing.
    instrument.holds();
    let (_, again) = set_up(folder, &instrument);
    for step in again["steps"].as_array().expect("a list of steps") {
        assert_eq!(step["work"]["kind"], "slide saddle", "nothing else is left: {again:#}");
        instrument.work(&step["work"]);
    }
    instrument.holds();
    let (said, done) = set_up(folder, &instrument);
    assert_eq!((said.code, &done["steps"]), (Some(0), &Value::Array(Vec::new())), "{done:#}");
}

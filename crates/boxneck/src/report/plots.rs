//! What does the report plot, and how?

use export::chart::{Axis, Band, Chart, Form, Mark, Series, Side, Ticks};
use layout::{Layout, StringPath};
use units::Length;

use crate::instrument::Instrument;

/// A caption and its chart.
type Plot = (String, Chart);

/// How many places along the neck its bow is drawn at.
const BOW_PLACES: u32 = 48;

/// Two hole heights nearer than this are one to a builder.
const SAME_HEIGHT: Length = Length::mm(0.05);

/// Heights nearer than this, in millimetres, are drawn on each other.
const SAME_TO_THE_EYE: f64 = 0.005;

fn axis(words: &str, ticks: Ticks, reaches: Vec<f64>) -> Axis {
    Axis { words: words.to_owned(), ticks, reaches }
}

/// "string 3 (G2)".
fn string_name(path: &StringPath) -> String {
    format!("string {} ({})", path.number.0, path.pitch)
}

/// Frets where they lie along the neck, from the zero fret on; where not all have room, those of the octaves stay.
fn along_the_neck(layout: &Layout) -> Axis {
    const OCTAVE: u8 = 12;
    let frets = layout.frets().frets.iter().map(|fret| (fret.x.as_mm(), fret.number));
    let (octaves, between): (Vec<_>, Vec<_>) =
        std::iter::once((0.0, 0)).chain(frets).partition(|(_, number)| number % OCTAVE == 0);
    let ticks = octaves.into_iter().chain(between).map(|(at, number)| (at, number.to_string())).collect();
    axis("fret, where it lies along the neck", Ticks::Spaced(ticks), vec![0.0])
}

/// Cents at each fret, before and after the crests are set back; one plot a string, all to one scale.
pub(super) fn intonation(instrument: &Instrument) -> Vec<Plot> {
    let (layout, playing) = (instrument.layout(), instrument.playing());
    let all =
        || playing.tuning().iter().flat_map(|tuning| tuning.before_cents.iter().chain(&tuning.after_cents));
    let ends = [all().copied().fold(0.0, f64::min), all().copied().fold(0.0, f64::max)];
    let numbered = |cents: &[f64]| {
        let frets = layout.frets().frets.iter().map(|fret| f64::from(fret.number));
        frets.zip(cents.iter().copied()).collect()
    };
    let plots =
        layout.strings().iter().zip(playing.tuning()).filter(|(_, tuning)| !tuning.after_cents.is_empty());
    plots
        .map(|(path, tuning)| {
            let name = string_name(path);
            let chart = Chart {
                label: format!(
                    "Error in cents at each fret of {name}, before and after its crest is set back by {}",
                    tuning.setback
                ),
                across: axis("fret", Ticks::Whole, vec![1.0]),
                up: axis("error, cents (above 0: sharp)", Ticks::Round, ends.to_vec()),
                bands: Vec::new(),
                series: vec![
                    Series {
                        name: "crest on the saddle line".into(),
                        form: Form::MarkedLine,
                        look: 1,
                        points: numbered(&tuning.before_cents),
                    },
                    Series {
                        name: "set back".into(),
                        form: Form::MarkedLine,
                        look: 0,
                        points: numbered(&tuning.after_cents),
                    },
                ],
                marks: Vec::new(),
            };
            (format!("Error at each fret, {name}, crest set back {}", tuning.setback), chart)
        })
        .collect()
}

/// One line a string.
fn by_string(layout: &Layout, form: Form, points: impl Fn(usize) -> Vec<(f64, f64)>) -> Vec<Series> {
    let strings = layout.strings().iter().enumerate();
    strings
        .map(|(index, path)| Series { name: string_name(path), form, look: index, points: points(index) })
        .collect()
}

/// A single series where one covers all others: what cannot be told apart is told as one.
fn as_one(mut all: Vec<Series>) -> Vec<Series> {
    let is_same = |one: &[(f64, f64)], other: &[(f64, f64)]| {
        one.iter().zip(other).all(|(one, other)| (one.1 - other.1).abs() < SAME_TO_THE_EYE)
    };
    if all.len() > 1 && all.windows(2).all(|pair| is_same(&pair[0].points, &pair[1].points)) {
        all.truncate(1);
        all[0].name = "every string".into();
    }
    all
}

/// What each open string does when the saddle is slid, against the height of the string holes.
pub(super) fn drift(instrument: &Instrument) -> Option<Plot> {
    let advice = instrument.playing().drift().advice.as_ref()?;
    let planned = instrument.spec().tail.hole_height;
    let curve = |index: usize| {
        let points = advice.curve.iter().map(|place| (place.hole_height.as_mm(), place.cents[index]));
        points.collect::<Vec<_>>()
    };
    let upright = |height: Length, words: String| Mark::Upright { at: height.as_mm(), words };
    let marks = if (advice.hole_height - planned).abs() < SAME_HEIGHT {
        vec![upright(planned, format!("planned and best: {planned}"))]
    } else {
        vec![
            upright(planned, format!("planned: {planned}")),
            upright(advice.hole_height, format!("best: {}", advice.hole_height)),
        ]
    };
    let chart = Chart {
        label: format!(
            "Cents that each open string drifts for 1 mm of saddle, against the height of the string holes; best at {}",
            advice.hole_height
        ),
        across: axis("string holes above the lid, mm", Ticks::Round, Vec::new()),
        up: axis("drift for 1 mm toward the tail, cents", Ticks::Round, vec![0.0]),
        bands: Vec::new(),
        series: by_string(instrument.layout(), Form::Line, curve),
        marks,
    };
    Some((format!("Drift against tail height, best at {}", advice.hole_height), chart))
        .filter(|_| !advice.curve.is_empty())
}

/// Each string's height over each fret.
pub(super) fn action(instrument: &Instrument) -> Option<Plot> {
    let layout = instrument.layout();
    let wanted = &instrument.spec().action;
    let heights = |index: usize| {
        let actions = layout.strings()[index].actions.iter().map(|action| action.as_mm());
        layout.frets().frets.iter().map(|fret| fret.x.as_mm()).zip(actions).collect::<Vec<_>>()
    };
    let words = format!("wanted over semitone {}: {}", wanted.fret, wanted.height);
    let chart = Chart {
        label: "Height of each string over the crown of each fret, strung".into(),
        across: along_the_neck(layout),
        up: axis("string over the crown, mm", Ticks::Round, vec![0.0]),
        bands: Vec::new(),
        series: as_one(by_string(layout, Form::MarkedLine, heights)),
        marks: vec![Mark::Level { at: wanted.height.as_mm(), words }],
    };
    (!layout.frets().frets.is_empty()).then(|| ("String height along the neck".into(), chart))
}

/// The least room that each string leaves, pressed at each fret.
pub(super) fn buzz(instrument: &Instrument) -> Option<Plot> {
    let layout = instrument.layout();
    let buzz = instrument.playing().buzz()?;
    let rooms = |index: usize| {
        let frets = layout.frets().frets.iter().map(|fret| fret.x.as_mm());
        let pressed = std::iter::once(0.0).chain(frets);
        pressed.zip(buzz.least_room[index].iter().map(|room| room.as_mm())).collect::<Vec<_>>()
    };
    let mut across = along_the_neck(layout);
    across.words = "pressed at this fret (0: open)".into();
    let chart = Chart {
        label: "Least room that each plucked string leaves over the frets beyond the one where it is pressed, frets level"
            .into(),
        across,
        up: axis("least room over later frets, mm", Ticks::Round, vec![0.0]),
        bands: vec![Band {
            words: "touches".into(),
            along: Side::Up,
            range: [f64::NEG_INFINITY, 0.0],
        }],
        series: by_string(layout, Form::MarkedLine, rooms),
        marks: Vec::new(),
    };
    Some(("Buzz margin along the neck, level frets".into(), chart))
}

/// How far the strings bow the neck.
pub(super) fn relief(instrument: &Instrument) -> Option<Plot> {
    let layout = instrument.layout();
    let bow = layout.bow();
    let end = layout.neck().box_x;
    let places = (0..=BOW_PLACES).map(|place| end * (f64::from(place) / f64::from(BOW_PLACES)));
    let lowered = |x: Length| bow.at(x).as_mm();
    let points = |places: &mut dyn Iterator<Item = Length>| {
        places.map(|x| (x.as_mm(), lowered(x))).collect::<Vec<_>>()
    };
    let frets = layout.frets().frets.iter().map(|fret| fret.x);
    let lowest = frets.clone().max_by(|a, b| bow.at(*a).as_mm().total_cmp(&bow.at(*b).as_mm()));
    let ring = lowest
        .map(|x| Mark::Ring { at: (x.as_mm(), lowered(x)), words: format!("most at a fret: {}", bow.at(x)) });
    let chart = Chart {
        label: "How far the strings bow the neck below the line from zero fret to saddle".into(),
        across: along_the_neck(layout),
        up: axis("relief, mm", Ticks::Round, vec![0.0]),
        bands: Vec::new(),
        series: [
            Series {
                name: "neck".into(),
                form: Form::Line,
                look: 0,
                points: points(&mut places.into_iter()),
            },
            Series {
                name: "frets".into(),
                form: Form::Scatter,
                look: 0,
                points: points(&mut frets.into_iter()),
            },
        ]
        .into_iter()
        .filter(|series| !series.points.is_empty())
        .collect(),
        marks: ring.into_iter().collect(),
    };
    bow.settled().then(|| ("Neck relief under the strings".into(), chart))
}

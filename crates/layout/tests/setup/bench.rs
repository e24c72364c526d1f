//! What does a bench look like at which instruments are made by lot, measured, and set up?

use layout::Layout;
use layout::built::{AcrossSaddle, Deviations, FretDeviation, built};
use layout::playing::Player;
use layout::setup::{Estimate, Work, estimate, work_order};
use layout::tolerances::Dimension;
use mechanics::intonation::root_mean_square;
use mechanics::random::Random;
use spec::Document;
use spec::measured::{Measured, Reading, ReadingOf};
use units::Length;

pub const PORCH: &str = include_str!("../../../../specs/porch-three-string.toml");
pub const UNEVEN: &str = include_str!("../../../../specs/uneven-wires.toml");

/// A plan, and who plays it.
pub struct Bench {
    pub layout: Layout,
    pub player: Player,
}

/// How an instrument plays whose work order was followed as well as hands do.
pub struct Followed {
    pub buzzed_before: bool,
    pub room_mm: f64,
    pub worst_rms_cents: f64,
    pub worst_octave_cents: f64,
    pub worst_cents: f64,
    pub tapped_mm: f64,
    pub above_wanted_mm: f64,
}

/// A reading with its usual error.
pub fn reading(of: ReadingOf, value: f64) -> Reading {
    let place = spec::Place { key: String::new(), origin: spec::Origin::Default };
    Reading { of, value, error: of.kind().usual_error(), place }
}

fn mm(value: f64) -> Length {
    Length::mm(value)
}

impl Bench {
    pub fn new(text: &str) -> Self {
        Self::of(&Document::parse(text.as_bytes()))
    }

    pub fn with(text: &str, overrides: &[(&str, &str)]) -> Self {
        let document = Document::parse(text.as_bytes());
        Self::of(
            &overrides.iter().fold(document, |document, (key, value)| document.with_override(key, value)),
        )
    }

    fn of(document: &Document) -> Self {
        let read = document.read().into_result();
        let (spec, _) = read.unwrap_or_else(|faults| panic!("unsound: {faults:#?}"));
        let layout = layout::layout(&spec).unwrap_or_else(|fault| panic!("cannot be laid out: {fault}"));
        Self { layout, player: Player::default() }
    }

    /// An instrument made as well as the document says; written out here, so that the lot is the test's own.
    pub fn made(&self, random: &mut Random) -> Deviations {
        let held = |dimension: Dimension| dimension.held_to(self.layout.spec());
        let mut draw = |dimension: Dimension| held(dimension) * random.normal();
        Deviations {
            neck_set: draw(Dimension::NeckSet),
            zero_fret_height: draw(Dimension::ZeroFretHeight),
            saddle_height: AcrossSaddle {
                bass: draw(Dimension::SaddleHeight),
                treble: draw(Dimension::SaddleHeight),
            },
            saddle_place: AcrossSaddle {
                bass: draw(Dimension::SaddlePlace),
                treble: draw(Dimension::SaddlePlace),
            },
            tail_height: draw(Dimension::TailHeight),
            tail_distance: draw(Dimension::TailDistance),
            frets: (0..self.layout.frets().frets.len())
                .map(|_| FretDeviation {
                    height: draw(Dimension::FretHeights),
                    place: draw(Dimension::FretPlaces),
                })
                .collect(),
            string_diameters: self
                .layout
                .strings()
                .iter()
                .map(|_| draw(Dimension::StringDiameters))
                .collect(),
            bow: mm(0.1 * random.normal()),
        }
    }

    /// What a careful builder reads: gaps under a straightedge, strings over two frets, the saddle, the tail, the tuner.
    pub fn measured(&self, truth: &Deviations, random: &mut Random) -> Measured {
        let mut measured = self.measured_exactly(truth);
        let pitches: Vec<f64> = self.layout.strings().iter().map(|_| 2.0 * random.normal()).collect();
        for reading in &mut measured.readings {
            reading.value += reading.error * random.normal();
            if let ReadingOf::Tuner { string, .. } = reading.of {
                reading.value += pitches[usize::from(string) - 1];
            }
        }
        measured
    }

    /// The same with perfect tools.
    pub fn measured_exactly(&self, truth: &Deviations) -> Measured {
        let layout = &self.layout;
        let built = built(layout, &self.player, truth).expect("it can be strung");
        let frets = &layout.frets().frets;
        let last = frets.len() as u8;
        let strings = layout.strings().len();
        let mut readings = vec![
            reading(ReadingOf::TailHeight, (layout.spec().tail.hole_height + truth.tail_height).as_mm()),
            reading(
                ReadingOf::ZeroFretHeight,
                (layout.spec().zero_fret.crown_height + truth.zero_fret_height).as_mm(),
            ),
        ];
        // The straightedge lies a little aslant on something.
        let crown = |index: usize| frets[index].crown - layout.bow().at(frets[index].x) + built.raised[index];
        let edge = |x: Length| mm(1.9) + x * 0.001;
        let zero_fret = layout.spec().zero_fret.crown_height + truth.zero_fret_height;
        readings.push(reading(ReadingOf::StraightedgeGap { fret: 0 }, (edge(mm(0.0)) - zero_fret).as_mm()));
        for fret in 1..=last {
            let index = usize::from(fret) - 1;
            let gap = edge(frets[index].x) - crown(index);
            readings.push(reading(ReadingOf::StraightedgeGap { fret }, gap.as_mm()));
        }
        for (index, string) in built.strings.iter().enumerate() {
            let number = (strings - index) as u8;
            for fret in [1, 12.min(last)] {
                let height = string.actions[usize::from(fret) - 1].as_mm();
                readings.push(reading(ReadingOf::StringHeight { string: number, fret }, height));
            }
            let place = (string.line.saddle_place() - string.line.zero_fret_place()).as_mm();
            readings.push(reading(ReadingOf::SaddlePlace { string: number }, place));
            readings.push(reading(ReadingOf::Tuner { string: number, fret: 0 }, 0.0));
            for fret in [3, 5, 7, 12.min(last)] {
                readings.push(reading(
                    ReadingOf::Tuner { string: number, fret },
                    string.cents[usize::from(fret) - 1],
                ));
            }
        }
        Measured { readings }
    }

    pub fn estimated(&self, measured: &Measured) -> Estimate {
        estimate(&self.layout, &self.player, measured).expect("it can be strung")
    }

    /// Makes an instrument, measures it, and does what the work order says.
    pub fn followed(&self, index: u64) -> Followed {
        let mut random = Random::stream(5, index);
        let mut truth = self.made(&mut random);
        let measured = self.measured(&truth, &mut random);
        let before = built(&self.layout, &self.player, &truth).expect("it can be strung");
        let order =
            work_order(&self.layout, &self.player, &self.estimated(&measured)).expect("there is a way");
        for step in &order.steps {
            worked(&mut truth, &step.work, &mut random);
        }
        let after = built(&self.layout, &self.player, &truth).expect("it can be strung");
        let octave =
            self.layout.frets().frets.iter().position(|fret| fret.semitone == 12).expect("an octave");
        let most = |of: &dyn Fn(&layout::built::BuiltString) -> f64| {
            after.strings.iter().map(of).fold(0.0, f64::max)
        };
        let taps = |work: &Work| match work {
            Work::TapWires { taps } => taps.iter().map(|(_, tap)| tap.as_mm()).sum(),
            _ => 0.0,
        };
        Followed {
            tapped_mm: order.steps.iter().map(|step| taps(&step.work)).sum(),
            above_wanted_mm: order.above_wanted.as_mm(),
            buzzed_before: before.strings.iter().any(|string| string.room() < Some(Length::ZERO)),
            room_mm: after
                .strings
                .iter()
                .filter_map(|string| string.room())
                .map(Length::as_mm)
                .fold(f64::INFINITY, f64::min),
            worst_rms_cents: most(&|string| root_mean_square(&string.cents)),
            worst_octave_cents: most(&|string| string.cents[octave].abs()),
            worst_cents: most(&|string| {
                string.cents.iter().fold(0.0, |most: f64, cents| most.max(cents.abs()))
            }),
        }
    }
}

/// Does one piece of work as well as hands do: a tap to 0.02 mm, a plane or a shim to 0.05 mm, a push to 0.2 mm.
fn worked(truth: &mut Deviations, work: &Work, random: &mut Random) {
    let mut done = |by: Length, to_mm: f64| by + mm(to_mm * random.normal());
    match work {
        Work::ChangeString { number, from, to } => {
            let index = truth.string_diameters.len() - usize::from(number.0);
            truth.string_diameters[index] = truth.string_diameters[index] + (*to - *from);
        }
        Work::MoveTail { up } => truth.tail_height = truth.tail_height + done(*up, 0.3),
        Work::LowerNut { .. } => {}
        Work::TapWires { taps } => {
            for (fret, tap) in taps {
                let height = &mut truth.frets[usize::from(*fret) - 1].height;
                *height = *height - done(*tap, 0.02);
            }
        }
        Work::SetSaddleHeight { bass, treble } => {
            let AcrossSaddle { bass: was_bass, treble: was_treble } = truth.saddle_height;
            truth.saddle_height =
                AcrossSaddle { bass: was_bass + done(*bass, 0.05), treble: was_treble + done(*treble, 0.05) };
        }
        Work::SlideSaddle { bass, treble, .. } => {
            let AcrossSaddle { bass: was_bass, treble: was_treble } = truth.saddle_place;
            truth.saddle_place =
                AcrossSaddle { bass: was_bass + done(*bass, 0.2), treble: was_treble + done(*treble, 0.2) };
        }
    }
}

//! Writes random cases of wires to tap down, each with the least work that was found, for a judge that is not ours.
//!
//! `tappings COUNT` says one JSON object a line: the strings (where they bear, how they are plucked, how much room is wanted over each
//! fret from each), the crowns, how far each wire and the saddle may go down, the wanted action, and the answer, or nothing where there is none. Millimetres and newtons.

use boxneck::layout::built::AcrossSaddle;
use boxneck::layout::setup::{StringOver, Tapping, TappingCase, least_tapping};
use boxneck::mechanics::MechanicsError;
use boxneck::mechanics::clearance::{PlayedString, margins};
use boxneck::mechanics::pluck::Pluck;
use boxneck::mechanics::random::Random;
use boxneck::mechanics::string_line::{Fret, StringLine};
use serde_json::{Value, json};
use units::{Force, Length};

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let [count] = arguments.as_slice() else { return Err("expected a count".into()) };
    for index in 0..count.parse::<u64>()? {
        let case = Case::of(&mut Random::stream(1, index));
        let told = case.told(least_tapping(&case.asked()?).ok().as_ref());
        use std::io::Write as _;
        writeln!(std::io::stdout(), "{told}")?;
    }
    Ok(())
}

/// A neck with uneven crowns and the strings over it.
struct Case {
    crowns: Vec<Fret>,
    strings: Vec<PlayedString>,
    /// Where each string lies between the saddle's ends.
    across: Vec<f64>,
    spare: Length,
    may_sink: Vec<Length>,
    action_fret: usize,
    wanted: Length,
    within: Length,
    /// Nothing where the saddle stays as it is.
    saddle_may_sink: Option<Length>,
}

fn mm(value: f64) -> Length {
    Length::mm(value)
}

impl Case {
    fn of(random: &mut Random) -> Self {
        let scale = mm(500.0 + 200.0 * random.unit());
        let frets = 5 + (random.unit() * 20.0) as u32;
        let moves_saddle = random.unit() < 0.6;
        // Without the saddle, wires much higher than the rest cannot be freed at all.
        let scatter = if moves_saddle { 0.02 + 0.25 * random.unit() } else { 0.02 + 0.05 * random.unit() };
        let crowns: Vec<Fret> = (1..=frets)
            .map(|fret| Fret::tempered(scale, f64::from(fret), mm(1.2 + scatter * random.normal()), mm(8.0)))
            .collect();
        let count = 1 + (random.unit() * 6.0) as usize;
        let action_fret = (frets as usize).min(12) - 1;
        let wanted = mm(1.5 + 2.0 * random.unit());
        let strings = (0..count).map(|_| {
            let level = StringLine {
                scale_length: scale,
                zero_fret_height: mm(1.4 + 0.05 * random.normal()),
                saddle_height: mm(0.0),
                saddle_setback: mm(4.0 * random.unit()),
                zero_fret_setback: mm(0.0),
            };
            PlayedString {
                line: level.with_action(&crowns[action_fret], wanted + mm(0.15 * random.normal())),
                tension: Force::newtons(30.0 + 60.0 * random.unit()),
                pluck: Pluck {
                    force: Force::newtons(1.0 + 2.0 * random.unit()),
                    from_saddle: mm(60.0 + 60.0 * random.unit()),
                    normal_share: 1.0 / 3.0,
                },
            }
        });
        let strings: Vec<PlayedString> = strings.collect();
        Self {
            across: (0..count)
                .map(|index| if count == 1 { 0.5 } else { index as f64 / (count - 1) as f64 })
                .collect(),
            spare: mm(0.08 * random.unit()),
            may_sink: crowns.iter().map(|_| mm((0.6 * random.unit() - 0.05).max(0.0))).collect(),
            saddle_may_sink: moves_saddle.then(|| mm(3.0 * random.unit())),
            within: mm(0.5),
            crowns,
            strings,
            action_fret,
            wanted,
        }
    }

    fn asked(&self) -> Result<TappingCase, MechanicsError> {
        let strings = self.strings.iter().zip(&self.across).map(|(string, across)| {
            let margins = margins(string, &self.crowns)?;
            let fret = &self.crowns[self.action_fret];
            Ok(StringOver {
                spare: vec![self.spare; margins.len()],
                margins,
                action: string.line.action_over(fret),
                action_fret: Some(self.action_fret),
                action_share: fret.place / string.line.saddle_place(),
                rises: [1.0 - across, *across],
            })
        });
        Ok(TappingCase {
            strings: strings.collect::<Result<_, MechanicsError>>()?,
            may_sink: self.may_sink.clone(),
            wanted: self.wanted,
            within: self.within,
            saddle_may_sink: self.saddle_may_sink.map(AcrossSaddle::even),
        })
    }

    fn told(&self, found: Option<&Tapping>) -> Value {
        let all = |lengths: &[Length]| lengths.iter().map(|length| length.as_mm()).collect::<Vec<_>>();
        let string = |(string, across): (&PlayedString, &f64)| {
            json!({
                "zero_fret": [string.line.zero_fret_place().as_mm(), string.line.zero_fret_height.as_mm()],
                "saddle": [string.line.saddle_place().as_mm(), string.line.saddle_height.as_mm()],
                "across": across,
                "tension_n": string.tension.as_newtons(),
                "pluck_n": string.pluck.force.as_newtons(),
                "pluck_from_saddle": string.pluck.from_saddle.as_mm(),
                "pluck_toward_neck_share": string.pluck.normal_share,
            })
        };
        json!({
            "strings": self.strings.iter().zip(&self.across).map(string).collect::<Vec<_>>(),
            "crowns": self.crowns.iter().map(|fret| [fret.place.as_mm(), fret.crown_height.as_mm()]).collect::<Vec<_>>(),
            "spare": self.spare.as_mm(),
            "may_sink": all(&self.may_sink),
            "saddle_may_sink": self.saddle_may_sink.map(Length::as_mm),
            "action_fret": self.action_fret,
            "wanted": self.wanted.as_mm(),
            "within": self.within.as_mm(),
            "found": found.map(|found| json!({
                "taps": all(&found.taps),
                "saddle": [found.saddle.bass.as_mm(), found.saddle.treble.as_mm()],
                "above_wanted": found.above_wanted.as_mm(),
            })),
        })
    }
}

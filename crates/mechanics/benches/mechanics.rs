//! What do the numbers cost? Budgets: a million intonation errors in a second, a six-string pass in two milliseconds.

use boxneck_mechanics::{
    MechanicsError,
    buzz::{HeightScatter, touch_probability},
    buzz_free::{Strays, Trials, draw_instruments},
    clearance::{PlayedString, margins},
    compensation::{Freedom, best_setbacks},
    drift::{BehindZeroFret, StringPath},
    intonation::error_cents,
    load::{share_of_breaking_load, total_tension},
    neck::{Neck, deflection, relief},
    plate::{Edges, Patch, Plate},
    pluck::Pluck,
    string_body::{MUSIC_WIRE, StringBody},
    string_line::{Fret, StringLine},
    string_model::StringModel,
    tail_height::{HeightLimits, recommended_tail_height},
};
use divan::{Bencher, black_box};
use units::{Density, Force, Frequency, Length, Stress};

fn main() {
    divan::main();
}

const SCALE: Length = Length::mm(648.0);

fn line() -> StringLine {
    StringLine {
        scale_length: SCALE,
        zero_fret_height: Length::mm(1.4),
        saddle_height: Length::mm(6.0),
        saddle_setback: Length::ZERO,
        zero_fret_setback: Length::ZERO,
    }
}

fn frets() -> Vec<Fret> {
    (1..=18).map(|n| Fret::tempered(SCALE, f64::from(n), Length::mm(1.3), Length::mm(5.0))).collect()
}

fn strings() -> Result<Vec<StringModel>, MechanicsError> {
    let plain = |inches, hertz| {
        let body = StringBody::plain(Length::inches(inches), MUSIC_WIRE)?;
        StringModel::tuned(body, SCALE, Frequency::hertz(hertz))
    };
    let wound = |inches, core, hertz| {
        let wrap = Density::kg_per_m3(8860.0);
        let body = StringBody::wound(Length::inches(inches), Length::inches(core), MUSIC_WIRE, wrap)?;
        StringModel::tuned(body, SCALE, Frequency::hertz(hertz))
    };
    Ok(vec![
        wound(0.046, 0.018, 82.407)?,
        wound(0.036, 0.018, 110.0)?,
        wound(0.026, 0.014, 146.832)?,
        plain(0.017, 195.998)?,
        plain(0.013, 246.942)?,
        plain(0.010, 329.628)?,
    ])
}

fn played(string: &StringModel) -> PlayedString {
    let pluck = Pluck { force: Force::newtons(2.0), from_saddle: Length::mm(100.0), normal_share: 0.3 };
    PlayedString { line: line(), tension: string.tension(), pluck }
}

const SCATTER: HeightScatter = HeightScatter { frets: Length::mm(0.08), zero_fret: Length::ZERO };

fn pass() -> Result<f64, MechanicsError> {
    let (strings, frets, line) = (strings()?, frets(), line());
    let mut sum = total_tension(&strings).as_newtons();
    let mut paths = Vec::new();
    for string in &strings {
        sum += share_of_breaking_load(string)?;
        sum += best_setbacks(string, &line, &frets, Freedom::Saddle)?.after_cents;
        let behind_zero_fret = BehindZeroFret::Fixed;
        let (tail_distance, tail_height) = (Length::mm(40.0), Length::ZERO);
        paths.push((*string, StringPath { line, tail_distance, tail_height, behind_zero_fret }));
        for margin in margins(&played(string), &frets)? {
            sum += touch_probability(&margin, &SCATTER)?;
        }
    }
    let limits = HeightLimits { lowest: Length::mm(-20.0), highest: Length::mm(5.0) };
    sum += recommended_tail_height(&paths, Length::mm(3.0), limits)?.worst_cents;
    let neck = Neck::even(Length::mm(400.0), 3e8, Length::mm(12.0))?;
    let tension = total_tension(&strings);
    for fret in &frets {
        sum += deflection(&neck, tension, SCALE - fret.place).as_mm();
        sum += relief(&neck, tension, Length::mm(400.0) - fret.place, [Length::ZERO, neck.length()])?.as_mm();
    }
    Ok(sum)
}

#[divan::bench(sample_count = 10, sample_size = 1)]
fn a_million_intonation_errors(bencher: Bencher<'_, '_>) {
    let (strings, line, frets) = (strings().expect("sound strings"), line(), frets());
    bencher.bench_local(|| {
        let mut sum = 0.0;
        for round in 0..1_000_000_usize {
            let (string, fret) = (&strings[round % 6], &frets[round % 18]);
            sum += error_cents(black_box(string), black_box(&line), black_box(fret));
        }
        sum
    });
}

#[divan::bench]
fn six_string_pass() -> f64 {
    pass().expect("a sound instrument")
}

#[divan::bench(args = [500, 4000])]
fn instruments_of_six_strings(bencher: Bencher<'_, '_>, count: u32) {
    let played: Vec<_> = strings().expect("sound strings").iter().map(played).collect();
    let frets = frets();
    let strays = Strays::drawn(frets.len(), Trials { count, seed: 1 });
    bencher.bench_local(|| draw_instruments(&played, &frets, &SCATTER, &strays));
}

#[divan::bench(args = [Edges::Supported, Edges::Clamped])]
fn lid(bencher: Bencher<'_, '_>, edges: Edges) {
    let plate =
        Plate::new(Length::mm(250.0), Length::mm(180.0), Length::mm(3.0), Stress::megapascals(9000.0), 0.3)
            .expect("a sound plate");
    let load = Patch {
        x: Length::mm(190.0),
        y: Length::mm(90.0),
        length: Length::mm(8.0),
        width: Length::mm(60.0),
        force: Force::newtons(60.0),
    };
    bencher.bench_local(|| boxneck_mechanics::plate::deflection(&plate, edges, &load, [load.x, load.y]));
}

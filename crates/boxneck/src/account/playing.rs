//! What is there to say about how the instrument will play?
//!
//! Tension, intonation, drift, buzz and bending, each with what would be better.

use export::table::Table;
use units::Length;

use super::{Passage, list, named, table};
use crate::instrument::Instrument;

/// How hard each string pulls.
pub(crate) fn tension(instrument: &Instrument) -> Passage {
    let (layout, playing) = (instrument.layout(), instrument.playing());
    let rows = layout.strings().iter().zip(playing.pulls()).enumerate().map(|(index, (path, pull))| {
        let core = match (pull.core_is_estimated, pull.core.nominal == path.diameter) {
            (true, _) => format!("{} to {}, a guess", pull.core.low, pull.core.high),
            (false, true) => "plain".into(),
            (false, false) => pull.core.nominal.to_string(),
        };
        let share = pull.share_of_breaking_load.map_or_else(
            || "not in the table".into(),
            |share| range(share.low, share.high, |share| format!("{:.0} %", share * 100.0)),
        );
        let [number, note] = named(path);
        [
            number,
            note,
            range(pull.tension.low, pull.tension.high, |tension| tension.to_string()),
            core,
            share,
            playing.saddle().down[index].to_string(),
            playing.saddle().down_on_zero_fret[index].to_string(),
        ]
    });
    let heading =
        ["string", "note", "tension", "core", "of breaking load", "presses on saddle", "on zero fret"];
    let aside = "at pitch; estimates, with their assumptions in `boxneck check --explain`";
    let mut passage = Passage::new("Tension", aside, table(heading, rows));
    passage.after.push(format!("together {}", playing.neck().tension));
    passage
}

/// A range of a value, or the value where both ends read the same.
fn range<T: Copy>(low: T, high: T, write: impl Fn(T) -> String) -> String {
    let (low, high) = (write(low), write(high));
    if low == high { low } else { format!("{low} to {high}") }
}

/// Where each crest belongs, and how far out of tune the frets are then.
pub(crate) fn intonation(instrument: &Instrument) -> Passage {
    let (layout, playing) = (instrument.layout(), instrument.playing());
    let frets = &layout.frets().frets;
    let rows = layout.strings().iter().zip(playing.tuning()).map(|(path, tuning)| {
        let [before, after, left] = match (tuning.after_cents.first(), tuning.after_cents.last()) {
            (Some(first), Some(last)) => [
                format!("{:.1}", tuning.rms_before()),
                format!("{:.1}", tuning.rms_after()),
                format!("{first:+.1} and {last:+.1}"),
            ],
            // Without frets nothing is out of tune.
            _ => [const { String::new() }; 3],
        };
        let [number, note] = named(path);
        [number, note, tuning.setback.to_string(), before, after, left]
    });
    let ends = frets.first().zip(frets.last()).map_or_else(
        || "left at the frets".to_owned(),
        |(first, last)| format!("left at fret {} and {}", first.number, last.number),
    );
    let heading = ["string", "note", "crest behind the saddle line", "before", "after", &ends];
    let aside = format!(
        "the middle of the saddle stands {} behind the saddle line; errors in cents, root mean square over the frets",
        layout.saddle().shift
    );
    let mut passage = Passage::new("Intonation", aside, table(heading, rows));
    let both = playing.tuning().iter().filter_map(|tuning| tuning.with_zero_fret);
    if let Some(worst) = both.clone().map(|both| both.after_cents).reduce(f64::max) {
        let count = playing.tuning().len() as f64;
        let toward = both.map(|both| -both.zero_fret).sum::<Length>() / count;
        passage.after.push(format!(
            "with the zero fret moved {toward} toward the saddle as well (in the mean), at most {worst:.1} would be left"
        ));
    }
    passage
}

/// The map: one row a fret, one column a string.
pub(crate) fn fret_by_fret(instrument: &Instrument) -> Passage {
    let (layout, playing) = (instrument.layout(), instrument.playing());
    let heading = layout.strings().iter().map(|path| path.pitch.to_string());
    let rows = layout.frets().frets.iter().enumerate().map(|(index, fret)| {
        let strings = layout.strings().iter().zip(playing.tuning()).map(|(path, tuning)| {
            let action = path.actions.get(index).map_or(0.0, |action| action.as_mm());
            let left =
                tuning.after_cents.get(index).map_or_else(String::new, |cents| format!(" {cents:+.1}"));
            format!("{action:.2}{left}")
        });
        std::iter::once(fret.number.to_string()).chain(strings).collect()
    });
    let table =
        Table { heading: std::iter::once("fret".to_owned()).chain(heading).collect(), rows: rows.collect() };
    let aside = "action in mm, and cents that are left with the crests set back, bass to treble";
    Passage::new("Fret by fret", aside, table)
}

/// What becomes of the open strings when the saddle is slid.
pub(crate) fn drift(instrument: &Instrument) -> Passage {
    let (layout, drift) = (instrument.layout(), instrument.playing().drift());
    let rows = layout.strings().iter().zip(&drift.strings).map(|(path, drift)| {
        let even = drift.break_even.map_or_else(
            || "no angle".into(),
            |(angle, height)| format!("{angle}, holes {height} above the lid"),
        );
        let [number, note] = named(path);
        [
            number,
            note,
            cents(drift.slipping_cents),
            cents(drift.dragged_cents),
            path.tail_angle(layout.frame()).to_string(),
            even,
        ]
    });
    let heading =
        ["string", "note", "slipping", "dragged by friction", "tail angle", "leaves the pitch alone at"];
    let aside = "cents of the open string for 1 mm toward the tail; positive is sharp";
    let mut passage = Passage::new("Sliding the saddle", aside, table(heading, rows));
    if let Some(advice) = &drift.advice {
        let limit = if advice.is_at_limit { "; a better height is out of reach" } else { "" };
        passage.after.push(format!(
            "best for all of them: holes {} above the lid (the document says {}), {:.1} cents at the worst string{limit}",
            advice.hole_height,
            layout.spec().tail.hole_height,
            advice.worst_cents
        ));
    }
    passage
}

/// Cents, or nothing where there are none to tell.
fn cents(cents: f64) -> String {
    if cents.is_finite() { format!("{cents:+.1}") } else { String::new() }
}

/// Where each string has least room, and how low the strings may be; nothing without frets.
pub(crate) fn buzz(instrument: &Instrument) -> Option<Passage> {
    let (layout, playing) = (instrument.layout(), instrument.playing());
    let buzz = playing.buzz()?;
    let (spec, player) = (layout.spec(), playing.player());
    let rows = layout.strings().iter().zip(&buzz.tightest).map(|(path, tightest)| {
        let [number, note] = named(path);
        let pressed = match tightest.fretted {
            0 => "open".to_owned(),
            fret => format!("fret {fret}"),
        };
        [
            number,
            note,
            format!("{pressed} over {}", tightest.over),
            tightest.room.to_string(),
            format!("{:.1} %", tightest.probability * 100.0),
        ]
    });
    let heading =
        ["string", "note", "tightest place", "room with level frets", "chance that it touches there"];
    let aside = format!(
        "plucked at {}, {} from the saddle, {:.0} % of it toward the neck; frets uneven by {}",
        player.pluck.force,
        player.pluck.from_saddle,
        player.pluck.normal_share * 100.0,
        spec.frets.height_scatter
    );
    let mut passage = Passage::new("Buzz", aside, table(heading, rows));
    passage.after = vec![
        format!(
            "of {} such instruments (seed {}) {:.1} % are free of buzz at an action of {}",
            player.trials,
            player.seed,
            buzz.share_free * 100.0,
            spec.action.height
        ),
        format!(
            "lowest action for {:.0} % of them: {}; if every fret were level: {}",
            player.free_of_buzz * 100.0,
            buzz.lowest_action,
            buzz.lowest_action_level
        ),
    ];
    Some(passage)
}

/// What neck, lid and saddle do under the strings.
pub(crate) fn bending(instrument: &Instrument) -> Passage {
    let (neck, push) = (instrument.playing().neck(), instrument.playing().saddle());
    let sunk = push.sink.zip(push.action_lost);
    let rows = [
        Some((
            "neck",
            format!(
                "zero fret up {}, a fret low by up to {}, {} ({:.0} % of the strength of {})",
                neck.droop,
                neck.relief,
                neck.stress(),
                neck.share_of_strength * 100.0,
                instrument.spec().neck.wood.name()
            ),
        )),
        sunk.map(|([supported, clamped], lost)| {
            ("lid", format!("down {clamped} to {supported} under the saddle, up to {lost} of action"))
        }),
        push.standing.as_ref().map(|standing| {
            (
                "floating saddle",
                format!(
                    "pushed {} along the lid, stands where friction is at least {:.2}",
                    standing.along, standing.friction_needed
                ),
            )
        }),
    ];
    let aside = "under the strings, when they are new; wood creeps to 1.5 to 2 times as much";
    Passage::new("Bending", aside, list(["what", "how far"], rows))
}

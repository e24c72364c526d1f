//! What does the bench page say about how the instrument will play?

use layout::Layout;
use layout::playing::Playing;
use units::Length;

use super::line;
use crate::instrument::Instrument;

/// Tension, intonation, drift, buzz and bending, each with what would be better.
pub(super) fn playing(page: &mut String, instrument: &Instrument) {
    let (layout, playing) = (instrument.layout(), instrument.playing());
    tension(page, layout, playing);
    intonation(page, layout, playing);
    fret_by_fret(page, layout, playing);
    drift(page, layout, playing);
    buzz(page, layout, playing);
    bending(page, layout, playing);
}

fn tension(page: &mut String, layout: &Layout, playing: &Playing) {
    line!(page);
    line!(page, "TENSION  at pitch; estimates, with their assumptions in `boxneck check --explain`");
    line!(
        page,
        "  string  note   tension        core                 of breaking load   presses on saddle and zero fret"
    );
    for (index, (path, pull)) in layout.strings().iter().zip(playing.pulls()).enumerate() {
        let core = match (pull.core_is_estimated, pull.core.nominal == path.diameter) {
            (true, _) => format!("{} to {}, a guess", pull.core.low, pull.core.high),
            (false, true) => "plain".into(),
            (false, false) => pull.core.nominal.to_string(),
        };
        let share = pull.share_of_breaking_load.map_or_else(
            || "not in the table".into(),
            |share| range(share.low, share.high, |share| format!("{:.0} %", share * 100.0)),
        );
        line!(
            page,
            "  {:>6}  {:<5}  {:<13}  {core:<19}  {share:<17}  {} and {}",
            path.number.0,
            path.pitch.to_string(),
            range(pull.tension.low, pull.tension.high, |tension| tension.to_string()),
            playing.saddle().down[index],
            playing.saddle().down_on_zero_fret[index],
        );
    }
    line!(page, "  together {}", playing.neck().tension);
}

/// A range of a value, or the value where both ends read the same.
fn range<T: Copy>(low: T, high: T, write: impl Fn(T) -> String) -> String {
    let (low, high) = (write(low), write(high));
    if low == high { low } else { format!("{low} to {high}") }
}

fn intonation(page: &mut String, layout: &Layout, playing: &Playing) {
    let frets = &layout.frets().frets;
    let (saddle, first_last) = (layout.saddle(), frets.first().zip(frets.last()));
    line!(page);
    line!(
        page,
        "INTONATION  the middle of the saddle stands {} behind the saddle line; errors in cents, root mean square over the frets",
        saddle.shift
    );
    let ends = first_last
        .map_or_else(String::new, |(first, last)| format!("fret {} and {}", first.number, last.number));
    line!(page, "  string  note   crest behind the saddle line   before   after   left at {ends}");
    for (path, tuning) in layout.strings().iter().zip(playing.tuning()) {
        let left = match (tuning.after_cents.first(), tuning.after_cents.last()) {
            (Some(first), Some(last)) => format!("{first:+.1} and {last:+.1}"),
            _ => String::new(),
        };
        line!(
            page,
            "  {:>6}  {:<5}  {:<29}  {:<7.1}  {:<6.1}  {left}",
            path.number.0,
            path.pitch.to_string(),
            tuning.setback.to_string(),
            tuning.rms_before(),
            tuning.rms_after(),
        );
    }
    let both = playing.tuning().iter().filter_map(|tuning| tuning.with_zero_fret);
    if let Some(worst) = both.clone().map(|both| both.after_cents).reduce(f64::max) {
        let count = playing.tuning().len() as f64;
        let toward = both.map(|both| -both.zero_fret).sum::<Length>() / count;
        line!(
            page,
            "  with the zero fret moved {toward} toward the saddle as well (in the mean), at most {worst:.1} would be left"
        );
    }
}

/// The map: one row a fret, one column a string.
fn fret_by_fret(page: &mut String, layout: &Layout, playing: &Playing) {
    let notes = layout.strings().iter().map(|path| format!("{:<18}", path.pitch.to_string()));
    line!(page);
    line!(
        page,
        "FRET BY FRET  action in mm, and cents that are left with the crests set back, bass to treble"
    );
    line!(page, "  fret  {}", notes.collect::<String>().trim_end());
    for (index, fret) in layout.frets().frets.iter().enumerate() {
        let strings = layout.strings().iter().zip(playing.tuning()).map(|(path, tuning)| {
            let action = path.actions.get(index).map_or(0.0, |action| action.as_mm());
            let left = tuning.after_cents.get(index).map_or_else(String::new, |cents| format!("{cents:+.1}"));
            format!("{:<18}", format!("{action:.2} {left}"))
        });
        line!(page, "  {:>4}  {}", fret.number, strings.collect::<String>().trim_end());
    }
}

fn drift(page: &mut String, layout: &Layout, playing: &Playing) {
    line!(page);
    line!(page, "SLIDING THE SADDLE  cents of the open string for 1 mm toward the tail; positive is sharp");
    line!(page, "  string  note   slipping   dragged by friction   tail angle   leaves the pitch alone at");
    for (path, drift) in layout.strings().iter().zip(&playing.drift().strings) {
        let even = drift.break_even.map_or_else(
            || "no angle".into(),
            |(angle, height)| format!("{angle}, holes {height} above the lid"),
        );
        line!(
            page,
            "  {:>6}  {:<5}  {:<+9.1}  {:<+20.1}  {:<11}  {even}",
            path.number.0,
            path.pitch.to_string(),
            drift.slipping_cents,
            drift.dragged_cents,
            path.tail_angle(layout.frame()).to_string(),
        );
    }
    if let Some(advice) = &playing.drift().advice {
        let limit = if advice.is_at_limit { "; a better height is out of reach" } else { "" };
        line!(
            page,
            "  best for all of them: holes {} above the lid (the document says {}), {:.1} cents at the worst string{limit}",
            advice.hole_height,
            layout.spec().tail.hole_height,
            advice.worst_cents
        );
    }
}

fn buzz(page: &mut String, layout: &Layout, playing: &Playing) {
    let Some(buzz) = playing.buzz() else { return };
    let (spec, player) = (layout.spec(), &playing.player());
    line!(page);
    line!(
        page,
        "BUZZ  plucked at {}, {} from the saddle, {:.0} % of it toward the neck; frets uneven by {}",
        player.pluck.force,
        player.pluck.from_saddle,
        player.pluck.normal_share * 100.0,
        spec.frets.height_scatter
    );
    line!(
        page,
        "  string  note   tightest place        room with level frets   chance that it touches there"
    );
    for (path, tightest) in layout.strings().iter().zip(&buzz.tightest) {
        let place = format!("fret {} over {}", tightest.fretted, tightest.over);
        line!(
            page,
            "  {:>6}  {:<5}  {place:<20}  {:<22}  {:.1} %",
            path.number.0,
            path.pitch.to_string(),
            tightest.room.to_string(),
            tightest.probability * 100.0,
        );
    }
    line!(
        page,
        "  of {} such instruments (seed {}) {:.1} % are free of buzz at an action of {}",
        player.trials,
        player.seed,
        buzz.share_free * 100.0,
        spec.action.height
    );
    line!(
        page,
        "  lowest action for {:.0} % of them: {}; if every fret were level: {}",
        player.free_of_buzz * 100.0,
        buzz.lowest_action,
        buzz.lowest_action_level
    );
}

fn bending(page: &mut String, layout: &Layout, playing: &Playing) {
    let (neck, push) = (&playing.neck(), &playing.saddle());
    line!(page);
    line!(page, "BENDING  under the strings, when they are new; wood creeps to 1.5 to 2 times as much");
    line!(
        page,
        "  neck                    zero fret up {}, a fret low by up to {}, {} ({:.0} % of the strength of {})",
        neck.droop,
        neck.relief,
        neck.stress(),
        neck.share_of_strength * 100.0,
        layout.spec().neck.wood.name()
    );
    if let (Some([supported, clamped]), Some(lost)) = (push.sink, push.action_lost) {
        line!(
            page,
            "  lid                     down {clamped} to {supported} under the saddle, up to {lost} of action"
        );
    }
    if let Some(standing) = &push.standing {
        line!(
            page,
            "  floating saddle         pushed {} along the lid, stands where friction is at least {:.2}",
            standing.along,
            standing.friction_needed
        );
    }
}

//! Does it buzz, and how low may the strings be?

use mechanics::buzz::{HeightScatter, touch_probability};
use mechanics::buzz_free::{Strays, Trials, draw_instruments_crowned};
use mechanics::clearance::{Margin, PlayedString, margins};
use mechanics::string_line::Fret;
use units::Length;

use crate::fret_distance;
use crate::instrument::Layout;
use crate::playing::Player;

/// Whether an instrument buzzes.
#[derive(Clone, Debug, PartialEq)]
pub struct BuzzReport {
    /// The tightest place of each string, bass to treble, with level frets.
    pub tightest: Vec<Tightest>,
    /// For each string, bass to treble, and each place where it is pressed (the zero fret first, the last fret left out): the
    /// least room that it leaves over any fret beyond, with level frets; negative where it touches.
    pub least_room: Vec<Vec<Length>>,
    /// The share of instruments of this plan, with their uneven frets, that are free of buzz.
    pub share_free: f64,
    /// The lowest action, where the document measures it, at which the wanted share is free of buzz.
    pub lowest_action: Length,
    /// The same if every fret were level.
    pub lowest_action_level: Length,
}

/// The place where a string has least room.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tightest {
    /// Room that the plucked string leaves there; negative where it touches.
    pub room: Length,
    /// The number of the fret that is pressed; 0 for the open string.
    pub fretted: u8,
    /// The number of the fret that it comes near.
    pub over: u8,
    /// The probability that it touches there, with uneven frets.
    pub probability: f64,
}

/// By how much the crowns of the instruments stray that a player has drawn.
pub(super) fn strays(layout: &Layout, player: &Player) -> Strays {
    Strays::drawn(layout.frets().frets.len(), Trials { count: player.trials, seed: player.seed })
}

pub(super) fn buzz(layout: &Layout, player: &Player, strays: &Strays) -> Option<BuzzReport> {
    let strings: Vec<PlayedString> = layout
        .runs()
        .iter()
        .zip(layout.tuned())
        .map(|(run, string)| PlayedString {
            line: run.line,
            tension: string.model.nominal.tension(),
            pluck: player.pluck,
        })
        .collect();
    let frets = layout.spec().frets.height_scatter;
    // The zero fret is fret wire in a saw slot: as even as the best.
    let scatter = HeightScatter { frets, zero_fret: Length::ZERO };
    let level = HeightScatter { frets: Length::ZERO, zero_fret: Length::ZERO };
    // On a crowned board every string has crowns of its own.
    let over: Vec<(PlayedString, &[Fret])> =
        strings.iter().zip(layout.runs()).map(|(string, run)| (*string, run.crowns.as_slice())).collect();
    let uneven = draw_instruments_crowned(&over, &scatter, strays).ok()?;
    let one = Strays::drawn(strays.frets(), Trials { count: 1, seed: player.seed });
    let even = draw_instruments_crowned(&over, &level, &one).ok()?;
    let spec = layout.spec();
    let share_of_way = fret_distance(spec.scale.length, spec.action.fret) / spec.scale.length;
    let lowest = |raise: Length| spec.action.height + raise * share_of_way;
    let rooms = strings
        .iter()
        .zip(layout.runs())
        .map(|(string, run)| {
            let margins = margins(string, &run.crowns).ok()?;
            let tightest = margins.iter().min_by(|a, b| a.room().as_mm().total_cmp(&b.room().as_mm()))?;
            let tightest = numbered(layout, tightest, touch_probability(tightest, &scatter).ok()?);
            Some((tightest, least_room(&margins)))
        })
        .collect::<Option<Vec<_>>>()?;
    let (tightest, least_room) = rooms.into_iter().unzip();
    Some(BuzzReport {
        tightest,
        least_room,
        share_free: uneven.share_free(Length::ZERO),
        lowest_action: lowest(uneven.raise_for(player.free_of_buzz).ok()?),
        lowest_action_level: lowest(even.raise_for(1.0).ok()?),
    })
}

/// The least room for each place where the string is pressed; margins stand in the order of these.
fn least_room(margins: &[Margin]) -> Vec<Length> {
    margins
        .chunk_by(|one, next| one.fretted == next.fretted)
        .filter_map(|same| same.iter().map(Margin::room).reduce(Length::min))
        .collect()
}

fn numbered(layout: &Layout, margin: &Margin, probability: f64) -> Tightest {
    let number = |index: usize| {
        index.checked_sub(1).and_then(|index| layout.frets().frets.get(index)).map_or(0, |fret| fret.number)
    };
    Tightest { room: margin.room(), fretted: number(margin.fretted), over: number(margin.over), probability }
}

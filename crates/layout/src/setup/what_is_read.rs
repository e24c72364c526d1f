//! What would be read on an instrument?

use mechanics::clearance::Margin;
use spec::measured::ReadingOf;
use units::Length;

use super::unknown::State;
use crate::built::{Built, BuiltString, share_across};
use crate::instrument::Layout;

/// What an exact reading gives, in millimetres or cents; of a buzz, the room that the string has there.
///
/// - **Shape**: the plan, an instrument of it, how that plays, and what is read in; one number out.
/// - **Accuracy**: that of [`built()`](crate::built::built()); a straightedge and a pressed string are straight.
pub(super) fn what_is_read(layout: &Layout, state: &State, built: &Built, of: ReadingOf) -> f64 {
    let deviations = &state.deviations;
    let string = |number: u8| layout.strings().len() - usize::from(number);
    match of {
        ReadingOf::FretHeight { fret } => {
            let index = usize::from(fret) - 1;
            (layout.frets().frets[index].crown + deviations.fret(index).height).as_mm()
        }
        ReadingOf::StraightedgeGap { fret } => {
            let [at_zero_fret, at_last] = state.straightedge_mm;
            let share = place(layout, fret) / place(layout, last_fret(layout));
            at_zero_fret + (at_last - at_zero_fret) * share - crown(layout, state, built, fret).as_mm()
        }
        ReadingOf::ZeroFretHeight => crown(layout, state, built, 0).as_mm(),
        ReadingOf::StringHeight { string: number, fret } => {
            built.strings[string(number)].actions[usize::from(fret) - 1].as_mm()
        }
        ReadingOf::SaddleHeight { string: number } => {
            let index = string(number);
            let raised = deviations.saddle_height.at(share_across(layout, index));
            (layout.saddle().crests[index].above + raised).as_mm()
        }
        ReadingOf::SaddlePlace { string: number } => {
            let line = &built.strings[string(number)].line;
            (line.saddle_place() - line.zero_fret_place()).as_mm()
        }
        ReadingOf::TailHeight => (layout.spec().tail.hole_height + deviations.tail_height).as_mm(),
        ReadingOf::TailDistance => {
            let holes = layout.saddle().along + layout.spec().tail.distance + deviations.tail_distance;
            (holes - layout.saddle().center_along() - deviations.saddle_place.at(0.5)).as_mm()
        }
        ReadingOf::Relief { fret } => {
            let last = last_fret(layout);
            let share = place(layout, fret) / place(layout, last);
            let [first, between, last] = [0, fret, last].map(|fret| crown(layout, state, built, fret));
            (first + (last - first) * share - between).as_mm()
        }
        ReadingOf::Tuner { string: number, fret } => {
            let index = string(number);
            let fretted =
                usize::from(fret).checked_sub(1).map_or(0.0, |fret| built.strings[index].cents[fret]);
            state.open_cents[index] + fretted
        }
        ReadingOf::Buzz { string: number, fret, over } => {
            least_room(&built.strings[string(number)], fret, over)
        }
    }
}

/// The least room of a string that is pressed to a fret, over one later fret or over any.
fn least_room(string: &BuiltString, fretted: u8, over: Option<u8>) -> f64 {
    let asked = |margin: &&Margin| {
        margin.fretted == usize::from(fretted) && over.is_none_or(|over| margin.over == usize::from(over))
    };
    string.margins.iter().filter(asked).map(|margin| margin.room().as_mm()).fold(f64::INFINITY, f64::min)
}

fn last_fret(layout: &Layout) -> u8 {
    layout.frets().frets.last().map_or(0, |fret| fret.number)
}

/// The place of a fret's crown as planned; what it strays along the neck does not matter to a straightedge.
fn place(layout: &Layout, fret: u8) -> Length {
    usize::from(fret).checked_sub(1).map_or(Length::ZERO, |index| layout.frets().frets[index].x)
}

/// The height of a fret's crown over the playing plane on the centre line, on the neck as the strings have bowed it.
fn crown(layout: &Layout, state: &State, built: &Built, fret: u8) -> Length {
    match usize::from(fret).checked_sub(1) {
        None => layout.spec().zero_fret.crown_height + state.deviations.zero_fret_height,
        Some(index) => {
            let planned = &layout.frets().frets[index];
            planned.crown - layout.bow().at(planned.x) + built.raised[index]
        }
    }
}

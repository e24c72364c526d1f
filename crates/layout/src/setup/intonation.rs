//! Where does the saddle stand so that all strings are in tune as well as they can be together?

use spec::SaddleKind;
use units::Length;

use super::IN_TUNE_CENTS;
use crate::built::{AcrossSaddle, BuiltFault, Deviations, built};
use crate::instrument::Layout;
use crate::playing::Player;

/// The step of finite differences.
const DIFFERENCE: Length = Length::mm(0.01);

/// A saddle that moves less than this has arrived.
const ARRIVED: Length = Length::mm(0.002);

/// Errors are nearly straight lines of the saddle's place: more rounds change nothing.
const ROUNDS: usize = 6;

/// How much better the notes of the strings must become on average, in cents, for the saddle to be touched at all. Smaller has it moved
/// by less than a hand can; larger leaves what can be heard. Common practice, no source.
const WORTH_MOVING_CENTS: f64 = 0.3;

/// The same where the notes are good already, within two fifths of [`IN_TUNE_CENTS`]: lest every new reading asks for
/// another push. Common practice, no source.
const WORTH_MOVING_AGAIN_CENTS: f64 = 0.7;

/// The saddle's place, as a deviation from the plan, with the least sum of squares of all errors of all strings; the place where it is,
/// where moving it is not worth it.
///
/// - **Shape**: the plan, the player and the instrument in; the deviation of the saddle's place at each end out.
/// - **Accuracy**: to a few micrometres, within what the saddle can be slid or its crests moved on it.
/// - **Errors**: [`BuiltFault::CannotBeStrung`].
pub(super) fn best_place(
    layout: &Layout,
    player: &Player,
    deviations: &Deviations,
) -> Result<AcrossSaddle, BuiltFault> {
    let start = ends(deviations.saddle_place);
    let errors = |at: [Length; 2]| -> Result<Vec<f64>, BuiltFault> {
        let saddle_place = AcrossSaddle { bass: at[0], treble: at[1] };
        let built = built(layout, player, &Deviations { saddle_place, ..deviations.clone() })?;
        Ok(built.strings.into_iter().flat_map(|string| string.cents).collect())
    };
    let reach = reach(layout, start);
    let (mut at, mut here) = (start, errors(start)?);
    let before = mean_square(&here);
    for _ in 0..ROUNDS {
        let mut slopes = [Vec::new(), Vec::new()];
        for (end, slope) in slopes.iter_mut().enumerate() {
            let mut beside = at;
            beside[end] = beside[end] + DIFFERENCE;
            *slope = errors(beside)?
                .iter()
                .zip(&here)
                .map(|(there, here)| (there - here) / DIFFERENCE.as_mm())
                .collect();
        }
        let step = within(&reach, at, least_square(&here, &slopes, layout.strings().len() == 1), |held| {
            along_one(&here, &slopes[1 - held])
        });
        at = [at[0] + step[0], at[1] + step[1]];
        here = errors(at)?;
        if step.iter().all(|step| step.abs() < ARRIVED) {
            break;
        }
    }
    let gained = before.sqrt() - mean_square(&here).sqrt();
    let is_good = before.sqrt() <= IN_TUNE_CENTS * 0.4;
    let worth = if is_good { WORTH_MOVING_AGAIN_CENTS } else { WORTH_MOVING_CENTS };
    let [bass, treble] = if gained < worth { start } else { at };
    Ok(AcrossSaddle { bass, treble })
}

fn ends(place: AcrossSaddle) -> [Length; 2] {
    [place.bass, place.treble]
}

fn mean_square(errors: &[f64]) -> f64 {
    errors.iter().map(|error| error * error).sum::<f64>() / errors.len().max(1) as f64
}

/// How far the saddle's place may deviate at either end: a floating one as far as it slides, one that is let in as far as its crests can
/// be filed from one edge to the other. A saddle that stands farther out already may stay.
fn reach(layout: &Layout, start: [Length; 2]) -> [Length; 2] {
    let saddle = layout.saddle();
    let [least, most] = match layout.spec().saddle.kind {
        SaddleKind::Floating => saddle.slide.map(|limit| limit - saddle.center_along()),
        SaddleKind::LetIn => {
            let out = saddle.crests.iter().map(|crest| crest.offset.abs()).fold(Length::ZERO, Length::max);
            let room = (saddle.thickness / 2.0 - out).max(Length::ZERO);
            [-room, room]
        }
    };
    [start.into_iter().fold(least, Length::min), start.into_iter().fold(most, Length::max)]
}

/// The step that leaves the least square; both ends alike for a single string.
fn least_square(errors: &[f64], slopes: &[Vec<f64>; 2], is_even: bool) -> [f64; 2] {
    let dot = |a: &[f64], b: &[f64]| a.iter().zip(b).map(|(a, b)| a * b).sum::<f64>();
    let [a, b] = slopes;
    if is_even {
        let both: Vec<f64> = a.iter().zip(b).map(|(a, b)| a + b).collect();
        return [along_one(errors, &both); 2];
    }
    let (aa, ab, bb) = (dot(a, a), dot(a, b), dot(b, b));
    let (ae, be) = (-dot(a, errors), -dot(b, errors));
    let determinant = aa * bb - ab * ab;
    if determinant <= 0.0 {
        return [0.0; 2];
    }
    [(ae * bb - be * ab) / determinant, (be * aa - ae * ab) / determinant]
}

/// The step of one end alone that leaves the least square.
fn along_one(errors: &[f64], slope: &[f64]) -> f64 {
    let squares: f64 = slope.iter().map(|slope| slope * slope).sum();
    let product: f64 = slope.iter().zip(errors).map(|(slope, error)| slope * error).sum();
    if squares > 0.0 { -product / squares } else { 0.0 }
}

/// The step, cut so that both ends stay within reach; where one is held at a limit, the other goes where it then is best.
fn within(
    reach: &[Length; 2],
    at: [Length; 2],
    step: [f64; 2],
    other_alone: impl Fn(usize) -> f64,
) -> [Length; 2] {
    let cut = |end: usize, step: f64| {
        let there = at[end].as_mm() + step;
        Length::mm(there.clamp(reach[0].as_mm(), reach[1].as_mm())) - at[end]
    };
    let is_out = |end: usize| (cut(end, step[end]).as_mm() - step[end]).abs() > 1e-12;
    match [is_out(0), is_out(1)] {
        // Held at its limit already: the other end has the errors to itself.
        [true, false] if cut(0, step[0]) == Length::ZERO => [Length::ZERO, cut(1, other_alone(0))],
        [false, true] if cut(1, step[1]) == Length::ZERO => [cut(0, other_alone(1)), Length::ZERO],
        _ => [cut(0, step[0]), cut(1, step[1])],
    }
}

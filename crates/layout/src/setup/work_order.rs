//! What is done to the instrument, in a sensible order, and what is to be expected after each step?
//!
//! First what is done with the strings off or slack: another gauge, the tail, the nut, the wires, the saddle's height; last, in tune, the
//! saddle's place. Height and place act on one another, so both are worked out in turn until they rest.

use mechanics::clearance::Margin;
use mechanics::load::share_of_breaking_load;
use mechanics::random::normal_limit;
use units::{Angle, Length};

use super::SetupFault;
use super::estimate::Estimate;
use super::intonation::best_place;
use super::outlook::Outlook;
use super::seat::{is_measured, may_sink};
use super::sensitivity::{Sensitivity, Worked};
use super::step::{Step, Work};
use super::tail::holes_move;
use super::tapping::{StringOver, Tapping, TappingCase, least_tapping};
use super::unknown::Unknown;
use crate::built::{AcrossSaddle, Built, Deviations, built, share_across};
use crate::instrument::Layout;
use crate::playing::Player;
use crate::tolerances::Dimension;

/// The root mean square error of a string, in cents, up to which it is called in tune: what few ears hear in a chord. Common practice,
/// no source.
pub const IN_TUNE_CENTS: f64 = 5.0;

/// How far from the wanted action a string may lie: what a rule at the bench tells. Common practice, no source.
const WITHIN: Length = Length::mm(0.1);

/// How well work is done, one standard deviation each. Common practice, no source.
const TAPPED_TO: Length = Length::mm(0.02);
const SADDLE_HEIGHT_TO: Length = Length::mm(0.05);
const SADDLE_PLACE_TO: Length = Length::mm(0.2);
const TAIL_TO: Length = Length::mm(0.3);

/// Less than this is not worth a tap, a stroke or a push. Common practice, no source.
const WORTH_TAPPING: Length = Length::mm(0.005);
const WORTH_PLANING: Length = Length::mm(0.03);
const WORTH_SLIDING: Length = Length::mm(0.1);

/// How much lower than planned a zero fret must lie for the nut to follow it. Common practice, no source.
const NUT_FOLLOWS: Length = Length::mm(0.1);

/// What must be left of the saddle over the lid. Common practice, no source.
const LEAST_SADDLE: Length = Length::mm(3.0);

/// Rounds in which height and place of the saddle come to rest: each is a hundredth of the one before.
const ROUNDS: usize = 3;

/// The gauges that are tried for a string that no saddle brings in tune: so many steps of a thousandth of an inch, thinner and thicker,
/// and no nearer to breaking than this share. Common practice, no source.
const GAUGE_STEP: Length = Length::inches(0.001);
const GAUGE_STEPS: i32 = 6;
const MOST_OF_BREAKING: f64 = 0.75;

/// What is to be done.
#[derive(Clone, Debug, PartialEq)]
pub struct WorkOrder {
    /// How the instrument plays as it is.
    pub now: Outlook,
    /// What is done, in this order; nothing where it plays as it should.
    pub steps: Vec<Step>,
    /// How much higher than the document wants the strings must be, because the wires go down no farther.
    pub above_wanted: Length,
    /// The numbers of the frets that nobody has measured: they are taken as planned, and not tapped.
    pub unmeasured: Vec<u8>,
    /// The probability of a touch at any one place up to which nothing is done about it; where something is done, much less is aimed at.
    pub accepted_probability: f64,
}

impl WorkOrder {
    /// How it plays when all is done.
    #[must_use]
    pub fn done(&self) -> &Outlook {
        self.steps.last().map_or(&self.now, |step| &step.after)
    }

    /// Whether every string can be as low as the document wants.
    #[must_use]
    pub fn is_low_enough(&self) -> bool {
        self.above_wanted < WORTH_TAPPING
    }

    /// Whether every string is then free of buzz, as surely as is wanted.
    #[must_use]
    pub fn is_free(&self) -> bool {
        self.done().worst_probability() <= self.accepted_probability
    }

    /// Whether every string is then in tune.
    #[must_use]
    pub fn is_in_tune(&self) -> bool {
        self.done().worst_rms_cents() <= IN_TUNE_CENTS
    }
}

/// What is changed, all of it.
#[derive(Clone, Debug, Default)]
struct Changes {
    diameters: Vec<Length>,
    tail: Option<Length>,
    taps: Vec<Length>,
    saddle_height: AcrossSaddle,
    saddle_place: AcrossSaddle,
    above_wanted: Length,
}

/// The work that makes an instrument play as its document wants.
///
/// - **Shape**: the plan, the player and the estimated instrument in; steps with what to expect after each out.
/// - **Units**: millimetres inside [`Length`]; cents.
/// - **Accuracy**: that of [`built()`]; uncertainty is that of the estimate, and of hands that work as well as is usual.
/// - **Errors**: [`SetupFault`].
pub fn work_order(layout: &Layout, player: &Player, estimate: &Estimate) -> Result<WorkOrder, SetupFault> {
    // Where wires are tapped, what may still buzz is shared among the notes.
    let notes = (layout.frets().frets.len() * layout.strings().len()).max(1);
    let accepted = 1.0 - player.free_of_buzz;
    let bench = Bench {
        layout,
        player,
        estimate,
        sensitivity: Sensitivity::of(layout, player, estimate)?,
        accepted,
        surely: normal_limit(1.0 - accepted / notes as f64),
        surely_enough: normal_limit(1.0 - accepted),
    };
    let mut changes = bench.changes(vec![Length::ZERO; layout.strings().len()])?;
    if let Some(better) = bench.other_gauge(&changes)? {
        changes = better;
    }
    bench.order(&changes)
}

/// Everything that the work is worked out from.
struct Bench<'b> {
    layout: &'b Layout,
    player: &'b Player,
    estimate: &'b Estimate,
    sensitivity: Sensitivity,
    /// The probability of a touch at any one place up to which nothing is done about it.
    accepted: f64,
    /// How many standard deviations of room are aimed at.
    surely: f64,
    /// How many suffice for wires to be left alone, lest every new reading asks for another tap.
    surely_enough: f64,
}

impl Bench<'_> {
    fn built(&self, changes: &Changes) -> Result<Built, SetupFault> {
        Ok(built(self.layout, self.player, &self.deviations(changes))?)
    }

    /// The instrument after changes.
    fn deviations(&self, changes: &Changes) -> Deviations {
        let mut after = self.estimate.deviations.clone();
        for (fret, tap) in after.frets.iter_mut().zip(&changes.taps) {
            fret.height = fret.height - *tap;
        }
        for (diameter, change) in after.string_diameters.iter_mut().zip(&changes.diameters) {
            *diameter = *diameter + *change;
        }
        after.saddle_height = sum(after.saddle_height, changes.saddle_height);
        after.saddle_place = sum(after.saddle_place, changes.saddle_place);
        after.tail_height = after.tail_height + changes.tail.unwrap_or(Length::ZERO);
        after
    }

    /// The changes that make the instrument play, with strings of other diameters by so much.
    fn changes(&self, diameters: Vec<Length>) -> Result<Changes, SetupFault> {
        let mut changes = Changes { diameters, ..Changes::default() };
        for _ in 0..ROUNDS {
            let Tapping { taps, saddle, above_wanted } = self.tapping(&changes)?;
            let taps = taps.into_iter().map(|tap| if tap < WORTH_TAPPING { Length::ZERO } else { tap });
            (changes.taps, changes.saddle_height, changes.above_wanted) =
                (taps.collect(), saddle, above_wanted);
            let place = best_place(
                self.layout,
                self.player,
                &self.deviations(&Changes { saddle_place: AcrossSaddle::default(), ..changes.clone() }),
            )?;
            changes.saddle_place = sum(place, opposite(self.estimate.deviations.saddle_place));
        }
        let is_still =
            |ends: AcrossSaddle, worth: Length| ends.bass.abs() < worth && ends.treble.abs() < worth;
        if is_still(changes.saddle_place, WORTH_SLIDING) {
            changes.saddle_place = AcrossSaddle::default();
        }
        if is_still(changes.saddle_height, WORTH_PLANING) {
            changes.saddle_height = AcrossSaddle::default();
        }
        changes.tail = holes_move(self.layout, &self.deviations(&changes), &self.built(&changes)?);
        Ok(changes)
    }

    /// The least tapping with the saddle where these changes put it; the saddle's height stays where the action is right with it.
    fn tapping(&self, changes: &Changes) -> Result<Tapping, SetupFault> {
        let untouched =
            Changes { taps: Vec::new(), saddle_height: AcrossSaddle::default(), ..changes.clone() };
        let built = self.built(&untouched)?;
        let stays = self.case(&built, changes, None, self.surely);
        let is_right = |string: &StringOver| (string.action - stays.wanted).abs() <= stays.within;
        if stays.strings.iter().all(is_right) {
            let enough = self.case(&built, changes, None, self.surely_enough);
            if let Some(found) = [enough, stays].iter().enumerate().find_map(|(place, case)| {
                let found = least_tapping(case).ok().filter(|found| found.above_wanted <= WORTH_TAPPING)?;
                // The first asks only whether all can stay as it is.
                (place == 1 || found.work() <= WORTH_TAPPING).then_some(found)
            }) {
                return Ok(found);
            }
        }
        let stands = |number: usize, end: Length| {
            let crest = self.layout.saddle().crests.get(number).map_or(Length::ZERO, |crest| crest.above);
            (crest + end - LEAST_SADDLE).max(Length::ZERO)
        };
        let AcrossSaddle { bass, treble } = self.estimate.deviations.saddle_height;
        let last = self.layout.strings().len() - 1;
        let may_sink = AcrossSaddle { bass: stands(0, bass), treble: stands(last, treble) };
        Ok(least_tapping(&self.case(&built, changes, Some(may_sink), self.surely))?)
    }

    fn case(
        &self,
        built: &Built,
        changes: &Changes,
        saddle_may_sink: Option<AcrossSaddle>,
        surely: f64,
    ) -> TappingCase {
        let spec = self.layout.spec();
        let errors = self.sensitivity.errors(&worked(changes, saddle_may_sink.is_some()));
        let mut errors = errors.as_slice();
        let action_fret = self.layout.frets().frets.iter().position(|fret| fret.semitone == spec.action.fret);
        let lid = self.layout.frame().back_angle.cos();
        let strings = built.strings.iter().enumerate().map(|(index, string)| {
            let (own, rest) = errors.split_at(2 + string.cents.len() + string.margins.len());
            errors = rest;
            // Room to spare for what is known only so well; what is not measured is taken as planned until it is.
            let is_known = |margin: &Margin| {
                let mut frets =
                    [margin.fretted, margin.over].into_iter().filter_map(|fret| fret.checked_sub(1));
                frets.all(|fret| is_measured(self.estimate, fret))
            };
            let of_rooms = string.margins.iter().zip(&own[2 + string.cents.len()..]);
            let spare =
                of_rooms.map(
                    |(margin, error)| {
                        if is_known(margin) { Length::mm(surely * error) } else { Length::ZERO }
                    },
                );
            let run = &self.layout.runs()[index];
            let across = share_across(self.layout, index);
            let line = &string.line;
            let open = line.saddle_place() - line.zero_fret_place();
            StringOver {
                margins: string.margins.clone(),
                spare: spare.collect(),
                action: string.action,
                action_fret,
                action_share: (run.measured_over.place - line.zero_fret_place()) / open,
                rises: [(1.0 - across) * lid, across * lid],
            }
        });
        TappingCase {
            strings: strings.collect(),
            may_sink: may_sink(self.layout, self.estimate),
            wanted: spec.action.height,
            within: WITHIN,
            saddle_may_sink,
        }
    }

    /// The changes with another gauge for the string that is farthest out of tune, where it is out and a gauge brings it in: the nearest
    /// that does.
    fn other_gauge(&self, changes: &Changes) -> Result<Option<Changes>, SetupFault> {
        let rms = |built: &Built| -> Vec<f64> {
            built
                .strings
                .iter()
                .map(|string| mechanics::intonation::root_mean_square(&string.cents))
                .collect()
        };
        let worst =
            rms(&self.built(changes)?).into_iter().enumerate().max_by(|(_, a), (_, b)| a.total_cmp(b));
        let Some((index, _)) = worst.filter(|(_, cents)| *cents > IN_TUNE_CENTS) else { return Ok(None) };
        let nearest_first = (1..=GAUGE_STEPS).flat_map(|steps| [-steps, steps]);
        for steps in nearest_first {
            let mut diameters = changes.diameters.clone();
            diameters[index] = GAUGE_STEP * f64::from(steps);
            // A gauge that cannot be strung, or that nothing frees, is none to advise.
            let Ok(tried) = self.changes(diameters) else { continue };
            let Ok(built) = self.built(&tried) else { continue };
            let is_strong = share_of_breaking_load(&built.strings[index].model)
                .is_ok_and(|share| share <= MOST_OF_BREAKING);
            if is_strong && rms(&built).iter().all(|cents| *cents <= IN_TUNE_CENTS) {
                return Ok(Some(tried));
            }
        }
        Ok(None)
    }

    /// The changes as steps.
    fn order(&self, changes: &Changes) -> Result<WorkOrder, SetupFault> {
        let untouched = Changes::default();
        let now =
            Outlook::of(self.layout, &self.built(&untouched)?, &self.sensitivity.errors(&Worked::default()));
        let frets = self.layout.frets().frets.iter().enumerate();
        let unmeasured =
            frets.filter(|(index, _)| !is_measured(self.estimate, *index)).map(|(_, fret)| fret.number);
        let mut order = WorkOrder {
            now,
            steps: Vec::new(),
            above_wanted: changes.above_wanted,
            unmeasured: unmeasured.collect(),
            accepted_probability: self.accepted,
        };
        let mut so_far = untouched;
        let mut add = |work: Work, so_far: &Changes| -> Result<(), SetupFault> {
            let errors =
                self.sensitivity.errors(&worked(so_far, so_far.saddle_height != AcrossSaddle::default()));
            order.steps.push(Step { work, after: Outlook::of(self.layout, &self.built(so_far)?, &errors) });
            Ok(())
        };
        for (index, change) in
            changes.diameters.iter().enumerate().filter(|(_, change)| **change != Length::ZERO)
        {
            so_far.diameters.clone_from(&changes.diameters);
            let path = &self.layout.strings()[index];
            add(
                Work::ChangeString { number: path.number, from: path.diameter, to: path.diameter + *change },
                &so_far,
            )?;
        }
        if let Some(up) = changes.tail {
            so_far.tail = Some(up);
            add(Work::MoveTail { up }, &so_far)?;
        }
        if let Some(by) = self.nut_follows() {
            add(Work::LowerNut { by }, &so_far)?;
        }
        let numbered = self.layout.frets().frets.iter().zip(&changes.taps);
        let taps: Vec<(u8, Length)> =
            numbered.filter(|(_, tap)| **tap > Length::ZERO).map(|(fret, tap)| (fret.number, *tap)).collect();
        if !taps.is_empty() {
            so_far.taps.clone_from(&changes.taps);
            add(Work::TapWires { taps }, &so_far)?;
        }
        if changes.saddle_height != AcrossSaddle::default() {
            so_far.saddle_height = changes.saddle_height;
            let AcrossSaddle { bass, treble } = changes.saddle_height;
            add(Work::SetSaddleHeight { bass, treble }, &so_far)?;
        }
        if changes.saddle_place != AcrossSaddle::default() {
            so_far.saddle_place = changes.saddle_place;
            let AcrossSaddle { bass, treble } = changes.saddle_place;
            let turned = self.turned(bass, treble);
            add(Work::SlideSaddle { bass, treble, turned }, &so_far)?;
        }
        Ok(order)
    }

    /// How far the saddle turns when its ends move; not at all under a single string.
    fn turned(&self, bass: Length, treble: Length) -> Angle {
        match self.layout.saddle().crests.as_slice() {
            [first, .., last] if first.across != last.across => {
                Angle::of_slope(treble - bass, (last.across - first.across).abs())
            }
            _ => Angle::ZERO,
        }
    }

    /// How far the nut's slots follow a zero fret that surely lies lower than planned.
    fn nut_follows(&self) -> Option<Length> {
        let unknown = Unknown::Part { dimension: Dimension::ZeroFretHeight, number: 0 };
        let lower = -self.estimate.deviations.zero_fret_height;
        let surely = Length::mm(2.0 * self.estimate.error_of(unknown));
        (lower > NUT_FOLLOWS.max(surely)).then_some(lower)
    }
}

/// What the work of changes adds to not knowing better.
fn worked(changes: &Changes, sets_saddle: bool) -> Worked {
    let part = |dimension, number, to: Length| (Unknown::Part { dimension, number }, to.as_mm() * to.as_mm());
    let tapped = changes.taps.iter().enumerate().filter(|(_, tap)| **tap > Length::ZERO);
    let mut worked: Vec<(Unknown, f64)> =
        tapped.map(|(number, _)| part(Dimension::FretHeights, number, TAPPED_TO)).collect();
    if sets_saddle {
        worked.extend([0, 1].map(|end| part(Dimension::SaddleHeight, end, SADDLE_HEIGHT_TO)));
    }
    if changes.saddle_place != AcrossSaddle::default() {
        worked.extend([0, 1].map(|end| part(Dimension::SaddlePlace, end, SADDLE_PLACE_TO)));
    }
    if changes.tail.is_some() {
        worked.push(part(Dimension::TailHeight, 0, TAIL_TO));
    }
    Worked(worked)
}

fn sum(a: AcrossSaddle, b: AcrossSaddle) -> AcrossSaddle {
    AcrossSaddle { bass: a.bass + b.bass, treble: a.treble + b.treble }
}

fn opposite(ends: AcrossSaddle) -> AcrossSaddle {
    AcrossSaddle { bass: -ends.bass, treble: -ends.treble }
}

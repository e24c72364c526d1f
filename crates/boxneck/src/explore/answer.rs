//! What is the answer to a question about plans?

use fit::{Change, Check, Finding, Severity};
use layout::playing::Player;
use spec::Document;

use super::axis::{Axis, Base};
use super::clash::smallest_clashes;
use super::evaluated::Evaluated;
use super::fault::ExploreFault;
use super::front::front;
use super::measure::PlanMeasure;
use super::measures::measures;
use super::plan::{Condition, Conditions, Judge, Plan, bits_of, condition, conditions};
use super::question::{Question, Ready};
use super::swarm::swarm;
use super::told::{Told, changes, ranked, told};
use super::want::Want;
use crate::instrument::Instrument;

/// How the plans were gone through.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Method {
    /// Every combination of all values was tried.
    All,
    /// There are more combinations than may be tried: a swarm from this seed has looked where the best are likely.
    Swarm {
        /// Its seed.
        seed: u64,
    },
}

/// What was found.
#[derive(Clone, Debug)]
pub struct Answer {
    /// What the instrument is called.
    pub name: String,
    /// The document that was varied, as the question needs it.
    pub document: Document,
    /// What was varied.
    pub axes: Vec<Axis>,
    /// Whether the keys were chosen because nobody named any.
    pub are_suggested: bool,
    /// What every plan was to hold.
    pub wants: Vec<Want>,
    /// What was to be as good as can be.
    pub best: Vec<&'static PlanMeasure>,
    /// What was measured of every plan.
    pub measures: Vec<&'static PlanMeasure>,
    /// How the plans were gone through.
    pub method: Method,
    /// How many combinations of values there are.
    pub combinations: f64,
    /// The document as it stands, by the whole table of measures.
    pub as_written: Vec<Option<f64>>,
    /// What warns or fails of it.
    pub findings_as_written: Vec<Finding>,
    /// Every plan that was worked out, in the order of its places.
    pub plans: Vec<Plan>,
    /// The places of the plans in that list, the best first.
    pub order: Vec<usize>,
    /// How many hold all that was asked, as far as the checks of the plan see.
    pub holding: usize,
    /// How many are no instrument.
    pub refused: usize,
    /// The best that differ from each other: those that hold, or the nearest where none does.
    pub told: Vec<Told>,
    /// Where two measures pull apart.
    pub fronts: Vec<Front>,
    /// Why nothing holds, where nothing does.
    pub clashes: Vec<Clash>,
}

/// The best compromises between two measures, among plans that hold every other condition.
#[derive(Clone, Debug, PartialEq)]
pub struct Front {
    /// The two measures.
    pub measures: [&'static PlanMeasure; 2],
    /// Places among the plans, from the best first measure to the best second.
    pub plans: Vec<usize>,
}

/// Conditions of which no plan holds all, while some plan holds all but any one of them.
#[derive(Clone, Debug, PartialEq)]
pub struct Clash {
    /// The conditions.
    pub conditions: Vec<Condition>,
    /// For each condition the plan that holds the others and comes nearest to it.
    pub nearest: Vec<Nearest>,
}

/// A plan that gives up one condition.
#[derive(Clone, Debug, PartialEq)]
pub struct Nearest {
    /// The condition.
    pub gives_up: Condition,
    /// The plan's place among the plans.
    pub plan: usize,
    /// What differs from the document.
    pub changes: Vec<Change>,
    /// What it measures of that condition, where it is one on a measure.
    pub value: Option<f64>,
    /// What else it does not hold.
    pub breaks: Vec<Condition>,
}

/// Between how many measures fronts are looked for.
const MOST_MEASURES: usize = 4;

/// Goes through the plans around a document.
///
/// The same base, question and player give the same answer on any number of threads and on every machine. Where nobody names a key
/// and nothing holds with those that move what is asked about, those that cure what stands in the way are varied as well.
///
/// - **Cost**: a layout, its playing and the checks of the plan for each plan, about a third of a millisecond; a measure that is deep
///   ([`PlanMeasure::is_deep`]) takes several times as long.
///
/// # Errors
///
/// [`ExploreFault`] for a question that cannot be answered as it stands.
pub fn explore(base: &Base, question: &Question, player: &Player) -> Result<Answer, ExploreFault> {
    let answer = gone_through(base, question, player, &question.ready(base, player, &[])?)?;
    let holds = |answer: &Answer| answer.told.first().is_some_and(Told::holds);
    if !answer.are_suggested || holds(&answer) {
        return Ok(answer);
    }
    // Nobody named the keys: those that cure what stands in the way may help.
    let clashing = answer.clashes.iter().flat_map(|clash| &clash.conditions);
    let broken = answer.told.first().into_iter().flat_map(|told| &told.broken);
    let in_the_way: Vec<Check> = clashing
        .chain(broken)
        .filter_map(|condition| match condition {
            Condition::Check(check) => Some(*check),
            Condition::Want(_) => None,
        })
        .collect();
    let wider = question.ready(base, player, &in_the_way)?;
    if wider.axes.len() == answer.axes.len() {
        return Ok(answer);
    }
    let second = gone_through(base, question, player, &wider)?;
    Ok(if holds(&second) { second } else { answer })
}

/// The answer with these keys.
fn gone_through(
    base: &Base,
    question: &Question,
    player: &Player,
    ready: &Ready,
) -> Result<Answer, ExploreFault> {
    let judge = Judge::new(ready, question, player);
    let combinations: f64 = ready.axes.iter().map(|axis| axis.values.len() as f64).product();
    let (mut found, method) = if combinations <= question.plans as f64 {
        (Evaluated::grid(&judge), Method::All)
    } else {
        (swarm(&judge, question.plans, question.seed), Method::Swarm { seed: question.seed })
    };
    let plans = found.plans();
    if !plans.iter().any(|plan| plan.is_instrument) {
        let first = plans.first().map(|plan| judge.document_of(&plan.places));
        let why = first.and_then(|document| judge.subject_of(&document).err()).unwrap_or_default();
        return Err(ExploreFault::NoInstrument { plans: plans.len(), why });
    }
    let order = ranked(&judge, &plans);
    let told = told(&judge, &plans, &order, question.told, &mut found);
    let written = Instrument::played_by(&base.document, player)?;
    let complaints = written.findings().iter().filter(|finding| finding.severity > Severity::Note);
    Ok(Answer {
        as_written: measures()
            .iter()
            .map(|measure| measure.of(written.subject(), written.findings()))
            .collect(),
        findings_as_written: complaints.cloned().collect(),
        holding: plans.iter().filter(|plan| plan.holds()).count(),
        refused: plans.iter().filter(|plan| !plan.is_instrument).count(),
        fronts: fronts(&judge, &plans),
        clashes: clashes(&judge, &plans, &order),
        name: base.spec.name.clone(),
        document: ready.document.clone(),
        axes: ready.axes.clone(),
        are_suggested: ready.are_suggested,
        wants: question.wants.clone(),
        best: question.best.clone(),
        measures: judge.measures.clone(),
        method,
        combinations,
        plans,
        order,
        told,
    })
}

impl Answer {
    /// What a plan does not hold.
    #[must_use]
    pub fn broken(&self, plan: &Plan) -> Vec<Condition> {
        conditions(&self.wants, plan.broken)
    }
}

fn fronts(judge: &Judge<'_>, plans: &[Plan]) -> Vec<Front> {
    let asked = &judge.measures[..judge.measures.len().min(MOST_MEASURES)];
    let pairs = asked
        .iter()
        .enumerate()
        .flat_map(|(place, one)| asked[place + 1..].iter().map(move |other| [*one, *other]));
    let found = pairs.map(|measures| {
        // What is asked of the two is what the front is about.
        let about: Conditions = (0..judge.wants.len())
            .filter(|index| measures.contains(&judge.wants[*index].measure))
            .fold(0, |bits, index| bits | 1 << index);
        let points: Vec<[f64; 2]> = plans
            .iter()
            .map(|plan| {
                let is_in = plan.is_instrument && plan.broken & !about == 0;
                if is_in {
                    measures.map(|measure| noticed(judge.wished(plan, measure)))
                } else {
                    [f64::INFINITY; 2]
                }
            })
            .collect();
        let plans = front(&points);
        let ends = plans.first().zip(plans.last()).map(|(first, last)| [points[*first], points[*last]]);
        (ends.is_some_and(|[first, last]| is_apart(first, last)), Front { measures, plans })
    });
    found.filter(|(pulls_apart, _)| *pulls_apart).map(|(_, front)| front).collect()
}

/// To a tenth of a grain: less than that is no compromise.
fn noticed(wished: f64) -> f64 {
    (wished * 10.0).round() / 10.0
}

/// Whether the ends of a front differ by what a builder notices, in both measures.
fn is_apart(first: [f64; 2], last: [f64; 2]) -> bool {
    first.iter().zip(&last).all(|(first, last)| (first - last).abs() >= 1.0)
}

fn clashes(judge: &Judge<'_>, plans: &[Plan], order: &[usize]) -> Vec<Clash> {
    let instruments = || order.iter().copied().filter(|place| plans[*place].is_instrument);
    let sets = smallest_clashes(instruments().map(|place| plans[place].broken));
    let clash = |set: Conditions| {
        let nearest = bits_of(set).filter_map(|bit| {
            let gives_up = condition(judge.wants, bit);
            let missed = |plan: &Plan| match &gives_up {
                Condition::Want(want) => want.missed_by(judge.value(&plan.values, want.measure)),
                Condition::Check(_) => plan.missed,
            };
            let rest = instruments().filter(|place| plans[*place].broken & set == 1 << bit);
            // Of equals the first, which is the best in rank.
            let plan = rest.min_by(|one, other| {
                let others = |place: &usize| (plans[*place].broken & !set).count_ones();
                let by = |place: &usize| missed(&plans[*place]);
                others(one).cmp(&others(other)).then(by(one).total_cmp(&by(other)))
            })?;
            let value = match &gives_up {
                Condition::Want(want) => judge.value(&plans[plan].values, want.measure),
                Condition::Check(_) => None,
            };
            let breaks = judge.conditions(plans[plan].broken & !set);
            Some(Nearest {
                gives_up: gives_up.clone(),
                plan,
                changes: changes(judge, &plans[plan]),
                value,
                breaks,
            })
        });
        Clash { conditions: judge.conditions(set), nearest: nearest.collect() }
    };
    sets.into_iter().map(clash).collect()
}

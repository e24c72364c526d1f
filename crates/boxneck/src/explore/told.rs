//! Which plans are worth telling, and what keeps each from being better?

use fit::{Change, Finding, Severity};
use rayon::prelude::*;
use spec::Document;

use super::evaluated::Evaluated;
use super::measure::PlanMeasure;
use super::measures::{FRETS, measures};
use super::plan::{Condition, Judge, Plan};
use crate::instrument::Instrument;

/// How far apart plans are that are told, as a share of the way through the values of some axis: neighbours say nothing new.
const APART: f64 = 0.1;

/// How many plans are worked out in full for each that is told, before none is said to hold.
const TRIED: usize = 5;

/// The key that says how many frets are wanted.
pub(super) const WANTED_FRETS: &str = "scale.frets";

/// A plan that was worked out in full: with its parts, how they meet, and instruments drawn by lot.
#[derive(Clone, Debug)]
pub struct Told {
    /// Its place among the plans of the answer.
    pub plan: usize,
    /// What differs from the document.
    pub changes: Vec<Change>,
    /// The document with the changes written into it.
    pub document: Document,
    /// What it measures, in the order of the table of measures.
    pub values: Vec<Option<f64>>,
    /// What warns or fails, of all checks.
    pub findings: Vec<Finding>,
    /// The conditions that it does not hold.
    pub broken: Vec<Condition>,
    /// What keeps it from being better, one a turn of a key.
    pub limits: Vec<Limit>,
}

impl Told {
    /// Whether it holds all that was asked, and no check fails that was not looked at before.
    #[must_use]
    pub fn holds(&self) -> bool {
        self.broken.is_empty()
    }

    /// What it measures.
    #[must_use]
    pub fn value(&self, measure: &PlanMeasure) -> Option<f64> {
        let place = measures().iter().position(|other| other == measure)?;
        self.values.get(place).copied().flatten()
    }
}

/// What would happen if one key were turned by one value more, toward a better plan.
#[derive(Clone, Debug, PartialEq)]
pub struct Limit {
    /// The key.
    pub key: String,
    /// The value that it would take; nothing where its values end.
    pub value: Option<String>,
    /// What would no longer hold; nothing where the values end, or where they make no instrument.
    pub breaks: Vec<Condition>,
    /// Why the values would make no instrument.
    pub refused: Option<String>,
}

/// The best plans that differ from each other, worked out in full: those that hold if there are any, the nearest otherwise.
pub(super) fn told(
    judge: &Judge<'_>,
    plans: &[Plan],
    order: &[usize],
    count: usize,
    found: &mut Evaluated,
) -> Vec<Told> {
    let mut holding: Vec<Told> = Vec::new();
    let mut nearest: Vec<Told> = Vec::new();
    for places in differing(judge, plans, order, count * TRIED).chunks(count.max(1)) {
        if holding.len() >= count {
            break;
        }
        let full: Vec<Option<Told>> =
            places.par_iter().map(|place| in_full(judge, &plans[*place], *place)).collect();
        for full in full.into_iter().flatten() {
            if full.holds() { holding.push(full) } else { nearest.push(full) }
        }
    }
    let mut told = if holding.is_empty() { nearest } else { holding };
    told.truncate(count);
    let around: Vec<Vec<u16>> = told
        .iter()
        .flat_map(|full| {
            let axes = 0..judge.axes.len();
            axes.flat_map(|index| WAYS.map(|way| steps(judge, &plans[full.plan].places, index, way)))
        })
        .flatten()
        .collect();
    found.work_out(judge, &around);
    for full in &mut told {
        full.limits = limits(judge, &plans[full.plan], found);
    }
    told
}

/// The best plans in their order, each some way from those before it.
fn differing(judge: &Judge<'_>, plans: &[Plan], order: &[usize], most: usize) -> Vec<usize> {
    let mut chosen: Vec<usize> = Vec::new();
    let is_apart = |one: &Plan, other: &Plan| {
        judge.axes.iter().enumerate().any(|(index, axis)| {
            let steps = one.places[index].abs_diff(other.places[index]);
            let share = f64::from(steps) / (axis.values.len() - 1).max(1) as f64;
            if axis.is_ordered { share >= APART } else { steps > 0 }
        })
    };
    for place in order.iter().copied().filter(|place| plans[*place].is_instrument) {
        if chosen.len() == most {
            break;
        }
        if chosen.iter().all(|other| is_apart(&plans[place], &plans[*other])) {
            chosen.push(place);
        }
    }
    chosen
}

/// A plan with every check made. Where frets are to be as many as can be, its document asks for as many as there is room for.
fn in_full(judge: &Judge<'_>, plan: &Plan, place: usize) -> Option<Told> {
    let mut document = judge.document_of(&plan.places);
    let mut changes = changes(judge, plan);
    if let Some(frets) = more_frets(judge, plan, &document) {
        document = document.with_override(WANTED_FRETS, &frets.to);
        changes.push(frets);
    }
    let instrument = Instrument::played_by(&document, judge.player).ok()?;
    let subject = instrument.subject();
    let all = judge.judged(subject, instrument.findings(), &plan.places, plan.change);
    Some(Told {
        plan: place,
        changes,
        document,
        values: measures().iter().map(|measure| measure.of(subject, instrument.findings())).collect(),
        findings: instrument
            .findings()
            .iter()
            .filter(|finding| finding.severity > Severity::Note)
            .cloned()
            .collect(),
        broken: judge.conditions(all.broken),
        limits: Vec::new(),
    })
}

/// As many frets as there is room for, where that is what is to be best.
fn more_frets(judge: &Judge<'_>, plan: &Plan, document: &Document) -> Option<Change> {
    let measure = judge.best.iter().find(|measure| FRETS.contains(&measure.name))?;
    if judge.is_settled(WANTED_FRETS) {
        return None;
    }
    let (spec, _) = document.read().into_result().ok()?;
    let room = judge.value(&plan.values, measure)?;
    let from = f64::from(spec.scale.frets);
    (room > from).then(|| Change {
        key: WANTED_FRETS.into(),
        from: format!("{from:.0}"),
        to: format!("{room:.0}"),
    })
}

/// What differs from the document.
pub(super) fn changes(judge: &Judge<'_>, plan: &Plan) -> Vec<Change> {
    let turned =
        judge.axes.iter().zip(&plan.places).filter(|(axis, place)| axis.change(usize::from(**place)) > 1e-9);
    let changes = turned.map(|(axis, place)| Change {
        key: axis.key.clone(),
        from: axis.from.clone(),
        to: axis.values[usize::from(*place)].clone(),
    });
    changes.chain(judge.raised.clone()).collect()
}

/// Down and up.
const WAYS: [i32; 2] = [-1, 1];

/// The places to which one axis can be turned one way, by steps that double, and the last of them.
fn steps(judge: &Judge<'_>, from: &[u16], index: usize, way: i32) -> Vec<Vec<u16>> {
    let last = judge.axes[index].values.len() as i32 - 1;
    let here = i32::from(from[index]);
    let room = if way < 0 { here } else { last - here };
    let mut turns: Vec<i32> = (0..16).map(|doubled| 1 << doubled).take_while(|turn| *turn < room).collect();
    turns.extend((room > 0).then_some(room));
    let turned = |turn: i32| {
        let mut places = from.to_vec();
        // Within the axis, whose places are counted in 16 bits.
        places[index] = (here + way * turn) as u16;
        places
    };
    turns.into_iter().map(turned).collect()
}

/// What keeps a plan from being better: for each way that a key can be turned, the first turn that would make it better, if
/// something did not break.
fn limits(judge: &Judge<'_>, plan: &Plan, found: &Evaluated) -> Vec<Limit> {
    let wish = |plan: &Plan| judge.rank(&Plan { missed: 0.0, ..plan.clone() });
    let here = wish(plan);
    let mut limits = Vec::new();
    for (index, axis) in judge.axes.iter().enumerate().filter(|(_, axis)| axis.is_ordered) {
        let [down, up] = WAYS.map(|way| -> Vec<&Plan> {
            steps(judge, &plan.places, index, way).iter().filter_map(|places| found.at(places)).collect()
        });
        for (way, back) in [(&down, &up), (&up, &down)] {
            let value = |turned: &Plan| Some(axis.values[usize::from(turned.places[index])].clone());
            let limit = |value, breaks, refused| Limit { key: axis.key.clone(), value, breaks, refused };
            // The values end where going on would be better still.
            if way.is_empty() && back.iter().any(|back| here.is_better_wished(&wish(back))) {
                limits.push(limit(None, Vec::new(), None));
            }
            let is_better = |turned: &Plan| wish(turned).compare(&here).is_lt();
            match way.iter().find(|turned| !turned.is_instrument || is_better(turned)) {
                Some(turned) if !turned.is_instrument => {
                    let why = judge.subject_of(&judge.document_of(&turned.places)).err();
                    limits.push(limit(value(turned), Vec::new(), why));
                }
                Some(turned) if turned.broken & !plan.broken != 0 => {
                    limits.push(limit(value(turned), judge.conditions(turned.broken & !plan.broken), None));
                }
                _ => {}
            }
        }
    }
    limits
}

/// The places of all plans, the best first.
pub(super) fn ranked(judge: &Judge<'_>, plans: &[Plan]) -> Vec<usize> {
    let mut ranks: Vec<_> = plans.par_iter().map(|plan| judge.rank(plan)).enumerate().collect();
    ranks.sort_by(|(one_place, one), (other_place, other)| {
        one.compare(other).then(one_place.cmp(other_place))
    });
    ranks.into_iter().map(|(place, _)| place).collect()
}

//! How good is one plan?
//!
//! A plan is worked out from the document with the values of each axis laid over it: laid out, played, and held against the checks
//! of the plan; parts and instruments by lot only where a measure asks for them.

use fit::{Change, Check, Finding, Measure as Found, Severity, Subject, checks, findings_of_plan};
use layout::playing::Player;
use spec::Document;

use super::axis::Axis;
use super::measure::PlanMeasure;
use super::measures::{FAILS, FRETS};
use super::question::{Question, Ready};
use super::want::Want;

/// The most conditions of one question.
pub const MOST_WANTS: usize = 16;

/// Conditions as bits: those that were asked for, then that no check fails.
pub(super) type Conditions = u128;

/// What a failing check weighs beside conditions that are missed by so many grains: more than can be lived with.
const FAILED: f64 = 10.0;

/// Misses beyond this are all the same.
const FAR: f64 = 1e6;

/// One plan that was worked out.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    /// The place of its value on each axis, from 0.
    pub places: Vec<u16>,
    /// Whether its values make an instrument together.
    pub is_instrument: bool,
    /// What it measures, in the order of the question's measures; nothing where it is no instrument.
    pub values: Vec<Option<f64>>,
    /// Which conditions it does not hold.
    pub(super) broken: Conditions,
    /// By how much it misses them, all together, in grains; without end where it describes no instrument.
    pub missed: f64,
    /// How many checks of the plan warn.
    pub warns: u32,
    /// How far it lies from the document: the sum of the shares of each axis.
    pub change: f64,
}

impl Plan {
    /// Whether it holds all that was asked.
    #[must_use]
    pub fn holds(&self) -> bool {
        self.is_instrument && self.broken == 0
    }
}

/// What is asked of every plan.
#[derive(Clone, Debug)]
pub(super) struct Judge<'a> {
    /// The document that values are laid over.
    pub(super) document: &'a Document,
    pub(super) axes: &'a [Axis],
    pub(super) wants: &'a [Want],
    pub(super) best: &'a [&'static PlanMeasure],
    pub(super) player: &'a Player,
    /// What is measured: of the conditions first, then what is to be best.
    pub(super) measures: Vec<&'static PlanMeasure>,
    /// Whether every check must not fail: unless somebody asks how many fail.
    is_strict: bool,
    /// More frets than the document asked for, which every plan has.
    pub(super) raised: Option<Change>,
    question: &'a Question,
}

impl<'a> Judge<'a> {
    pub(super) fn new(ready: &'a Ready, question: &'a Question, player: &'a Player) -> Self {
        let (wants, best) = (question.wants.as_slice(), question.best.as_slice());
        let mut measures: Vec<&'static PlanMeasure> = Vec::new();
        for measure in wants.iter().map(|want| want.measure).chain(best.iter().copied()) {
            if !measures.contains(&measure) {
                measures.push(measure);
            }
        }
        let is_strict = measures.iter().all(|measure| measure.name != FAILS);
        Self {
            document: &ready.document,
            axes: &ready.axes,
            wants,
            best,
            player,
            measures,
            is_strict,
            raised: ready.raised.clone(),
            question,
        }
    }

    /// Whether a key is varied, or is to stay as it is.
    pub(super) fn is_settled(&self, key: &str) -> bool {
        self.question.is_locked(key) || self.axes.iter().any(|axis| axis.key == key)
    }

    /// The document of a plan.
    pub(super) fn document_of(&self, places: &[u16]) -> Document {
        self.axes.iter().zip(places).fold(self.document.clone(), |document, (axis, place)| {
            document.with_override(&axis.key, &axis.values[usize::from(*place)])
        })
    }

    /// The instrument of a plan.
    ///
    /// # Errors
    ///
    /// What is wrong with it, where the values make no instrument together.
    pub(super) fn subject_of(&self, document: &Document) -> Result<Subject, String> {
        let (spec, _) = document.read().into_result().map_err(|faults| {
            let first = faults.into_iter().find(|fault| fault.severity == spec::Severity::Error);
            first.map(|fault| fault.message).unwrap_or_default()
        })?;
        let layout = layout::layout(&spec).map_err(|fault| fault.to_string())?;
        Ok(Subject::new(layout, *self.player))
    }

    /// Works out one plan.
    pub(super) fn plan(&self, places: &[u16]) -> Plan {
        let change = self.axes.iter().zip(places).map(|(axis, place)| axis.change(usize::from(*place))).sum();
        let Ok(subject) = self.subject_of(&self.document_of(places)) else {
            let (places, values, is_instrument) = (places.to_vec(), Vec::new(), false);
            return Plan {
                places,
                is_instrument,
                values,
                broken: 0,
                missed: f64::INFINITY,
                warns: 0,
                change,
            };
        };
        let findings = findings_of_plan(&subject);
        self.judged(&subject, &findings, places, change)
    }

    /// Judges an instrument by what its checks have found.
    pub(super) fn judged(
        &self,
        subject: &Subject,
        findings: &[Finding],
        places: &[u16],
        change: f64,
    ) -> Plan {
        let values: Vec<Option<f64>> =
            self.measures.iter().map(|measure| measure.of(subject, findings)).collect();
        let mut broken: Conditions = 0;
        let mut missed = 0.0;
        for (index, want) in self.wants.iter().enumerate() {
            let by = want.missed_by(self.value(&values, want.measure));
            if by > 0.0 {
                broken |= 1 << index;
                missed += by.min(FAR);
            }
        }
        let bad = findings.iter().filter(|finding| finding.severity == Severity::Fail);
        for finding in bad.filter(|finding| self.is_asked(&finding.check)) {
            broken |= bit_of(&finding.check);
            missed += FAILED + beyond(finding).min(FAILED);
        }
        let warns = findings.iter().filter(|finding| finding.severity == Severity::Warn).count() as u32;
        Plan { places: places.to_vec(), is_instrument: true, values, broken, missed, warns, change }
    }

    /// Whether a check must hold; whether all frets are there is asked by a condition on frets, where there is one.
    fn is_asked(&self, check: &Check) -> bool {
        let is_wanted = || {
            let measures = self.wants.iter().map(|want| want.measure);
            measures
                .into_iter()
                .any(|measure| FRETS.contains(&measure.name) && measure.checks.contains(&check.id))
        };
        self.is_strict && !is_wanted()
    }

    /// What a plan measures.
    pub(super) fn value(&self, values: &[Option<f64>], measure: &PlanMeasure) -> Option<f64> {
        let place = self.measures.iter().position(|asked| asked.name == measure.name)?;
        values.get(place).copied().flatten()
    }

    /// The conditions of some bits, those that were asked for first.
    pub(super) fn conditions(&self, bits: Conditions) -> Vec<Condition> {
        conditions(self.wants, bits)
    }

    /// How much a plan leaves to be wished of what is to be best, in grains, least first; warnings and changes of the document where
    /// nothing is.
    pub(super) fn rank(&self, plan: &Plan) -> Rank {
        let wished = self.best.iter().map(|measure| self.wished(plan, measure)).collect();
        Rank { missed: plan.missed, wished, warns: plan.warns, change: plan.change }
    }

    /// How much a plan leaves to be wished of one measure, in grains from zero.
    pub(super) fn wished(&self, plan: &Plan, measure: &PlanMeasure) -> f64 {
        self.value(&plan.values, measure).map_or(f64::INFINITY, |value| measure.worse_by(value, 0.0))
    }
}

/// The order of plans: what they miss, what they leave to be wished, warnings, and how far they are from the document.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Rank {
    missed: f64,
    wished: Vec<f64>,
    warns: u32,
    change: f64,
}

impl Rank {
    /// The order of two plans, the better first.
    pub(super) fn compare(&self, other: &Self) -> std::cmp::Ordering {
        let wished = || {
            let pairs = self.wished.iter().zip(&other.wished);
            pairs.map(|(one, other)| one.total_cmp(other)).find(|order| order.is_ne())
        };
        self.missed
            .total_cmp(&other.missed)
            .then_with(|| wished().unwrap_or(std::cmp::Ordering::Equal))
            .then_with(|| self.warns.cmp(&other.warns))
            .then_with(|| self.change.total_cmp(&other.change))
    }
}

impl Rank {
    /// Whether what is to be best is better, the first measure before the second.
    pub(super) fn is_better_wished(&self, than: &Self) -> bool {
        let mut pairs = self.wished.iter().zip(&than.wished);
        pairs.find(|(one, other)| one != other).is_some_and(|(one, other)| one < other)
    }
}

/// One thing that a plan must hold.
#[derive(Clone, Debug, PartialEq)]
pub enum Condition {
    /// What was asked.
    Want(Want),
    /// That a check does not fail.
    Check(Check),
}

impl std::fmt::Display for Condition {
    fn fmt(&self, formatter: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Want(want) => want.fmt(formatter),
            Self::Check(check) => write!(formatter, "{} must not fail", check.id),
        }
    }
}

/// The conditions of some bits, those that were asked for first.
pub(super) fn conditions(wants: &[Want], bits: Conditions) -> Vec<Condition> {
    bits_of(bits).map(|bit| condition(wants, bit)).collect()
}

/// The bits that are set.
pub(super) fn bits_of(bits: Conditions) -> impl Iterator<Item = u32> {
    (0..Conditions::BITS).filter(move |bit| bits >> bit & 1 == 1)
}

/// How a condition reads.
pub(super) fn condition(wants: &[Want], bit: u32) -> Condition {
    match wants.get(bit as usize) {
        Some(want) => Condition::Want(*want),
        None => {
            let check = checks().nth(bit as usize - MOST_WANTS);
            Condition::Check(*check.expect("bits are set for checks that there are"))
        }
    }
}

fn bit_of(check: &Check) -> Conditions {
    let place =
        checks().position(|other| other.id == check.id).expect("a finding is of a check that there is");
    1 << (MOST_WANTS + place)
}

/// How far a failing value lies beyond its limit, in grains of its kind, so that a search knows which way is better.
fn beyond(finding: &Finding) -> f64 {
    let number = |measure: &Found| match measure {
        Found::Length(length) => length.as_mm(),
        Found::Angle(angle) => angle.as_degrees(),
        Found::Count(count) => f64::from(*count),
        Found::Cents(cents) => *cents,
        Found::Share(share) => share * 20.0,
    };
    let apart = (number(&finding.found) - number(&finding.limit)).abs();
    if apart.is_finite() { apart } else { FAILED }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_condition_has_a_bit() {
        assert!(MOST_WANTS + checks().count() <= Conditions::BITS as usize, "a bit a check");
    }
}

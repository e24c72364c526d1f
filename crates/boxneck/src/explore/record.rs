//! How does another program read the answer to a question about plans?

use serde_json::{Value, json};

use super::answer::{Answer, Clash, Front, Method};
use super::measure::{Better, PlanMeasure};
use super::measures::measures;
use super::page::limit_words;
use super::plan::Condition;
use super::told::Told;
use crate::findings_record::{change_record, findings_record};
use crate::record_number::tidy;

impl Answer {
    /// The answer as one object; every plan that was worked out is in the table ([`Answer::table`]) and not here.
    #[must_use]
    pub fn record(&self) -> Value {
        json!({
            "varied": self.axes.iter().map(|axis| json!({
                "key": axis.key,
                "from": axis.from,
                "values": axis.values.len(),
                "asked": axis.asked(),
            })).collect::<Vec<_>>(),
            "keys_are_suggested": self.are_suggested,
            "wants": self.wants.iter().map(ToString::to_string).collect::<Vec<_>>(),
            "best": self.best.iter().map(|measure| measure.name).collect::<Vec<_>>(),
            "method": match self.method {
                Method::All => json!({ "name": "all" }),
                Method::Swarm { seed } => json!({ "name": "swarm", "seed": seed }),
            },
            "combinations": self.combinations,
            "plans": self.plans.len(),
            "holding": self.holding,
            "no_instrument": self.refused,
            "as_written": values(&self.as_written),
            "told": self.told.iter().map(told).collect::<Vec<_>>(),
            "fronts": self.fronts.iter().map(|front| self.front(front)).collect::<Vec<_>>(),
            "clashes": self.clashes.iter().map(clash).collect::<Vec<_>>(),
        })
    }

    fn front(&self, front: &Front) -> Value {
        let plan = |place: &usize| {
            let plan = &self.plans[*place];
            let keys: serde_json::Map<String, Value> = self
                .axes
                .iter()
                .zip(&plan.places)
                .map(|(axis, place)| (axis.key.clone(), axis.values[usize::from(*place)].clone().into()))
                .collect();
            json!({ "keys": keys, "values": front.measures.map(|measure| self.value(plan, measure).map(tidy)) })
        };
        json!({
            "measures": front.measures.map(|measure| measure.name),
            "plans": front.plans.iter().map(plan).collect::<Vec<_>>(),
        })
    }
}

/// The table of measures for programs.
#[must_use]
pub fn measures_record() -> Value {
    let record = |measure: &PlanMeasure| {
        json!({
            "name": measure.name,
            "words": measure.words,
            "unit": measure.unit.word(),
            "better": match measure.better { Better::Higher => "higher", Better::Lower => "lower" },
            "deep": measure.is_deep,
            "keys": measure.keys(),
        })
    };
    measures().iter().map(record).collect()
}

fn values(values: &[Option<f64>]) -> Value {
    let named = measures().iter().zip(values);
    named
        .map(|(measure, value)| (measure.name.to_owned(), value.map(tidy).into()))
        .collect::<serde_json::Map<_, _>>()
        .into()
}

fn told(told: &Told) -> Value {
    json!({
        "holds": told.holds(),
        "changes": told.changes.iter().map(change_record).collect::<Value>(),
        "values": values(&told.values),
        "broken": told.broken.iter().map(condition).collect::<Vec<_>>(),
        "findings": findings_record(&told.findings),
        "limits": told.limits.iter().map(|limit| json!({
            "key": limit.key,
            "value": limit.value,
            "breaks": limit.breaks.iter().map(condition).collect::<Vec<_>>(),
            "sentence": limit_words(limit),
        })).collect::<Vec<_>>(),
    })
}

fn clash(clash: &Clash) -> Value {
    json!({
        "conditions": clash.conditions.iter().map(condition).collect::<Vec<_>>(),
        "nearest": clash.nearest.iter().map(|nearest| json!({
            "gives_up": condition(&nearest.gives_up),
            "changes": nearest.changes.iter().map(change_record).collect::<Value>(),
            "value": nearest.value.map(tidy),
            "breaks": nearest.breaks.iter().map(condition).collect::<Vec<_>>(),
        })).collect::<Vec<_>>(),
    })
}

fn condition(condition: &Condition) -> Value {
    match condition {
        Condition::Want(want) => json!({ "want": want.to_string() }),
        Condition::Check(check) => json!({ "check": check.id }),
    }
}

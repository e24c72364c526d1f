//! What does the answer to a question about plans say at the bench?

use std::fmt::Write as _;

use fit::{Change, Finding, Severity};

use super::answer::{Answer, Clash, Method};
use super::axis::Axis;
use super::measure::{Better, PlanMeasure};
use super::measures::measures;
use super::plan::Condition;
use super::told::{Limit, Told};

/// Writing to a string cannot fail.
macro_rules! line {
    ($page:expr) => { let _ = writeln!($page); };
    ($page:expr, $($words:tt)*) => { let _ = writeln!($page, $($words)*); };
}

/// How many compromises of one front are listed; more are in the table of all plans.
const LISTED: usize = 12;

impl Answer {
    /// The answer as a page of text.
    #[must_use]
    pub fn to_text(&self) -> String {
        let mut page = String::new();
        for asked in asked_lines(self) {
            line!(page, "{asked}");
        }
        for clash in &self.clashes {
            let lines = clash_words(clash);
            line!(page, "\nWHY NOT  {}", lines.join("\n  "));
        }
        plans(&mut page, self);
        fronts(&mut page, self);
        page
    }

    /// The measures that are worth a column beside a plan: what was asked about, or a handful where nothing was.
    #[must_use]
    pub fn shown(&self) -> Vec<&'static PlanMeasure> {
        const USUAL: [&str; 5] = ["frets", "safe-action", "error", "drift", "relief"];
        if !self.measures.is_empty() {
            return self.measures.clone();
        }
        measures().iter().filter(|measure| USUAL.contains(&measure.name)).collect()
    }
}

/// What was asked, what was varied and how the plans were gone through, a line each.
pub(super) fn asked_lines(answer: &Answer) -> Vec<String> {
    let wants: Vec<String> = answer.wants.iter().map(ToString::to_string).collect();
    let best: Vec<String> = answer.best.iter().map(|measure| best_words(measure)).collect();
    let asked = [wants.join(", "), best.join(", then ")].into_iter().filter(|words| !words.is_empty());
    let mut lines = vec![format!(
        "asked: {}",
        asked.chain(["every check holds".to_owned()]).collect::<Vec<_>>().join("; ")
    )];
    let why = if answer.are_suggested { ", chosen because it moves what is asked" } else { "" };
    for axis in &answer.axes {
        let Axis { from, values, .. } = axis;
        lines.push(format!(
            "varied: {} ({} values; {from} in the document{why})",
            axis.asked(),
            values.len()
        ));
    }
    let how = match answer.method {
        Method::All => "all combinations".to_owned(),
        Method::Swarm { seed } => {
            format!(
                "of {:.2e} combinations, where a swarm (seed {seed}) looked for the best",
                answer.combinations
            )
        }
    };
    let (plans, holding, refused) = (answer.plans.len(), answer.holding, answer.refused);
    lines.push(format!("plans: {plans} worked out, {how}; {holding} hold, {refused} are no instrument"));
    lines
}

fn best_words(measure: &PlanMeasure) -> String {
    let way = match measure.better {
        Better::Higher => "as much",
        Better::Lower => "as little",
    };
    format!("{way} {} as can be", measure.name)
}

/// Which conditions clash, and then the plans that come nearest.
pub(super) fn clash_words(clash: &Clash) -> Vec<String> {
    let conditions: Vec<String> = clash.conditions.iter().map(ToString::to_string).collect();
    let mut lines = vec![match conditions.as_slice() {
        [one] => format!("no plan holds: {one}"),
        _ => format!("no plan holds all of: {}", conditions.join("; ")),
    }];
    for nearest in &clash.nearest {
        let value = match (&nearest.gives_up, nearest.value) {
            (Condition::Want(want), Some(value)) => {
                format!("{} {}", want.measure.name, want.measure.unit.written(value))
            }
            (given_up, _) => format!("not \"{given_up}\""),
        };
        let rest: Vec<String> = nearest.breaks.iter().map(ToString::to_string).collect();
        let rest = if rest.is_empty() { String::new() } else { format!("; besides: {}", rest.join("; ")) };
        lines.push(format!("nearest: {value}, with {}{rest}", change_words(&nearest.changes)));
    }
    lines
}

fn plans(page: &mut String, answer: &Answer) {
    let shown = answer.shown();
    line!(page);
    let heading = match answer.told.first() {
        Some(best) if best.holds() => "BEST PLANS  (each with every check made, parts and assembly too)",
        _ => "NEAREST PLANS  (none holds everything)",
    };
    line!(page, "{heading}");
    line!(page, "  as written: {}", values_words(&shown, &answer.as_written));
    let failing: Vec<&str> = failing(&answer.findings_as_written);
    if !failing.is_empty() {
        line!(page, "     fails: {}", failing.join(", "));
    }
    for (number, told) in answer.told.iter().enumerate() {
        line!(page, "{:>3}  {}", number + 1, change_words(&told.changes));
        line!(page, "     {}", values_words(&shown, &told.values));
        complaints(page, told);
        for limit in &told.limits {
            line!(page, "     limited: {}", limit_words(limit));
        }
    }
}

fn complaints(page: &mut String, told: &Told) {
    if !told.broken.is_empty() {
        let broken: Vec<String> = told.broken.iter().map(ToString::to_string).collect();
        line!(page, "     does not hold: {}", broken.join(", "));
    }
    let warns: Vec<&str> = fit::broken_checks(&told.findings).iter().map(|check| check.id).collect();
    let failing = failing(&told.findings);
    let warns: Vec<&str> = warns.into_iter().filter(|id| !failing.contains(id)).collect();
    if !warns.is_empty() {
        line!(page, "     warns: {}", warns.join(", "));
    }
}

/// The checks that fail.
fn failing(findings: &[Finding]) -> Vec<&'static str> {
    let failing: Vec<Finding> =
        findings.iter().filter(|finding| finding.severity == Severity::Fail).cloned().collect();
    fit::broken_checks(&failing).iter().map(|check| check.id).collect()
}

fn fronts(page: &mut String, answer: &Answer) {
    for front in &answer.fronts {
        let [one, other] = front.measures;
        line!(page);
        line!(
            page,
            "PULLING APART  {} and {}: no plan is better in both than one of these",
            one.name,
            other.name
        );
        let listed = evenly(front.plans.len(), LISTED);
        for place in &listed {
            let plan = &answer.plans[front.plans[*place]];
            let values = front.measures.map(|measure| {
                let value = answer.value(plan, measure).unwrap_or(f64::NAN);
                format!("{} {}", measure.name, measure.unit.written(value))
            });
            let keys: Vec<String> = answer
                .axes
                .iter()
                .zip(&plan.places)
                .map(|(axis, place)| format!("{} {}", axis.key, axis.values[usize::from(*place)]))
                .collect();
            line!(page, "  {}  with {}", values.join(", "), keys.join(", "));
        }
        if listed.len() < front.plans.len() {
            line!(page, "  ({} in all)", front.plans.len());
        }
    }
}

/// At most `most` places out of `count`, both ends among them.
fn evenly(count: usize, most: usize) -> Vec<usize> {
    if count <= most {
        return (0..count).collect();
    }
    (0..most).map(|index| index * (count - 1) / (most - 1)).collect()
}

fn values_words(shown: &[&PlanMeasure], values: &[Option<f64>]) -> String {
    let word = |measure: &&PlanMeasure| {
        let place = measures().iter().position(|other| other == *measure)?;
        let value = values.get(place).copied().flatten();
        Some(format!(
            "{} {}",
            measure.name,
            value.map_or("-".to_owned(), |value| measure.unit.written(value))
        ))
    };
    shown.iter().filter_map(word).collect::<Vec<_>>().join(", ")
}

pub(super) fn change_words(changes: &[Change]) -> String {
    if changes.is_empty() {
        return "the document as it stands".to_owned();
    }
    changes.iter().map(ToString::to_string).collect::<Vec<_>>().join("; ")
}

/// Why a plan cannot be better by one turn of a key.
pub(super) fn limit_words(limit: &Limit) -> String {
    let Limit { key, value, breaks, refused } = limit;
    match (value, refused) {
        (None, _) => format!("the values of {key} end there"),
        (Some(value), Some(why)) => format!("{key} {value} makes no instrument: {why}"),
        (Some(value), None) => {
            let breaks: Vec<String> = breaks.iter().map(ToString::to_string).collect();
            format!("{key} {value} would be better, but breaks: {}", breaks.join("; "))
        }
    }
}

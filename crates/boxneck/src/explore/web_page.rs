//! How does the answer to a question about plans look on a page?
//!
//! What was asked and what came of it, the plans that are told, and charts: the best that each value of each key lets a measure be, and
//! the compromises where two measures pull apart.

use export::ExportFault;
use export::chart::{self, Chart, Form, Mark, Series, Ticks};
use export::page::{Card, Notice, Page, Tone};
use export::table::Table;

use super::answer::{Answer, Front};
use super::axis::Axis;
use super::measure::{Better, PlanMeasure};
use super::page::{asked_lines, change_words, clash_words, limit_words};
use super::plan::Plan;
use super::told::Told;

/// How many plans the page lists; all are in the table beside it.
const LISTED: usize = 40;

/// The most values that are marked on a line, one by one.
const MARKED: usize = 40;

/// How many measures and how many keys have charts.
const CHARTED: usize = 4;

/// The page, with the names of the files that lie beside it.
///
/// # Errors
///
/// [`ExportFault`] for what a chart cannot hold.
pub(super) fn web_page(answer: &Answer, name: &str) -> Result<String, ExportFault> {
    let mut page = Page::new(&format!("Plans around {name}"));
    page.style(chart::STYLE);
    page.section("What was asked");
    page.list(asked_lines(answer));
    page.notice(&verdict(answer));
    for clash in &answer.clashes {
        let mut lines = clash_words(clash);
        let of = lines.remove(0);
        page.notice(&Notice { tone: Tone::Warning, word: "why".into(), of, lines });
    }
    page.section("The plans that are told");
    page.cards(answer.told.iter().enumerate().map(|(number, told)| card(answer, number, told)));
    if !answer.fronts.is_empty() {
        page.section("Where two measures pull apart");
        page.paragraph("No plan is better in both than one on the line; plans that hold every other condition are looked at.");
        let figures = answer.fronts.iter().map(|front| front_figure(answer, front));
        page.figures(figures.collect::<Result<Vec<_>, _>>()?);
    }
    if !answer.measures.is_empty() {
        page.section("What each key does");
        page.paragraph("The best that is reached at each value of a key, whatever the other keys are.");
        let measures = answer.measures.iter().take(CHARTED);
        let pairs =
            measures.flat_map(|measure| answer.axes.iter().take(CHARTED).map(move |axis| (*measure, axis)));
        let figures = pairs.map(|(measure, axis)| profile(answer, measure, axis));
        page.figures(figures.filter_map(Result::transpose).collect::<Result<Vec<_>, _>>()?);
    }
    page.section("The first of all plans");
    let Table { heading, rows } = answer.table();
    let caption =
        format!("{} of {} plans, the best first; all are in plans.csv", LISTED.min(rows.len()), rows.len());
    page.table(&caption, &Table { heading, rows: rows.into_iter().take(LISTED).collect() })?;
    Ok(page.finish())
}

fn verdict(answer: &Answer) -> Notice {
    let lines = Vec::new();
    if answer.told.first().is_some_and(Told::holds) {
        let of = format!("{} of {} plans do what is wanted", answer.holding, answer.plans.len());
        return Notice { tone: Tone::Good, word: "holds".into(), of, lines };
    }
    let of = format!("none of {} plans does all that is wanted", answer.plans.len());
    Notice { tone: Tone::Failure, word: "does not hold".into(), of, lines }
}

fn card(answer: &Answer, number: usize, told: &Told) -> Card {
    let mut rows: Vec<(String, String)> = vec![("change".into(), change_words(&told.changes))];
    rows.extend(answer.shown().iter().map(|measure| {
        let value = told.value(measure).map_or("-".to_owned(), |value| measure.unit.written(value));
        (measure.name.to_owned(), value)
    }));
    rows.extend(told.broken.iter().map(|condition| ("does not hold".to_owned(), condition.to_string())));
    rows.extend(told.limits.iter().map(|limit| ("limited".to_owned(), limit_words(limit))));
    let (title, files) = (format!("Plan {}", number + 1), vec![super::files::plan_name(number)]);
    Card { title, picture: String::new(), rows, files }
}

/// The compromises, with the plans that are told beside them.
fn front_figure(answer: &Answer, front: &Front) -> Result<(String, String), ExportFault> {
    let [across, up] = front.measures;
    let point = |plan: &Plan| {
        let [x, y] = front.measures.map(|measure| answer.value(plan, measure).unwrap_or(f64::NAN));
        (x, y)
    };
    let line = Series {
        name: "no plan is better in both".into(),
        form: Form::MarkedLine,
        look: 0,
        points: front.plans.iter().map(|place| point(&answer.plans[*place])).collect(),
    };
    let told = Series {
        name: "the plans that are told".into(),
        form: Form::Scatter,
        look: 1,
        points: answer.told.iter().map(|told| point(&answer.plans[told.plan])).collect(),
    };
    let caption = format!("{} against {}", up.name, across.name);
    let marks = answer.wants.iter().filter_map(|want| {
        let words = want.to_string();
        if want.measure == across {
            Some(Mark::Upright { at: want.limit, words })
        } else {
            (want.measure == up).then_some(Mark::Level { at: want.limit, words })
        }
    });
    let chart = Chart {
        label: caption.clone(),
        across: axis_of(across),
        up: axis_of(up),
        bands: Vec::new(),
        series: vec![line, told],
        marks: marks.collect(),
    };
    Ok((caption, chart::write(&chart)?))
}

/// The best that each value of a key lets a measure be; nothing where no plan has it.
fn profile(
    answer: &Answer,
    measure: &PlanMeasure,
    axis: &Axis,
) -> Result<Option<(String, String)>, ExportFault> {
    let index = answer.axes.iter().position(|other| other.key == axis.key).unwrap_or_default();
    let (numbers, words) = across(axis);
    let best = |is_in: &dyn Fn(&Plan) -> bool| -> Vec<(f64, f64)> {
        let mut best: Vec<Option<f64>> = vec![None; axis.values.len()];
        for plan in answer.plans.iter().filter(|plan| is_in(plan)) {
            let Some(value) = answer.value(plan, measure) else { continue };
            let best = &mut best[usize::from(plan.places[index])];
            let is_better = |than: f64| match measure.better {
                Better::Higher => value > than,
                Better::Lower => value < than,
            };
            if best.is_none_or(is_better) {
                *best = Some(value);
            }
        }
        numbers.iter().zip(best).filter_map(|(at, best)| Some((*at, best?))).collect()
    };
    let form = match (axis.numbers.is_some(), axis.values.len() <= MARKED) {
        (true, true) => Form::MarkedLine,
        (true, false) => Form::Line,
        (false, _) => Form::Scatter,
    };
    let series = |name: &str, look, points| Series { name: name.into(), form, look, points };
    let all = series("the best of all plans", 1, best(&|plan| plan.is_instrument));
    if all.points.is_empty() {
        return Ok(None);
    }
    let holding = series("the best of those that hold everything", 0, best(&Plan::holds));
    let level = |want: &super::want::Want| Mark::Level { at: want.limit, words: want.to_string() };
    let ticks = match axis.numbers {
        Some(_) => Ticks::Round,
        None => Ticks::Named(numbers.iter().copied().zip(axis.values.iter().cloned()).collect()),
    };
    let caption = format!("{} by {}", measure.name, axis.key);
    let chart = Chart {
        label: caption.clone(),
        across: chart::Axis { words, ticks, reaches: Vec::new() },
        up: axis_of(measure),
        bands: Vec::new(),
        series: [all, holding].into_iter().filter(|series| !series.points.is_empty()).collect(),
        marks: answer.wants.iter().filter(|want| want.measure == measure).map(level).collect(),
    };
    Ok(Some((caption, chart::write(&chart)?)))
}

fn axis_of(measure: &PlanMeasure) -> chart::Axis {
    let words = match measure.unit.word() {
        "" => measure.name.to_owned(),
        unit => format!("{}, {unit}", measure.name),
    };
    chart::Axis { words, ..chart::Axis::default() }
}

/// Where the values of a key stand on a chart, and what the axis is called: in inches where they are written so.
fn across(axis: &Axis) -> (Vec<f64>, String) {
    let Some(numbers) = &axis.numbers else {
        return ((0..axis.values.len()).map(|place| place as f64).collect(), axis.key.clone());
    };
    let unit = axis.values.first().and_then(|value| value.rsplit(' ').next()).unwrap_or_default();
    match unit {
        "in" => (numbers.iter().map(|number| number / 25.4).collect(), format!("{}, in", axis.key)),
        "mm" | "deg" => (numbers.clone(), format!("{}, {unit}", axis.key)),
        _ => (numbers.clone(), axis.key.clone()),
    }
}

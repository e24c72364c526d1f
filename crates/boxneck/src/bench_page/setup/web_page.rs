//! What does the same say as a page that can be kept and printed?

use export::ExportFault;
use export::page::{Notice, Page, Tone};
use export::table::Table;
use layout::setup::{Outlook, StringOutlook};

use super::{heights, left_over, note, notes, number_lines, parts, signed, tightest, what_others_say, words};
use crate::instrument::Instrument;
use crate::model::model;
use crate::overview::overview;
use crate::report::{self, Shown};
use crate::setup::Setup;

/// The report page of a built instrument, with what is to be done to it in front of what was planned: the text of an HTML file
/// that asks for nothing from anywhere.
///
/// # Errors
///
/// [`ExportFault`] for what a picture cannot hold.
pub fn setup_web_page(instrument: &Instrument, setup: &Setup) -> Result<String, ExportFault> {
    let mut page = Page::new(&format!("{}: set up after stringing", instrument.spec().name));
    page.section("What to do");
    page.notice(&verdict(instrument, setup));
    for judged in setup.estimate.contradictions() {
        page.notice(&Notice {
            tone: Tone::Warning,
            word: "Measure again".into(),
            of: judged.reading.of.to_string(),
            lines: vec![what_others_say(judged)],
        });
    }
    let steps = setup.order.steps.iter().enumerate().map(|(place, step)| {
        let [action, room, cents] = number_lines(&step.after);
        vec![(place + 1).to_string(), words(instrument, &step.work).join(" "), action, room, cents]
    });
    let heading = ["step", "what is done", "then the action, mm", "least room, mm", "notes within, cents"];
    if !setup.order.steps.is_empty() {
        page.table("in this order", &table(&heading, steps.collect()))?;
    }
    page.section("How it plays now");
    outlook(&mut page, "as it is", &setup.order.now)?;
    outlook(&mut page, "when all is done", setup.order.done())?;
    page.section("What it is");
    let rows = parts(setup).into_iter().map(|(what, found)| vec![what, signed(found)]);
    page.table(
        "made minus planned, give or take one standard deviation",
        &table(&["what", "mm"], rows.collect()),
    )?;
    let rows: Vec<Vec<String>> = heights(setup)
        .into_iter()
        .enumerate()
        .map(|(index, found)| vec![(index + 1).to_string(), signed(found)])
        .collect();
    if !rows.is_empty() {
        page.table("heights of the frets", &table(&["fret", "made minus planned, mm"], rows))?;
    }
    page.section("What was read");
    let rows = setup.estimate.readings.iter().map(|judged| {
        let unit = judged.reading.of.kind().unit();
        vec![
            judged.reading.of.to_string(),
            format!("{:.2} {unit}", judged.reading.value),
            format!("{:.2} {unit}", judged.fitted),
            if judged.is_set_aside { "set aside".to_owned() } else { String::new() },
        ]
    });
    page.table(
        "beside what the estimate makes of it",
        &table(&["reading", "read", "estimated", ""], rows.collect()),
    )?;
    let picture = export::scene::write(&overview(instrument, None))?;
    let model = export::gltf::write(&model(instrument, None))?;
    report::sections(&mut page, instrument, &Shown { picture: &picture, model: &model, files: &[] })?;
    Ok(page.finish())
}

fn verdict(instrument: &Instrument, setup: &Setup) -> Notice {
    let (tone, word) =
        if setup.holds() { (Tone::Good, "Can be cured") } else { (Tone::Warning, "Not all of it") };
    Notice { tone, word: word.into(), of: String::new(), lines: left_over(instrument, setup) }
}

fn outlook(page: &mut Page, when: &str, outlook: &Outlook) -> Result<(), ExportFault> {
    let row = |string: &StringOutlook| {
        vec![
            string.number.0.to_string(),
            format!("{:.2} \u{b1} {:.2}", string.action.value, string.action.error),
            string.tightest().map_or_else(String::new, tightest),
            string.buzzes().map(note).collect::<Vec<_>>().join(", "),
            notes(string),
            signed(string.drift),
        ]
    };
    let heading = [
        "string",
        "action, mm",
        "tightest, and the room there in mm",
        "buzzes",
        "notes, cents",
        "drift, cents/mm",
    ];
    page.table(when, &table(&heading, outlook.strings.iter().map(row).collect()))
}

fn table(heading: &[&str], rows: Vec<Vec<String>>) -> Table {
    Table { heading: heading.iter().map(|&word| word.to_owned()).collect(), rows }
}

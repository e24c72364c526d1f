//! `boxneck explore`: which plan around a document does what is wanted?

use std::path::Path;

use boxneck::explore::{Answer, Axis, Base, ExploreFault, Question, Want, explore, measures_record};
use boxneck::layout::playing::Player;
use boxneck::spec::Document;
use boxneck::{folder_name, write_build};
use serde_json::json;

use crate::arguments::{Explore, Format, measures_help};
use crate::check::{VERSION, document, tell_refusal};
use crate::outcome::{Outcome, refuse, say};

pub(crate) fn run(call: &Explore) -> anyhow::Result<Outcome> {
    let file = match (&call.file, call.list) {
        (Some(file), false) => file,
        _ => return list(call.format),
    };
    let Some(document) = document(file)? else { return Ok(Outcome::Refused) };
    let player = Player { free_of_buzz: call.free_of_buzz, ..Player::default() };
    let answer = match answer(call, &document, &player) {
        Ok(answer) => answer,
        Err(ExploreFault::Document(refusal)) => {
            tell_refusal(file, &document, &refusal, call.format)?;
            return Ok(Outcome::Refused);
        }
        Err(fault) => return Ok(refuse(&format!("{}: {fault}", file.display()))),
    };
    let written = call.output.as_deref().map(|output| write(&answer, output)).transpose()?;
    match call.format {
        Format::Text => {
            say(&answer.to_text())?;
            if let Some(folder) = &written {
                say(&format!("\nWRITTEN  {folder}\n"))?;
            }
        }
        Format::Json => {
            let record = json!({
                "version": VERSION,
                "file": file.display().to_string(),
                "outcome": if holds(&answer) { "pass" } else { "fail" },
                "folder": written,
                "answer": answer.record(),
            });
            say(&format!("{record}\n"))?;
        }
    }
    Ok(if holds(&answer) { Outcome::Holds } else { Outcome::Fails })
}

fn list(format: Format) -> anyhow::Result<Outcome> {
    match format {
        Format::Text => say(&measures_help())?,
        Format::Json => say(&format!("{}\n", json!({ "version": VERSION, "measures": measures_record() })))?,
    }
    Ok(Outcome::Holds)
}

fn answer(call: &Explore, document: &Document, player: &Player) -> Result<Answer, ExploreFault> {
    let base = Base::of(document)?;
    let question = Question {
        axes: call.vary.iter().map(|text| Axis::parse(&base, text)).collect::<Result<_, _>>()?,
        wants: call.want.iter().map(|text| Want::parse(text)).collect::<Result<_, _>>()?,
        best: call.best.iter().map(|name| Question::measure(name)).collect::<Result<_, _>>()?,
        locks: call.lock.clone(),
        plans: call.plans as usize,
        told: call.tell.into(),
        seed: call.seed,
    };
    explore(&base, &question, player)
}

/// Whether some plan holds all that was asked.
fn holds(answer: &Answer) -> bool {
    answer.told.first().is_some_and(|told| told.holds())
}

/// Writes the files of the answer; gives their folder.
fn write(answer: &Answer, output: &Path) -> anyhow::Result<String> {
    let folder = output.join(format!("{}-plans", folder_name(&answer.name)));
    write_build(&answer.files()?, &folder)?;
    Ok(folder.display().to_string())
}

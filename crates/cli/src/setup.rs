//! `boxneck setup`: what to tap, shim and move on an instrument that is built, strung and measured.

use std::io::Write as _;
use std::path::Path;

use anyhow::Context;
use boxneck::layout::playing::Player;
use boxneck::spec::{Document, limits};
use boxneck::{
    Instrument, MeasuredFormat, measured, read_at_most, setup, setup_page, setup_record, setup_web_page,
};
use serde_json::{Value, json};

use crate::arguments::{Format, Setup};
use crate::check::{VERSION, open};
use crate::diagnostics;
use crate::outcome::{Outcome, refuse, say};

pub(crate) fn run(call: &Setup) -> anyhow::Result<Outcome> {
    let player = Player { free_of_buzz: call.free_of_buzz, ..Player::default() };
    let Some(instrument) = open(&call.file, call.format, &player)? else { return Ok(Outcome::Refused) };
    let name = call.measured.display();
    let bytes = match read_at_most(&call.measured, limits::DOCUMENT_BYTES) {
        Err(fault) if fault.kind() == std::io::ErrorKind::NotFound => {
            return Ok(refuse(&format!(
                "there is no file {name}; an empty one works, and says what to expect before anything is measured"
            )));
        }
        read => read.with_context(|| format!("cannot read {name}"))?,
    };
    let is_csv = call.measured.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("csv"));
    let format = if is_csv { MeasuredFormat::Csv } else { MeasuredFormat::Toml };
    let file = Document::parse(&bytes);
    let readings = match measured(&instrument, &file, format).into_result() {
        Ok((readings, _)) => readings,
        Err(faults) => {
            diagnostics::show(&call.measured, &file, &faults);
            if call.format == Format::Json {
                let faults = faults.iter().map(diagnostics::diagnostic_record).collect::<Vec<_>>();
                say(&line(call, &instrument, "refused", &json!({ "diagnostics": faults })))?;
            }
            return Ok(Outcome::Refused);
        }
    };
    let found = match setup(&instrument, &readings) {
        Ok(found) => found,
        Err(fault) => {
            return Ok(refuse(&format!("{name}: {fault}; measure again what lies farthest from the plan")));
        }
    };
    if let Some(place) = &call.page {
        let text = setup_web_page(&instrument, &found).context("a page of our own")?;
        write(place, &text).with_context(|| format!("cannot write {}", place.display()))?;
    }
    let outcome = if found.holds() { Outcome::Holds } else { Outcome::Fails };
    match call.format {
        Format::Text => say(&setup_page(&instrument, &found))?,
        Format::Json => {
            let word = if found.holds() { "pass" } else { "fail" };
            say(&line(call, &instrument, word, &json!({ "setup": setup_record(&instrument, &found) })))?;
        }
    }
    Ok(outcome)
}

/// Beside its place first, then renamed into it: a page is there whole or not at all.
fn write(place: &Path, text: &str) -> std::io::Result<()> {
    let folder = place.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let mut staged = tempfile::NamedTempFile::new_in(folder)?;
    staged.write_all(text.as_bytes())?;
    staged.persist(place)?;
    Ok(())
}

/// One object on one line, with what every line has.
fn line(call: &Setup, instrument: &Instrument, outcome: &str, more: &Value) -> String {
    let mut record = json!({
        "version": VERSION,
        "file": call.file.display().to_string(),
        "measured": call.measured.display().to_string(),
        "name": instrument.spec().name,
        "outcome": outcome,
    });
    if let (Some(record), Some(more)) = (record.as_object_mut(), more.as_object()) {
        record.extend(more.clone());
    }
    format!("{record}\n")
}

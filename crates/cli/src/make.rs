//! `boxneck make`: check, then all the files.

use std::path::Path;

use boxneck::fit::Severity;
use boxneck::layout::playing::Player;
use boxneck::{Instrument, MakeOptions, files, folder_name, write_build};
use serde_json::{Value, json};

use crate::arguments::{Format, Make};
use crate::check::{VERSION, open, outcome};
use crate::making::options;
use crate::outcome::{Outcome, refuse, say};

pub(crate) fn run(call: &Make) -> anyhow::Result<Outcome> {
    let options = match options(&call.making) {
        Ok(options) => options,
        Err(why) => return Ok(refuse(&why)),
    };
    let mut worst = Outcome::Holds;
    let mut taken: Vec<String> = Vec::new();
    for file in &call.files {
        let Some(instrument) = open(file, call.format, &Player::default())? else {
            worst = worst.max(Outcome::Refused);
            continue;
        };
        let name = folder_name(&instrument.spec().name);
        if taken.contains(&name) {
            let why = format!(
                "{}: another document of this call already makes the folder {name}; change its name",
                file.display()
            );
            worst = worst.max(refuse(&why));
            continue;
        }
        worst = worst.max(make(call, file, &instrument, &options, &name)?);
        taken.push(name);
    }
    Ok(worst)
}

fn make(
    call: &Make,
    file: &Path,
    instrument: &Instrument,
    options: &MakeOptions,
    name: &str,
) -> anyhow::Result<Outcome> {
    for finding in instrument.findings() {
        if finding.severity >= Severity::Warn {
            eprintln!("{}: {}: {finding}", finding.severity.word(), finding.check.id);
        }
    }
    let outcome = outcome(instrument);
    if outcome == Outcome::Fails && !call.making.anyway {
        eprintln!(
            "{}: nothing is written, because a finding fails; --anyway writes all the same",
            file.display()
        );
        if call.format == Format::Json {
            say(&format!("{}\n", record(file, instrument, None, &[])))?;
        }
        return Ok(outcome);
    }
    let files = match files(instrument, options) {
        Ok(files) => files,
        Err(fault) => return Ok(refuse(&format!("{}: {fault}", file.display()))),
    };
    let folder = call.output.join(name);
    write_build(&files, &folder)?;
    match call.format {
        Format::Text => say(&format!("{}: {} files\n", folder.display(), files.len()))?,
        Format::Json => {
            let paths: Vec<&str> = files.iter().map(|file| file.path.as_str()).collect();
            say(&format!("{}\n", record(file, instrument, Some(&folder), &paths)))?;
        }
    }
    Ok(outcome)
}

/// What became of one document, for programs; no folder where nothing was written.
fn record(file: &Path, instrument: &Instrument, folder: Option<&Path>, paths: &[&str]) -> Value {
    json!({
        "version": VERSION,
        "file": file.display().to_string(),
        "outcome": instrument.worst().word(),
        "folder": folder.map(|folder| folder.display().to_string()),
        "files": paths,
        "findings": boxneck::findings_record(instrument.findings()),
    })
}

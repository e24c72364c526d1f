//! `boxneck make`: check, then all the files.

use std::path::Path;

use boxneck::export::Format as FileFormat;
use boxneck::export::dxf::{ArcStyle, DxfProfile, DxfStyle, Tabs};
use boxneck::export::pdf::{Correction, Paper};
use boxneck::fit::Severity;
use boxneck::layout::playing::Player;
use boxneck::units::{ChordTolerance, Length, LengthUnit};
use boxneck::{Instrument, MakeOptions, files, folder_name, write_build};
use serde_json::{Value, json};

use crate::arguments::{Format, Make};
use crate::check::{VERSION, open, outcome};
use crate::outcome::{Outcome, refuse, say};

/// How far flat arcs may deviate where nothing is said: a tenth of what a hobby router repeats to (common practice, no
/// source).
const CHORD: Length = Length::mm(0.01);

/// How wide a tab is where nothing is said: about two bits (common practice, no source).
const TAB_WIDTH: Length = Length::mm(6.0);

pub(crate) fn run(call: &Make) -> anyhow::Result<Outcome> {
    let options = match options(call) {
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

fn options(call: &Make) -> Result<MakeOptions, String> {
    let unit = LengthUnit::parse(&call.unit).map_err(|fault| format!("--unit: {fault}"))?;
    let dxf =
        DxfStyle { profile: profile(call), arcs: arcs(call)?, cut_line: call.cut_line, tabs: tabs(call)? };
    let mut options = MakeOptions { unit, dxf, labels: call.labels, ..MakeOptions::default() };
    if !call.formats.is_empty() {
        options.formats = call
            .formats
            .iter()
            .map(|name| {
                let known = || FileFormat::all().map(FileFormat::name).collect::<Vec<_>>().join(", ");
                FileFormat::named(name)
                    .ok_or_else(|| format!("--formats: there is no format \"{name}\"; there are {}", known()))
            })
            .collect::<Result<_, _>>()?;
    }
    options.papers = call
        .paper
        .iter()
        .map(|name| {
            let known = || Paper::all().map(Paper::name).collect::<Vec<_>>().join(", ");
            Paper::named(name)
                .ok_or_else(|| format!("--paper: there is no paper \"{name}\"; there are {}", known()))
        })
        .collect::<Result<_, _>>()?;
    if let Some(marks) = &call.measured_mark {
        options.correction = correction(marks).map_err(|why| format!("--measured-mark: {why}"))?;
    }
    if !call.only.is_empty() {
        options.only = Some(call.only.iter().cloned().collect());
    }
    Ok(options)
}

fn profile(call: &Make) -> DxfProfile {
    if call.dxf == DxfProfile::R12.name() { DxfProfile::R12 } else { DxfProfile::R2000 }
}

fn arcs(call: &Make) -> Result<ArcStyle, String> {
    match (call.arcs.as_str(), call.chord) {
        ("flat", chord) => Ok(ArcStyle::Flattened(ChordTolerance::new(chord.unwrap_or(CHORD)))),
        (_, Some(_)) => Err("--chord: only flat arcs have a tolerance; add --arcs flat".into()),
        ("separate", None) => Ok(ArcStyle::Separate),
        (_, None) => Ok(ArcStyle::Bulges),
    }
}

fn tabs(call: &Make) -> Result<Option<Tabs>, String> {
    let tabs = |count| Tabs::new(count, call.tab_width.unwrap_or(TAB_WIDTH));
    call.tabs.map(tabs).transpose().map_err(|fault| format!("--tabs: {fault}"))
}

/// The correction for marks that measured so much across and up, in millimetres where nothing else is said.
fn correction(marks: &str) -> Result<Correction, String> {
    let Some((across, up)) = marks.split_once(',') else {
        return Err(format!("expected two lengths, across and up, found {marks}; 99.8,100.1 works"));
    };
    let length =
        |text: &str| Length::parse(text.trim(), LengthUnit::Millimetre).map_err(|fault| fault.to_string());
    Correction::measured([length(across)?, length(up)?]).map_err(|fault| fault.to_string())
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
    if outcome == Outcome::Fails && !call.anyway {
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

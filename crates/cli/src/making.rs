//! What do the options of a call ask to be made of an instrument?

use boxneck::MakeOptions;
use boxneck::export::Format as FileFormat;
use boxneck::export::dxf::{ArcStyle, DxfProfile, DxfStyle, Tabs};
use boxneck::export::pdf::{Correction, Paper};
use boxneck::units::{ChordTolerance, Length, LengthUnit};

use crate::arguments::Making;

/// How far flat arcs may deviate where nothing is said: a tenth of what a hobby router repeats to (common practice, no
/// source).
const CHORD: Length = Length::mm(0.01);

/// How wide a tab is where nothing is said: about two bits (common practice, no source).
const TAB_WIDTH: Length = Length::mm(6.0);

/// The options in the library's words.
///
/// # Errors
///
/// What is wrong with the call.
pub(crate) fn options(call: &Making) -> Result<MakeOptions, String> {
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

fn profile(call: &Making) -> DxfProfile {
    if call.dxf == DxfProfile::R12.name() { DxfProfile::R12 } else { DxfProfile::R2000 }
}

fn arcs(call: &Making) -> Result<ArcStyle, String> {
    match (call.arcs.as_str(), call.chord) {
        ("flat", chord) => Ok(ArcStyle::Flattened(ChordTolerance::new(chord.unwrap_or(CHORD)))),
        (_, Some(_)) => Err("--chord: only flat arcs have a tolerance; add --arcs flat".into()),
        ("separate", None) => Ok(ArcStyle::Separate),
        (_, None) => Ok(ArcStyle::Bulges),
    }
}

fn tabs(call: &Making) -> Result<Option<Tabs>, String> {
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

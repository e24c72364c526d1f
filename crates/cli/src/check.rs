//! `boxneck check`: where everything goes and what does not fit.

use std::path::Path;

use anyhow::Context;
use boxneck::fit::Severity;
use boxneck::layout::playing::Player;
use boxneck::layout::tolerances::ToleranceReport;
use boxneck::mechanics::formulas::formulas;
use boxneck::spec::{Document, limits};
use boxneck::{
    Instrument, Refusal, bench_page, layout_record, read_at_most, tolerances, tolerances_page,
    tolerances_record, with_files_of,
};
use serde_json::{Value, json};

use crate::arguments::{Check, Format};
use crate::diagnostics;
use crate::mend;
use crate::outcome::{Outcome, refuse, say};

/// The version of the JSON lines; it rises when a key changes its meaning or goes.
pub(crate) const VERSION: u32 = 1;

pub(crate) fn run(call: &Check) -> anyhow::Result<Outcome> {
    let mut worst = Outcome::Holds;
    for (place, file) in call.files.iter().enumerate() {
        if place > 0 && call.format == Format::Text {
            say("\n")?;
        }
        worst = worst.max(check(call, file)?);
    }
    if call.explain && call.format == Format::Text {
        say(&explained())?;
    }
    Ok(worst)
}

fn check(call: &Check, file: &Path) -> anyhow::Result<Outcome> {
    let player = Player { free_of_buzz: call.free_of_buzz, ..Player::default() };
    let Some(instrument) = open(file, call.format, &player)? else { return Ok(Outcome::Refused) };
    let tolerances = match held(call, file, &instrument) {
        Ok(report) => report,
        Err(refused) => return Ok(refused),
    };
    let mended =
        match call.mend.then(|| mend::mend(file, &instrument, call.in_place)).transpose()?.transpose() {
            Ok(mended) => mended,
            Err(refused) => return Ok(refused),
        };
    match call.format {
        Format::Text => {
            say(&bench_page(&instrument))?;
            if let Some(mended) = &mended {
                say(&mend::page(mended))?;
            }
            if let Some(report) = &tolerances {
                say(&tolerances_page(&instrument, report))?;
            }
        }
        Format::Json => {
            let record = json!({
                "version": VERSION,
                "file": file.display().to_string(),
                "outcome": instrument.worst().word(),
                "warnings": instrument.warnings().iter().map(diagnostics::diagnostic_record).collect::<Vec<_>>(),
                "layout": layout_record(&instrument),
                "tolerances": tolerances.map(|report| tolerances_record(&instrument, &report)),
                "mended": mended.as_ref().map(mend::record),
                "formulas": call.explain.then(formulas_record),
            });
            say(&format!("{record}\n"))?;
        }
    }
    Ok(outcome(&instrument))
}

/// How instruments of the plan differ, where that is asked; tolerances that make no instrument are refused with their reason.
fn held(call: &Check, file: &Path, instrument: &Instrument) -> Result<Option<ToleranceReport>, Outcome> {
    let Some(instruments) = call.tolerances else { return Ok(None) };
    tolerances(instrument, instruments).map(Some).map_err(|fault| {
        refuse(&format!("{}: {fault}; hold the keys of [tolerances] tighter", file.display()))
    })
}

/// Every formula with its source, for people.
fn explained() -> String {
    let rows = formulas().iter().map(|formula| {
        format!(
            "  {}: {}\n    {}\n    {} ({})\n",
            formula.id,
            formula.gives,
            formula.formula,
            formula.source,
            formula.status.words()
        )
    });
    format!("\nFORMULAS\n{}", rows.collect::<String>())
}

/// Every formula with its source, for programs.
fn formulas_record() -> Value {
    let record = |formula: &boxneck::mechanics::formulas::Formula| {
        json!({
            "id": formula.id,
            "gives": formula.gives,
            "formula": formula.formula,
            "source": formula.source,
            "status": formula.status.words(),
        })
    };
    formulas().iter().map(record).collect()
}

/// How a sound document's instrument turned out.
pub(crate) fn outcome(instrument: &Instrument) -> Outcome {
    if instrument.worst() == Severity::Fail { Outcome::Fails } else { Outcome::Holds }
}

/// The instrument of a document; nothing, with the reason told, where the document is refused.
pub(crate) fn open(file: &Path, format: Format, player: &Player) -> anyhow::Result<Option<Instrument>> {
    let Some(document) = document(file)? else { return Ok(None) };
    match Instrument::played_by(&document, player) {
        Ok(instrument) => {
            diagnostics::show(file, &document, instrument.warnings());
            Ok(Some(instrument))
        }
        Err(refusal) => {
            tell_refusal(file, &document, &refusal, format)?;
            Ok(None)
        }
    }
}

/// Says why a document is refused, to people and to programs.
pub(crate) fn tell_refusal(
    file: &Path,
    document: &Document,
    refusal: &Refusal,
    format: Format,
) -> anyhow::Result<()> {
    diagnostics::show_refusal(file, document, refusal);
    if format == Format::Json {
        let record = json!({
            "version": VERSION,
            "file": file.display().to_string(),
            "outcome": "refused",
            "diagnostics": diagnostics::record(refusal),
        });
        say(&format!("{record}\n"))?;
    }
    Ok(())
}

/// The document in a file; nothing, with the reason told, where there is none.
pub(crate) fn document(file: &Path) -> anyhow::Result<Option<Document>> {
    match read_at_most(file, limits::DOCUMENT_BYTES) {
        Err(fault) if fault.kind() == std::io::ErrorKind::NotFound => {
            eprintln!(
                "boxneck: there is no file {}; `boxneck new {0}` writes one to begin from",
                file.display()
            );
            Ok(None)
        }
        read => {
            let bytes = read.with_context(|| format!("cannot read {}", file.display()))?;
            Ok(Some(with_files_of(Document::parse(&bytes), file)))
        }
    }
}

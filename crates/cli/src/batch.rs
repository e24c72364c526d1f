//! `boxneck batch`: a whole class.

use std::io::IsTerminal;
use std::path::Path;

use anyhow::Context;
use boxneck::batch::{
    Base, Bases, Batch, BatchFault, BatchOptions, Class, ClassRecord, Fate, Planned, RemovedBuild, Roster,
    RowDone, RowState, limits, merge,
};
use boxneck::fit::Severity;
use boxneck::read_at_most;
use boxneck::spec::{self, Document, StockList};
use indicatif::{ProgressBar, ProgressStyle};
use serde_json::{Value, json};

use crate::arguments::{Batch as Call, Format};
use crate::check::VERSION;
use crate::diagnostics;
use crate::making::options;
use crate::outcome::{Outcome, refuse, say};

pub(crate) fn run(call: &Call) -> anyhow::Result<Outcome> {
    let make = match options(&call.making) {
        Ok(make) => make,
        Err(why) => return Ok(refuse(&why)),
    };
    let stock = match &call.stock {
        None => None,
        Some(path) => match stock_list(path)? {
            Some(stock) => Some(stock),
            None => return Ok(Outcome::Refused),
        },
    };
    let anyway = call.making.anyway;
    let options = BatchOptions { make, anyway, shard: call.shard, prune: call.prune, stock };
    match &call.roster {
        Some(roster) => make_class(call, roster, &options),
        None => ended(call, merge(&call.merge, &call.output, &options)),
    }
}

fn make_class(call: &Call, path: &Path, options: &BatchOptions) -> anyhow::Result<Outcome> {
    let roster = |path: &Path| read_at_most(path, limits::ROSTER_BYTES);
    let Some(bytes) = read(path, roster)? else { return Ok(Outcome::Refused) };
    let base = match &call.base {
        None => None,
        Some(path) => match read(path, Base::open)? {
            Some(base) => Some(base),
            None => return Ok(Outcome::Refused),
        },
    };
    let roster = Roster::parse(&bytes);
    let folder = path.parent().unwrap_or(Path::new(""));
    let bases = Bases::open(base, &roster, folder);
    for base in bases.all() {
        diagnostics::show(Path::new(base.name()), base.document(), base.faults());
    }
    let class = Class::plan(&roster, &bases);
    for fault in class.faults() {
        let level = if fault.is_error { "error" } else { "warning" };
        eprintln!("{level}: {}: {fault}\n", path.display());
    }
    let refused = class.rows().iter().any(|row| matches!(row.planned, Planned::Refused(_)));
    let bar = progress(class.rows().len());
    let mut told: anyhow::Result<()> = Ok(());
    let mut tell = |row: &RowDone| {
        if told.is_ok() {
            told = tell_row(call, row, bar.as_ref());
        }
    };
    let made = boxneck::batch::run(&class, &call.output, options, &mut tell);
    if let Some(bar) = bar {
        bar.finish_and_clear();
    }
    told?;
    ended(call, made).map(|outcome| if refused { outcome.max(Outcome::Refused) } else { outcome })
}

/// The stock that a file lists; nothing, with the reason told, where it lists none.
fn stock_list(path: &Path) -> anyhow::Result<Option<StockList>> {
    let list = |path: &Path| read_at_most(path, spec::limits::DOCUMENT_BYTES);
    let Some(bytes) = read(path, list)? else { return Ok(None) };
    let document = Document::parse(&bytes);
    let read = document.read_stock();
    diagnostics::show(path, &document, read.diagnostics());
    Ok(read.value().cloned())
}

/// What a file holds; nothing, with the reason told, where there is no such file.
fn read<T>(path: &Path, open: impl FnOnce(&Path) -> std::io::Result<T>) -> anyhow::Result<Option<T>> {
    match open(path) {
        Err(fault) if fault.kind() == std::io::ErrorKind::NotFound => {
            refuse(&format!("there is no file {}", path.display()));
            Ok(None)
        }
        read => read.map(Some).with_context(|| format!("cannot read {}", path.display())),
    }
}

/// A bar on a terminal; elsewhere every row has its line.
fn progress(rows: usize) -> Option<ProgressBar> {
    let is_watched = std::io::stderr().is_terminal() && std::io::stdout().is_terminal();
    is_watched.then(|| {
        let style = ProgressStyle::with_template("{bar:40} {pos} of {len} rows, {eta} to go  {msg}");
        // The template is ours, and a test walks it.
        ProgressBar::new(rows as u64).with_style(style.unwrap_or_else(|_| ProgressStyle::default_bar()))
    })
}

/// A row's line; under a bar only of rows that want to be looked at.
fn tell_row(call: &Call, row: &RowDone, bar: Option<&ProgressBar>) -> anyhow::Result<()> {
    let Some(bar) = bar.filter(|_| call.format == Format::Text) else {
        return say(&match call.format {
            Format::Text => line(&call.output, row),
            Format::Json => format!("{}\n", record(&call.output, row)),
        });
    };
    bar.set_message(row.record.folder.clone());
    bar.inc(1);
    if matches!(row.fate, Fate::HeldBack | Fate::Refused) {
        bar.suspend(|| say(&line(&call.output, row)))?;
    }
    Ok(())
}

/// "row 4: outputs/anna: made, warns: free-of-buzz".
fn line(output: &Path, row: &RowDone) -> String {
    let record = &row.record;
    let whose = if record.student.is_empty() { String::new() } else { format!(" ({})", record.student) };
    let several = if record.quantity > 1 { format!(", {} of it", record.quantity) } else { String::new() };
    let place = match record.state {
        RowState::Made => format!("{}: ", output.join(&record.folder).display()),
        RowState::HeldBack | RowState::Refused => String::new(),
    };
    let mut text = format!("row {}{whose}: {place}{}{several}", record.row, row.fate.word());
    for (severity, verb) in [(Severity::Fail, "fails"), (Severity::Warn, "warns")] {
        let findings = row.kit.iter().flat_map(|kit| &kit.findings);
        let mut ids: Vec<&str> = findings
            .filter(|finding| finding.severity == severity)
            .map(|finding| finding.id.as_str())
            .collect();
        ids.dedup();
        if !ids.is_empty() {
            text.push_str(&format!("; {verb}: {}", ids.join(", ")));
        }
    }
    if let Some(fault) = record.faults.first() {
        let more = if record.faults.len() > 1 {
            format!(" (and {} more)", record.faults.len() - 1)
        } else {
            String::new()
        };
        text.push_str(&format!("; {}{more}", fault.message));
    }
    text.push('\n');
    text
}

fn record(output: &Path, row: &RowDone) -> Value {
    let mut record = serde_json::to_value(&row.record).unwrap_or_default();
    if let Some(object) = record.as_object_mut() {
        object.insert("version".into(), VERSION.into());
        object.insert("fate".into(), row.fate.word().into());
        object.insert("path".into(), output.join(&row.record.folder).display().to_string().into());
        object.insert("outcome".into(), row.kit.as_ref().map(|kit| kit.worst.word()).into());
        object.insert("findings".into(), json!(row.kit.as_ref().map(|kit| &kit.findings)));
    }
    record
}

/// How the call ends, and what is said of the class as a whole.
fn ended(call: &Call, made: Result<Batch, BatchFault>) -> anyhow::Result<Outcome> {
    let batch = match made {
        Ok(batch) => batch,
        Err(fault @ (BatchFault::Roster | BatchFault::Shards { .. } | BatchFault::Foreign(_))) => {
            return Ok(refuse(&fault.to_string()));
        }
        Err(fault) => return Err(fault.into()),
    };
    for removed in &batch.removed {
        eprintln!("{}", of_removed(&call.output.join(&removed.folder), removed));
    }
    let count = |state| batch.record.rows.iter().filter(|row| row.state == state).count();
    let (made, held, refused) = (count(RowState::Made), count(RowState::HeldBack), count(RowState::Refused));
    let held = if held > 0 {
        format!(", {held} held back because a finding fails; --anyway makes them")
    } else {
        String::new()
    };
    let refused = if refused > 0 { format!(", {refused} refused") } else { String::new() };
    eprintln!(
        "{}: {made} of {} rows are made{held}{refused}",
        call.output.display(),
        batch.record.rows.len()
    );
    Ok(outcome(&batch.record))
}

/// The worst of the rows.
fn outcome(record: &ClassRecord) -> Outcome {
    let of_row = |row| match record.kit(row) {
        Some(kit) if kit.fails() => Outcome::Fails,
        Some(_) => Outcome::Holds,
        None => Outcome::Refused,
    };
    record.rows.iter().map(of_row).max().unwrap_or(Outcome::Holds)
}

fn of_removed(path: &Path, removed: &RemovedBuild) -> String {
    let place = path.display();
    match (removed.pruned, removed.left.as_slice()) {
        (None, _) => {
            format!("{place}: made by an earlier roster, and in this one no more; --prune removes it")
        }
        (Some(count), []) => format!("{place}: removed, {count} files"),
        (Some(count), left) => {
            let named: Vec<String> = left.iter().take(3).map(|file| file.display().to_string()).collect();
            format!(
                "{place}: {count} files removed; {} that are not ours or were changed are left: {}",
                left.len(),
                named.join(", ")
            )
        }
    }
}

//! `boxneck check --mend`: where does the mended copy go, and what was changed in it?

use std::io::Write as _;
use std::path::{Path, PathBuf};

use anyhow::Context;
use boxneck::fit::{Mended, Severity};
use boxneck::{Instrument, change_record, findings_record};
use serde_json::{Value, json};

use crate::outcome::{Outcome, refuse};

/// A mended copy on disk.
pub(crate) struct MendedCopy {
    /// Where it stands; nothing where there was nothing to change.
    place: Option<PathBuf>,
    mended: Mended,
}

/// Writes the mended copy, whole or not at all; over the original only where that is asked, and never over another file.
///
/// # Errors
///
/// What hinders the writing; the outcome where the place is taken.
pub(crate) fn mend(
    file: &Path,
    instrument: &Instrument,
    in_place: bool,
) -> anyhow::Result<Result<MendedCopy, Outcome>> {
    let mended = instrument.mended();
    if mended.changes.is_empty() {
        return Ok(Ok(MendedCopy { place: None, mended }));
    }
    let place = if in_place { file.to_owned() } else { file.with_extension("mended.toml") };
    let text = mended.document.to_text().context("a sound document takes its mends")?;
    let is_written = std::fs::read(&place).is_ok_and(|before| before == text.as_bytes());
    if !is_written && !in_place && place.exists() {
        let told =
            format!("{} is there already, and is not written over: move it away first", place.display());
        return Ok(Err(refuse(&told)));
    }
    if !is_written {
        write(file, &place, &text).with_context(|| format!("cannot write {}", place.display()))?;
    }
    Ok(Ok(MendedCopy { place: Some(place), mended }))
}

/// Beside its place first, then renamed into it; with the rights of the original.
fn write(original: &Path, place: &Path, text: &str) -> std::io::Result<()> {
    let folder = place.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let mut staged = tempfile::NamedTempFile::new_in(folder)?;
    staged.write_all(text.as_bytes())?;
    staged.as_file().set_permissions(std::fs::metadata(original)?.permissions())?;
    staged.persist(place)?;
    Ok(())
}

/// For people.
pub(crate) fn page(copy: &MendedCopy) -> String {
    let Some(place) = &copy.place else {
        return "\nMENDED  nothing: no change cures what is left without breaking what holds\n".to_owned();
    };
    let changes: String = copy.mended.changes.iter().map(|change| format!("  {change}\n")).collect();
    let left: Vec<&str> =
        boxneck::fit::broken_checks(&copy.mended.findings).iter().map(|check| check.id).collect();
    let left =
        if left.is_empty() { "everything holds".to_owned() } else { format!("left: {}", left.join(", ")) };
    format!("\nMENDED  written to {}; {left}\n{changes}", place.display())
}

/// For programs.
pub(crate) fn record(copy: &MendedCopy) -> Value {
    let worst = copy.mended.findings.iter().map(|finding| finding.severity).max().unwrap_or(Severity::Pass);
    json!({
        "file": copy.place.as_ref().map(|place| place.display().to_string()),
        "changes": copy.mended.changes.iter().map(change_record).collect::<Value>(),
        "outcome": worst.word(),
        "findings": findings_record(&copy.mended.findings),
    })
}

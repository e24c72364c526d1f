//! How are rows made that want the same?
//!
//! Rows of one document are worked out once and written many times; of documents that differ by their instruments' names alone
//! the geometry, the checks and the search for mends are worked out once, for a name moves nothing.

use std::collections::BTreeMap;
use std::path::Path;

use rayon::prelude::*;
use spec::Document;

use super::builds::{row_files, up_to_date};
use super::class::{Class, Planned, Row};
use super::fault::RosterFault;
use super::kit::Kit;
use super::record::{RowRecord, RowState};
use super::run::{BatchOptions, Fate, RowDone};
use crate::instrument::{Instrument, Refusal};
use crate::manifest;
use crate::write_build::{WriteFault, write_build};

/// Makes rows whose documents differ by a name at most.
pub(super) fn make_alike(
    class: &Class<'_>,
    rows: &[&Row],
    output: &Path,
    options: &BatchOptions,
) -> Result<Vec<RowDone>, WriteFault> {
    let mut documents: Vec<(&Planned, Vec<&Row>)> = Vec::new();
    let mut places: BTreeMap<&str, usize> = BTreeMap::new();
    for row in rows {
        let place = match &row.planned {
            Planned::Document(sha256) => *places.entry(sha256).or_insert(documents.len()),
            Planned::Refused(_) => documents.len(),
        };
        if place == documents.len() {
            documents.push((&row.planned, Vec::new()));
        }
        documents[place].1.push(row);
    }
    let (mut done, mut like) = (Vec::with_capacity(rows.len()), None);
    for (planned, rows) in documents {
        done.extend(match planned {
            Planned::Refused(faults) => rows.into_iter().map(|row| refused(row, faults)).collect(),
            Planned::Document(sha256) => make_document(class, sha256, &rows, output, options, &mut like)?,
        });
    }
    Ok(done)
}

/// Makes the rows of one document, and leaves its instrument for those that are like it.
fn make_document(
    class: &Class<'_>,
    sha256: &str,
    rows: &[&Row],
    output: &Path,
    options: &BatchOptions,
    like: &mut Option<Instrument>,
) -> Result<Vec<RowDone>, WriteFault> {
    let found: Vec<Option<(Kit, String)>> =
        rows.par_iter().map(|row| up_to_date(&output.join(&row.folder), sha256, &options.make)).collect();
    if let Some((kit, _)) = found.iter().flatten().find(|(kit, _)| kit.fails() && !options.anyway) {
        return Ok(rows.iter().map(|row| done(row, sha256, kit, None, Fate::HeldBack)).collect());
    }
    if found.iter().all(Option::is_some) {
        let known = rows.iter().zip(found.into_iter().flatten());
        return Ok(known
            .map(|(row, (kit, sha))| done(row, sha256, &kit, Some(sha), Fate::UpToDate))
            .collect());
    }
    let Some(document) = rows.first().and_then(|row| class.document(row)) else {
        return Ok(all_refused(rows, &[]));
    };
    let instrument = match instrument(&document, like.as_ref()) {
        Ok(instrument) => like.insert(instrument),
        Err(faults) => return Ok(all_refused(rows, &faults)),
    };
    let kit = Kit::of(instrument);
    if kit.fails() && !options.anyway {
        return Ok(rows.iter().map(|row| done(row, sha256, &kit, None, Fate::HeldBack)).collect());
    }
    let files = match row_files(instrument, &kit, &options.make) {
        Ok(files) => files,
        Err(fault) => return Ok(all_refused(rows, &[because(&fault)])),
    };
    let manifest = files.last().map(|manifest| manifest::sha256(&manifest.bytes));
    let write = |(row, found): (&&Row, Option<(Kit, String)>)| {
        if let Some((kit, sha)) = found {
            return Ok(done(row, sha256, &kit, Some(sha), Fate::UpToDate));
        }
        if !output.is_dir() {
            return Err(WriteFault::of(std::io::ErrorKind::NotFound.into(), "write in", output));
        }
        match write_build(&files, &output.join(&row.folder)) {
            Ok(()) => Ok(done(row, sha256, &kit, manifest.clone(), Fate::Made)),
            Err(fault @ WriteFault::Machine { .. }) => Err(fault),
            Err(foreign) => Ok(refused(row, &[because(&foreign).in_row(row.number)])),
        }
    };
    rows.par_iter().zip(found).map(write).collect()
}

fn done(row: &Row, document_sha256: &str, kit: &Kit, manifest: Option<String>, fate: Fate) -> RowDone {
    let record = RowRecord {
        state: if manifest.is_some() { RowState::Made } else { RowState::HeldBack },
        document_sha256: Some(document_sha256.to_owned()),
        manifest_sha256: manifest,
        ..RowRecord::refused(row, &[])
    };
    RowDone { record, kit: Some(kit.clone()), fate }
}

/// The instrument of a document; what is known of one that is like it is not worked out again.
fn instrument(document: &Document, like: Option<&Instrument>) -> Result<Instrument, Vec<RosterFault>> {
    if let Some(instrument) = like.and_then(|like| like.called_as_in(document)) {
        return Ok(instrument);
    }
    Instrument::of(document).map_err(|refusal| match refusal {
        Refusal::Document(diagnostics) => diagnostics.iter().map(RosterFault::of_diagnostic).collect(),
        other => vec![because(&other)],
    })
}

fn refused(row: &Row, faults: &[RosterFault]) -> RowDone {
    RowDone { record: RowRecord::refused(row, faults), kit: None, fate: Fate::Refused }
}

/// Why no row of one document can be made.
fn all_refused(rows: &[&Row], why: &[RosterFault]) -> Vec<RowDone> {
    let in_row = |row: &Row| why.iter().cloned().map(|fault| fault.in_row(row.number)).collect::<Vec<_>>();
    rows.iter().map(|row| refused(row, &in_row(row))).collect()
}

fn because(fault: &dyn std::error::Error) -> RosterFault {
    RosterFault::of_roster(fault.to_string(), "change what the row or its base says")
}

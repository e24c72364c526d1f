//! What does a class get once, for all its rows?
//!
//! Made from the documents in the rows' own folders, so that a run, one that was interrupted and taken up again, and shards that were
//! merged come to the same bytes.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use export::Format;
use fit::Severity;
use rayon::prelude::*;
use spec::Document;

use super::builds::DOCUMENT;
use super::record::{ClassRecord, RowRecord, RowState};
use super::run::BatchOptions;
use crate::attached::with_files_of;
use crate::findings_record::ToldFinding;
use crate::instrument::Instrument;
use crate::make::BuiltFile;
use crate::papers::{Absent, Enrolment, Member, class_papers};
use crate::write_build::WriteFault;

/// What the papers are headed with; the folders' places are not in them.
const TITLE: &str = "Class";

/// The papers of a class whose builds lie in `output`.
pub(super) fn papers(
    record: &ClassRecord,
    output: &Path,
    options: &BatchOptions,
) -> Result<Vec<BuiltFile>, WriteFault> {
    let mut documents: BTreeMap<&str, &RowRecord> = BTreeMap::new();
    for row in record.rows.iter().filter(|row| row.state == RowState::Made) {
        documents.entry(row.document_sha256.as_deref().unwrap_or_default()).or_insert(row);
    }
    let members =
        documents.par_iter().map(|(sha256, row)| Ok((*sha256, member(record, row, output, options)?)));
    let known: BTreeMap<&str, Result<Member, String>> = members.collect::<Result<_, WriteFault>>()?;
    let (mut members, mut absent) = (Vec::new(), Vec::new());
    for row in &record.rows {
        let sha256 = row.document_sha256.as_deref().unwrap_or_default();
        match known.get(sha256).filter(|_| row.state == RowState::Made) {
            Some(Ok(member)) => members.push(member.shared_with(enrolment(row, options))),
            Some(Err(why)) => absent.push(not_there(row, vec![why.clone()])),
            None => absent.push(not_there(row, why_not_made(record, row))),
        }
    }
    class_papers(TITLE, &members, &absent, options.stock.as_ref(), &options.make).map_err(|fault| {
        WriteFault::of(std::io::Error::other(fault), "make the papers of the class in", output)
    })
}

/// A row's instrument, from the document in its folder; why it has no part in the papers, where it has none.
fn member(
    record: &ClassRecord,
    row: &RowRecord,
    output: &Path,
    options: &BatchOptions,
) -> Result<Result<Member, String>, WriteFault> {
    let path = output.join(&row.folder).join(DOCUMENT);
    let bytes = fs::read(&path).map_err(|fault| WriteFault::of(fault, "read", &path))?;
    let instrument = match Instrument::of(&with_files_of(Document::parse(&bytes), &path)) {
        Ok(instrument) => instrument,
        Err(refusal) => return Ok(Err(refusal.to_string())),
    };
    let findings = record
        .kit(row)
        .map_or_else(|| ToldFinding::all_of(instrument.findings()), |kit| kit.findings.clone());
    Ok(Member::checked(&instrument, findings, enrolment(row, options)).map_err(|fault| fault.to_string()))
}

fn enrolment(row: &RowRecord, options: &BatchOptions) -> Enrolment {
    let page = if options.make.formats.contains(&Format::Report) {
        Format::Report.path("report", options.make.unit)
    } else {
        String::new()
    };
    Enrolment {
        student: row.student.clone(),
        quantity: row.quantity,
        note: row.note.clone(),
        link: format!("../{}/{page}", row.folder),
    }
}

fn not_there(row: &RowRecord, why: Vec<String>) -> Absent {
    let student = format!("row {} {}", row.row, row.student);
    Absent { student: student.trim_end().to_owned(), why }
}

fn why_not_made(record: &ClassRecord, row: &RowRecord) -> Vec<String> {
    let faults = row.faults.iter().map(ToString::to_string);
    let failing = record.kit(row).into_iter().flat_map(|kit| &kit.findings);
    let failing = failing.filter(|finding| finding.severity == Severity::Fail);
    faults.chain(failing.map(|finding| format!("{}: {}", finding.id, finding.sentence))).collect()
}

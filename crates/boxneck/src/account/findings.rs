//! What do the checks say, in which order, and what would cure what they found?

use std::cmp::Reverse;

use fit::{Check, Finding, Remedy, Severity};

use crate::instrument::Instrument;

/// Everything that one check has to say that is worth saying.
pub(crate) struct Complaint<'a> {
    /// The check.
    pub check: Check,
    /// The worst of it.
    pub severity: Severity,
    /// What it found.
    pub findings: Vec<&'a Finding>,
    /// What would cure it, a sentence each, or why nothing does.
    pub cures: Vec<String>,
    /// Whether something does cure it.
    pub has_mend: bool,
}

/// The worst first; of equals those that can be mended, then in the order of the bench.
pub(crate) fn complaints(instrument: &Instrument) -> Vec<Complaint<'_>> {
    let mut all: Vec<Complaint<'_>> = Vec::new();
    for finding in instrument.findings().iter().filter(|finding| finding.severity > Severity::Pass) {
        match all.iter_mut().find(|complaint| complaint.check.id == finding.check.id) {
            Some(complaint) => {
                complaint.severity = complaint.severity.max(finding.severity);
                complaint.findings.push(finding);
            }
            None => {
                let remedy = instrument.remedies().iter().find(|remedy| remedy.check.id == finding.check.id);
                all.push(Complaint {
                    check: finding.check,
                    severity: finding.severity,
                    findings: vec![finding],
                    cures: remedy.map(cures).unwrap_or_default(),
                    has_mend: remedy.is_some_and(|remedy| !remedy.mends.is_empty()),
                });
            }
        }
    }
    for complaint in &mut all {
        complaint.findings.sort_by_key(|finding| Reverse(finding.severity));
    }
    all.sort_by_key(|complaint| Reverse((complaint.severity, complaint.has_mend)));
    all
}

/// What was found about how many checks: "3 of 212 things that were checked fail, 1 is warned of; the other 208 hold".
pub(crate) fn count(findings: &[Finding]) -> String {
    let of = |severity: Severity| findings.iter().filter(|finding| finding.severity == severity).count();
    let worth_saying: Vec<String> = [
        (of(Severity::Fail), "fails", "fail"),
        (of(Severity::Warn), "earns a warning", "earn a warning"),
        (of(Severity::Note), "earns a note", "earn a note"),
    ]
    .into_iter()
    .filter(|(count, ..)| *count > 0)
    .map(|(count, one, many)| format!("{count} {}", if count == 1 { one } else { many }))
    .collect();
    let all = findings.len();
    if worth_saying.is_empty() {
        return format!("All {all} things that were checked hold.");
    }
    format!("Of {all} things that were checked, {} hold; {}.", of(Severity::Pass), worth_saying.join(", "))
}

/// What cures a check, or what stands against that.
fn cures(remedy: &Remedy) -> Vec<String> {
    let Remedy { mends, at_odds, is_cut_short, .. } = remedy;
    match (mends.as_slice(), at_odds.as_slice()) {
        ([], _) if *is_cut_short => {
            vec!["not found in the time that is taken; mend the others first".to_owned()]
        }
        ([], []) => vec!["no key that it names cures it".to_owned()],
        ([], at_odds) => vec![format!("every change that cures it breaks another: {}", at_odds.join(", "))],
        (mends, _) => mends.iter().map(ToString::to_string).collect(),
    }
}

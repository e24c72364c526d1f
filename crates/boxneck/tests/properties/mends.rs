//! Does a mend do what it says, on any instrument?

use boxneck::Instrument;
use boxneck::fit::{Concern, Finding, Severity};
use boxneck::spec::Document;
use proptest::prelude::*;

use crate::random_document::{config, instrument};

/// What two findings of two plans have in common: the check and the thing, whatever note a string is tuned to.
fn subject_of(finding: &Finding) -> String {
    let concern = match &finding.concern {
        Concern::String { number, .. } => format!("string {}", number.0),
        other => format!("{other:?}"),
    };
    format!("{}: {concern}", finding.check.id)
}

fn severity_of(instrument: &Instrument, subject: &str) -> Severity {
    let same = instrument.findings().iter().filter(|finding| subject_of(finding) == subject);
    same.map(|finding| finding.severity).max().unwrap_or(Severity::Pass)
}

proptest! {
    #![proptest_config(config(12))]

    #[test]
    fn every_mend_cures_its_check_and_breaks_nothing(before in instrument()) {
        for remedy in before.remedies() {
            for mend in &remedy.mends {
                let text = mend.applied_to(before.document()).to_text();
                let text = text.expect("a mended document can be written");
                let after = Instrument::of(&Document::parse(text.as_bytes()));
                let after = after.unwrap_or_else(|refusal| panic!("{mend} spoils the document: {refusal:?}"));
                for finding in after.findings() {
                    let subject = subject_of(finding);
                    let at_most = severity_of(&before, &subject).max(Severity::Note);
                    prop_assert!(finding.severity <= at_most, "{mend} breaks {finding}\n{text}");
                    let is_cured = finding.check.id != remedy.check.id || finding.severity <= Severity::Note;
                    prop_assert!(is_cured, "{mend} leaves {finding}\n{text}");
                }
            }
        }
    }

    #[test]
    fn mending_as_far_as_can_be_leaves_no_more_than_before(before in instrument()) {
        let mended = before.mended();
        let text = mended.document.to_text().expect("a mended document can be written");
        let after = Instrument::of(&Document::parse(text.as_bytes()));
        let after = after.unwrap_or_else(|refusal| panic!("mending spoils the document: {refusal:?}"));
        prop_assert_eq!(after.findings(), &*mended.findings, "what is told is what is found\n{}", text);
        for finding in after.findings() {
            let at_most = severity_of(&before, &subject_of(finding)).max(Severity::Note);
            prop_assert!(finding.severity <= at_most, "breaks {finding}\n{text}");
        }
    }
}

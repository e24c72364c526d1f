//! Is every check mended by the keys that it names?

use std::collections::BTreeSet;

use fit::{Finding, Patient, Remedy, Severity, broken_checks, checks, mended, remedy};
use spec::Document;

use crate::broken::broken;
use crate::slide::{LOW_TAIL, PORCH, all_findings, plan, subject};

/// What can be done about one check of a plan that it does not let pass.
fn remedy_of(document: &Document, id: &str) -> (Vec<Finding>, Remedy) {
    let findings = all_findings(document);
    let check = broken_checks(&findings).into_iter().find(|check| check.id == id);
    let check = check
        .unwrap_or_else(|| panic!("{id} lets this plan pass:\n{}", document.to_text().unwrap_or_default()));
    let patient = Patient { document, subject: &subject(document), findings: &findings };
    let remedy = remedy(&patient, &check);
    (findings, remedy)
}

/// The checks that a plan does not pass, with how bad each is.
fn complaints(findings: &[Finding]) -> Vec<(&'static str, Severity)> {
    let worst = |id: &str| {
        let of_check = findings.iter().filter(|finding| finding.check.id == id);
        of_check.map(|finding| finding.severity).max().unwrap_or(Severity::Pass)
    };
    broken_checks(findings).iter().map(|check| (check.id, worst(check.id))).collect()
}

#[test]
fn every_broken_plan_is_mended() {
    let unmended: Vec<String> = broken().iter().filter_map(|(id, document)| unmended(id, document)).collect();
    assert!(unmended.is_empty(), "{}", unmended.join("\n"));
}

/// Why a broken plan is not mended; nothing where it is.
fn unmended(id: &str, document: &Document) -> Option<String> {
    let (before, remedy) = remedy_of(document, id);
    let before = complaints(&before);
    if remedy.mends.is_empty() {
        return Some(format!("{id}: no mend; at odds with {:?}; {before:?}", remedy.at_odds));
    }
    remedy.mends.iter().find_map(|mend| {
        // Written out and read again, as a builder would do it.
        let text = mend.applied_to(document).to_text().expect("a mended document can be written");
        let after = complaints(&all_findings(&Document::parse(text.as_bytes())));
        let breaks = |(check, severity): &(&str, Severity)| {
            before.iter().all(|(before, worst)| before != check || severity > worst)
        };
        if after.iter().any(|(after, _)| *after == id) {
            return Some(format!("{id}: {mend} leaves it: {after:?}"));
        }
        after.iter().find(|after| breaks(after)).map(|after| format!("{id}: {mend} breaks {after:?}"))
    })
}

#[test]
fn every_check_has_a_broken_plan() {
    let broken: BTreeSet<&str> = broken().into_iter().map(|(id, _)| id).collect();
    // What a plan of the document's keys makes worth a note and no more wants no mend.
    let notes = ["print-layer", "mate-enters"];
    for check in checks().filter(|check| !notes.contains(&check.id)) {
        assert!(broken.contains(check.id), "no plan shows that {} can be mended", check.id);
        for key in check.cures {
            assert!(
                spec::key_at(&key.replace(".N.", ".1.")).is_some(),
                "{}: there is no key {key}",
                check.id
            );
        }
    }
}

#[test]
fn a_smaller_change_does_not_cure() {
    let (_, remedy) = remedy_of(&plan(LOW_TAIL, &[]), "saddle-drift");
    let change = &remedy.mends[0].changes[0];
    assert_eq!((change.key.as_str(), change.from.as_str()), ("tail.hole_height", "4 mm"), "{change}");
    let to: f64 = change.to.trim_end_matches(" mm").parse().expect("a length in millimetres");
    let drifts = |mm: f64| {
        let findings = all_findings(&plan(LOW_TAIL, &[("tail.hole_height", &format!("{mm} mm"))]));
        complaints(&findings).iter().any(|(id, _)| *id == "saddle-drift")
    };
    assert!(!drifts(to), "{to} mm cures");
    assert!(drifts(to - 0.1), "a tenth of a millimetre less does not");
}

#[test]
fn mending_all_leaves_a_plan_that_holds() {
    let document = plan(LOW_TAIL, &[("scale.frets", "18")]);
    let findings = all_findings(&document);
    let mended = mended(&Patient { document: &document, subject: &subject(&document), findings: &findings });
    assert_eq!(complaints(&mended.findings), [], "all is mended by {:?}", mended.changes);
    let keys: BTreeSet<&str> = mended.changes.iter().map(|change| change.key.as_str()).collect();
    assert_eq!(keys.len(), mended.changes.len(), "every key is changed once: {:?}", mended.changes);
    let sound = plan(PORCH, &[("frets.height_scatter", "0 mm")]);
    let findings = all_findings(&sound);
    let untouched = changes_to(&sound, &findings);
    assert!(untouched.is_empty(), "a sound plan is left alone: {untouched:?}");
}

fn changes_to(document: &Document, findings: &[Finding]) -> Vec<fit::Change> {
    mended(&Patient { document, subject: &subject(document), findings }).changes
}

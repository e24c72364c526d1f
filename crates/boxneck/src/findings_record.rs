//! How does another program read the findings?

use fit::{Bound, Change, Concern, Finding, Measure, Mend, Remedy, Severity};
use serde::{Deserialize, Serialize};
use serde_json::{Value, json};
use spec::Choice;

/// A finding in short: what a class keeps of it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct ToldFinding {
    /// Which check.
    pub id: String,
    /// How bad it is.
    pub severity: Severity,
    /// The sentence.
    pub sentence: String,
}

impl ToldFinding {
    /// All that is worth telling, in the order of the bench: whatever does not simply hold.
    #[must_use]
    pub fn all_of(findings: &[Finding]) -> Vec<Self> {
        let told = findings.iter().filter(|finding| finding.severity > Severity::Pass);
        told.map(|finding| Self {
            id: finding.check.id.to_owned(),
            severity: finding.severity,
            sentence: finding.to_string(),
        })
        .collect()
    }
}

/// One object a finding: the same data that is shown to people, and the sentence.
#[must_use]
pub fn findings_record(findings: &[Finding]) -> Value {
    findings.iter().map(record).collect()
}

/// One object a check that warns or fails: what cures it, or what stands against that.
#[must_use]
pub fn remedies_record(remedies: &[Remedy]) -> Value {
    let record = |remedy: &Remedy| {
        json!({
            "id": remedy.check.id,
            "mends": remedy.mends.iter().map(mend).collect::<Value>(),
            "at_odds": remedy.at_odds,
            "cut_short": remedy.is_cut_short,
        })
    };
    remedies.iter().map(record).collect()
}

fn mend(mend: &Mend) -> Value {
    json!({
        "changes": mend.changes.iter().map(change_record).collect::<Value>(),
        "sentence": mend.to_string(),
    })
}

/// A key, what stands there, and what to write instead.
#[must_use]
pub fn change_record(change: &Change) -> Value {
    json!({ "key": change.key, "from": change.from, "to": change.to })
}

fn record(finding: &Finding) -> Value {
    json!({
        "id": finding.check.id,
        "severity": finding.severity.word(),
        "measures": finding.check.measures,
        "concerns": concern(&finding.concern),
        "found": measure(&finding.found),
        "bound": match finding.bound { Bound::AtLeast => "at least", Bound::AtMost => "at most" },
        "limit": measure(&finding.limit),
        "source": finding.source.words(),
        "detail": finding.detail,
        "sentence": finding.to_string(),
    })
}

fn concern(concern: &Concern) -> Value {
    match concern {
        Concern::Instrument => json!({ "what": "instrument" }),
        Concern::String { number, pitch } => {
            json!({ "what": "string", "number": number.0, "pitch": pitch.to_string() })
        }
        Concern::Tuner(number) => json!({ "what": "tuner", "number": number.0 }),
        Concern::Fret { number } => json!({ "what": "fret", "number": number }),
        Concern::Opening { number, purpose, face } => {
            json!({ "what": "opening", "number": number, "purpose": purpose.word(), "face": face.word() })
        }
        Concern::Part(name) => json!({ "what": "part", "name": name }),
        Concern::Pair(pair) => json!({ "what": "pair", "names": pair.map(|thing| thing.to_string()) }),
        Concern::Drawing(name) => json!({ "what": "drawing", "name": name }),
    }
}

fn measure(measure: &Measure) -> Value {
    match measure {
        Measure::Length(length) => json!({ "value": length.as_mm(), "unit": "mm" }),
        Measure::Angle(angle) => json!({ "value": angle.as_degrees(), "unit": "deg" }),
        Measure::Cents(cents) => json!({ "value": cents, "unit": "cents" }),
        Measure::Share(share) => json!({ "value": share, "unit": "share" }),
        Measure::Count(count) => json!({ "value": count, "unit": "count" }),
    }
}

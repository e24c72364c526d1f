//! How is one value of a plan moved until a check breaks?

use fit::{Finding, Measure, Severity, Subject, findings, findings_of};
use layout::playing::Player;
use spec::Document;

pub const PORCH: &str = include_str!("../../../../specs/porch-three-string.toml");
pub const LOW_TAIL: &str = include_str!("../../../../specs/runaway-low-tail.toml");
pub const MEADOW: &str = include_str!("../../../../specs/meadow-diatonic.toml");
pub const KITCHEN: &str = include_str!("../../../../specs/kitchen-four-string.toml");
pub const SIX: &str = include_str!("../../../../specs/left-hand-six.toml");

/// A plan with some values changed.
pub fn plan(text: &str, changes: &[(&str, &str)]) -> Document {
    let start = Document::parse(text.as_bytes());
    changes.iter().fold(start, |document, (key, value)| document.with_override(key, value))
}

pub fn subject(document: &Document) -> Subject {
    let (spec, _) = document.read().into_result().unwrap_or_else(|faults| panic!("unsound: {faults:#?}"));
    let layout = layout::layout(&spec).unwrap_or_else(|fault| panic!("cannot be laid out: {fault}"));
    Subject::new(layout, Player::default())
}

pub fn all_findings(document: &Document) -> Vec<Finding> {
    findings(&subject(document))
}

/// The worst finding of one check.
pub fn worst(document: &Document, id: &str) -> Finding {
    let of_check = findings_of(id, &subject(document)).into_iter();
    of_check.max_by_key(|finding| finding.severity).unwrap_or_else(|| panic!("{id} says nothing"))
}

pub fn number(measure: Measure) -> f64 {
    match measure {
        Measure::Length(length) => length.as_mm(),
        Measure::Angle(angle) => angle.as_degrees(),
        Measure::Count(count) => f64::from(count),
        Measure::Cents(number) | Measure::Share(number) => number,
    }
}

/// One value of a plan that is moved until a check breaks: where it is all right, and where it is not. `{}` in `written`
/// is the number.
pub struct Slide<'a> {
    pub plan: Document,
    pub key: &'a str,
    pub written: &'a str,
    pub from: f64,
    pub to: f64,
}

impl Slide<'_> {
    pub fn at(&self, value: f64) -> Document {
        self.plan.with_override(self.key, &self.written.replace("{}", &value.to_string()))
    }

    /// What the check says of the same thing a hair this side and a hair that side of where it becomes `severity`.
    pub fn edge(&self, id: &str, severity: Severity) -> [Finding; 2] {
        let (mut inside, mut beyond) = (self.from, self.to);
        let broken = |value: f64| worst(&self.at(value), id).severity >= severity;
        assert!(!broken(inside), "{id}: {} = {inside} is all right", self.key);
        assert!(broken(beyond), "{id}: {} = {beyond} is not", self.key);
        while (beyond - inside).abs() > 1e-6 {
            let middle = (inside + beyond) / 2.0;
            *if broken(middle) { &mut beyond } else { &mut inside } = middle;
        }
        let beyond = worst(&self.at(beyond), id);
        let same = findings_of(id, &subject(&self.at(inside))).into_iter();
        let inside =
            same.filter(|finding| finding.concern == beyond.concern).max_by_key(|finding| finding.severity);
        [inside.unwrap_or_else(|| panic!("{id} says nothing of {}", beyond.concern)), beyond]
    }
}

/// Sliding one value, the check becomes exactly `severity` where what it measures passes `limit`.
#[track_caller]
pub fn check(id: &str, slide: &Slide<'_>, severity: Severity, limit: f64, hair: f64) {
    let [inside, beyond] = slide.edge(id, severity);
    assert!(inside.severity < severity, "{id}: a hair inside, found {inside}");
    assert_eq!(beyond.severity, severity, "{id}: a hair beyond, found {beyond}");
    let told = number(beyond.limit);
    assert!((told - limit).abs() < 1e-12, "{id}: the broken limit is {limit}, told {told}");
    for found in [&inside, &beyond] {
        let off = (number(found.found) - limit).abs();
        assert!(off <= hair, "{id}: found {found}, {off} from the limit");
    }
}

pub fn slide<'a>(plan: Document, key: &'a str, from_mm: f64, to_mm: f64) -> Slide<'a> {
    Slide { plan, key, written: "{} mm", from: from_mm, to: to_mm }
}

//! Which measures are there?

use fit::{Finding, Severity, Subject};
use layout::playing::StringTuning;
use spec::stock::Wood;
use units::Length;

use super::measure::Better::{Higher, Lower};
use super::measure::Unit::{Cents, Count, CubicCentimetres, Degrees, Millimetres, Newtons, Percent};
use super::measure::{Better, PlanMeasure, Unit, Value};

/// The name of the measure that counts failing checks: who asks for it takes over what is otherwise asked of every plan.
pub(super) const FAILS: &str = "fails";

/// The measures of how many frets there is room for.
pub(super) const FRETS: [&str; 2] = ["frets", "wrapped-frets"];

/// Every measure.
#[must_use]
pub fn measures() -> &'static [PlanMeasure] {
    &MEASURES
}

/// The measure of a name.
#[must_use]
pub fn measure_named(name: &str) -> Option<&'static PlanMeasure> {
    MEASURES.iter().find(|measure| measure.name == name)
}

const fn measure(
    name: &'static str,
    words: &'static str,
    (unit, better, grain): (Unit, Better, f64),
    checks: &'static [&'static str],
    value: Value,
) -> PlanMeasure {
    PlanMeasure { name, words, unit, better, grain, is_deep: false, checks, value }
}

const fn deep(measure: PlanMeasure) -> PlanMeasure {
    PlanMeasure { is_deep: true, ..measure }
}

static MEASURES: [PlanMeasure; 19] = [
    measure(
        "frets",
        "frets that there is room for",
        (Count, Higher, 1.0),
        &["frets-reached"],
        |subject, _| Some(subject.layout().frets().reach.room.frets.into()),
    ),
    measure(
        "wrapped-frets",
        "frets that there is room for, wrapped round the neck",
        (Count, Higher, 1.0),
        &["frets-reached"],
        |subject, _| Some(subject.layout().frets().reach.room.wrapped.into()),
    ),
    measure(
        "action",
        "lowest string over the fret where the document says how high it is to be",
        (Millimetres, Lower, 0.1),
        &["free-of-buzz"],
        |subject, _| Some(subject.layout().spec().action.height.as_mm()),
    ),
    deep(measure(
        "safe-action",
        "lowest action at which the wanted share of instruments is free of buzz",
        (Millimetres, Lower, 0.1),
        &["free-of-buzz"],
        |subject, _| subject.playing().buzz().map(|buzz| buzz.lowest_action.as_mm()),
    )),
    deep(measure(
        "free-of-buzz",
        "instruments of the plan, with their uneven frets, that are free of buzz",
        (Percent, Higher, 5.0),
        &["free-of-buzz"],
        |subject, _| subject.playing().buzz().map(|buzz| buzz.share_free * 100.0),
    )),
    measure(
        "error",
        "largest error of any fretted note, with the saddle set for it",
        (Cents, Lower, 1.0),
        &["compensation-room"],
        |subject, _| {
            worst(subject.playing().tuning().iter().flat_map(|tuning| tuning.after_cents.iter().copied()))
        },
    ),
    measure(
        "rms-error",
        "root mean square error of the fretted notes of the worst string, with the saddle set for it",
        (Cents, Lower, 1.0),
        &["compensation-room"],
        |subject, _| worst(subject.playing().tuning().iter().map(StringTuning::rms_after)),
    ),
    measure(
        "drift",
        "largest drift of any open string when the saddle is slid by 1 mm",
        (Cents, Lower, 1.0),
        &["saddle-drift"],
        |subject, _| worst(subject.playing().string_drifts().iter().map(|drift| drift.cents_per_mm)),
    ),
    measure(
        "break-angle",
        "least break of any string over the saddle",
        (Degrees, Higher, 1.0),
        &["break-over-saddle"],
        |subject, _| breaks(subject).reduce(f64::min),
    ),
    measure(
        "steepest-break",
        "largest break of any string over the saddle",
        (Degrees, Lower, 1.0),
        &["break-over-saddle"],
        |subject, _| breaks(subject).reduce(f64::max),
    ),
    measure(
        "relief",
        "bow of the neck under the strings",
        (Millimetres, Lower, 0.1),
        &["neck-relief"],
        |subject, _| {
            let neck = subject.playing().neck();
            neck.settled.then_some(neck.relief.as_mm())
        },
    ),
    measure(
        "load",
        "pull of all strings together",
        (Newtons, Lower, 10.0),
        &["string-load"],
        |subject, _| Some(subject.playing().neck().tension.as_newtons()),
    ),
    measure(
        "breaking-load",
        "pull of the string that is nearest to breaking, as a share of what breaks it",
        (Percent, Lower, 5.0),
        &["string-load"],
        |subject, _| {
            let shares = subject.playing().pulls().iter().filter_map(|pull| pull.share_of_breaking_load);
            shares.map(|share| share.nominal * 100.0).reduce(f64::max)
        },
    ),
    measure(
        "stress",
        "share of the wood's strength that the strings take where the neck is weakest",
        (Percent, Lower, 5.0),
        &["neck-stress"],
        |subject, _| {
            let neck = subject.playing().neck();
            neck.weakest.map(|_| neck.share_of_strength * 100.0)
        },
    ),
    measure(
        "sink",
        "how far the lid sinks under the saddle",
        (Millimetres, Lower, 0.1),
        &["lid-sink"],
        |subject, _| subject.playing().lid_sink().map(Length::as_mm),
    ),
    measure(
        "neck-length",
        "length of the stick",
        (Millimetres, Lower, 5.0),
        &["plank-length"],
        |subject, _| Some(subject.layout().neck().length().as_mm()),
    ),
    deep(measure(
        "wood",
        "wood that goes into the blanks of the parts, the box not counted",
        (CubicCentimetres, Lower, 10.0),
        &["plank-length", "plank-width", "plank-thickness"],
        |subject, _| {
            let wooden = |part: &&parts::Part| part.quantity > 0 && Wood::named(&part.material).is_ok();
            let volumes = subject.parts().parts.iter().filter(wooden).map(|part| {
                let [along, across, thick] = part.blank.map(|size| size.as_mm() / 10.0);
                along * across * thick * f64::from(part.quantity)
            });
            Some(volumes.sum())
        },
    )),
    measure(FAILS, "checks of the plan that fail", (Count, Lower, 1.0), &[], |_, findings| {
        Some(count(findings, Severity::Fail))
    }),
    measure("warns", "checks of the plan that warn", (Count, Lower, 1.0), &[], |_, findings| {
        Some(count(findings, Severity::Warn))
    }),
];

/// The largest of some values without their signs.
fn worst(values: impl Iterator<Item = f64>) -> Option<f64> {
    values.map(f64::abs).reduce(f64::max)
}

/// How far each string breaks over the saddle, in degrees.
fn breaks(subject: &Subject) -> impl Iterator<Item = f64> {
    subject.layout().strings().iter().map(|string| string.break_at_saddle().as_degrees())
}

/// How many checks are as bad as this in the worst place that they look at.
fn count(findings: &[Finding], severity: Severity) -> f64 {
    let worst = |check: &fit::Check| {
        findings.iter().filter(|finding| finding.check == *check).map(|finding| finding.severity).max()
    };
    let broken = fit::broken_checks(findings);
    broken.iter().filter(|check| worst(check) == Some(severity)).count() as f64
}

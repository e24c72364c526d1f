//! wire-bend: are the neck's edges round enough for a wire that is wrapped round it?

use layout::NeckRing;
use spec::NeckSection;

use crate::finding::{Bound, Check, Concern, Finding, Limits, Measure, Severity, Source};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "wire-bend",
    measures: "the radius of the lower edges that the wire is bent round",
    cures: &["neck.edge_radius", "frets.wire"],
};

/// Soft copper takes a bend whose inside is as round as the wire is thick; over a sharper edge it thins, cracks when it is
/// bent again, and stands off the neck beside the edge. A square edge, as the upper ones always are, is filed round where the
/// wire goes, which is worth knowing and no fault of the plan.
pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let layout = subject.layout();
    let neck = layout.neck();
    if layout.frets().reach.wrapped == 0 {
        return Vec::new();
    }
    let wire = Measure::Length(layout.spec().frets.wire.diameter());
    let limits = Limits { bound: Bound::AtLeast, warn: wire, fail: wire, source: Source::CommonPractice };
    let ring = NeckRing::new(neck.section, neck.width_at_nut, neck.top_z, neck.bottom_z, neck.edge_radius);
    let finding = limits.judge(CHECK, Concern::Part("neck"), Measure::Length(ring.least_back_radius()));
    let (worst, edges) = match neck.section {
        NeckSection::Square => (Severity::Note, "edges"),
        NeckSection::Eased | NeckSection::Oval => (Severity::Warn, "upper edges"),
    };
    let severity = finding.severity.clamp(Severity::Note, worst);
    let words = format!("file its square {edges} round to {wire} under each wire");
    vec![Finding { severity, ..finding }.with_detail(words)]
}

//! How far may each wire be tapped down?

use spec::FretKind;
use units::Length;

use super::estimate::Estimate;
use super::unknown::Unknown;
use crate::instrument::Layout;
use crate::tolerances::Dimension;

/// The largest share of a wire's thickness that lies in the wood. More leaves no crown to press a string on, and splits the edge.
/// Common practice, no source.
const DEEPEST_SEAT: f64 = 0.5;

/// How many standard deviations of a fret's height are kept in hand, so that no wire is driven deeper than it may go because it was
/// measured badly.
const IN_HAND: f64 = 2.0;

/// How much of what is expected of a fret's height readings must have taken away for the fret to count as measured.
const MEASURED: f64 = 0.7;

/// Whether anybody has measured a fret's height, directly or by what lies beside it; counted from the first.
pub(super) fn is_measured(estimate: &Estimate, number: usize) -> bool {
    let unknown = Unknown::Part { dimension: Dimension::FretHeights, number };
    let found = estimate.unknowns.iter().find(|estimated| estimated.unknown == unknown);
    found.is_none_or(|found| found.error <= found.expected_error * MEASURED)
}

/// How far each fret may be tapped down, in the order of the frets.
///
/// A wire goes down until half of it lies in the wood; fret wire until its shoulders lie on the surface, where the plan has it. What nobody
/// has measured is not tapped at all.
pub(super) fn may_sink(layout: &Layout, estimate: &Estimate) -> Vec<Length> {
    let wire = layout.spec().frets.wire.diameter();
    let frets = layout.frets().frets.iter().enumerate();
    frets
        .map(|(number, fret)| {
            if !is_measured(estimate, number) {
                return Length::ZERO;
            }
            let lowest = match fret.kind {
                FretKind::FretWire => fret.crown,
                FretKind::WrappedWire | FretKind::SeatedWire => wire * (1.0 - DEEPEST_SEAT),
            };
            let unknown = Unknown::Part { dimension: Dimension::FretHeights, number };
            let in_hand = Length::mm(IN_HAND * estimate.error_of(unknown));
            let stands = fret.crown + estimate.deviations.fret(number).height;
            (stands - in_hand - lowest).max(Length::ZERO)
        })
        .collect()
}

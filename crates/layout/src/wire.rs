//! How much wire is to be cut, for each fret and in all?

use spec::{BoardRadius, FretKind, Spec};
use units::{Length, math};

use crate::frets::FretPlan;
use crate::neck_section::NeckRing;
use crate::strung::playing_radius;

/// Wire left at each end of a wrapped fret, to be twisted together under the neck. Common practice, no source.
const TWIST: Length = Length::mm(15.0);

/// Wire left over at each edge of the neck, to be filed flush. Common practice, no source.
const FILED: Length = Length::mm(2.0);

/// All wire of one kind of fret.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WireCut {
    /// How these frets are made; the zero fret counts as fret wire.
    pub kind: FretKind,
    /// How many pieces.
    pub pieces: usize,
    /// Their lengths together, ends included.
    pub total: Length,
}

/// The wire to buy.
#[derive(Clone, Debug, PartialEq)]
pub struct WireList {
    /// Wire for the zero fret.
    pub zero_fret: Length,
    /// One row a kind of fret that the instrument has, in the order of the neck, the zero fret left out.
    pub cuts: Vec<WireCut>,
}

/// Wire for one fret where the neck is `width` wide, ends included.
///
/// - **Wrapped**: once round the neck along the wire's centre line, and two ends to twist. The neck is convex all
///   round, so a line at a distance `r` outside it is longer than its perimeter by one full circle, `2 pi r`, whatever
///   the corners (Steiner's formula for parallel curves).
/// - **Seated, fret wire**: across the neck, and a little at each edge to file.
pub(crate) fn length_at(spec: &Spec, kind: FretKind, width: Length) -> Length {
    match kind {
        FretKind::WrappedWire => {
            let neck = NeckRing::new(
                spec.neck.section,
                width,
                Length::ZERO,
                -spec.neck.thickness,
                spec.neck.edge_radius,
            );
            let board = spec.fretboard.thickness * 2.0 + crowning(playing_radius(spec), width);
            let round_the_corners = spec.frets.wire.diameter() * std::f64::consts::PI;
            neck.perimeter() + board + round_the_corners + TWIST * 2.0
        }
        FretKind::SeatedWire | FretKind::FretWire => width + FILED * 2.0,
    }
}

/// How much longer the top of a radiused board is than it is wide, less what its edges are lower.
fn crowning(radius: BoardRadius, width: Length) -> Length {
    match radius {
        BoardRadius::Flat => Length::ZERO,
        BoardRadius::Radius(radius) => {
            let half_angle = math::asin((width / radius / 2.0).min(1.0));
            let sagitta = radius * (1.0 - math::cos(half_angle));
            radius * (2.0 * half_angle) - width - sagitta * 2.0
        }
    }
}

impl WireList {
    pub(crate) fn of(spec: &Spec, plan: &FretPlan, width_at_zero_fret: Length) -> Self {
        let kinds = [FretKind::WrappedWire, FretKind::SeatedWire, FretKind::FretWire];
        let cuts = kinds
            .into_iter()
            .filter_map(|kind| {
                let lengths: Vec<Length> =
                    plan.frets.iter().filter(|fret| fret.kind == kind).map(|fret| fret.wire).collect();
                (!lengths.is_empty()).then(|| WireCut {
                    kind,
                    pieces: lengths.len(),
                    total: lengths.into_iter().sum(),
                })
            })
            .collect();
        Self { zero_fret: length_at(spec, FretKind::FretWire, width_at_zero_fret), cuts }
    }
}

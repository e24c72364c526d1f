//! bit-enters: does the router's bit go into everything that it cuts?

use geometry::{Contour, Drawing, Operation, Shape, widest_bit};
use units::Length;

use crate::finding::{Bound, Check, Concern, Finding, Limits, Measure, Source};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "bit-enters",
    measures: "the widest bit that cuts every edge of the openings and pockets",
    cures: &["router.bit"],
};

pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let bit = Measure::Length(subject.layout().spec().router.bit);
    let limits = Limits { bound: Bound::AtLeast, warn: bit, fail: bit, source: Source::Document };
    let routed = subject.parts().parts.iter().filter(|part| !part.is_printed());
    routed
        .flat_map(|part| &part.drawings)
        .filter_map(|drawing| {
            let (widest, contour) = narrowest(drawing, subject.layout().spec().router.bit)?;
            let concern = Concern::Drawing(drawing.name.clone());
            let finding = limits.judge(CHECK, concern, Measure::Length(widest));
            let words = format!("the narrowest is in {}", contour.words());
            Some(Finding { detail: Some(words), ..finding })
        })
        .collect()
}

/// The widest bit that works for the narrowest of a drawing's contours, and what that cuts; an outside counts only where the
/// bit leaves out some of its edges. Slots are left to the saw.
fn narrowest(drawing: &Drawing, bit: Length) -> Option<(Length, Contour)> {
    let widest = |operation: &Operation| {
        let (contour, shape) = operation.contour()?;
        let widest = widest_bit(contour, shape, largest(contour, shape, bit));
        (contour != Contour::Outside || widest < bit).then_some((widest, contour))
    };
    drawing.operations.iter().filter_map(widest).min_by(|(a, _), (b, _)| a.as_mm().total_cmp(&b.as_mm()))
}

/// How wide a bit is worth trying: no wider than the opening, and for an outside the document's.
fn largest(contour: Contour, shape: &Shape, bit: Length) -> Length {
    let bounds = shape.bounds();
    if contour == Contour::Outside { bit } else { bounds.width().min(bounds.height()) }
}

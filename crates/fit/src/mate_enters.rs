//! mate-enters: does each part enter what the router's round bit cuts for it?

use geometry::{Drawing, Operation, OutlineFault, Shape, lack, offset};
use spec::CornerRelief;
use units::Length;

use crate::finding::{Bound, Check, Concern, Finding, Measure, Severity, Source};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "mate-enters",
    measures: "how far the part that must enter stands beyond what the router's bit clears",
    cures: &["router.bit", "print.clearance"],
};

/// How far a part may stand beyond the bit's reach and still be said to enter. Larger is felt in a joint; smaller is lost on
/// wood. Common practice, no source.
const WITHIN: Length = Length::mm(0.01);

pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let router = &subject.layout().spec().router;
    let drawings = subject.parts().parts.iter().flat_map(|part| &part.drawings);
    drawings
        .flat_map(|drawing| {
            let mates = drawing.operations.iter().filter_map(|operation| match operation {
                Operation::Mate(mate) => Some(mate),
                _ => None,
            });
            mates.map(|mate| judge(drawing, mate, router.bit, router.corner_relief))
        })
        .collect()
}

/// Where the document asks for no relief, what stands beyond is a note as long as rounding the mate's corners cures it.
fn judge(drawing: &Drawing, mate: &Shape, bit: Length, relief: CornerRelief) -> Finding {
    let finding = |severity, found, detail: Option<String>| Finding {
        check: CHECK,
        severity,
        concern: Concern::Drawing(drawing.name.clone()),
        found: Measure::Length(found),
        bound: Bound::AtMost,
        limit: Measure::Length(Length::ZERO),
        source: Source::Geometry,
        detail,
    };
    let Some(found) = least_lack(drawing, mate, bit) else {
        let bounds = mate.bounds();
        let words = format!("a bit of {bit} goes into nothing that is cut for it");
        return finding(Severity::Fail, bounds.width().min(bounds.height()), Some(words));
    };
    if found == Length::ZERO {
        return finding(Severity::Pass, found, None);
    }
    let by_hand = || {
        rounded(mate, bit).is_ok_and(|mates| {
            !mates.is_empty() && mates.iter().all(|mate| least_lack(drawing, mate, bit) == Some(Length::ZERO))
        })
    };
    if relief == CornerRelief::None && by_hand() {
        let words = format!(
            "router.corner_relief is \"none\": round the part's corners by hand to the bit's radius of {}, or ask for \
             \"dogbone\" or \"t-bone\"",
            bit / 2.0
        );
        return finding(Severity::Note, found, Some(words));
    }
    finding(Severity::Fail, found, Some(format!("with a bit of {bit}")))
}

/// How far a mate stands beyond what a bit clears, of the cut that takes it best; `None` where the bit goes into none.
fn least_lack(drawing: &Drawing, mate: &Shape, bit: Length) -> Option<Length> {
    let contours = drawing.operations.iter().filter_map(Operation::contour);
    let lacks = contours.filter_map(|(contour, cut)| lack(mate, contour, cut, bit, WITHIN).ok().flatten());
    lacks.reduce(Length::min)
}

/// What is left of a part when its corners are rounded to the radius of a bit.
fn rounded(mate: &Shape, bit: Length) -> Result<Vec<Shape>, OutlineFault> {
    let grown = offset(mate, -bit / 2.0)?.into_iter().map(|shape| offset(&shape, bit / 2.0));
    Ok(grown.collect::<Result<Vec<_>, _>>()?.concat())
}

#[cfg(test)]
mod tests {
    use geometry::{Datum, Outline, OutlineFault, Point2};

    use super::*;

    fn rectangle(width_mm: f64, height_mm: f64) -> Result<Shape, OutlineFault> {
        let half = Point2::mm(width_mm / 2.0, height_mm / 2.0);
        Outline::rectangle(half, Point2::mm(-half.x, -half.y)).map(Shape::Outline)
    }

    /// A mate 20 mm high and as wide as told, before a sharp opening of 40 mm by 20.3 mm and a bit of 1 mm, which leaves
    /// fillets of 0.5 mm: with 0.15 mm of air above and below the corner is free from 0.146 mm of air beside it.
    #[track_caller]
    fn check(relief: CornerRelief, width_mm: f64, expected: Severity) -> Finding {
        let opening = rectangle(40.0, 20.3).expect("it has area");
        let drawing = Drawing {
            name: "plate".to_owned(),
            title: "Plate".to_owned(),
            datum: Datum { point: Point2::ORIGIN, meaning: "middle".to_owned() },
            operations: vec![Operation::CutInside(opening)],
        };
        let mate = rectangle(width_mm, 20.0).expect("it has area");
        let found = judge(&drawing, &mate, Length::mm(1.0), relief);
        assert_eq!(found.severity, expected, "{width_mm} mm wide: {found}");
        found
    }

    #[test]
    fn a_part_that_is_too_wide_fails_by_a_hair() {
        check(CornerRelief::Dogbone, 39.7, Severity::Pass);
        let beyond = check(CornerRelief::Dogbone, 39.8, Severity::Fail);
        assert!(
            matches!(beyond.found, Measure::Length(found) if found < Length::mm(0.06)),
            "by a hair: {beyond}"
        );
    }

    #[test]
    fn rounding_by_hand_cures_corners_and_no_width() {
        check(CornerRelief::None, 39.7, Severity::Pass);
        check(CornerRelief::None, 39.99, Severity::Note);
        check(CornerRelief::None, 40.04, Severity::Fail);
    }

    #[test]
    fn a_bit_that_goes_into_nothing_is_told() {
        let opening = rectangle(40.0, 0.9).expect("it has area");
        let drawing = Drawing {
            name: "slit".to_owned(),
            title: "Slit".to_owned(),
            datum: Datum { point: Point2::ORIGIN, meaning: "middle".to_owned() },
            operations: vec![Operation::CutInside(opening.clone())],
        };
        let found = judge(&drawing, &opening, Length::mm(1.0), CornerRelief::Dogbone);
        assert_eq!(
            (found.severity, found.found),
            (Severity::Fail, Measure::Length(Length::mm(0.9))),
            "all of it"
        );
    }
}

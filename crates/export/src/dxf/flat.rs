//! How do arcs become short lines without the part becoming smaller?
//!
//! An arc is broken where it is farthest left, right, up and down, as well as at its ends, and each piece then by the
//! tolerance: so the extents of a flattened drawing are those of the true one.

use geometry::{Drawing, Operation, Outline, OutlineFault, Path, Point2, Segment, Shape, Vector2};
use units::{ChordTolerance, Length, math};

/// How near to an end of an arc an extreme of it is passed over: no line may be shorter than machines take well. The
/// extents then miss a ten-thousandth of a millimetre at most, for arcs of 5 mm and more.
const NEAR_END: Length = Length::mm(0.05);

/// The points strictly between the ends at which to break a segment; none for a line.
pub(super) fn flattened(segment: &Segment, chord: ChordTolerance) -> Vec<Point2> {
    let Segment::Arc { center, radius, sweep, .. } = *segment else { return Vec::new() };
    let near = NEAR_END / segment.length();
    let mut shares: Vec<f64> = [(1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0)]
        .map(|(x, y)| center + Vector2::mm(x, y) * radius.as_mm())
        .into_iter()
        .filter(|&extreme| segment.spans(extreme))
        .map(|extreme| segment.share_at(extreme))
        .filter(|share| (near..=1.0 - near).contains(share))
        .collect();
    shares.sort_by(f64::total_cmp);
    shares.push(1.0);
    let mut points = Vec::new();
    let mut before = (0.0, segment.from());
    for share in shares {
        let here = segment.point_at(share);
        let bulge = math::tan(sweep.as_radians() * (share - before.0) / 4.0);
        points.extend(Segment::new(before.1, here, bulge).flatten(chord));
        points.push(here);
        before = (share, here);
    }
    points.pop();
    points
}

/// The shortest line that an arc of the drawing becomes, those of drilled holes aside; `None` without arcs.
pub(super) fn shortest_line(drawing: &Drawing, chord: ChordTolerance) -> Option<Length> {
    let broken = drawing.operations.iter().filter(|operation| !matches!(operation, Operation::Drill { .. }));
    let lines = broken.flat_map(Operation::segments).flat_map(|segment| {
        let points = flattened(&segment, chord);
        let ends = [segment.from()].into_iter().chain(points.clone()).zip(points);
        ends.map(|(from, to)| Length::mm(from.distance(to))).collect::<Vec<_>>()
    });
    lines.reduce(Length::min)
}

/// The drawing with every arc flattened but those of drilled holes, as it is written.
///
/// - **Errors**: the fault of an outline that so coarse a tolerance folds onto itself.
pub(super) fn flattened_drawing(drawing: &Drawing, chord: ChordTolerance) -> Result<Drawing, OutlineFault> {
    let shape = |shape: &Shape| Outline::polygon(points(&shape.segments(), chord)).map(Shape::Outline);
    let path = |path: &Path| {
        let segments: Vec<Segment> = path.segments().collect();
        Path::polyline(points(&segments, chord).into_iter().chain([path.end()]))
    };
    let change = |operation: &Operation| {
        Ok(match operation {
            Operation::CutOutside(outside) => Operation::CutOutside(shape(outside)?),
            Operation::CutInside(inside) => Operation::CutInside(shape(inside)?),
            Operation::Pocket { shape: pocket, depth } => {
                Operation::Pocket { shape: shape(pocket)?, depth: *depth }
            }
            Operation::Drill { .. } => operation.clone(),
            Operation::Slot { path: line, width, depth } => {
                Operation::Slot { path: path(line)?, width: *width, depth: *depth }
            }
            Operation::Engrave(line) => Operation::Engrave(path(line)?),
            Operation::Guide(line) => Operation::Guide(path(line)?),
            Operation::GuideShape(guide) => Operation::GuideShape(shape(guide)?),
            Operation::Mate(mate) => Operation::Mate(shape(mate)?),
        })
    };
    let operations = drawing.operations.iter().map(change).collect::<Result<_, _>>()?;
    Ok(Drawing { operations, ..drawing.clone() })
}

fn points(segments: &[Segment], chord: ChordTolerance) -> Vec<Point2> {
    let of = |segment: &Segment| std::iter::once(segment.from()).chain(flattened(segment, chord));
    segments.iter().flat_map(of).collect()
}

//! Which entities does a contour become?

use geometry::{Circle, Operation, Path, Point2, Segment, Vertex};
use units::{Angle, Length};

use super::ArcStyle;
use super::flat::flattened;
use crate::plan::{Contour, contour};

/// One thing in the file.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Entity {
    Line {
        from: Point2,
        to: Point2,
    },
    /// Counter-clockwise from the start to the end, seen from the centre.
    Arc {
        center: Point2,
        radius: Length,
        start: Angle,
        end: Angle,
    },
    Circle(Circle),
    /// The last vertex of a closed one is joined to the first.
    Polyline {
        vertices: Vec<Vertex>,
        closed: bool,
    },
}

/// What is written for an operation.
pub(super) fn entities(operation: &Operation, arcs: ArcStyle) -> Vec<Entity> {
    match (contour(operation), operation) {
        (Contour::Circle(circle), Operation::Drill { .. }) => vec![Entity::Circle(*circle)],
        (Contour::Circle(circle), _) => match arcs {
            ArcStyle::Bulges | ArcStyle::Separate => vec![Entity::Circle(*circle)],
            ArcStyle::Flattened(_) => run(&circle.segments(), true, arcs),
        },
        (Contour::Closed(outline), _) => run(&outline.segments().collect::<Vec<_>>(), true, arcs),
        (Contour::Open(path), _) => open(path, arcs),
    }
}

/// What is written for an open path.
pub(super) fn open(path: &Path, arcs: ArcStyle) -> Vec<Entity> {
    run(&path.segments().collect::<Vec<_>>(), false, arcs)
}

/// What is written for segments end to end.
fn run(segments: &[Segment], closed: bool, arcs: ArcStyle) -> Vec<Entity> {
    if let ([Segment::Line { from, to }], false) = (segments, closed) {
        return vec![Entity::Line { from: *from, to: *to }];
    }
    let corner = |segment: &Segment| Vertex { point: segment.from(), bulge: segment.bulge() };
    let mut vertices: Vec<Vertex> = match arcs {
        ArcStyle::Separate => return segments.iter().map(single).collect(),
        ArcStyle::Bulges => segments.iter().map(corner).collect(),
        ArcStyle::Flattened(chord) => segments
            .iter()
            .flat_map(|segment| std::iter::once(segment.from()).chain(flattened(segment, chord)))
            .map(Vertex::sharp)
            .collect(),
    };
    if !closed {
        vertices.extend(segments.last().map(|last| Vertex::sharp(last.to())));
    }
    vec![Entity::Polyline { vertices, closed }]
}

fn single(segment: &Segment) -> Entity {
    match *segment {
        Segment::Line { from, to } => Entity::Line { from, to },
        Segment::Arc { from, to, center, radius, sweep } => {
            let (first, last) = if sweep > Angle::ZERO { (from, to) } else { (to, from) };
            Entity::Arc { center, radius, start: (first - center).angle(), end: (last - center).angle() }
        }
    }
}

//! How do lines and arcs in any order become one closed loop?

use geometry::{Outline, OutlineFault, Point2, Segment, Vertex};

use crate::{ImportFault, JOIN, Spot};

/// The loop of some segments, each longer than [`JOIN`]; `scale` is one unit of the drawing in millimetres.
pub(crate) fn join(segments: &[Segment], scale: f64) -> Result<Outline, ImportFault> {
    if segments.is_empty() {
        return Err(ImportFault::Empty);
    }
    let spot = |point: Point2| Spot { x: point.x / scale, y: point.y / scale };
    let partners = partners(segments, &spot)?;
    let loops = loops(&partners);
    let place = |way: &Vec<usize>| way.iter().map(|end| end_point(segments, *end)).min_by(left_first);
    let mut starts: Vec<Point2> = loops.iter().filter_map(place).collect();
    starts.sort_by(left_first);
    if let [_, second, ..] = starts[..] {
        return Err(ImportFault::SeveralLoops { count: loops.len(), second: spot(second) });
    }
    let vertex = |begin: &usize| {
        let before = end_point(segments, partners[*begin]);
        let segment = oriented(segments, *begin);
        Vertex { point: segment.from().lerp(before, 0.5), bulge: segment.bulge() }
    };
    let fault = |fault| match fault {
        OutlineFault::Crossing { at, .. } => ImportFault::Crossing { at: spot(at) },
        other => ImportFault::Outline(other),
    };
    let outline = Outline::new(loops[0].iter().map(vertex).collect()).map_err(fault)?;
    let outline = outline.counter_clockwise().merged();
    let mut vertices = outline.vertices().to_vec();
    let first = (0..vertices.len()).min_by(|a, b| left_first(&vertices[*a].point, &vertices[*b].point));
    vertices.rotate_left(first.unwrap_or(0));
    Outline::new(vertices).map_err(fault)
}

/// Of two points the one farther to the left, of two above each other the lower.
fn left_first(a: &Point2, b: &Point2) -> std::cmp::Ordering {
    a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y))
}

/// The end `2 i` of segment i is its beginning, `2 i + 1` its end.
fn end_point(segments: &[Segment], end: usize) -> Point2 {
    let segment = &segments[end / 2];
    if end.is_multiple_of(2) { segment.from() } else { segment.to() }
}

/// The segment that begins at an end.
fn oriented(segments: &[Segment], begin: usize) -> Segment {
    let segment = segments[begin / 2];
    if begin.is_multiple_of(2) { segment } else { segment.reversed() }
}

/// For each end the one that it meets.
fn partners(segments: &[Segment], spot: &impl Fn(Point2) -> Spot) -> Result<Vec<usize>, ImportFault> {
    let point = |end: &usize| end_point(segments, *end);
    let join = JOIN.distance().as_mm();
    let mut order: Vec<usize> = (0..segments.len() * 2).collect();
    order.sort_by(|a, b| left_first(&point(a), &point(b)));
    let mut near: Vec<Vec<usize>> = vec![Vec::new(); order.len()];
    for (at, one) in order.iter().enumerate() {
        let in_reach = order[at + 1..].iter().take_while(|other| point(other).x - point(one).x <= join);
        for other in in_reach.filter(|other| point(other).distance(point(one)) <= join) {
            near[*one].push(*other);
            near[*other].push(*one);
        }
    }
    // From left to right, so that the first fault told is the same whatever the order in the file.
    if let Some(branch) = order.iter().find(|end| near[**end].len() > 1) {
        return Err(ImportFault::Branch { at: spot(point(branch)), ends: near[*branch].len() + 1 });
    }
    let open: Vec<usize> = order.iter().copied().filter(|end| near[*end].is_empty()).collect();
    if let Some(end) = open.first() {
        // Ends are even in number and those that meet come in pairs, so that an open one is never alone.
        let away = |other: &usize| point(other).distance(point(end));
        let other = open[1..].iter().min_by(|a, b| away(a).total_cmp(&away(b))).unwrap_or(end);
        let [at, beside] = [end, other].map(|end| spot(point(end)));
        return Err(ImportFault::Gap { at, other: beside, size: away(other) });
    }
    Ok(near.into_iter().map(|ends| ends[0]).collect())
}

/// The loops, each as the ends at which its segments begin, one after the other.
fn loops(partners: &[usize]) -> Vec<Vec<usize>> {
    let mut walked = vec![false; partners.len() / 2];
    let mut loops = Vec::new();
    for segment in 0..walked.len() {
        let mut way = Vec::new();
        let mut begin = 2 * segment;
        while !std::mem::replace(&mut walked[begin / 2], true) {
            way.push(begin);
            begin = partners[begin ^ 1];
        }
        if !way.is_empty() {
            loops.push(way);
        }
    }
    loops
}

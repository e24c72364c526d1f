//! How do the faces of a chain of lofts come together?

use super::arrangement::{Arrangement, arrange};
use super::flat::turned_over;
use super::{BodyFault, Curve3, EdgeUse, Face, Loft, Section, Skin, Strip, Surface, regions};
use crate::{Frame3, Point3, Segment, WELD};

/// For each segment of a ring, the edges that it became, in the ring's direction.
type Chains = Vec<Vec<EdgeUse>>;

/// The skin of a chain of lofts without its bores.
pub(super) fn assemble(lofts: &[Loft]) -> Result<Skin, BodyFault> {
    let mut skin = Skin::default();
    let mut start = join(&mut skin, 0, None, Some(&lofts[0].start))?.1;
    for (index, loft) in lofts.iter().enumerate() {
        let next = lofts.get(index + 1).map(|loft| &loft.start);
        let (end, next_start) = join(&mut skin, index + 1, Some(&loft.end), next)?;
        add_sides(&mut skin, loft, &start, &end);
        start = next_start;
    }
    Ok(skin)
}

/// Puts the rings where one loft ends and the next begins into the skin, and the walls that only one of them covers:
/// those of the former look forward along the normal, those of the latter back.
fn join(
    skin: &mut Skin,
    later: usize,
    before: Option<&Section>,
    after: Option<&Section>,
) -> Result<(Chains, Chains), BodyFault> {
    let frame = before.or(after).expect("a joint has a side: our bug").frame;
    let flat_ring =
        |section: Option<&Section>| section.map_or_else(Vec::new, |section| flat_ring(frame, section));
    let arrangement = arrange(&[flat_ring(before), flat_ring(after)]);
    let (chains, first_edge) = add_arrangement(skin, frame, &arrangement);
    let [before_chains, after_chains] = chains;
    if before_chains.iter().chain(&after_chains).any(Vec::is_empty) {
        // Both ends of a segment lie within the weld distance of one vertex of the other ring.
        return Err(BodyFault::BrokenLoop { at: frame.origin });
    }

    // Which way each ring runs along each edge.
    let mut ways: Vec<[Option<bool>; 2]> = vec![[None; 2]; arrangement.edges.len()];
    for (ring, chains) in [&before_chains, &after_chains].into_iter().enumerate() {
        for edge_use in chains.iter().flatten() {
            ways[edge_use.edge - first_edge][ring] = Some(edge_use.forward);
        }
    }
    let covers = |section: Option<&Section>, point: Point3| {
        section.is_some_and(|section| section.ring.contains(section.frame.flat(point)))
    };
    let (mut forward_walls, mut backward_walls) = (Vec::new(), Vec::new());
    let mut touch = before.is_none() || after.is_none();
    for (index, way) in ways.iter().enumerate() {
        let edge = first_edge + index;
        let middle = skin.edges[edge].curve.point(0.5);
        match *way {
            [Some(one), Some(other)] if one == other => touch = true,
            [Some(_), Some(_)] => return Err(BodyFault::EdgeTouch { at: middle }),
            [Some(forward), None] => {
                let inside = covers(after, middle);
                touch |= inside;
                let walls = if inside { &mut backward_walls } else { &mut forward_walls };
                walls.push(EdgeUse { edge, forward });
            }
            [None, Some(forward)] => {
                let inside = covers(before, middle);
                touch |= inside;
                let walls = if inside { &mut forward_walls } else { &mut backward_walls };
                walls.push(EdgeUse { edge, forward: !forward });
            }
            [None, None] => unreachable!("an edge comes from a ring: our bug"),
        }
    }
    if !touch {
        return Err(BodyFault::Apart { loft: later });
    }
    for (frame, walls) in [(frame, forward_walls), (turned_over(frame), backward_walls)] {
        for loops in regions::trace(skin, frame, &walls)? {
            skin.faces.push(Face { surface: Surface::Plane(frame), loops });
        }
    }
    Ok((before_chains, after_chains))
}

/// The ring of a section in the coordinates of a frame of the same plane.
fn flat_ring(frame: Frame3, section: &Section) -> Vec<Segment> {
    if section.frame == frame {
        return section.ring.segments().collect();
    }
    let place = |point| frame.flat(section.frame.point(point));
    let segment =
        |segment: Segment| Segment::new(place(segment.from()), place(segment.to()), segment.bulge());
    section.ring.segments().map(segment).collect()
}

/// Adds the points and edges of an arrangement to the skin, and gives the chains of both rings and the number of its
/// first edge there.
fn add_arrangement(skin: &mut Skin, frame: Frame3, arrangement: &Arrangement) -> ([Chains; 2], usize) {
    let (first_point, first_edge) = (skin.points.len(), skin.edges.len());
    for &point in &arrangement.points {
        skin.add_point(frame.point(point));
    }
    for edge in &arrangement.edges {
        skin.add_edge(first_point + edge.from, first_point + edge.to, edge.segment.bulge(), frame.normal());
    }
    let chains = |ring: usize| -> Chains {
        let in_skin = |edge_use: &EdgeUse| EdgeUse { edge: first_edge + edge_use.edge, ..*edge_use };
        arrangement.rings[ring].iter().map(|chain| chain.iter().map(in_skin).collect()).collect()
    };
    ([chains(0), chains(1)], first_edge)
}

/// Adds the side faces of a loft, one for each segment of its rings.
fn add_sides(skin: &mut Skin, loft: &Loft, start: &Chains, end: &Chains) {
    let count = start.len();
    let sides: Vec<usize> = (0..count)
        .map(|index| {
            let (from, to) = (skin.start_of(start[index][0]), skin.start_of(end[index][0]));
            skin.add_line(from, to)
        })
        .collect();
    for index in 0..count {
        let (low, high) = (&start[index], &end[index]);
        let strip = Strip {
            start: whole(skin, low, &loft.start, index),
            end: whole(skin, high, &loft.end, index),
            start_uses: low.len(),
        };
        let mut face_loop = low.clone();
        face_loop.push(EdgeUse { edge: sides[(index + 1) % count], forward: true });
        face_loop.extend(high.iter().rev().map(|edge_use| edge_use.reversed()));
        face_loop.push(EdgeUse { edge: sides[index], forward: false });
        let surface = plane_of(&strip).map_or(Surface::Ruled(strip), Surface::Plane);
        skin.faces.push(Face { surface, loops: vec![face_loop] });
    }
}

/// The curve of a segment of a section, of which a chain is the pieces.
fn whole(skin: &Skin, chain: &[EdgeUse], section: &Section, segment: usize) -> Curve3 {
    let (from, to) = (skin.start_of(chain[0]), skin.end_of(chain[chain.len() - 1]));
    let bulge = section.ring.vertices()[segment].bulge;
    Curve3 { from: skin.points[from], to: skin.points[to], bulge, normal: section.frame.normal() }
}

/// The plane of a strip between two lines, where it is flat, with its normal outward.
fn plane_of(strip: &Strip) -> Option<Frame3> {
    if !(strip.start.is_line() && strip.end.is_line()) {
        return None;
    }
    let corners = [strip.start.from, strip.start.to, strip.end.to, strip.end.from];
    let normal = (corners[2] - corners[0]).cross(corners[3] - corners[1]);
    let frame = Frame3::facing(corners[0], normal, corners[1] - corners[0])?;
    let heights = corners.map(|corner| frame.height(corner).abs());
    heights.iter().all(|&height| height <= WELD.distance().as_mm()).then_some(frame)
}

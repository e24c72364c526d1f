//! Is a loop the same outline in whatever pieces, order and sense it is drawn?

use geometry::{Outline, Point2, Segment, Vertex};
use import::ImportFault;
use proptest::prelude::*;
use units::{LengthUnit, math};

/// A loop about the origin: distance and bulge of each vertex, at equal angles.
fn loops() -> impl Strategy<Value = Outline> {
    let bulge = prop_oneof![Just(0.0), 0.05..0.5, -0.25..-0.05];
    prop::collection::vec((20.0..40.0, bulge), 3..9).prop_filter_map(
        "a loop that crosses itself",
        |corners| {
            let count = corners.len() as f64;
            let vertex = |(at, (distance, bulge)): (usize, (f64, f64))| {
                let angle = std::f64::consts::TAU * at as f64 / count;
                Vertex { point: Point2::mm(distance * math::cos(angle), distance * math::sin(angle)), bulge }
            };
            Outline::new(corners.into_iter().enumerate().map(vertex).collect()).ok()
        },
    )
}

/// How one segment of a loop is drawn: in how many pieces, which way round each, and whether as a polyline.
#[derive(Clone, Debug)]
struct Drawn {
    pieces: usize,
    backward: bool,
    as_polyline: bool,
    rank: u32,
}

fn drawn() -> impl Strategy<Value = Drawn> {
    (1..4_usize, any::<bool>(), any::<bool>(), any::<u32>())
        .prop_map(|(pieces, backward, as_polyline, rank)| Drawn { pieces, backward, as_polyline, rank })
}

/// One piece as the groups of a file.
fn groups(piece: &Segment, as_polyline: bool) -> String {
    let (from, to) = (piece.from(), piece.to());
    match piece {
        Segment::Line { .. } if !as_polyline => {
            format!("0\nLINE\n10\n{}\n20\n{}\n11\n{}\n21\n{}\n", from.x, from.y, to.x, to.y)
        }
        Segment::Arc { center, radius, sweep, .. } if !as_polyline => {
            // Arcs are written counter-clockwise.
            let ends = if sweep.as_radians() > 0.0 { [from, to] } else { [to, from] };
            let [start, end] = ends.map(|point| (point - *center).angle().as_degrees());
            let radius = radius.as_mm();
            format!("0\nARC\n10\n{}\n20\n{}\n40\n{radius}\n50\n{start}\n51\n{end}\n", center.x, center.y)
        }
        _ => format!(
            "0\nLWPOLYLINE\n70\n0\n10\n{}\n20\n{}\n42\n{}\n10\n{}\n20\n{}\n",
            from.x,
            from.y,
            piece.bulge(),
            to.x,
            to.y
        ),
    }
}

/// The loop in pieces, in the order in which a file has them.
fn pieces(outline: &Outline, ways: &[Drawn]) -> Vec<String> {
    let mut pieces: Vec<(u32, String)> = Vec::new();
    for (segment, way) in outline.segments().zip(ways) {
        let bulge = math::tan(segment.sweep().as_radians() / way.pieces as f64 / 4.0);
        for piece in 0..way.pieces {
            let at = |piece: usize| segment.point_at(piece as f64 / way.pieces as f64);
            let drawn = Segment::new(at(piece), at(piece + 1), bulge);
            let drawn = if way.backward { drawn.reversed() } else { drawn };
            let rank =
                way.rank.wrapping_mul(2_654_435_761).wrapping_add((piece as u32).wrapping_mul(0x9e37_79b9));
            pieces.push((rank, groups(&drawn, way.as_polyline)));
        }
    }
    pieces.sort();
    pieces.into_iter().map(|(_, groups)| groups).collect()
}

/// The outline in a file of these pieces.
fn read(pieces: &[String]) -> Result<Outline, ImportFault> {
    let text = format!("0\nSECTION\n2\nENTITIES\n{}0\nENDSEC\n0\nEOF\n", pieces.concat());
    import::outline(text.as_bytes(), Some(LengthUnit::Millimetre))
}

proptest! {
    #[test]
    fn pieces_order_and_sense_do_not_matter(
        outline in loops(),
        ways in prop::collection::vec(drawn(), 8),
        other_ways in prop::collection::vec(drawn(), 8),
    ) {
        let one = read(&pieces(&outline, &ways)).expect("a loop");
        let other = read(&pieces(&outline, &other_ways)).expect("a loop");
        prop_assert_eq!(one.vertices().len(), other.vertices().len());
        for (one, other) in one.vertices().iter().zip(other.vertices()) {
            prop_assert!(one.point.distance(other.point) < 1e-9, "{:?} and {:?}", one, other);
            prop_assert!((one.bulge - other.bulge).abs() < 1e-9, "{:?} and {:?}", one, other);
        }
        prop_assert!((one.signed_area() - outline.signed_area().abs()).abs() < 1e-6, "the area");
        prop_assert!((one.perimeter() - outline.perimeter()).as_mm().abs() < 1e-6, "the way round");
    }

    #[test]
    fn a_loop_that_lacks_a_piece_has_a_gap(outline in loops(), ways in prop::collection::vec(drawn(), 8), lost in 0..8_usize) {
        let mut kept = pieces(&outline, &ways);
        kept.remove(lost % kept.len());
        let found = read(&kept);
        prop_assert!(matches!(found, Err(ImportFault::Gap { .. })), "{:?}", found);
    }

    #[test]
    fn no_bytes_make_it_panic(bytes in prop::collection::vec(any::<u8>(), 0..400)) {
        let _ = import::outline(&bytes, None);
    }

    #[test]
    fn no_groups_make_it_panic(
        groups in prop::collection::vec(("(0|2|10|20|11|21|30|40|42|50|51|70|9|67|230)", "(LINE|ARC|CIRCLE|LWPOLYLINE|POLYLINE|VERTEX|SEQEND|SECTION|ENTITIES|ENDSEC|-?[0-9]{1,3}|1e308|0)"), 0..60),
    ) {
        let body: String = groups.iter().map(|(group, value)| format!("{group}\n{value}\n")).collect();
        let text = format!("0\nSECTION\n2\nENTITIES\n{body}0\nEOF\n");
        let _ = import::outline(text.as_bytes(), Some(LengthUnit::Inch));
    }
}

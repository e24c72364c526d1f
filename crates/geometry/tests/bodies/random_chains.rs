//! Do random chains of lofts with random rings, steps and bores stay closed, and keep the volume of their sections?

use boxneck_geometry::{Body, Bore, Frame3, Loft, Outline, Point2, Point3, Rigid3, Section, Vector3, Vertex};
use proptest::prelude::*;
use units::{Angle, ChordTolerance, Length, math};

use super::samples::{DOWN, step};
use super::second_reader::{check_body, check_own_readings};

/// One stretch of a random bar: a ring about an axis and what becomes of it along the stretch.
#[derive(Clone, Debug)]
struct Stretch {
    length: f64,
    /// Radius and bulge of each vertex, at equal angles round the axis.
    ring: Vec<(f64, f64)>,
    /// How much larger the ring is at its end.
    growth: f64,
    center: (f64, f64),
    drift: (f64, f64),
}

impl Stretch {
    /// The vertices at a share of the way along.
    fn vertices(&self, share: f64) -> Vec<Vertex> {
        let scale = 1.0 + (self.growth - 1.0) * share;
        let center = Point2::mm(self.center.0 + self.drift.0 * share, self.center.1 + self.drift.1 * share);
        let count = self.ring.len();
        let vertex = |(index, &(radius, bulge)): (usize, &(f64, f64))| {
            let angle = std::f64::consts::TAU * index as f64 / count as f64;
            let (sin, cos) = (math::sin(angle), math::cos(angle));
            Vertex { point: center + boxneck_geometry::Vector2::mm(cos, sin) * (radius * scale), bulge }
        };
        self.ring.iter().enumerate().map(vertex).collect()
    }

    fn outline(&self, share: f64) -> Outline {
        Outline::new(self.vertices(share)).expect("a ring about its centre")
    }

    /// The area of the section grows with the square of the scale, so Simpson's rule is exact.
    fn volume(&self) -> f64 {
        let area = |share| self.outline(share).signed_area();
        self.length / 6.0 * (area(0.0) + 4.0 * area(0.5) + area(1.0))
    }

    /// A loose bound of the area of the sides.
    fn side_area(&self) -> f64 {
        2.0 * self.length * (self.outline(0.0).perimeter() + self.outline(1.0).perimeter()).as_mm()
    }
}

fn stretch(flat: bool) -> impl Strategy<Value = Stretch> {
    let bulge =
        if flat { Just(0.0).boxed() } else { prop_oneof![Just(0.0), 0.05..0.3, -0.15..-0.05].boxed() };
    let ring = prop::collection::vec((5.0..9.0, bulge), 3..8);
    let drift = (-2.0..2.0, -2.0..2.0);
    (0.5..12.0, ring, 0.8..1.25, (-1.0..1.0, -1.0..1.0), drift)
        .prop_map(|(length, ring, growth, center, drift)| Stretch { length, ring, growth, center, drift })
}

/// The lofts of stretches one after the other along a frame's normal.
fn chain(stretches: &[Stretch], frame: Frame3) -> Vec<Loft> {
    let mut at = 0.0;
    let mut lofts = Vec::new();
    for stretch in stretches {
        let section = |height, share| Section {
            frame: frame.shifted(Length::mm(height)),
            ring: stretch.outline(share),
        };
        lofts.push(Loft { start: section(at, 0.0), end: section(at + stretch.length, 1.0) });
        at += stretch.length;
    }
    lofts
}

const CHORD_MM: f64 = 0.01;

#[track_caller]
fn check(lofts: Vec<Loft>, bores: Vec<Bore>, through: i64, expected: f64, curved: f64) {
    let apart = rings_are_apart(&lofts);
    let body = Body::new(lofts, bores).expect("a sound description");
    // A corner of one ring all but on an arc of the other is closer than the tolerance of the second reader.
    if apart {
        check_body(&body, through)
    } else {
        check_own_readings(&body, through)
    }
    check_volume(&body, expected, curved);
}

/// Whether the vertices of rings that meet are either on each other or well away from each other's segments.
fn rings_are_apart(lofts: &[Loft]) -> bool {
    let apart = |ring: &Outline, other: &Outline| {
        ring.vertices().iter().all(|vertex| {
            other.segments().all(|segment| {
                let gap = segment.distance_to(vertex.point).as_mm();
                !(1e-6..5.0 * CHORD_MM).contains(&gap)
            })
        })
    };
    lofts.windows(2).all(|pair| {
        let (end, start) = (&pair[0].end.ring, &pair[1].start.ring);
        apart(end, start) && apart(start, end)
    })
}

#[track_caller]
fn check_volume(body: &Body, expected: f64, curved: f64) {
    let mesh = body.mesh(ChordTolerance::new(Length::mm(CHORD_MM))).expect("a closed mesh");
    let (found, within) = (mesh.volume(), 1e-9 * expected + CHORD_MM * curved);
    assert!((found - expected).abs() <= within, "expected {expected} within {within}, found {found}");
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 32, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn rings_of_lines_and_arcs(stretches in prop::collection::vec(stretch(false), 1..5), turn in 0.0..360.0_f64) {
        let frame = Rigid3::turn(Point3::ORIGIN, Vector3::mm(1.0, -0.4, 0.3), Angle::degrees(turn))
            .expect("an axis").frame(Frame3::across_x(Length::mm(-3.0)));
        let expected = stretches.iter().map(Stretch::volume).sum();
        let curved = stretches.iter().map(Stretch::side_area).sum();
        check(chain(&stretches, frame), Vec::new(), 0, expected, curved);
    }

    #[test]
    fn rings_of_lines_only(stretches in prop::collection::vec(stretch(true), 1..6)) {
        let expected = stretches.iter().map(Stretch::volume).sum();
        check(chain(&stretches, Frame3::across_y(Length::ZERO)), Vec::new(), 0, expected, 0.0);
    }

    /// Slots of any width and depth, some meeting, some at the ends, so that floors and tops lie in planes that recur.
    #[test]
    fn slotted_bars(
        heights in prop::collection::vec(prop::sample::select(vec![4.0, 6.0, 6.0, 8.0]), 1..12),
        widths in prop::collection::vec(0.4..5.0, 12),
        bored in any::<bool>(),
    ) {
        let (mut lofts, mut expected, mut x) = (Vec::new(), 0.0, 0.0);
        for (&height, &width) in heights.iter().zip(&widths) {
            let ring = super::samples::rectangle(-5.0, 0.0, 5.0, height);
            lofts.push(super::samples::prism_along_x(x, x + width, &ring));
            expected += 10.0 * height * width;
            x += width;
        }
        let mut bores = Vec::new();
        if bored && x > 3.0 {
            bores.push(Bore::counterbored(Point3::mm(x / 2.0, 1.0, 0.0), -DOWN, step(3.0, 0.5), step(1.0, 1.2)));
            expected -= std::f64::consts::PI * (1.44 + 0.5);
        }
        check(lofts, bores, 0, expected, 12.0);
    }

    /// A twisted bar between straight edges: against the exact volume only.
    #[test]
    fn twisted_bars(radii in prop::collection::vec((4.0..6.0, 4.0..6.0), 4..7), twist in -30.0..30.0_f64) {
        let radii_count = radii.len();
        let ring = |radius: fn(&(f64, f64)) -> f64, twist: f64| {
            let point = |(index, radii): (usize, &(f64, f64))| {
                let angle = std::f64::consts::TAU * index as f64 / radii_count as f64 + twist;
                Point2::mm(math::cos(angle) * radius(radii), math::sin(angle) * radius(radii))
            };
            Outline::polygon(radii.iter().enumerate().map(point)).expect("a ring")
        };
        let (start, end) = (ring(|radii| radii.0, 0.0), ring(|radii| radii.1, twist.to_radians()));
        let middle = Outline::polygon(
            start.vertices().iter().zip(end.vertices()).map(|(a, b)| a.point.lerp(b.point, 0.5)),
        ).expect("a ring");
        let expected = 7.0 / 6.0 * (start.signed_area() + 4.0 * middle.signed_area() + end.signed_area());
        let body = Body::new(vec![super::samples::along_x(0.0, &start, 7.0, &end)], Vec::new()).expect("a twist");
        check_own_readings(&body, 0);
        check_volume(&body, expected, 2.0 * 7.0 * (start.perimeter() + end.perimeter()).as_mm());
    }
}

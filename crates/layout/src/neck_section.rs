//! What does the neck look like, cut across?
//!
//! One ring of lines and arcs serves every reader: the solid is lofted through it, the wire that is wrapped round it is
//! as long as its perimeter, and its stiffness comes from its area.

mod cap;

use mechanics::section::Section;
use spec::NeckSection;
use units::{Length, math};

use cap::Cap;

/// One corner of a ring, and the bulge of the side that leaves it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RingPoint {
    /// Across.
    pub y: Length,
    /// Up.
    pub z: Length,
    /// Tangent of a quarter of the side's sweep: 0 for a line, positive for an arc that turns left.
    pub bulge: f64,
}

/// A closed ring in the `y`-`z` plane, counter-clockwise seen from the tail.
#[derive(Clone, Debug, PartialEq)]
pub struct NeckRing {
    points: Vec<RingPoint>,
}

/// How much of the thickness an oval back takes; the rest is straight side.
///
/// Larger leaves too little side to glue a heel to; smaller is no oval.
const OVAL_SHARE: f64 = 0.6;

/// The radius of an oval's shoulder as a share of its rise: the rest is one flatter arc.
const SHOULDER_SHARE: f64 = 0.5;

impl NeckRing {
    /// The ring of a stick `width` wide between the levels `top` and `bottom`.
    ///
    /// - **Square**: four corners.
    /// - **Eased**: the lower corners are quarter circles of `edge_radius`.
    /// - **Oval**: straight sides, then a three-centred arch: two small arcs and one large one, tangent throughout.
    ///   With half width `a`, rise `b` and small radius `r` the large radius is `(a^2 + b^2 - 2 a r) / (2 (b - r))`
    ///   (from the distance of the centres, which is the difference of the radii).
    #[must_use]
    pub fn new(
        section: NeckSection,
        width: Length,
        top: Length,
        bottom: Length,
        edge_radius: Length,
    ) -> Self {
        let half = width / 2.0;
        let corner = |y: Length, z: Length, bulge: f64| RingPoint { y, z, bulge };
        let quarter = quarter();
        let points = match section {
            NeckSection::Square => vec![
                corner(half, top, 0.0),
                corner(-half, top, 0.0),
                corner(-half, bottom, 0.0),
                corner(half, bottom, 0.0),
            ],
            NeckSection::Eased => vec![
                corner(half, top, 0.0),
                corner(-half, top, 0.0),
                corner(-half, bottom + edge_radius, quarter),
                corner(-half + edge_radius, bottom, 0.0),
                corner(half - edge_radius, bottom, quarter),
                corner(half, bottom + edge_radius, 0.0),
            ],
            NeckSection::Oval => {
                let a = half.as_mm();
                let b = ((top - bottom).as_mm() * OVAL_SHARE).min(0.9 * a);
                let small = b * SHOULDER_SHARE;
                let large = (a * a + b * b - 2.0 * a * small) / (2.0 * (b - small));
                let shoulder_z = bottom.as_mm() + b;
                // The arcs meet on the line through their centres, (a - small, shoulder) and (0, bottom + large).
                let (run, rise) = (a - small, large - b);
                let reach = large / (large - small);
                let meeting_y = Length::mm(run * reach);
                let meeting_z = Length::mm(shoulder_z + rise - rise * reach);
                let flat_half_sweep = math::atan2(run, rise);
                let shoulder_sweep = std::f64::consts::FRAC_PI_2 - flat_half_sweep;
                let shoulder = math::tan(shoulder_sweep / 4.0);
                let flat = math::tan(flat_half_sweep / 2.0);
                vec![
                    corner(half, top, 0.0),
                    corner(-half, top, 0.0),
                    corner(-half, Length::mm(shoulder_z), shoulder),
                    corner(-meeting_y, meeting_z, flat),
                    corner(meeting_y, meeting_z, shoulder),
                    corner(half, Length::mm(shoulder_z), 0.0),
                ]
            }
        };
        Self { points }
    }

    /// The same ring cut down from above to `top`, which must leave some straight side.
    #[must_use]
    pub fn cut_down_to(&self, top: Length) -> Self {
        let mut points = self.points.clone();
        points[0].z = top;
        points[1].z = top;
        Self { points }
    }

    /// The corners, counter-clockwise seen from the tail, from the treble edge of the top.
    #[must_use]
    pub fn points(&self) -> &[RingPoint] {
        &self.points
    }

    /// The least radius of the back, from one straight side to the other: nothing where a corner is left square.
    #[must_use]
    pub fn least_back_radius(&self) -> Length {
        let back = &self.points[2..];
        let radius = |from: &RingPoint, to: &RingPoint| {
            // Half the chord over the sine of half the sweep, by the bulge.
            let chord = math::hypot((to.y - from.y).as_mm(), (to.z - from.z).as_mm());
            Length::mm(chord * (1.0 + from.bulge * from.bulge) / (4.0 * from.bulge))
        };
        let arcs = back.windows(2).filter(|pair| pair[0].bulge > 0.0).map(|pair| radius(&pair[0], &pair[1]));
        arcs.reduce(Length::min).unwrap_or(Length::ZERO)
    }

    /// Length round the ring: exact for lines and arcs.
    #[must_use]
    pub fn perimeter(&self) -> Length {
        let next = self.points.iter().cycle().skip(1);
        self.points.iter().zip(next).map(|(from, to)| side_length(*from, *to)).sum()
    }
}

impl NeckRing {
    /// What bending needs to know of the section.
    ///
    /// - **Accuracy**: exact for lines and arcs.
    /// - **Source**: Green's theorem for the polygon of the corners: sums over its sides of the cross product of their ends; what
    ///   lies between a side's arc and its chord comes to that, in closed form.
    #[must_use]
    pub fn section(&self) -> Section {
        let (mut area, mut first, mut second) = (0.0, 0.0, 0.0);
        let (mut top, mut bottom) = (f64::NEG_INFINITY, f64::INFINITY);
        for (from, to) in self.points.iter().zip(self.points.iter().cycle().skip(1)) {
            let (y0, z0, y1, z1) = (from.y.as_mm(), from.z.as_mm(), to.y.as_mm(), to.z.as_mm());
            let cross = y0 * z1 - y1 * z0;
            area += cross / 2.0;
            first += cross * (z0 + z1) / 6.0;
            second += cross * (z0 * z0 + z0 * z1 + z1 * z1) / 12.0;
            (top, bottom) = (top.max(z0), bottom.min(z0));
            // An edge that is eased by nothing is an arc without a chord.
            if from.bulge != 0.0 && (y0, z0) != (y1, z1) {
                let cap = Cap::over(from, to);
                area += cap.area();
                first += cap.first_moment();
                second += cap.second_moment();
                top = cap.top().map_or(top, |highest| top.max(highest));
                bottom = cap.bottom().map_or(bottom, |lowest| bottom.min(lowest));
            }
        }
        // What has no area, such as a tongue that the lid leaves nothing of, has its middle and not 0/0.
        let centroid = if area == 0.0 { (top + bottom) / 2.0 } else { first / area };
        Section {
            area_mm2: area,
            second_moment_mm4: second - area * centroid * centroid,
            centroid_depth: Length::mm(top - centroid),
            depth: Length::mm(top - bottom),
        }
    }
}

/// The bulge of a quarter circle.
fn quarter() -> f64 {
    math::tan(std::f64::consts::PI / 8.0)
}

fn side_length(from: RingPoint, to: RingPoint) -> Length {
    let chord = Length::mm(math::hypot((to.y - from.y).as_mm(), (to.z - from.z).as_mm()));
    if from.bulge == 0.0 {
        return chord;
    }
    let half_sweep = 2.0 * math::atan(from.bulge.abs());
    chord * (half_sweep / math::sin(half_sweep))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(section: NeckSection, expected_mm: f64) {
        let ring = NeckRing::new(section, Length::mm(40.0), Length::ZERO, Length::mm(-20.0), Length::mm(4.0));
        let found = ring.perimeter().as_mm();
        assert!(
            (found - expected_mm).abs() < 1e-9,
            "perimeter of {section:?}: {found}, expected {expected_mm}"
        );
    }

    #[test]
    fn a_square_section_is_as_long_as_its_sides() {
        check(NeckSection::Square, 120.0);
    }

    #[test]
    fn the_back_is_as_sharp_as_its_sharpest_edge() {
        let radius = |section| {
            let (width, bottom) = (Length::mm(40.0), Length::mm(-20.0));
            NeckRing::new(section, width, Length::ZERO, bottom, Length::mm(4.0)).least_back_radius().as_mm()
        };
        assert_eq!(radius(NeckSection::Square), 0.0, "corners");
        assert!((radius(NeckSection::Eased) - 4.0).abs() < 1e-12, "the edge's own");
        // The rise is 0.6 of 20 mm, and the shoulders take half of it.
        assert!((radius(NeckSection::Oval) - 6.0).abs() < 1e-9, "the shoulder's");
    }

    #[test]
    fn each_eased_edge_trades_two_radii_for_a_quarter_circle() {
        check(NeckSection::Eased, 120.0 - 16.0 + 4.0 * std::f64::consts::PI);
    }

    #[track_caller]
    fn check_section(shape: NeckSection, expected: Section) {
        let ring = NeckRing::new(shape, Length::mm(40.0), Length::ZERO, Length::mm(-20.0), Length::mm(4.0));
        let found = ring.section();
        let off = |a: f64, b: f64| ((a - b) / b).abs();
        assert!(off(found.area_mm2, expected.area_mm2) < 1e-12, "area of {shape:?}: {found:?}");
        assert!(off(found.second_moment_mm4, expected.second_moment_mm4) < 1e-12, "of {shape:?}: {found:?}");
        assert!(
            (found.centroid_depth - expected.centroid_depth).abs() < Length::mm(1e-12),
            "centroid of {shape:?}: {found:?}"
        );
        assert!((found.depth - expected.depth).abs() < Length::mm(1e-9), "depth of {shape:?}: {found:?}");
    }

    // The closed forms are the mechanics' own, derived there.
    #[test]
    fn sections_agree_with_closed_forms() {
        let (width, depth) = (Length::mm(40.0), Length::mm(20.0));
        check_section(NeckSection::Square, mechanics::section::rectangle(width, depth).expect("sound"));
        let eased = mechanics::section::eased_rectangle(width, depth, Length::mm(4.0)).expect("sound");
        check_section(NeckSection::Eased, eased);
    }

    // No closed form of its own: the ring's arcs against strips of the width at each height, where that is measured otherwise, from the
    // three circles themselves.
    #[test]
    fn the_section_of_an_oval_is_that_of_its_strips() {
        let (width, depth) = (44.0, 19.0);
        let ring = NeckRing::new(
            NeckSection::Oval,
            Length::mm(width),
            Length::mm(-5.0),
            Length::mm(-5.0 - depth),
            Length::mm(4.0),
        );
        let (a, b) = (width / 2.0, depth * 0.6);
        let small = b / 2.0;
        let large = (a * a + b * b - 2.0 * a * small) / (2.0 * (b - small));
        let run = a - small;
        // Below the shoulder, half the width at a height over the underside: the smaller of the two arcs' widths.
        let half_width = |height: f64| {
            let rise = b - height;
            if rise <= 0.0 {
                return a;
            }
            let shoulder = run + (small * small - rise * rise).max(0.0).sqrt();
            let flat = (large * large - (large - height) * (large - height)).sqrt();
            let meeting = large - (large - b) * large / (large - small);
            if height < meeting { flat } else { shoulder }
        };
        let strips = 200_000;
        let (mut area, mut first, mut second) = (0.0, 0.0, 0.0);
        for strip in 0..strips {
            let height = depth * (f64::from(strip) + 0.5) / f64::from(strips);
            let part = 2.0 * half_width(height) * depth / f64::from(strips);
            (area, first, second) = (area + part, first + part * height, second + part * height * height);
        }
        let centroid = first / area;
        let found = ring.section();
        let near = |what: &str, found: f64, expected: f64| {
            assert!((found / expected - 1.0).abs() < 1e-6, "{what}: found {found}, strips give {expected}");
        };
        near("area", found.area_mm2, area);
        near("second moment", found.second_moment_mm4, second - area * centroid * centroid);
        near("centroid", found.centroid_depth.as_mm(), depth - centroid);
        near("depth", found.depth.as_mm(), depth);
    }

    #[test]
    fn an_edge_that_is_eased_by_nothing_is_square() {
        let section = |shape| {
            let (width, bottom) = (Length::mm(40.0), Length::mm(-20.0));
            NeckRing::new(shape, width, Length::ZERO, bottom, Length::ZERO).section()
        };
        assert_eq!(section(NeckSection::Eased), section(NeckSection::Square), "four corners either way");
    }

    #[test]
    fn an_arc_that_turns_right_takes_away() {
        // A square of 20 with a half circle of radius 10 let into its top.
        let corner = |y: f64, z: f64, bulge: f64| RingPoint { y: Length::mm(y), z: Length::mm(z), bulge };
        let points = vec![
            corner(10.0, 0.0, -1.0),
            corner(-10.0, 0.0, 0.0),
            corner(-10.0, -20.0, 0.0),
            corner(10.0, -20.0, 0.0),
        ];
        let section = NeckRing { points }.section();
        let half_circle = std::f64::consts::PI * 50.0;
        assert!((section.area_mm2 - (400.0 - half_circle)).abs() < 1e-9, "found {}", section.area_mm2);
        // The half circle's centroid lies 4 r/(3 pi) below its chord.
        let first = 400.0 * 10.0 - half_circle * 40.0 / (3.0 * std::f64::consts::PI);
        let expected = first / section.area_mm2;
        assert!(
            (section.centroid_depth.as_mm() - expected).abs() < 1e-9,
            "found {:?}",
            section.centroid_depth
        );
    }

    // A tongue from which the recess takes all that there is.
    #[test]
    fn a_section_of_no_height_has_no_area_and_is_refused() {
        let level = Length::mm(-12.3);
        let ring = NeckRing::new(NeckSection::Square, Length::mm(40.0), level, level, Length::mm(4.0));
        let section = ring.section();
        assert!(section.area_mm2 == 0.0, "no area, found {}", section.area_mm2);
        assert_eq!(section.depth, Length::ZERO, "no depth");
        assert_eq!(section.centroid_depth, Length::ZERO, "its middle is its top");
        let elastic_modulus = spec::Spec::default().neck.wood.shear_free_modulus();
        let layer = mechanics::section::Layer { section, top_depth: Length::ZERO, elastic_modulus };
        assert!(mechanics::section::composite(&[layer]).is_err(), "nothing bends or bears");
    }

    #[test]
    fn the_arcs_of_an_oval_are_tangent_and_turn_half_a_circle_together() {
        let ring = NeckRing::new(
            NeckSection::Oval,
            Length::mm(40.0),
            Length::ZERO,
            Length::mm(-20.0),
            Length::mm(4.0),
        );
        let sweep: f64 = ring.points().iter().map(|point| 4.0 * math::atan(point.bulge)).sum();
        assert!(
            (sweep - std::f64::consts::PI).abs() < 1e-12,
            "two vertical sides joined by tangent arcs turn by half a circle, found {sweep}"
        );
        let lowest = ring.points()[3];
        let sagitta = lowest.bulge * -lowest.y.as_mm();
        assert!(
            (lowest.z.as_mm() - sagitta + 20.0).abs() < 1e-9,
            "the flat arc touches the underside, found {}",
            lowest.z.as_mm() - sagitta
        );
    }
}

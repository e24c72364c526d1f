//! How far does the lid sink under the saddle, and how much action does that cost?
//!
//! The lid is a thin flat plate of one thickness and one stiffness, held all round. Real lids are glued to walls, so
//! that they lie between simply supported and clamped; wood is stiffer along the grain, for which the mean modulus
//! stands; sound holes are left out and make the lid softer.

use units::{Force, Length, Stress};

use crate::{MechanicsError, error::positive, plate_clamped, plate_supported};

/// How the four edges are held.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Edges {
    /// Held down but free to turn: the softer bound.
    Supported,
    /// Held down and kept from turning: the stiffer bound.
    Clamped,
}

/// A rectangular plate of one thickness.
///
/// Frame: one corner at the origin, length along x, width along y.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Plate {
    length_mm: f64,
    width_mm: f64,
    rigidity_n_mm: f64,
}

/// A load spread evenly over a rectangle; a point where both sizes are zero.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Patch {
    /// Middle of the patch along the plate's length.
    pub x: Length,
    /// Middle of the patch along the plate's width.
    pub y: Length,
    /// Size along the plate's length.
    pub length: Length,
    /// Size along the plate's width.
    pub width: Length,
    /// All of the load.
    pub force: Force,
}

impl Plate {
    /// A plate of isotropic material.
    ///
    /// - **Units**: millimetres, megapascals; Poisson's ratio without unit.
    /// - **Errors**: [`MechanicsError::NotPositive`]; [`MechanicsError::OutsideRange`] for a Poisson's ratio outside -1 to 0.5.
    /// - **Source**: Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells (1959), from memory: D = E t^3/(12 (1 - v^2)).
    pub fn new(
        length: Length,
        width: Length,
        thickness: Length,
        elastic_modulus: Stress,
        poisson_ratio: f64,
    ) -> Result<Self, MechanicsError> {
        let length_mm = positive("plate length in mm", length.as_mm())?;
        let width_mm = positive("plate width in mm", width.as_mm())?;
        let thickness_mm = positive("plate thickness in mm", thickness.as_mm())?;
        let modulus = positive("elastic modulus in MPa", elastic_modulus.as_megapascals())?;
        let (above, below) = (-1.0, 0.5);
        if !(poisson_ratio > above && poisson_ratio < below) {
            return Err(MechanicsError::OutsideRange {
                quantity: "Poisson's ratio",
                above,
                below,
                value: poisson_ratio,
            });
        }
        let cubed = thickness_mm * thickness_mm * thickness_mm;
        let rigidity_n_mm = modulus * cubed / (12.0 * (1.0 - poisson_ratio * poisson_ratio));
        Ok(Self { length_mm, width_mm, rigidity_n_mm })
    }

    /// Flexural rigidity D, in newton millimetres.
    #[must_use]
    pub const fn rigidity_n_mm(&self) -> f64 {
        self.rigidity_n_mm
    }

    pub(crate) const fn sides_mm(&self) -> [f64; 2] {
        [self.length_mm, self.width_mm]
    }
}

/// How far a plate sinks at a place under a load.
///
/// - **Shape**: a plate, its edges, a load and a place in; one depth out.
/// - **Units**: millimetres, inside [`Length`], positive the way the load pushes.
/// - **Frame**: as for [`Plate`].
/// - **Accuracy**: of the theory of thin plates (deflection below half the thickness). Arithmetic: within 2e-4 of the sink of a
///   supported plate under a point at the middle; a patch loses less.
/// - **Errors**: [`MechanicsError::OutsideRange`] for a load or place outside the plate.
/// - **Source**: Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells (1959), from memory: Navier's double sine series
///   for supported edges, with edge moments for clamped ones.
pub fn deflection(
    plate: &Plate,
    edges: Edges,
    load: &Patch,
    place: [Length; 2],
) -> Result<Length, MechanicsError> {
    let spans = [Span::new(load.x, load.length), Span::new(load.y, load.width)];
    for (axis, side_mm) in plate.sides_mm().into_iter().enumerate() {
        let at_mm = place[axis].as_mm();
        for end_mm in [spans[axis].start_mm(), spans[axis].end_mm(), at_mm] {
            if !(0.0..=side_mm).contains(&end_mm) {
                let quantity = "place on the plate in mm";
                return Err(MechanicsError::OutsideRange {
                    quantity,
                    above: 0.0,
                    below: side_mm,
                    value: end_mm,
                });
            }
        }
    }
    let place = place.map(|at| Span::new(at, Length::ZERO));
    let supported = plate_supported::deflection_mm_per_n(plate, spans, place);
    let sink_per_newton = match edges {
        Edges::Supported => supported,
        Edges::Clamped => supported - plate_clamped::stiffening_mm_per_n(plate, spans, place),
    };
    Ok(Length::mm(sink_per_newton * load.force.as_newtons()))
}

/// Action lost over a fret when the saddle sinks.
///
/// - **Units**: millimetres, inside [`Length`].
/// - **Source**: similar triangles: the string turns about the zero fret.
#[must_use]
pub fn action_lost(sink: Length, fret_place: Length, saddle_place: Length) -> Length {
    sink * (fret_place / saddle_place)
}

/// The stretch of one axis that a load covers.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Span {
    pub(crate) middle_mm: f64,
    pub(crate) size_mm: f64,
}

impl Span {
    fn new(middle: Length, size: Length) -> Self {
        Self { middle_mm: middle.as_mm(), size_mm: size.as_mm().abs() }
    }

    pub(crate) fn start_mm(self) -> f64 {
        self.middle_mm - 0.5 * self.size_mm
    }

    pub(crate) fn end_mm(self) -> f64 {
        self.middle_mm + 0.5 * self.size_mm
    }
}

#[cfg(test)]
mod tests {
    use std::f64::consts::PI;

    use units::math;

    use super::*;

    const SHORT_SIDE_MM: f64 = 180.0;

    /// w D/(P a^2) under a force at the middle; the long side is `ratio` times the short one, a.
    fn middle_coefficient(ratio: f64, edges: Edges, patch_mm: f64) -> f64 {
        let (length, width) = (Length::mm(SHORT_SIDE_MM), Length::mm(SHORT_SIDE_MM * ratio));
        let thickness = Length::mm(3.0);
        let plate =
            Plate::new(length, width, thickness, Stress::megapascals(9000.0), 0.3).expect("a sound plate");
        let middle = [length * 0.5, width * 0.5];
        let (size, force) = (Length::mm(patch_mm), Force::newtons(50.0));
        let load = Patch { x: middle[0], y: middle[1], length: size, width: size, force };
        let sink = deflection(&plate, edges, &load, middle).expect("on the plate").as_mm();
        sink * plate.rigidity_n_mm() / (50.0 * SHORT_SIDE_MM * SHORT_SIDE_MM)
    }

    #[track_caller]
    fn check(ratio: f64, edges: Edges, expected: f64, share: f64) {
        let found = middle_coefficient(ratio, edges, 0.0);
        // Half the last printed digit, and the given share.
        assert!((found - expected).abs() < 5.1e-6 + share * expected, "found {found}, expected {expected}");
    }

    /// The same coefficient by a single series: sum over odd m of (tanh u - u/cosh^2 u)/m^3 over 2 pi^3, u = m pi b/(2 a).
    /// Timoshenko and Woinowsky-Krieger (1959), from memory.
    fn single_series(ratio: f64) -> f64 {
        let term = |m: u32| {
            let m = f64::from(m);
            let u = 0.5 * m * PI * ratio;
            let decay = math::exp(-2.0 * u);
            let tanh = (1.0 - decay) / (1.0 + decay);
            let over_cosh_squared = 4.0 * decay / ((1.0 + decay) * (1.0 + decay));
            (tanh - u * over_cosh_squared) / (m * m * m)
        };
        (0..2000).map(|half| term(2 * half + 1)).sum::<f64>() / (2.0 * PI * PI * PI)
    }

    #[test]
    fn supported_agrees_with_the_single_series() {
        for ratio in [1.0, 1.1, 1.2, 1.4, 1.6, 1.8, 2.0, 3.0] {
            let (found, expected) = (middle_coefficient(ratio, Edges::Supported, 0.0), single_series(ratio));
            assert!((found / expected - 1.0).abs() < 2e-4, "{ratio}: found {found}, expected {expected}");
        }
    }

    // Timoshenko and Woinowsky-Krieger (1959), simply supported plate, force at the middle: from memory. Several printed
    // values differ from the book's own series by up to 0.2 %.
    #[test]
    fn supported_square() {
        check(1.0, Edges::Supported, 0.011_60, 0.002);
    }
    #[test]
    fn supported_1_1() {
        check(1.1, Edges::Supported, 0.012_65, 0.002);
    }
    #[test]
    fn supported_1_2() {
        check(1.2, Edges::Supported, 0.013_53, 0.002);
    }
    #[test]
    fn supported_1_4() {
        check(1.4, Edges::Supported, 0.014_84, 0.002);
    }
    #[test]
    fn supported_1_6() {
        check(1.6, Edges::Supported, 0.015_70, 0.002);
    }
    #[test]
    fn supported_1_8() {
        check(1.8, Edges::Supported, 0.016_20, 0.002);
    }
    #[test]
    fn supported_2() {
        check(2.0, Edges::Supported, 0.016_51, 0.002);
    }
    #[test]
    fn supported_3() {
        check(3.0, Edges::Supported, 0.016_90, 0.002);
    }

    // Roark's Formulas for Stress and Strain, table 11.4, case 1b (read in a stored copy): alpha W b^2/(E t^3) at v = 0.3,
    // so that alpha is 10.92 times the coefficient; printed to four digits, from the same printed coefficients.
    #[test]
    fn supported_by_a_second_table() {
        for (ratio, alpha) in
            [(1.0, 0.1267), (1.2, 0.1478), (1.4, 0.1621), (1.6, 0.1715), (1.8, 0.1770), (2.0, 0.1805)]
        {
            let found = 10.92 * middle_coefficient(ratio, Edges::Supported, 0.0);
            assert!((found / alpha - 1.0).abs() < 0.002, "{ratio}: found {found}, expected {alpha}");
        }
    }

    // Timoshenko and Woinowsky-Krieger (1959), clamped plate, force at the middle: from memory; printed values are low by up to
    // 0.2 %, as for the supported plate: later work gives 0.005612 for the square (from memory).
    #[test]
    fn clamped_square_by_later_work() {
        let found = middle_coefficient(1.0, Edges::Clamped, 0.0);
        assert!((found - 0.005_612).abs() < 1e-6, "found {found}");
    }
    #[test]
    fn clamped_square() {
        check(1.0, Edges::Clamped, 0.005_60, 0.002);
    }
    #[test]
    fn clamped_1_2() {
        check(1.2, Edges::Clamped, 0.006_47, 0.002);
    }
    #[test]
    fn clamped_1_4() {
        check(1.4, Edges::Clamped, 0.006_91, 0.002);
    }
    #[test]
    fn clamped_1_6() {
        check(1.6, Edges::Clamped, 0.007_12, 0.002);
    }
    #[test]
    fn clamped_1_8() {
        check(1.8, Edges::Clamped, 0.007_20, 0.002);
    }
    #[test]
    fn clamped_2() {
        check(2.0, Edges::Clamped, 0.007_22, 0.002);
    }

    // The same book, load spread over the whole square plate: 0.00406 supported, 0.00126 clamped, from memory.
    #[test]
    fn supported_square_under_an_even_load() {
        let found = middle_coefficient(1.0, Edges::Supported, SHORT_SIDE_MM);
        assert!((found - 0.00406).abs() < 1e-5, "found {found}");
    }
    #[test]
    fn clamped_square_under_an_even_load() {
        let found = middle_coefficient(1.0, Edges::Clamped, SHORT_SIDE_MM);
        assert!((found - 0.00126).abs() < 1e-5, "found {found}");
    }

    #[test]
    fn clamped_edges_stay_level() {
        // A load near one corner, so that sines of both parities take part. Half a millimetre from an edge a supported plate has
        // already sunk in proportion to the distance, a clamped one hardly.
        let side = Length::mm(100.0);
        let plate =
            Plate::new(side, side * 1.5, Length::mm(3.0), Stress::megapascals(9000.0), 0.3).expect("sound");
        let (size, force) = (Length::mm(6.0), Force::newtons(10.0));
        let load = Patch { x: Length::mm(32.0), y: Length::mm(50.0), length: size, width: size, force };
        for [x, y] in [[0.5, 50.0], [99.5, 50.0], [32.0, 0.5], [32.0, 149.5], [0.5, 110.0], [70.0, 0.5]] {
            let sink = |edges| {
                deflection(&plate, edges, &load, [x, y].map(Length::mm)).expect("on the plate").as_mm()
            };
            let share = sink(Edges::Clamped) / sink(Edges::Supported);
            assert!(
                share.abs() < 0.02,
                "at {x}, {y} a clamped edge turns {share} times as far as a supported one"
            );
        }
    }

    #[test]
    fn spreading_the_load_makes_it_sink_less() {
        for edges in [Edges::Supported, Edges::Clamped] {
            let sinks = [0.0, 10.0, 40.0].map(|patch_mm| middle_coefficient(1.3, edges, patch_mm));
            assert!(sinks[0] > sinks[1] && sinks[1] > sinks[2], "{edges:?}: {sinks:?}");
        }
    }

    #[test]
    fn what_is_off_the_plate_is_refused() {
        let side = Length::mm(100.0);
        let plate = Plate::new(side, side, Length::mm(3.0), Stress::megapascals(9000.0), 0.3).expect("sound");
        let size = Length::mm(20.0);
        let load = Patch {
            x: Length::mm(95.0),
            y: Length::mm(50.0),
            length: size,
            width: size,
            force: Force::newtons(1.0),
        };
        let found = deflection(&plate, Edges::Supported, &load, [Length::mm(50.0); 2]);
        assert!(matches!(found, Err(MechanicsError::OutsideRange { .. })), "found {found:?}");
    }

    #[test]
    fn half_the_sink_is_lost_halfway() {
        let found = action_lost(Length::mm(0.8), Length::mm(324.0), Length::mm(648.0));
        assert!((found.as_mm() - 0.4).abs() < 1e-15, "found {found:?}");
    }

    proptest::proptest! {
        #![proptest_config(proptest::test_runner::Config::with_cases(24))]
        /// Betti's and Maxwell's law: the sink at B under a force at A is the sink at A under that force at B.
        #[test]
        fn load_and_place_may_be_swapped(a in proptest::array::uniform2(5.0..95.0_f64), b in proptest::array::uniform2(5.0..95.0_f64), clamped in proptest::bool::ANY) {
            let side = Length::mm(100.0);
            let plate = Plate::new(side, side * 1.5, Length::mm(3.0), Stress::megapascals(9000.0), 0.3).expect("sound");
            let edges = if clamped { Edges::Clamped } else { Edges::Supported };
            let sink = |load: [f64; 2], place: [f64; 2]| {
                let [x, y] = load.map(Length::mm);
                let patch = Patch { x, y, length: Length::ZERO, width: Length::ZERO, force: Force::newtons(10.0) };
                deflection(&plate, edges, &patch, place.map(Length::mm)).expect("on the plate").as_mm()
            };
            let (there, back) = (sink(a, b), sink(b, a));
            proptest::prop_assert!((there - back).abs() < 1e-12 + 1e-9 * there.abs(), "{there} and {back}");
        }
    }
}

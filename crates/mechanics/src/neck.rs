//! How far do the strings bend the neck, and how near to breaking?
//!
//! The neck is a beam held fast at the box. The strings pull at its far end along a line above its neutral axis, so that every
//! section carries the moment tension times that distance, whatever presses on nut and frets on the way.

use std::f64::consts::PI;

use units::{Force, Length, Stress};

use crate::{MechanicsError, error::positive, section::Section};

/// One place along the neck; between two of them stiffness and distance run straight. Two at one place make a step.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NeckStation {
    /// Distance from where the neck is held, toward the nut.
    pub from_box: Length,
    /// EI about the neutral axis, in N mm2.
    pub bending_stiffness_n_mm2: f64,
    /// Distance of the neutral axis below the strings.
    pub below_strings: Length,
}

/// A neck from the box to where the strings end, ready to be bent.
#[derive(Clone, Debug, PartialEq)]
pub struct Neck {
    stations: Vec<NeckStation>,
}

impl Neck {
    /// A neck through stations that ascend from the box.
    ///
    /// - **Errors**: [`MechanicsError::Empty`] with fewer than two stations; [`MechanicsError::OutOfOrder`] when they do not begin at
    ///   the box and ascend; [`MechanicsError::NotPositive`] for a stiffness.
    pub fn new(stations: Vec<NeckStation>) -> Result<Self, MechanicsError> {
        let what = "stations of the neck";
        let (Some(first), Some(last)) = (stations.first(), stations.last()) else {
            return Err(MechanicsError::Empty { what });
        };
        positive("length of the neck in mm", last.from_box.as_mm())?;
        let mut after = Length::ZERO;
        if first.from_box != Length::ZERO {
            return Err(MechanicsError::OutOfOrder { what, found: first.from_box, after });
        }
        for station in &stations {
            positive("bending stiffness in N mm2", station.bending_stiffness_n_mm2)?;
            if station.from_box < after {
                return Err(MechanicsError::OutOfOrder { what, found: station.from_box, after });
            }
            after = station.from_box;
        }
        Ok(Self { stations })
    }

    /// A neck of the same section all along.
    ///
    /// - **Errors**: as for [`Neck::new`].
    pub fn even(
        length: Length,
        bending_stiffness_n_mm2: f64,
        below_strings: Length,
    ) -> Result<Self, MechanicsError> {
        let station = |from_box| NeckStation { from_box, bending_stiffness_n_mm2, below_strings };
        Self::new(vec![station(Length::ZERO), station(length)])
    }

    /// How far it stands out of the box.
    #[must_use]
    pub fn length(&self) -> Length {
        self.stations[self.stations.len() - 1].from_box
    }
}

/// How far the neck has bent toward the strings at a distance from the box.
///
/// - **Shape**: neck, tension of all strings and a distance in; one length out.
/// - **Units**: millimetres, inside [`Length`]; positive toward the strings. Beyond the last station the neck runs on straight.
/// - **Frame**: perpendicular to the unbent neck, measured from where it stood.
/// - **Accuracy**: Euler and Bernoulli's beam; the integral is Gauss and Legendre's of five points between stations, exact where the
///   stiffness is constant and within 1e-6 of the whole where it doubles between two stations. Shear, creep and the
///   strings' coming nearer are left out: for long-term bending 1.5 to 2 times this is common practice, no source.
/// - **Source**: curvature M/EI; J. Gere and S. Timoshenko, Mechanics of Materials, from memory.
#[must_use]
pub fn deflection(neck: &Neck, tension: Force, from_box: Length) -> Length {
    let at = from_box.as_mm();
    // y(x) is the integral of (x - s) times the curvature at s.
    let mut sum = 0.0;
    for pair in neck.stations.windows(2) {
        let (start, end) = (pair[0].from_box.as_mm(), pair[1].from_box.as_mm().min(at));
        if end <= start {
            continue;
        }
        let (middle, half) = (0.5 * (start + end), 0.5 * (end - start));
        let whole = pair[1].from_box.as_mm() - start;
        for (place, weight) in GAUSS_LEGENDRE {
            let s = middle + half * place;
            let share = (s - start) / whole;
            let between = |from: f64, to: f64| from + share * (to - from);
            let stiffness = between(pair[0].bending_stiffness_n_mm2, pair[1].bending_stiffness_n_mm2);
            let below = between(pair[0].below_strings.as_mm(), pair[1].below_strings.as_mm());
            sum += weight * half * (at - s) * below / stiffness;
        }
    }
    Length::mm(tension.as_newtons() * sum)
}

/// Relief: how far the neck lies below the chord between two of its places.
///
/// - **Units**: millimetres, inside [`Length`]; positive where the neck is hollow, as strings make it.
/// - **Accuracy**: as for [`deflection`].
/// - **Errors**: [`MechanicsError::NoRoom`] when the chord's ends do not ascend.
/// - **Source**: [`deflection`]; for an even neck and a chord over the length s, M s^2/(8 EI) in the middle.
pub fn relief(neck: &Neck, tension: Force, at: Length, chord: [Length; 2]) -> Result<Length, MechanicsError> {
    let [lowest, highest] = chord;
    if lowest >= highest {
        return Err(MechanicsError::NoRoom { lowest, highest });
    }
    let [start, end] = chord.map(|place| deflection(neck, tension, place));
    let share = (at - lowest) / (highest - lowest);
    Ok(start + (end - start) * share - deflection(neck, tension, at))
}

/// Stress in a section under the strings.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SectionStress {
    /// Largest stress of bending, at the fibre farthest from the centroid.
    pub bending: Stress,
    /// Compression by the strings' pull, the same all over.
    pub compression: Stress,
}

impl SectionStress {
    /// The two together: an upper bound of the stress anywhere, to be held against the wood's strength in bending.
    #[must_use]
    pub fn together(&self) -> Stress {
        self.bending + self.compression
    }
}

/// Stress in a section of one material under the strings.
///
/// - **Units**: megapascals, inside [`Stress`].
/// - **Source**: M c/I and T/A.
#[must_use]
pub fn section_stress(section: &Section, tension: Force, below_strings: Length) -> SectionStress {
    let moment_n_mm = tension.as_newtons() * below_strings.as_mm();
    let farthest = section.centroid_depth.max(section.depth - section.centroid_depth);
    SectionStress {
        bending: Stress::megapascals(moment_n_mm.abs() * farthest.as_mm() / section.second_moment_mm4),
        compression: Stress::megapascals(tension.as_newtons() / section.area_mm2),
    }
}

/// How many times the compression along a bent neck enlarges its bending.
///
/// - **Units**: none.
/// - **Errors**: [`MechanicsError::NotPositive`]; [`MechanicsError::Buckles`] at and beyond the buckling load.
/// - **Source**: 1/(1 - T/P) with Euler's load P = pi^2 EI/s^2; Gere and Timoshenko, from memory.
pub fn amplification(
    bending_stiffness_n_mm2: f64,
    length: Length,
    compression: Force,
) -> Result<f64, MechanicsError> {
    let stiffness = positive("bending stiffness in N mm2", bending_stiffness_n_mm2)?;
    let length_mm = positive("length in mm", length.as_mm())?;
    let buckling_n = PI * PI * stiffness / (length_mm * length_mm);
    let force_n = compression.as_newtons();
    if force_n >= buckling_n {
        return Err(MechanicsError::Buckles { force_n, buckling_n });
    }
    Ok(1.0 / (1.0 - force_n / buckling_n))
}

/// Places and weights of the rule of five points on -1 to 1, from memory and tested by the closed forms below.
const GAUSS_LEGENDRE: [(f64, f64); 5] = [
    (-0.906_179_845_938_664, 0.236_926_885_056_189_1),
    (-0.538_469_310_105_683_1, 0.478_628_670_499_366_47),
    (0.0, 0.568_888_888_888_888_9),
    (0.538_469_310_105_683_1, 0.478_628_670_499_366_47),
    (0.906_179_845_938_664, 0.236_926_885_056_189_1),
];

#[cfg(test)]
mod tests {
    use units::math;

    use super::*;
    use crate::section::rectangle;

    /// Width, depth and modulus of the stock, tension, string height over the face and free length.
    struct Stock {
        width_mm: f64,
        depth_mm: f64,
        modulus_mpa: f64,
        tension_n: f64,
        length_mm: f64,
    }

    /// Closed forms M s^2/(8 EI) and M s^2/(2 EI), strings 3 mm above the face; moduli of the Wood Handbook times 1.1 (derived).
    #[track_caller]
    fn check(stock: Stock, stiffness_n_m2: f64, relief_mm: f64, droop_mm: f64, stress_mpa: f64) {
        let section = rectangle(Length::mm(stock.width_mm), Length::mm(stock.depth_mm)).expect("sound");
        let stiffness = section.second_moment_mm4 * stock.modulus_mpa;
        assert!((stiffness * 1e-6 - stiffness_n_m2).abs() < 6e-3, "EI {stiffness}");
        let below = section.centroid_depth + Length::mm(3.0);
        let (length, tension) = (Length::mm(stock.length_mm), Force::newtons(stock.tension_n));
        let neck = Neck::even(length, stiffness, below).expect("sound");
        let found = deflection(&neck, tension, length).as_mm();
        assert!((found - droop_mm).abs() < 6e-5, "droop {found}, expected {droop_mm}");
        let found = relief(&neck, tension, length * 0.5, [Length::ZERO, length]).expect("a chord").as_mm();
        assert!((found - relief_mm).abs() < 6e-5, "relief {found}, expected {relief_mm}");
        let found = section_stress(&section, tension, below).bending.as_megapascals();
        assert!((found - stress_mpa).abs() < 6e-4, "stress {found}, expected {stress_mpa}");
    }

    #[test]
    fn hard_maple_three_strings() {
        let stock = Stock {
            width_mm: 38.0,
            depth_mm: 19.0,
            modulus_mpa: 13_860.0,
            tension_n: 220.0,
            length_mm: 400.0,
        };
        check(stock, 301.04, 0.1827, 0.7308, 1.203);
    }
    #[test]
    fn yellow_poplar_three_strings() {
        let stock = Stock {
            width_mm: 38.0,
            depth_mm: 19.0,
            modulus_mpa: 11_990.0,
            tension_n: 220.0,
            length_mm: 400.0,
        };
        check(stock, 260.42, 0.2112, 0.8448, 1.203);
    }
    #[test]
    fn red_oak_four_strings() {
        let stock = Stock {
            width_mm: 38.0,
            depth_mm: 19.0,
            modulus_mpa: 13_750.0,
            tension_n: 300.0,
            length_mm: 400.0,
        };
        check(stock, 298.65, 0.2511, 1.0045, 1.640);
    }
    #[test]
    fn hard_maple_six_strings() {
        let stock = Stock {
            width_mm: 44.0,
            depth_mm: 25.0,
            modulus_mpa: 13_860.0,
            tension_n: 450.0,
            length_mm: 450.0,
        };
        check(stock, 794.06, 0.2223, 0.8894, 1.522);
    }

    #[test]
    fn stiffness_that_doubles() {
        // Closed form: EI = E0 (1 + s/l), y(l) = M l^2/E0 times the integral of (1 - t)/(1 + t) = 2 ln 2 - 1.
        let station = |from_box, factor| NeckStation {
            from_box: Length::mm(from_box),
            bending_stiffness_n_mm2: 3e8 * factor,
            below_strings: Length::mm(12.0),
        };
        let neck = Neck::new(vec![station(0.0, 1.0), station(400.0, 2.0)]).expect("sound");
        let found = deflection(&neck, Force::newtons(300.0), Length::mm(400.0)).as_mm();
        let expected = 300.0 * 12.0 * 400.0 * 400.0 / 3e8 * (2.0 * math::ln(2.0) - 1.0);
        assert!((found / expected - 1.0).abs() < 1e-6, "found {found}, expected {expected}");
    }

    #[test]
    fn a_step_in_the_section() {
        // Closed form: curvature c up to 100 mm and c/4 from there to 400 mm.
        let station = |from_box, factor| NeckStation {
            from_box: Length::mm(from_box),
            bending_stiffness_n_mm2: 3e8 * factor,
            below_strings: Length::mm(12.0),
        };
        let stations = vec![station(0.0, 1.0), station(100.0, 1.0), station(100.0, 4.0), station(400.0, 4.0)];
        let neck = Neck::new(stations).expect("sound");
        let found = deflection(&neck, Force::newtons(300.0), Length::mm(400.0)).as_mm();
        let curvature = 300.0 * 12.0 / 3e8;
        let expected = curvature * (100.0 * 350.0 + 300.0 * 150.0 / 4.0);
        assert!((found / expected - 1.0).abs() < 1e-12, "found {found}, expected {expected}");
    }

    #[test]
    fn beyond_the_strings_the_neck_runs_straight() {
        let neck = Neck::even(Length::mm(400.0), 3e8, Length::mm(12.0)).expect("sound");
        let at = |mm| deflection(&neck, Force::newtons(300.0), Length::mm(mm)).as_mm();
        assert!((at(420.0) - 2.0 * at(410.0) + at(400.0)).abs() < 1e-12, "it bends beyond its end");
    }

    #[test]
    fn half_the_buckling_load_doubles_the_bending() {
        let found =
            amplification(3e8, Length::mm(PI * 100.0), Force::newtons(15_000.0)).expect("below buckling");
        assert!((found - 2.0).abs() < 1e-12, "found {found}");
        let found = amplification(3e8, Length::mm(PI * 100.0), Force::newtons(30_001.0));
        assert!(matches!(found, Err(MechanicsError::Buckles { .. })), "found {found:?}");
    }

    #[test]
    fn stations_out_of_order_are_named() {
        let station = |from_box| NeckStation {
            from_box: Length::mm(from_box),
            bending_stiffness_n_mm2: 3e8,
            below_strings: Length::mm(12.0),
        };
        for places in [[5.0, 10.0, 20.0], [0.0, 30.0, 20.0]] {
            let found = Neck::new(places.map(station).to_vec());
            assert!(matches!(found, Err(MechanicsError::OutOfOrder { .. })), "{places:?} gave {found:?}");
        }
    }

    proptest::proptest! {
        #[test]
        fn more_tension_never_bends_less(tension_n in 0.0..500.0_f64, more_n in 0.0..200.0_f64, at_mm in 0.0..450.0_f64) {
            let neck = Neck::even(Length::mm(400.0), 3e8, Length::mm(12.0)).expect("sound");
            let bent = |tension_n| deflection(&neck, Force::newtons(tension_n), Length::mm(at_mm));
            proptest::prop_assert!(bent(tension_n + more_n) >= bent(tension_n), "{tension_n} and {more_n} more at {at_mm}");
        }
    }
}

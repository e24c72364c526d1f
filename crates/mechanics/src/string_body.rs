//! What is a string made of, and what follows from that before it is tuned?

use std::f64::consts::PI;

use units::{Density, Length, LinearDensity, Stress};

use crate::{MechanicsError, error::positive};

/// What a plain string or the core of a wound one is drawn from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WireMaterial {
    /// Mass per volume.
    pub density: Density,
    /// Young's modulus.
    pub elastic_modulus: Stress,
}

/// Hard-drawn steel music wire: 7850 kg/m3 and 203 GPa, both from memory of engineering handbooks (Shigley).
///
/// Published moduli run from 190 to 207 GPa; the setbacks and drifts computed from them move in proportion.
pub const MUSIC_WIRE: WireMaterial =
    WireMaterial { density: Density::kg_per_m3(7850.0), elastic_modulus: Stress::megapascals(203_000.0) };

/// A string as it comes off the reel: everything that does not depend on pitch or length.
///
/// Every value is above zero, and the core is no thicker than the string.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StringBody {
    diameter: Length,
    core_diameter: Length,
    linear_density: LinearDensity,
    stretch_stiffness_n: f64,
    bending_stiffness_n_mm2: f64,
}

impl StringBody {
    /// A plain round wire.
    ///
    /// - **Units**: mass per length in kg/m; stretch stiffness EA in N; bending stiffness EI in N mm2.
    /// - **Errors**: [`MechanicsError::NotPositive`].
    /// - **Source**: area pi d^2/4 and second moment pi d^4/64 of a circle.
    pub fn plain(diameter: Length, material: WireMaterial) -> Result<Self, MechanicsError> {
        let round = Round::new(diameter, material)?;
        Ok(Self {
            diameter,
            core_diameter: diameter,
            linear_density: LinearDensity::kg_per_m(round.mass_kg_per_m),
            stretch_stiffness_n: round.stretch_stiffness_n,
            bending_stiffness_n_mm2: round.bending_stiffness_n_mm2,
        })
    }

    /// A round core under one layer of round wrap wire, wound turn against turn.
    ///
    /// The wrap of thickness (D - d)/2 follows a helix of that pitch on the mean diameter. Stretching and bending
    /// are carried by the core alone, which is a lower bound (common practice, no source).
    ///
    /// - **Units**: as for [`StringBody::plain`].
    /// - **Accuracy**: exact for a round, unflattened wrap; wraps on hexagonal cores sink in and weigh 1 to 3 % more
    ///   (common practice, no source).
    /// - **Errors**: [`MechanicsError::NotPositive`], [`MechanicsError::CoreNotThinner`].
    /// - **Source**: derived; length of a helix.
    pub fn wound(
        diameter: Length,
        core_diameter: Length,
        core: WireMaterial,
        wrap: Density,
    ) -> Result<Self, MechanicsError> {
        let round = Round::new(core_diameter, core)?;
        let wrap_density = positive("density of the wrap in kg/m3", wrap.as_kg_per_m3())?;
        if diameter <= core_diameter {
            return Err(MechanicsError::CoreNotThinner { diameter, core: core_diameter });
        }
        let wire_m = 0.5 * (diameter - core_diameter).as_metres();
        let turn_m = PI * (core_diameter.as_metres() + wire_m);
        let helix_per_length = (turn_m * turn_m + wire_m * wire_m).sqrt() / wire_m;
        let wrap_kg_per_m = wrap_density * PI / 4.0 * wire_m * wire_m * helix_per_length;
        Ok(Self {
            diameter,
            core_diameter,
            linear_density: LinearDensity::kg_per_m(round.mass_kg_per_m + wrap_kg_per_m),
            stretch_stiffness_n: round.stretch_stiffness_n,
            bending_stiffness_n_mm2: round.bending_stiffness_n_mm2,
        })
    }

    /// A string whose mass and stiffnesses were measured, such as nylon.
    ///
    /// - **Units**: `stretch_stiffness_n` is EA in N, `bending_stiffness_n_mm2` is EI in N mm2.
    /// - **Errors**: [`MechanicsError::NotPositive`].
    pub fn measured(
        diameter: Length,
        linear_density: LinearDensity,
        stretch_stiffness_n: f64,
        bending_stiffness_n_mm2: f64,
    ) -> Result<Self, MechanicsError> {
        positive("diameter in mm", diameter.as_mm())?;
        positive("mass per length in kg/m", linear_density.as_kg_per_m())?;
        positive("stretch stiffness in N", stretch_stiffness_n)?;
        positive("bending stiffness in N mm2", bending_stiffness_n_mm2)?;
        Ok(Self {
            diameter,
            core_diameter: diameter,
            linear_density,
            stretch_stiffness_n,
            bending_stiffness_n_mm2,
        })
    }

    /// The same string drawn to another diameter, core and wrap in proportion.
    ///
    /// - **Units**: millimetres, inside [`Length`].
    /// - **Accuracy**: exact for [`StringBody::plain`] and [`StringBody::wound`]; its own diameter gives the same string to the
    ///   last bit.
    /// - **Errors**: [`MechanicsError::NotPositive`].
    /// - **Source**: derived: areas go with the square of a diameter, second moments with its fourth power.
    pub fn drawn_to(&self, diameter: Length) -> Result<Self, MechanicsError> {
        let ratio = positive("diameter in mm", diameter.as_mm())? / self.diameter.as_mm();
        let square = ratio * ratio;
        Ok(Self {
            diameter,
            core_diameter: self.core_diameter * ratio,
            linear_density: LinearDensity::kg_per_m(self.linear_density.as_kg_per_m() * square),
            stretch_stiffness_n: self.stretch_stiffness_n * square,
            bending_stiffness_n_mm2: self.bending_stiffness_n_mm2 * square * square,
        })
    }

    /// Diameter of the whole string.
    #[must_use]
    pub const fn diameter(&self) -> Length {
        self.diameter
    }

    /// Diameter of what carries the tension: the core of a wound string, the whole of any other.
    #[must_use]
    pub const fn core_diameter(&self) -> Length {
        self.core_diameter
    }

    /// Mass per length of the untensioned string.
    #[must_use]
    pub const fn linear_density(&self) -> LinearDensity {
        self.linear_density
    }

    /// EA: newtons for a stretch of one in one.
    #[must_use]
    pub const fn stretch_stiffness_n(&self) -> f64 {
        self.stretch_stiffness_n
    }

    /// EI: newton square millimetres.
    #[must_use]
    pub const fn bending_stiffness_n_mm2(&self) -> f64 {
        self.bending_stiffness_n_mm2
    }
}

/// A round wire's own numbers.
struct Round {
    mass_kg_per_m: f64,
    stretch_stiffness_n: f64,
    bending_stiffness_n_mm2: f64,
}

impl Round {
    fn new(diameter: Length, material: WireMaterial) -> Result<Self, MechanicsError> {
        let diameter_mm = positive("diameter in mm", diameter.as_mm())?;
        let density = positive("density in kg/m3", material.density.as_kg_per_m3())?;
        let modulus = positive("elastic modulus in MPa", material.elastic_modulus.as_megapascals())?;
        let area_mm2 = PI / 4.0 * diameter_mm * diameter_mm;
        Ok(Self {
            mass_kg_per_m: density * area_mm2 * 1e-6,
            stretch_stiffness_n: modulus * area_mm2,
            bending_stiffness_n_mm2: modulus * area_mm2 * diameter_mm * diameter_mm / 16.0,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const PLATED_STEEL: f64 = 7850.0;
    const NICKEL: f64 = 8900.0;
    const PHOSPHOR_BRONZE: f64 = 8860.0;

    #[track_caller]
    fn check_wound(diameter_in: f64, core_in: f64, wrap: f64, expected_kg_per_m: f64) {
        let (diameter, core) = (Length::inches(diameter_in), Length::inches(core_in));
        let body =
            StringBody::wound(diameter, core, MUSIC_WIRE, Density::kg_per_m3(wrap)).expect("a sound string");
        let found = body.linear_density().as_kg_per_m();
        assert!(
            (found - expected_kg_per_m).abs() < 6e-9,
            "{diameter_in}/{core_in}: found {found}, expected {expected_kg_per_m}"
        );
    }

    // Computed at 50 digits from the same closed form (derived), printed to 1e-8 kg/m.
    #[test]
    fn wound_24_steel() {
        check_wound(0.024, 0.014, PLATED_STEEL, 0.001_970_91);
    }
    #[test]
    fn wound_24_nickel() {
        check_wound(0.024, 0.014, NICKEL, 0.002_130_26);
    }
    #[test]
    fn wound_24_bronze() {
        check_wound(0.024, 0.014, PHOSPHOR_BRONZE, 0.002_124_19);
    }
    #[test]
    fn wound_26_steel() {
        check_wound(0.026, 0.014, PLATED_STEEL, 0.002_285_98);
    }
    #[test]
    fn wound_26_nickel() {
        check_wound(0.026, 0.014, NICKEL, 0.002_487_47);
    }
    #[test]
    fn wound_26_bronze() {
        check_wound(0.026, 0.014, PHOSPHOR_BRONZE, 0.002_479_79);
    }
    #[test]
    fn wound_32_steel() {
        check_wound(0.032, 0.018, PLATED_STEEL, 0.003_484_26);
    }
    #[test]
    fn wound_32_nickel() {
        check_wound(0.032, 0.018, NICKEL, 0.003_777_92);
    }
    #[test]
    fn wound_32_bronze() {
        check_wound(0.032, 0.018, PHOSPHOR_BRONZE, 0.003_766_74);
    }
    #[test]
    fn wound_36_steel() {
        check_wound(0.036, 0.018, PLATED_STEEL, 0.004_342_37);
    }
    #[test]
    fn wound_36_nickel() {
        check_wound(0.036, 0.018, NICKEL, 0.004_750_82);
    }
    #[test]
    fn wound_36_bronze() {
        check_wound(0.036, 0.018, PHOSPHOR_BRONZE, 0.004_735_26);
    }
    #[test]
    fn wound_42_steel() {
        check_wound(0.042, 0.018, PLATED_STEEL, 0.005_823_70);
    }
    #[test]
    fn wound_42_nickel() {
        check_wound(0.042, 0.018, NICKEL, 0.006_430_28);
    }
    #[test]
    fn wound_42_bronze() {
        check_wound(0.042, 0.018, PHOSPHOR_BRONZE, 0.006_407_17);
    }
    #[test]
    fn wound_46_steel() {
        check_wound(0.046, 0.018, PLATED_STEEL, 0.006_941_07);
    }
    #[test]
    fn wound_46_nickel() {
        check_wound(0.046, 0.018, NICKEL, 0.007_697_11);
    }
    #[test]
    fn wound_46_bronze() {
        check_wound(0.046, 0.018, PHOSPHOR_BRONZE, 0.007_668_31);
    }

    #[test]
    fn a_core_as_thick_as_the_string_is_refused() {
        let diameter = Length::inches(0.020);
        let found = StringBody::wound(diameter, diameter, MUSIC_WIRE, Density::kg_per_m3(NICKEL));
        assert_eq!(
            found,
            Err(MechanicsError::CoreNotThinner { diameter, core: diameter }),
            "no room for a wrap"
        );
    }

    #[test]
    fn a_string_drawn_thicker_is_the_string_made_thicker() {
        let inches = Length::inches;
        let bronze = Density::kg_per_m3(PHOSPHOR_BRONZE);
        let wound = |scale: f64| {
            StringBody::wound(inches(0.032) * scale, inches(0.018) * scale, MUSIC_WIRE, bronze)
                .expect("sound")
        };
        let (found, expected) = (wound(1.0).drawn_to(inches(0.032) * 1.05).expect("sound"), wound(1.05));
        for (found, expected) in [
            (found.core_diameter().as_mm(), expected.core_diameter().as_mm()),
            (found.linear_density().as_kg_per_m(), expected.linear_density().as_kg_per_m()),
            (found.stretch_stiffness_n(), expected.stretch_stiffness_n()),
            (found.bending_stiffness_n_mm2(), expected.bending_stiffness_n_mm2()),
        ] {
            assert!((found / expected - 1.0).abs() < 1e-13, "found {found}, expected {expected}");
        }
        assert_eq!(wound(1.0).drawn_to(inches(0.032)), Ok(wound(1.0)), "its own diameter changes nothing");
    }

    #[test]
    fn nothing_is_not_a_string() {
        assert!(StringBody::plain(Length::ZERO, MUSIC_WIRE).is_err(), "a diameter of zero must be refused");
    }
}

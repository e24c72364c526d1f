//! Woods: density, stiffness, strength.
//!
//! Most rows are the 12 % moisture rows of the Wood Handbook (USDA Forest Products Laboratory, FPL-GTR-190, 2010,
//! chapter 5, Table 5-3a), read in a transcription. A board of one's own may differ by a fifth either way.

use units::{Density, Stress};

use super::name::{UnknownName, look_up};

/// A wood: a handle into the table of woods.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wood(&'static WoodRow);

/// One row of the table.
#[derive(Debug, PartialEq)]
struct WoodRow {
    name: &'static str,
    aliases: &'static [&'static str],
    kind: Kind,
    density_kg_per_m3: f64,
    strength_mpa: f64,
    modulus_gpa: f64,
    source: &'static str,
}

/// What screws and glue meet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Kind {
    Hardwood,
    Softwood,
    Plywood,
}

use Kind::{Hardwood, Plywood, Softwood};

const HANDBOOK: &str = "Wood Handbook FPL-GTR-190 (2010), Table 5-3a, 12 % moisture";

/// One row of the handbook: specific gravity in hundredths by oven-dry mass and volume at 12 %, strength (modulus of rupture) in
/// megapascals, modulus of elasticity in gigapascals. Density at 12 % is 1000 x specific gravity x 1.12.
const fn row(
    name: &'static str,
    aliases: &'static [&'static str],
    kind: Kind,
    gravity_percent: u32,
    strength_mpa: f64,
    modulus_gpa: f64,
    source: &'static str,
) -> WoodRow {
    // Whole numbers until the last division keep the decimal as exact as its literal.
    let density_kg_per_m3 = (gravity_percent * 112) as f64 / 10.0;
    WoodRow { name, aliases, kind, density_kg_per_m3, strength_mpa, modulus_gpa, source }
}

#[rustfmt::skip]
const WOODS: &[WoodRow] = &[
    row("hard maple", &["sugar maple", "maple, sugar", "rock maple", "maple"], Hardwood, 63, 109.0, 12.6,
        "Wood Handbook FPL-GTR-190 (2010), Table 5-3a, 12 % moisture: maple, sugar"),
    row("red maple", &["soft maple", "maple, red"], Hardwood, 54, 92.0, 11.3, HANDBOOK),
    row("red oak", &["northern red oak", "oak, northern red", "oak"], Hardwood, 63, 99.0, 12.5,
        "Wood Handbook FPL-GTR-190 (2010), Table 5-3a, 12 % moisture: oak, northern red"),
    row("white oak", &["oak, white"], Hardwood, 68, 105.0, 12.3, HANDBOOK),
    row("yellow-poplar", &["poplar", "tulip poplar", "tulipwood"], Hardwood, 42, 70.0, 10.9, HANDBOOK),
    row("black walnut", &["walnut", "walnut, black"], Hardwood, 55, 101.0, 11.6, HANDBOOK),
    row("black cherry", &["cherry", "cherry, black"], Hardwood, 50, 85.0, 10.3, HANDBOOK),
    row("white ash", &["ash", "ash, white"], Hardwood, 60, 103.0, 12.0,
        "Wood Handbook FPL-GTR-190 (2010), Table 5-3a, 12 % moisture; strength is 106 MPa in FPL-GTR-282 (2021)"),
    row("basswood", &["linden", "lime"], Hardwood, 37, 60.0, 10.1, HANDBOOK),
    row("red alder", &["alder", "alder, red"], Hardwood, 41, 68.0, 9.5, HANDBOOK),
    row("yellow birch", &["birch", "birch, yellow"], Hardwood, 62, 114.0, 13.9, HANDBOOK),
    row("hickory", &["shagbark hickory", "hickory, shagbark"], Hardwood, 72, 139.0, 14.9,
        "Wood Handbook FPL-GTR-190 (2010), Table 5-3a, 12 % moisture: hickory, shagbark"),
    row("beech", &["American beech", "beech, American"], Hardwood, 64, 103.0, 11.9,
        "Wood Handbook FPL-GTR-190 (2010), Table 5-3a, 12 % moisture: beech, American"),
    row("sweetgum", &["gum", "red gum"], Hardwood, 52, 86.0, 11.3, HANDBOOK),
    row("mahogany", &["true mahogany", "Honduran mahogany", "genuine mahogany"], Hardwood, 45, 79.3, 10.3,
        "Swietenia, Wood Handbook Table 5-5b as quoted in an engineers' list; specific gravity is that of green wood"),
    row("African mahogany", &["khaya"], Hardwood, 42, 73.8, 9.7,
        "Khaya, Wood Handbook Table 5-5b as quoted in an engineers' list; specific gravity is that of green wood"),
    row("sugar pine", &["pine, sugar"], Softwood, 36, 57.0, 8.2, HANDBOOK),
    row("eastern white pine", &["white pine", "pine", "pine, eastern white"], Softwood, 35, 59.0, 8.5, HANDBOOK),
    row("Douglas-fir", &["fir", "Douglas-fir, coast"], Softwood, 48, 85.0, 13.4,
        "Wood Handbook FPL-GTR-190 (2010), Table 5-3a, 12 % moisture: Douglas-fir, coast"),
    row("Sitka spruce", &["spruce", "spruce, Sitka"], Softwood, 40, 70.0, 10.8, HANDBOOK),
    row("western red cedar", &["cedar", "red cedar", "cedar, western red"], Softwood, 32, 51.7, 7.7, HANDBOOK),
    row("redwood", &["redwood, young", "young redwood"], Softwood, 35, 54.0, 7.6,
        "Wood Handbook FPL-GTR-190 (2010), Table 5-3a, 12 % moisture: redwood, young growth"),
    WoodRow { name: "birch plywood", aliases: &["plywood", "birch ply", "ply"], kind: Plywood,
        density_kg_per_m3: 680.0, strength_mpa: 50.0, modulus_gpa: 9.0,
        source: "from memory, along the outer grain; common practice takes half of it across" },
];

impl Wood {
    /// Every wood, in the order of the table.
    pub fn all() -> impl Iterator<Item = Self> {
        WOODS.iter().map(Self)
    }

    /// The wood of this trade name, handbook name or everyday name.
    ///
    /// # Errors
    ///
    /// [`UnknownName`], with the nearest names.
    pub fn named(name: &str) -> Result<Self, UnknownName> {
        look_up("wood", name, WOODS, |row| (row.name, row.aliases)).map(Self)
    }

    /// Its trade name, as a document writes it.
    #[must_use]
    pub const fn name(self) -> &'static str {
        self.0.name
    }

    /// Other names under which it is found.
    #[must_use]
    pub const fn aliases(self) -> &'static [&'static str] {
        self.0.aliases
    }

    /// Density at 12 % moisture.
    #[must_use]
    pub const fn density(self) -> Density {
        Density::kg_per_m3(self.0.density_kg_per_m3)
    }

    /// Modulus of elasticity along the grain as the handbook prints it: from bending tests, deflection by shear
    /// included.
    #[must_use]
    pub const fn modulus(self) -> Stress {
        Stress::megapascals(self.0.modulus_gpa * 1000.0)
    }

    /// Modulus for formulas of pure bending: a tenth more than [`Wood::modulus`] for solid wood, as the footnote of
    /// the handbook's table allows ("to correct for shear deflection, the modulus can be increased by 10%"); plywood
    /// as it is.
    #[must_use]
    pub const fn shear_free_modulus(self) -> Stress {
        match self.0.kind {
            Hardwood | Softwood => Stress::megapascals(self.0.modulus_gpa * 1100.0),
            Plywood => self.modulus(),
        }
    }

    /// Modulus of rupture: the bending stress along the grain at which a clear specimen breaks.
    #[must_use]
    pub const fn strength(self) -> Stress {
        Stress::megapascals(self.0.strength_mpa)
    }

    /// Whether it is drilled as hardwood; plywood is not.
    #[must_use]
    pub const fn is_hardwood(self) -> bool {
        matches!(self.0.kind, Hardwood)
    }

    /// Where the numbers come from.
    #[must_use]
    pub const fn source(self) -> &'static str {
        self.0.source
    }
}

impl std::fmt::Display for Wood {
    fn fmt(&self, formatter: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        formatter.write_str(self.name())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check_name(written: &str, expected: &str) {
        assert_eq!(Wood::named(written).map(Wood::name), Ok(expected), "wood {written:?}");
    }

    #[track_caller]
    fn check_values(name: &str, density: f64, strength: f64, modulus_gpa: f64, shear_free_gpa: f64) {
        let wood = Wood::named(name).expect("the wood is in the table");
        let found = [
            wood.density().as_kg_per_m3(),
            wood.strength().as_megapascals(),
            wood.modulus().as_megapascals() / 1000.0,
            wood.shear_free_modulus().as_megapascals() / 1000.0,
        ];
        for (found, (expected, tolerance)) in found.into_iter().zip([
            (density, 0.5),
            (strength, 1e-9),
            (modulus_gpa, 1e-9),
            (shear_free_gpa, 0.0051),
        ]) {
            assert!(
                (found - expected).abs() <= tolerance,
                "{name}: expected {expected} +- {tolerance}, found {found}"
            );
        }
    }

    #[test]
    fn everyday_names_are_found() {
        check_name("hard maple", "hard maple");
        check_name("Sugar Maple", "hard maple");
        check_name("poplar", "yellow-poplar");
        check_name("Yellow Poplar", "yellow-poplar");
        check_name("douglas fir", "Douglas-fir");
        check_name("birch plywood", "birch plywood");
    }

    #[test]
    fn values_are_those_of_the_handbook() {
        // FPL-GTR-190 (2010), Table 5-3a: specific gravity x 1120, strength, modulus, modulus x 1.1.
        check_values("hard maple", 706.0, 109.0, 12.6, 13.86);
        check_values("yellow-poplar", 470.0, 70.0, 10.9, 11.99);
        check_values("western red cedar", 358.0, 51.7, 7.7, 8.47);
        check_values("hickory", 806.0, 139.0, 14.9, 16.39);
        check_values("white oak", 762.0, 105.0, 12.3, 13.53);
    }

    #[test]
    fn no_name_means_two_woods() {
        for wood in Wood::all() {
            for name in std::iter::once(wood.name()).chain(wood.aliases().iter().copied()) {
                check_name(name, wood.name());
            }
        }
    }

    #[test]
    fn an_unknown_wood_offers_the_nearest() {
        let unknown = Wood::named("hard mapel").expect_err("no such wood");
        assert_eq!(unknown.nearest.first(), Some(&"hard maple"), "the nearest wood comes first");
        assert_eq!(unknown.to_string(), "expected the name of a wood, found \"hard mapel\"", "the message");
    }
}

//! Metals that strings and wire frets are made of.

use units::{Density, Stress};

use super::name::{UnknownName, look_up};

/// What is wound round the core of a string: a handle into the table of wrap materials.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WrapMaterial(&'static WrapRow);

/// One row of the table.
#[derive(Debug, PartialEq)]
struct WrapRow {
    name: &'static str,
    aliases: &'static [&'static str],
    density_kg_per_m3: f64,
    source: &'static str,
}

const FROM_MEMORY: &str = "density from memory, within 2 %";

const WRAPS: &[WrapRow] = &[
    WrapRow {
        name: "phosphor bronze",
        aliases: &["bronze", "C51000"],
        density_kg_per_m3: 8860.0,
        source: FROM_MEMORY,
    },
    WrapRow {
        name: "80/20 bronze",
        aliases: &["8020", "80/20", "80/20 brass"],
        density_kg_per_m3: 8700.0,
        source: FROM_MEMORY,
    },
    WrapRow { name: "brass", aliases: &[], density_kg_per_m3: 8500.0, source: FROM_MEMORY },
    WrapRow { name: "nickel", aliases: &["pure nickel"], density_kg_per_m3: 8900.0, source: FROM_MEMORY },
    WrapRow {
        name: "plated steel",
        aliases: &["nickel-plated steel", "nickel steel", "steel"],
        density_kg_per_m3: 7850.0,
        source: FROM_MEMORY,
    },
];

impl WrapMaterial {
    /// Every wrap material, in the order of the table.
    pub fn all() -> impl Iterator<Item = Self> {
        WRAPS.iter().map(Self)
    }

    /// The material of this name or alias.
    ///
    /// # Errors
    ///
    /// [`UnknownName`], with the nearest names.
    pub fn named(name: &str) -> Result<Self, UnknownName> {
        look_up("wrap material", name, WRAPS, |row| (row.name, row.aliases)).map(Self)
    }

    /// What a string is wound with when nobody says: phosphor bronze.
    #[must_use]
    pub fn usual() -> Self {
        Self(&WRAPS[0])
    }

    /// Its name in the table.
    #[must_use]
    pub const fn name(self) -> &'static str {
        self.0.name
    }

    /// Other names under which it is found.
    #[must_use]
    pub const fn aliases(self) -> &'static [&'static str] {
        self.0.aliases
    }

    /// Density at room temperature.
    #[must_use]
    pub const fn density(self) -> Density {
        Density::kg_per_m3(self.0.density_kg_per_m3)
    }

    /// Where the number comes from.
    #[must_use]
    pub const fn source(self) -> &'static str {
        self.0.source
    }
}

impl std::fmt::Display for WrapMaterial {
    fn fmt(&self, formatter: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        formatter.write_str(self.name())
    }
}

/// A drawn metal: what it weighs and how stiff it is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PlainMetal {
    /// Density at room temperature.
    pub density: Density,
    /// Young's modulus.
    pub modulus: Stress,
    /// Where the numbers come from.
    pub source: &'static str,
}

/// Music wire: plain strings and the cores of wound ones.
#[must_use]
pub const fn string_steel() -> PlainMetal {
    PlainMetal {
        density: Density::kg_per_m3(7850.0),
        modulus: Stress::megapascals(203_000.0),
        source: "music wire; modulus within 200 to 207 GPa; from memory (Shigley, Table 10-5)",
    }
}

/// Copper wire, as wire frets are made of.
#[must_use]
pub const fn copper_wire() -> PlainMetal {
    PlainMetal {
        density: Density::kg_per_m3(8890.0),
        modulus: Stress::megapascals(119_000.0),
        source: "density by the convention of IEC 60028; modulus the middle of 110 to 128 GPa; from memory",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(written: &str, expected: &str) {
        assert_eq!(WrapMaterial::named(written).map(WrapMaterial::name), Ok(expected), "wrap {written:?}");
    }

    #[test]
    fn names_and_aliases_are_found() {
        check("Phosphor Bronze", "phosphor bronze");
        check("80/20", "80/20 bronze");
        check("steel", "plated steel");
        check("Nickel-Plated Steel", "plated steel");
    }

    #[test]
    fn an_unknown_name_offers_the_nearest() {
        let unknown = WrapMaterial::named("fosphor bronze").expect_err("no such metal");
        assert_eq!(unknown.nearest.first(), Some(&"phosphor bronze"), "the nearest wrap comes first");
    }

    #[test]
    fn densities_are_those_of_the_trade() {
        // From memory, as the table says.
        assert_eq!(WrapMaterial::usual().density(), Density::kg_per_m3(8860.0), "phosphor bronze");
        for wrap in WrapMaterial::all() {
            let density = wrap.density().as_kg_per_m3();
            assert!(
                (7800.0..9000.0).contains(&density),
                "{wrap}: {density} kg/m3 is no metal that strings are wound with"
            );
        }
    }
}

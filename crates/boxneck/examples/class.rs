//! A class through the library: reads a roster, makes every instrument, and says how much wire and how many strings to buy.
//!
//! `cargo run --release --example class -- specs/class/spring.csv outputs/spring`: the rows name their bases themselves.
#![expect(clippy::print_stdout, reason = "an example shows what it found")]

use std::collections::BTreeMap;
use std::error::Error;
use std::path::PathBuf;

use boxneck::batch::{Bases, BatchOptions, Class, Roster, run};

fn main() -> Result<(), Box<dyn Error>> {
    let mut arguments = std::env::args_os().skip(1).map(PathBuf::from);
    let (Some(path), Some(output)) = (arguments.next(), arguments.next()) else {
        return Err("expected a roster and a folder for what is made".into());
    };
    let roster = Roster::parse(&std::fs::read(&path)?);
    let bases = Bases::open(None, &roster, path.parent().unwrap_or(&path));
    let class = Class::plan(&roster, &bases);
    for fault in class.faults() {
        println!("{fault}");
    }

    // Every row is told in the order of the roster, as soon as it is done.
    let batch = run(&class, &output, &BatchOptions::default(), &mut |row| {
        println!("{:>3}  {:<20} {}", row.record.row, row.record.folder, row.fate.word());
    })?;

    // What is known of a row is its kit; nothing is worked out again.
    let mut wire: BTreeMap<&str, f64> = BTreeMap::new();
    let mut strings: BTreeMap<String, u32> = BTreeMap::new();
    for row in &batch.record.rows {
        let Some(kit) = batch.record.kit(row) else { continue };
        for cut in &kit.wires {
            *wire.entry(&cut.material).or_default() += cut.length_mm * f64::from(row.quantity);
        }
        for string in &kit.strings {
            *strings.entry(format!("{:.2} mm", string.diameter_mm)).or_default() += row.quantity;
        }
    }
    for (material, length_mm) in wire {
        println!("{material}: {:.1} m", length_mm / 1000.0);
    }
    for (diameter, count) in strings {
        println!("strings of {diameter}: {count}");
    }
    Ok(())
}

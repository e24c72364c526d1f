//! What does a builder read at the bench?
//!
//! Plain text, at most 100 columns: what does not fit and what would cure it, every station in millimetres and inches from
//! one datum, how it will play, places on the box, wire to buy.

macro_rules! line {
    ($page:expr) => { line($page, format_args!("")) };
    ($page:expr, $($text:tt)*) => { line($page, format_args!($($text)*)) };
}

mod setup;
mod tolerances;

use std::fmt::Write;

use export::table::Table;
use fit::Severity;

use crate::account::findings::{complaints, count};
use crate::account::{Passage, building, in_short, materials, playing};
use crate::instrument::Instrument;

pub use setup::{setup_page, setup_web_page};
pub use tolerances::tolerances_page;

/// The page for one instrument.
#[must_use]
pub fn bench_page(instrument: &Instrument) -> String {
    let layout = instrument.layout();
    let mut page = String::new();
    line!(&mut page, "{}", instrument.spec().name);
    line!(&mut page, "{}", in_short(layout));
    findings(&mut page, instrument);
    let passages = [
        Some(building::frets(layout)),
        Some(building::strings(layout)),
        Some(playing::tension(instrument)),
        Some(playing::intonation(instrument)),
        Some(playing::fret_by_fret(instrument)),
        Some(playing::drift(instrument)),
        playing::buzz(instrument),
        Some(playing::bending(instrument)),
        Some(building::nut(layout)),
        Some(building::places(layout)),
        Some(materials::wire(instrument)),
    ];
    for passage in passages.iter().flatten() {
        set(&mut page, passage);
    }
    page
}

/// Writing to a string cannot fail; this says so once.
fn line(page: &mut String, text: std::fmt::Arguments<'_>) {
    writeln!(page, "{text}").expect("a string takes all text");
}

fn findings(page: &mut String, instrument: &Instrument) {
    line!(page);
    line!(page, "WHAT DOES NOT FIT  {}", count(instrument.findings()));
    let complaints = complaints(instrument);
    for complaint in &complaints {
        for finding in &complaint.findings {
            line!(page, "  {:4}  {}: {finding}", finding.severity.word(), finding.check.id);
        }
    }
    if complaints.iter().all(|complaint| complaint.severity <= Severity::Note) {
        return;
    }
    line!(page);
    line!(page, "WHAT WOULD CURE IT  (each tried: it cures, and breaks nothing that holds)");
    for complaint in &complaints {
        for (place, cure) in complaint.cures.iter().enumerate() {
            let or = if place == 0 { "" } else { "or " };
            line!(page, "  {}: {or}{cure}", complaint.check.id);
        }
    }
}

fn set(page: &mut String, passage: &Passage) {
    line!(page);
    line!(page, "{}  {}", passage.heading.to_uppercase(), passage.aside);
    for words in &passage.before {
        line!(page, "  {words}");
    }
    columns(page, &passage.table);
    for words in &passage.after {
        line!(page, "  {words}");
    }
}

/// A table in columns as wide as what is in them; numbers stand to the right.
fn columns(page: &mut String, table: &Table) {
    if table.rows.is_empty() {
        return;
    }
    let rows = || std::iter::once(&table.heading).chain(&table.rows);
    let wide: Vec<usize> = (0..table.heading.len())
        .map(|column| rows().map(|row| row[column].chars().count()).max().unwrap_or(0))
        .collect();
    let is_of_numbers: Vec<bool> =
        (0..table.heading.len()).map(|column| table.is_of_numbers(column)).collect();
    for row in rows() {
        let cells = row.iter().zip(&wide).zip(&is_of_numbers).map(|((cell, wide), is_of_numbers)| {
            if *is_of_numbers { format!("  {cell:>wide$}") } else { format!("  {cell:<wide$}") }
        });
        line!(page, "{}", cells.collect::<String>().trim_end());
    }
}

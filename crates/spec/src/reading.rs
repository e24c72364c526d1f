//! How does a tree become an instrument, with every fault told in one go?
//!
//! Declare by reading: each section of the [`Spec`] is read by one function that asks its [`Keys`] for one key after the
//! other, with default and range in the asking. A faulty key yields its default, so that reading goes on. Run without a
//! document, the same functions merely record what they ask for.

mod body;
mod keys;
mod making;
pub(crate) mod measure;
mod neck;
mod outlines;
mod playing;
mod range;
mod reader;
mod sections;
mod stock_list;
mod tolerances;
mod unknown;
pub(crate) mod written;

use units::LengthUnit;

use crate::diagnostic::Checked;
use crate::document::{Document, Value};
use crate::instrument::{Handed, Spec};
use crate::key::{self, KeyInfo};
use crate::stock_list::StockList;
use keys::Keys;
pub(crate) use reader::Reader;

/// The instrument of a document.
pub(crate) fn read(document: &Document) -> Checked<Spec> {
    let mut reader = Reader::of(document, key::keys);
    let spec = from_root(document, &mut reader, spec);
    if !document.is_torn() {
        crate::relations::check(&spec, &mut reader);
    }
    Checked::new(spec, reader.into_diagnostics())
}

/// The stock that a document lists.
pub(crate) fn read_stock(document: &Document) -> Checked<StockList> {
    let mut reader = Reader::of(document, crate::stock_list::stock_keys);
    let stock = from_root(document, &mut reader, stock_list::stock_list);
    Checked::new(stock, reader.into_diagnostics())
}

/// What a document's root says, and nothing that it should not.
fn from_root<'d, T>(document: &'d Document, reader: &mut Reader<'d>, read: fn(&mut Keys<'_, 'd>) -> T) -> T {
    let table = match &document.root().value {
        Value::Table(table) => Some(table),
        _ => None,
    };
    let mut keys = Keys::new(reader, table);
    let value = read(&mut keys);
    keys.finish();
    value
}

/// Every key that reading an instrument asks for.
pub(crate) fn record() -> Vec<KeyInfo> {
    recorded(spec)
}

/// Every key that reading a stock list asks for.
pub(crate) fn record_stock() -> Vec<KeyInfo> {
    recorded(stock_list::stock_list)
}

fn recorded<T>(read: fn(&mut Keys<'_, '_>) -> T) -> Vec<KeyInfo> {
    let mut reader = Reader::recording();
    let mut keys = Keys::new(&mut reader, None);
    let _ = read(&mut keys);
    reader.into_record()
}

/// The document's root.
fn spec(keys: &mut Keys<'_, '_>) -> Spec {
    // The unit of bare numbers comes first, because it says how the rest is read.
    let units = keys.choice("units", LengthUnit::Inch);
    keys.set_units(units);
    Spec {
        name: keys.name("name", "Porch three-string"),
        units,
        handed: keys.choice("handed", Handed::Right),
        scale: keys.section("scale", playing::scale),
        strings: keys.sections("strings", 1, crate::limits::STRINGS, playing::string),
        neck: keys.section("neck", neck::neck),
        plank: keys.section("plank", neck::plank),
        headstock: keys.section("headstock", neck::headstock),
        heel: keys.section("heel", neck::heel),
        fretboard: keys.section("fretboard", neck::fretboard),
        frets: keys.section("frets", playing::frets),
        zero_fret: keys.section("zero_fret", playing::zero_fret),
        nut: keys.section("nut", playing::nut),
        saddle: keys.section("saddle", body::saddle),
        tail: keys.section("tail", body::tail),
        body: keys.section("box", body::body),
        action: keys.section("action", playing::action),
        router: keys.section("router", making::router),
        print: keys.section("print", making::print),
        tolerances: keys.section("tolerances", tolerances::tolerances),
    }
}

/// The instrument of an empty document: every key at its default.
impl Default for Spec {
    fn default() -> Self {
        let read = Document::parse(b"").read().into_result();
        read.expect("the defaults describe a sound instrument; a test reads them").0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_empty_document_is_sound() {
        let read = Document::parse(b"").read();
        assert_eq!(read.diagnostics(), &[], "nothing to say about the defaults");
        assert_eq!(read.value(), Some(&Spec::default()), "the defaults are the empty document");
    }
}

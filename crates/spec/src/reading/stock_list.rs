//! Boards, sheets, how they are cut, and prices.

use units::LengthUnit;

use super::keys::{Keys, mm};
use crate::limits;
use crate::stock_list::{Cutting, Grain, Prices, StockItem, StockList};

/// The root of a stock list.
pub(super) fn stock_list(keys: &mut Keys<'_, '_>) -> StockList {
    // The unit of bare numbers comes first, because it says how the rest is read.
    let units = keys.choice("units", LengthUnit::Inch);
    keys.set_units(units);
    StockList {
        units,
        cutting: keys.section("cutting", cutting),
        boards: keys.sections("boards", 0, limits::STOCK_ITEMS, board),
        sheets: keys.sections("sheets", 0, limits::STOCK_ITEMS, sheet),
        prices: keys.section("prices", prices),
    }
}

/// Defaults are common practice, no source: a table saw's blade, checked board ends, tabs and clamps at a sheet's edges,
/// and a web between parts that does not break out.
fn cutting(keys: &mut Keys<'_, '_>) -> Cutting {
    Cutting {
        kerf: keys.length("kerf", "3 mm", mm(0.0)..=mm(10.0)),
        trim: keys.length("trim", "10 mm", mm(0.0)..=mm(200.0)),
        margin: keys.length("margin", "10 mm", mm(0.0)..=mm(100.0)),
        between: keys.length("between", "3 mm", mm(0.0)..=mm(50.0)),
        planing: keys.length("planing", "1 mm", mm(0.0)..=mm(20.0)),
    }
}

fn board(keys: &mut Keys<'_, '_>) -> StockItem {
    item(keys, |_| Grain::Length)
}

fn sheet(keys: &mut Keys<'_, '_>) -> StockItem {
    item(keys, |keys| keys.choice("grain", Grain::Length))
}

fn item(keys: &mut Keys<'_, '_>, grain: fn(&mut Keys<'_, '_>) -> Grain) -> StockItem {
    StockItem {
        wood: keys.required_wood("wood"),
        length: keys.required_length("length", "\"96 in\"", mm(10.0)..=mm(10_000.0)),
        width: keys.required_length("width", "\"3 1/2 in\"", mm(5.0)..=mm(5_000.0)),
        thickness: keys.required_length("thickness", "\"3/4 in\"", mm(0.3)..=mm(200.0)),
        grain: grain(keys),
        count: keys.optional_count("count", 1..=limits::STOCK_COUNT),
        price: keys.optional_price("price"),
        offcut: keys.truth("offcut", false),
    }
}

fn prices(keys: &mut Keys<'_, '_>) -> Prices {
    Prices {
        tuner: keys.optional_price("tuner"),
        string: keys.optional_price("string"),
        screw: keys.optional_price("screw"),
        fret_wire: keys.optional_price("fret_wire"),
        wire: keys.optional_price("wire"),
    }
}

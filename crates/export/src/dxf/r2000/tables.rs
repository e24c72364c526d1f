//! Which tables and blocks does a reader expect before the entities?
//!
//! A view that shows the drawing, three line types, the layers, one style each for text and dimensions, and the two
//! spaces. Handles up to 3F are given out here and in [`super::objects`].

use geometry::Bounds2;

use super::super::tags::{Tags, hexadecimal};
use super::{FIRST_LAYER, Scale};
use crate::Layer;

/// The handle of the model space, where all entities are.
pub(super) const MODEL_SPACE: &str = "17";

/// The sections of tables and blocks.
pub(super) fn write(tags: &mut Tags, scale: Scale, bounds: Bounds2, layers: &[Layer]) {
    tags.fixed("0 SECTION; 2 TABLES");
    view(tags, scale, bounds);
    line_types(tags);
    layer_table(tags, layers);
    tags.fixed("0 TABLE; 2 STYLE; 5 5; 330 0; 100 AcDbSymbolTable; 70 1");
    tags.fixed(
        "0 STYLE; 5 29; 330 5; 100 AcDbSymbolTableRecord; 100 AcDbTextStyleTableRecord; 2 STANDARD; 70 0",
    );
    tags.fixed("40 0.0; 41 1.0; 50 0.0; 71 0; 42 2.5; 3 txt; 4; 0 ENDTAB");
    tags.fixed("0 TABLE; 2 VIEW; 5 7; 330 0; 100 AcDbSymbolTable; 70 0; 0 ENDTAB");
    tags.fixed("0 TABLE; 2 UCS; 5 6; 330 0; 100 AcDbSymbolTable; 70 0; 0 ENDTAB");
    tags.fixed("0 TABLE; 2 APPID; 5 3; 330 0; 100 AcDbSymbolTable; 70 1");
    tags.fixed("0 APPID; 5 2A; 330 3; 100 AcDbSymbolTableRecord; 100 AcDbRegAppTableRecord; 2 ACAD; 70 0");
    tags.fixed("0 ENDTAB");
    dimension_style(tags);
    tags.fixed("0 TABLE; 2 BLOCK_RECORD; 5 9; 330 0; 100 AcDbSymbolTable; 70 2");
    tags.fixed("0 BLOCK_RECORD; 5 17; 330 9; 100 AcDbSymbolTableRecord; 100 AcDbBlockTableRecord");
    tags.fixed("2 *Model_Space; 340 1A");
    tags.fixed("0 BLOCK_RECORD; 5 1B; 330 9; 100 AcDbSymbolTableRecord; 100 AcDbBlockTableRecord");
    tags.fixed("2 *Paper_Space; 340 1E; 0 ENDTAB; 0 ENDSEC");
    tags.fixed("0 SECTION; 2 BLOCKS");
    space(tags, "*Model_Space", "17", ["18", "19"]);
    space(tags, "*Paper_Space", "1B", ["1C", "1D"]);
    tags.fixed("0 ENDSEC");
}

/// The view that a program opens with: the drawing in the middle, with a little room round it.
fn view(tags: &mut Tags, scale: Scale, bounds: Bounds2) {
    let (min, max) = (scale.point(bounds.min), scale.point(bounds.max));
    let (width, height) = (max.0 - min.0, max.1 - min.1);
    tags.fixed("0 TABLE; 2 VPORT; 5 8; 330 0; 100 AcDbSymbolTable; 70 1");
    tags.fixed(
        "0 VPORT; 5 23; 330 8; 100 AcDbSymbolTableRecord; 100 AcDbViewportTableRecord; 2 *ACTIVE; 70 0",
    );
    tags.fixed("10 0.0; 20 0.0; 11 1.0; 21 1.0");
    tags.point(12, ((min.0 + max.0) / 2.0, (min.1 + max.1) / 2.0));
    tags.fixed(
        "13 0.0; 23 0.0; 14 1.0; 24 1.0; 15 1.0; 25 1.0; 16 0.0; 26 0.0; 36 1.0; 17 0.0; 27 0.0; 37 0.0",
    );
    tags.number(40, 1.1 * height.max(width / 1.5));
    tags.fixed("41 1.5; 42 50.0; 43 0.0; 44 0.0; 50 0.0; 51 0.0");
    tags.fixed("71 0; 72 1000; 73 1; 74 3; 75 0; 76 0; 77 0; 78 0; 281 0; 65 0; 146 0.0; 0 ENDTAB");
}

fn line_types(tags: &mut Tags) {
    tags.fixed("0 TABLE; 2 LTYPE; 5 2; 330 0; 100 AcDbSymbolTable; 70 3");
    for (handle, name, words) in
        [("24", "ByBlock", ""), ("25", "ByLayer", ""), ("26", "CONTINUOUS", "Solid line")]
    {
        tags.text(0, "LTYPE");
        tags.text(5, handle);
        tags.fixed("330 2; 100 AcDbSymbolTableRecord; 100 AcDbLinetypeTableRecord");
        tags.text(2, name);
        tags.fixed("70 0");
        tags.text(3, words);
        tags.fixed("72 65; 73 0; 40 0.0");
    }
    tags.fixed("0 ENDTAB");
}

/// Layer 0, which must be there and stays empty, and those of the drawing.
fn layer_table(tags: &mut Tags, layers: &[Layer]) {
    tags.fixed("0 TABLE; 2 LAYER; 5 1; 330 0; 100 AcDbSymbolTable");
    tags.integer(70, layers.len() + 1);
    let plain = (String::from("27"), String::from("0"), 7);
    let own = layers
        .iter()
        .enumerate()
        .map(|(place, layer)| (hexadecimal(FIRST_LAYER + place), layer.name(), layer.colour().index));
    for (handle, name, colour) in std::iter::once(plain).chain(own) {
        tags.text(0, "LAYER");
        tags.text(5, &handle);
        tags.fixed("330 1; 100 AcDbSymbolTableRecord; 100 AcDbLayerTableRecord");
        tags.text(2, &name);
        tags.fixed("70 0");
        tags.integer(62, colour.into());
        tags.fixed("6 CONTINUOUS; 370 -3; 390 13");
    }
    tags.fixed("0 ENDTAB");
}

fn dimension_style(tags: &mut Tags) {
    tags.fixed("0 TABLE; 2 DIMSTYLE; 5 4; 330 0; 100 AcDbSymbolTable; 70 1; 100 AcDbDimStyleTable; 71 0");
    tags.fixed(
        "0 DIMSTYLE; 105 2B; 330 4; 100 AcDbSymbolTableRecord; 100 AcDbDimStyleTableRecord; 2 STANDARD; 70 0",
    );
    tags.fixed("40 1.0; 41 2.5; 42 0.625; 43 3.75; 44 1.25; 45 0.0; 46 0.0; 47 0.0; 48 0.0");
    tags.fixed("140 2.5; 141 2.5; 142 0.0; 143 0.03937007874; 144 1.0; 145 0.0; 146 1.0; 147 0.625");
    tags.fixed("71 0; 72 0; 73 0; 74 0; 75 0; 76 0; 77 1; 78 8; 170 0; 171 3; 172 1; 173 0; 174 0; 175 0");
    tags.fixed(
        "176 0; 177 0; 178 0; 271 2; 272 2; 273 2; 274 3; 275 0; 277 2; 278 46; 279 0; 280 0; 281 0; 282 0",
    );
    tags.fixed("283 0; 284 8; 285 0; 286 0; 288 0; 289 3; 340 29; 371 -2; 372 -2; 0 ENDTAB");
}

fn space(tags: &mut Tags, name: &str, owner: &str, [begin, end]: [&str; 2]) {
    tags.text(0, "BLOCK");
    tags.text(5, begin);
    tags.text(330, owner);
    tags.fixed("100 AcDbEntity; 8 0; 100 AcDbBlockBegin");
    tags.text(2, name);
    tags.fixed("70 0; 10 0.0; 20 0.0; 30 0.0");
    tags.text(3, name);
    tags.fixed("1; 0 ENDBLK");
    tags.text(5, end);
    tags.text(330, owner);
    tags.fixed("100 AcDbEntity; 8 0; 100 AcDbBlockEnd");
}

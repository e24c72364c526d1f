//! How is a file of R2000 (AC1015) put together?

mod entities;
mod objects;
mod tables;

use geometry::{Bounds2, Point2};
use units::{Length, LengthUnit};

use super::Content;
use super::tags::{Tags, hexadecimal};

/// The first handle of a layer; those below are spoken for in the fixed parts.
const FIRST_LAYER: usize = 0x40;

pub(super) fn write(tags: &mut Tags, unit: LengthUnit, content: &Content) {
    let scale = Scale(unit);
    let layers: Vec<_> = content.layers.iter().map(|(layer, _)| *layer).collect();
    let first_entity = FIRST_LAYER + layers.len();
    let entities = content.layers.iter().map(|(_, entities)| entities.len()).sum::<usize>();
    header(tags, scale, content.bounds, first_entity + entities);
    tables::write(tags, scale, content.bounds, &layers);
    entities::write(tags, scale, &content.layers, first_entity);
    objects::write(tags, scale, content.bounds);
    tags.fixed("0 EOF");
}

/// From millimetres to the numbers of the file: one factor for everything.
#[derive(Clone, Copy)]
struct Scale(LengthUnit);

impl Scale {
    fn number(self, millimetres: f64) -> f64 {
        let length = Length::mm(millimetres);
        match self.0 {
            LengthUnit::Millimetre => length.as_mm(),
            LengthUnit::Inch => length.as_inches(),
        }
    }

    fn point(self, point: Point2) -> (f64, f64) {
        (self.number(point.x), self.number(point.y))
    }
}

fn header(tags: &mut Tags, scale: Scale, bounds: Bounds2, next_handle: usize) {
    let (insertion_unit, metric) = match scale.0 {
        LengthUnit::Millimetre => (4, 1),
        LengthUnit::Inch => (1, 0),
    };
    let (min, max) = (scale.point(bounds.min), scale.point(bounds.max));
    tags.fixed("0 SECTION; 2 HEADER; 9 $ACADVER; 1 AC1015; 9 $DWGCODEPAGE; 3 ANSI_1252");
    tags.fixed("9 $INSBASE; 10 0.0; 20 0.0; 30 0.0");
    for space in ["$", "$P"] {
        for (name, corner) in [("EXTMIN", min), ("EXTMAX", max)] {
            tags.text(9, &format!("{space}{name}"));
            tags.point(10, corner);
            tags.fixed("30 0.0");
        }
        for (name, corner) in [("LIMMIN", min), ("LIMMAX", max)] {
            tags.text(9, &format!("{space}{name}"));
            tags.point(10, corner);
        }
    }
    tags.fixed("9 $CLAYER; 8 0; 9 $CELTYPE; 6 ByLayer; 9 $CECOLOR; 62 256; 9 $TEXTSTYLE; 7 STANDARD");
    tags.fixed("9 $DIMSTYLE; 2 STANDARD; 9 $LUNITS; 70 2; 9 $LUPREC; 70 4; 9 $TILEMODE; 70 1");
    tags.fixed("9 $PSTYLEMODE; 290 1");
    tags.text(9, "$INSUNITS");
    tags.integer(70, insertion_unit);
    tags.text(9, "$MEASUREMENT");
    tags.integer(70, metric);
    tags.text(9, "$HANDSEED");
    tags.text(5, &hexadecimal(next_handle));
    tags.fixed("0 ENDSEC; 0 SECTION; 2 CLASSES");
    tags.fixed("0 CLASS; 1 ACDBDICTIONARYWDFLT; 2 AcDbDictionaryWithDefault; 3 ObjectDBX Classes; 90 0; 280 0; 281 0");
    tags.fixed("0 CLASS; 1 ACDBPLACEHOLDER; 2 AcDbPlaceHolder; 3 ObjectDBX Classes; 90 0; 280 0; 281 0");
    tags.fixed("0 CLASS; 1 LAYOUT; 2 AcDbLayout; 3 ObjectDBX Classes; 90 0; 280 0; 281 0; 0 ENDSEC");
}

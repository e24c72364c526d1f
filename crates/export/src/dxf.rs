//! How does a flat drawing become a DXF file that every program opens at the right size?
//!
//! R2000 (AC1015), the oldest version with both polyline arcs and a unit in the file. Only LINE, CIRCLE and LWPOLYLINE
//! are written: a closed outline is one closed polyline with its arcs as bulges, a full circle is a CIRCLE, an open
//! path of one line is a LINE and any other an open polyline. The lower left of what is cut is at (0, 0), the datum is
//! a cross on `GUIDE`, and [`crate::Layer`] says what else is where. Inner cuts stand before outer ones.
//!
//! A slot is its centre line; the width and the depth of the cut are not in the file.

mod entities;
mod objects;
mod tables;
mod tags;

use geometry::{Bounds2, Drawing, Point2, Preflight};
use units::{Length, LengthUnit};

use crate::ExportFault;
use crate::plan::plan;
use tags::{Tags, hexadecimal};

/// The first handle of a layer; those below are spoken for in the fixed parts.
const FIRST_LAYER: usize = 0x40;

/// How a drawing is written.
#[derive(Clone, Copy, Debug, PartialEq, Default)]
pub struct DxfOptions {
    /// The unit of every number in the file, which the file also says; names of layers stay in millimetres.
    pub unit: LengthUnit,
    /// What the drawing must hold to before it is written.
    pub preflight: Preflight,
    /// One line of ASCII that the file carries as a comment at its head.
    pub remark: Option<&'static str>,
}

/// A drawing as the text of a DXF file, in ASCII with line feeds.
///
/// - **Units**: those of the options.
/// - **Frame**: the drawing's own, moved so that the lower left of everything but guides is at (0, 0).
/// - **Accuracy**: coordinates within 1e-8 of the unit, bulges within 1e-12.
/// - **Errors**: [`ExportFault::FaultyDrawing`] for what the drawing's own pre-flight finds,
///   [`ExportFault::NothingToDraw`] without operations, [`ExportFault::OutOfRange`] beyond 100 m.
///
/// A round plate:
/// ```
/// use boxneck_export::dxf::{DxfOptions, write};
/// use geometry::{Circle, Datum, Drawing, Operation, Point2, Shape};
/// use units::Length;
///
/// let edge = Shape::Circle(Circle::of_diameter(Point2::ORIGIN, Length::mm(80.0)));
/// let drawing = Drawing {
///     name: "plate".into(),
///     title: "Plate".into(),
///     datum: Datum { point: Point2::ORIGIN, meaning: "centre".into() },
///     operations: vec![Operation::CutOutside(edge)],
/// };
/// let text = write(&drawing, &DxfOptions::default())?;
/// assert!(text.contains("CUT_OUTER"), "the layer tells the operation");
/// # Ok::<(), boxneck_export::ExportFault>(())
/// ```
pub fn write(drawing: &Drawing, options: &DxfOptions) -> Result<String, ExportFault> {
    let plan = plan(drawing, &options.preflight)?;
    let layers: Vec<_> = plan.layers.iter().map(|(layer, _)| *layer).collect();
    let first_entity = FIRST_LAYER + layers.len();
    let scale = Scale(options.unit);
    let entities = plan.layers.iter().map(|(_, operations)| operations.len()).sum::<usize>();
    let mut tags = Tags::default();
    if let Some(remark) = options.remark {
        tags.text(999, remark);
    }
    header(&mut tags, scale, plan.bounds, first_entity + entities);
    tables::write(&mut tags, scale, plan.bounds, &layers);
    entities::write(&mut tags, scale, &plan.layers, first_entity);
    objects::write(&mut tags, scale, plan.bounds);
    tags.fixed("0 EOF");
    Ok(tags.into_text())
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

//! Which objects does a reader expect after the entities?
//!
//! The root dictionary with groups, layouts, line styles and plot styles, and one layout for each of the two spaces.

use geometry::Bounds2;

use super::super::tags::Tags;
use super::Scale;

/// The section of objects.
pub(super) fn write(tags: &mut Tags, scale: Scale, bounds: Bounds2) {
    tags.fixed("0 SECTION; 2 OBJECTS");
    tags.fixed(
        "0 DICTIONARY; 5 A; 330 0; 100 AcDbDictionary; 281 1; 3 ACAD_GROUP; 350 C; 3 ACAD_LAYOUT; 350 D",
    );
    tags.fixed("3 ACAD_MLINESTYLE; 350 10; 3 ACAD_PLOTSETTINGS; 350 11; 3 ACAD_PLOTSTYLENAME; 350 12");
    tags.fixed("0 DICTIONARY; 5 C; 330 A; 100 AcDbDictionary; 281 1");
    tags.fixed("0 DICTIONARY; 5 D; 330 A; 100 AcDbDictionary; 281 1; 3 Model; 350 1A; 3 Layout1; 350 1E");
    tags.fixed("0 DICTIONARY; 5 10; 330 A; 100 AcDbDictionary; 281 1; 3 Standard; 350 22");
    tags.fixed("0 DICTIONARY; 5 11; 330 A; 100 AcDbDictionary; 281 1");
    tags.fixed("0 ACDBDICTIONARYWDFLT; 5 12; 330 A; 100 AcDbDictionary; 281 1; 3 Normal; 350 13");
    tags.fixed("100 AcDbDictionaryWithDefault; 340 13; 0 ACDBPLACEHOLDER; 5 13; 330 12");
    layout(
        tags,
        scale,
        bounds,
        &Layout { name: "Model", handle: "1A", block: "17", tab: 0, plot_flags: 1024 },
    );
    layout(
        tags,
        scale,
        bounds,
        &Layout { name: "Layout1", handle: "1E", block: "1B", tab: 1, plot_flags: 0 },
    );
    tags.fixed(
        "0 MLINESTYLE; 5 22; 102 {ACAD_REACTORS; 330 10; 102 }; 330 10; 100 AcDbMlineStyle; 2 Standard; 70 0",
    );
    tags.fixed("3; 62 256; 51 90.0; 52 90.0; 71 2; 49 0.5; 62 256; 6 ByLayer; 49 -0.5; 62 256; 6 ByLayer");
    tags.fixed("0 ENDSEC");
}

/// One of the two spaces as a sheet.
struct Layout<'a> {
    name: &'a str,
    handle: &'a str,
    block: &'a str,
    tab: usize,
    plot_flags: usize,
}

fn layout(tags: &mut Tags, scale: Scale, bounds: Bounds2, layout: &Layout<'_>) {
    let (min, max) = (scale.point(bounds.min), scale.point(bounds.max));
    tags.text(0, "LAYOUT");
    tags.text(5, layout.handle);
    tags.fixed(
        "330 D; 100 AcDbPlotSettings; 1; 4 A3; 6; 40 7.5; 41 20.0; 42 7.5; 43 20.0; 44 420.0; 45 297.0",
    );
    tags.fixed("46 0.0; 47 0.0; 48 0.0; 49 0.0; 140 0.0; 141 0.0; 142 1.0; 143 1.0");
    tags.integer(70, layout.plot_flags);
    tags.fixed("72 1; 73 0; 74 5; 7; 75 16; 147 1.0; 148 0.0; 149 0.0; 100 AcDbLayout");
    tags.text(1, layout.name);
    tags.fixed("70 1");
    tags.integer(71, layout.tab);
    tags.point(10, min);
    tags.point(11, max);
    tags.fixed("12 0.0; 22 0.0; 32 0.0");
    tags.point(14, min);
    tags.fixed("34 0.0");
    tags.point(15, max);
    tags.fixed(
        "35 0.0; 146 0.0; 13 0.0; 23 0.0; 33 0.0; 16 1.0; 26 0.0; 36 0.0; 17 0.0; 27 1.0; 37 0.0; 76 0",
    );
    tags.text(330, layout.block);
}

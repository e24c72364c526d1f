//! How do pages and a font become a file?
//!
//! Objects are numbered in a fixed order, and there is no date and no identifier of chance in it.

use std::io::Write;

use flate2::Compression;
use flate2::write::ZlibEncoder;
use pdf_writer::types::{CidFontType, FontFlags, SystemInfo, UnicodeCmap};
use pdf_writer::{Filter, Finish, Name, Pdf, Rect, Ref, Str, TextStr};
use units::Length;

use super::content::POINTS;
use super::typeface::Subset;

/// The font's name; a subset has six letters before it (ISO 32000-1, 9.6.4).
const FONT_NAME: &[u8] = b"BOXNCK+DejaVuSansCondensed";
/// The thickness of upright strokes, which only a reader without the embedded font would want.
const STEM: f32 = 80.0;
/// How glyphs are numbered: as they stand in the embedded font.
const SYSTEM: SystemInfo = SystemInfo { registry: Str(b"Adobe"), ordering: Str(b"Identity"), supplement: 0 };

/// The file of a booklet: its pages all of one size, one font for all.
pub(super) fn assembled(title: &str, sheet: [Length; 2], contents: Vec<Vec<u8>>, font: Subset) -> Vec<u8> {
    let mut next = 0;
    let mut numbered = || {
        next += 1;
        Ref::new(next)
    };
    let [catalog, info, tree, font_id] = [(); 4].map(|()| numbered());
    let pages: Vec<(Ref, Ref)> = contents.iter().map(|_| (numbered(), numbered())).collect();
    let descendants = [(); 4].map(|()| numbered());

    let mut pdf = Pdf::new();
    let mut root = pdf.catalog(catalog);
    root.pages(tree);
    root.viewer_preferences().display_doc_title(true).pair(Name(b"PrintScaling"), Name(b"None"));
    root.finish();
    pdf.document_info(info).title(TextStr(title)).producer(TextStr("boxneck"));
    pdf.pages(tree).kids(pages.iter().map(|page| page.0)).count(pages.len() as i32);
    let [width, height] = sheet.map(|side| (side.as_mm() * POINTS) as f32);
    for ((page, content), bytes) in pages.into_iter().zip(contents) {
        let area = Rect::new(0.0, 0.0, width, height);
        let mut page = pdf.page(page);
        page.parent(tree).media_box(area).crop_box(area).trim_box(area).contents(content);
        page.resources().fonts().pair(Name(b"F"), font_id);
        page.finish();
        let bytes = compressed(&bytes);
        pdf.stream(content, &bytes).filter(Filter::FlateDecode);
    }
    embed(&mut pdf, font_id, descendants, &font);
    pdf.finish()
}

fn embed(pdf: &mut Pdf, font_id: Ref, [cid, descriptor, file, meaning]: [Ref; 4], font: &Subset) {
    let name = Name(FONT_NAME);
    pdf.type0_font(font_id)
        .base_font(name)
        .encoding_predefined(Name(b"Identity-H"))
        .descendant_font(cid)
        .to_unicode(meaning);
    let mut descendant = pdf.cid_font(cid);
    descendant
        .subtype(CidFontType::Type2)
        .base_font(name)
        .system_info(SYSTEM)
        .font_descriptor(descriptor)
        .cid_to_gid_map_predefined(Name(b"Identity"));
    descendant.widths().consecutive(0, font.widths.iter().copied());
    descendant.finish();
    let [left, bottom, right, top] = font.bounds;
    let [capitals, ascent, descent] = font.heights;
    pdf.font_descriptor(descriptor)
        .name(name)
        .flags(FontFlags::SYMBOLIC)
        .bbox(Rect::new(left, bottom, right, top))
        .italic_angle(0.0)
        .ascent(ascent)
        .descent(descent)
        .cap_height(capitals)
        .stem_v(STEM)
        .font_file2(file);
    let data = compressed(&font.data);
    pdf.stream(file, &data).filter(Filter::FlateDecode).pair(Name(b"Length1"), font.data.len() as i32);
    let mut map = UnicodeCmap::new(Name(b"Custom"), SYSTEM);
    for (glyph, letter) in &font.meaning {
        map.pair(*glyph, *letter);
    }
    pdf.cmap(meaning, &map.finish());
}

fn compressed(bytes: &[u8]) -> Vec<u8> {
    let mut encoder = ZlibEncoder::new(Vec::new(), Compression::default());
    encoder.write_all(bytes).and_then(|()| encoder.finish()).expect("memory takes whatever is written")
}

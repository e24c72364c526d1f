//! How wide are words, and which glyphs of the font does a file need?

use std::collections::BTreeMap;
use std::fmt::Write;

use subsetter::GlyphRemapper;
use ttf_parser::{Face, GlyphId};
use units::Length;

/// DejaVu Sans Condensed, cut down to Latin, Greek and Cyrillic; its licence lies beside it.
const FONT: &[u8] = include_bytes!("../../fonts/DejaVuSansCondensed.ttf");

/// The font, and the glyphs of it that have been used.
pub(super) struct Typeface {
    face: Face<'static>,
    /// From the font's glyphs to those of the subset, in the order in which they were first used.
    subset: GlyphRemapper,
    /// What each glyph of the subset stands for.
    meaning: BTreeMap<u16, char>,
}

/// The part of the font that a file embeds.
pub(super) struct Subset {
    /// The font file.
    pub data: Vec<u8>,
    /// The widths of its glyphs, in thousandths of the size.
    pub widths: Vec<f32>,
    /// What each glyph stands for.
    pub meaning: BTreeMap<u16, char>,
    /// Its bounds, left, bottom, right and top, in thousandths of the size.
    pub bounds: [f32; 4],
    /// How far capitals, ascenders and descenders reach from the line, in thousandths of the size.
    pub heights: [f32; 3],
}

impl Typeface {
    /// The font with no glyph used.
    pub fn new() -> Self {
        let face = Face::parse(FONT, 0).expect("the font that comes with the code is sound");
        Self { face, subset: GlyphRemapper::new(), meaning: BTreeMap::new() }
    }

    /// How wide words are at a size.
    pub fn width(&self, words: &str, size: Length) -> Length {
        let advance = |letter| f64::from(self.face.glyph_hor_advance(self.glyph(letter)).unwrap_or(0));
        size * (words.chars().map(advance).sum::<f64>() / f64::from(self.face.units_per_em()))
    }

    /// As much of a line as fits a width.
    pub fn shortened(&self, line: &str, size: Length, width: Length) -> String {
        let fits = |text: &str| self.width(text, size) <= width;
        if fits(line) {
            return line.to_owned();
        }
        let mut kept: Vec<char> = line.chars().collect();
        while kept.pop().is_some() {
            let text: String = kept.iter().chain(['…'].iter()).collect();
            if fits(&text) {
                return text;
            }
        }
        String::new()
    }

    /// Words as a string of the subset's glyphs, in hexadecimal.
    pub fn glyphs(&mut self, words: &str) -> String {
        let mut text = String::with_capacity(words.len() * 4);
        for letter in words.chars() {
            let glyph = self.subset.remap(self.glyph(letter).0);
            self.meaning.entry(glyph).or_insert(letter);
            // Writing to a string cannot fail.
            let _ = write!(text, "{glyph:04X}");
        }
        text
    }

    /// What has been used.
    pub fn into_subset(self) -> Subset {
        let data = subsetter::subset(FONT, 0, &self.subset).expect("the glyphs are the font's own");
        let per_unit = 1000.0 / f32::from(self.face.units_per_em());
        let widths = self
            .subset
            .remapped_gids()
            .map(|glyph| f32::from(self.face.glyph_hor_advance(GlyphId(glyph)).unwrap_or(0)) * per_unit)
            .collect();
        let bounds = self.face.global_bounding_box();
        let sides = [bounds.x_min, bounds.y_min, bounds.x_max, bounds.y_max];
        let ascender = self.face.ascender();
        let heights = [self.face.capital_height().unwrap_or(ascender), ascender, self.face.descender()];
        Subset {
            data,
            widths,
            meaning: self.meaning,
            bounds: sides.map(|side| f32::from(side) * per_unit),
            heights: heights.map(|height| f32::from(height) * per_unit),
        }
    }

    /// The glyph of a letter; the empty box where the font lacks it.
    fn glyph(&self, letter: char) -> GlyphId {
        self.face.glyph_index(letter).unwrap_or_default()
    }
}

//! What stands above a thing on paper?

use units::Length;

use super::template::Template;
use super::tiles::name;
use super::typeface::Typeface;

/// The size of the title.
pub(super) const TITLE: Length = Length::mm(3.2);
/// The size of what follows it.
pub(super) const NOTE: Length = Length::mm(2.3);
/// From line to line.
const LEADING: f64 = 3.0;
/// The height of the first line, which holds the title.
const FIRST_LINE: f64 = 4.0;
/// Room between the caption and the thing.
const BELOW: f64 = 0.8;
/// Room between the title and what follows it, and between words and the map.
const BETWEEN: f64 = 2.5;
/// The least width of a caption, so that notes do not become a column of single words.
const LEAST: Length = Length::mm(62.0);
/// The size of one tile on the map, and the most that the whole map takes: on a larger one the tiles are smaller.
const MAP_TILE: [f64; 2] = [6.0, 4.0];
const MOST_MAP: [f64; 2] = [60.0, 20.0];

/// A title with notes flowing on behind it, and the room for a map of the tiles.
pub(super) struct Caption {
    /// The width that it takes, at least that of the thing.
    pub width: Length,
    /// The height that it takes.
    pub height: Length,
    /// The size of one tile on the map of the tiles.
    pub map_tile: [f64; 2],
    /// The words, from the upper left corner: how far right, how far down their middle is, their size, what they say.
    pub lines: Vec<(f64, f64, Length, String)>,
}

impl Caption {
    /// Above a thing in one piece.
    pub fn of_whole(template: &Template, width: Length, typeface: &Typeface) -> Self {
        let title = typeface.width(&template.title, TITLE);
        let width = width.max(LEAST).max(title + Length::mm(1.0));
        Self::flowing(template, width, Length::ZERO, Length::ZERO, typeface)
    }

    /// Above each tile of a thing in several: room for the tile's name behind the title and for the map on the right.
    pub fn of_tiles(template: &Template, width: Length, count: [usize; 2], typeface: &Typeface) -> Self {
        let map_tile = [0, 1].map(|axis| MAP_TILE[axis].min(MOST_MAP[axis] / count[axis] as f64));
        let map = [0, 1].map(|axis| map_tile[axis] * count[axis] as f64);
        let last = name([count[0] - 1, count[1] - 1]);
        let tile = typeface.width(&format!(", tile {last}"), TITLE);
        let beside = Length::mm(map[0] + BETWEEN);
        let width = width.max(LEAST).max(typeface.width(&template.title, TITLE) + tile + beside);
        let mut caption = Self::flowing(template, width, tile, beside, typeface);
        caption.height = caption.height.max(Length::mm(map[1] + BELOW));
        Self { map_tile, ..caption }
    }

    fn flowing(
        template: &Template,
        width: Length,
        behind_title: Length,
        map: Length,
        typeface: &Typeface,
    ) -> Self {
        let room = (width - map).as_mm();
        let title = typeface.width(&template.title, TITLE) + behind_title;
        let mut lines = vec![(0.0, FIRST_LINE / 2.0, TITLE, template.title.clone())];
        let (mut left, mut middle) = (title.as_mm() + BETWEEN, FIRST_LINE / 2.0);
        let space = typeface.width(" ", NOTE).as_mm();
        let (mut line, mut taken) = (String::new(), 0.0);
        for word in template.notes.join("; ").split(' ').filter(|word| !word.is_empty()) {
            // Letters are not set closer in pairs, so that widths add up.
            let width = typeface.width(word, NOTE).as_mm();
            let before = if line.is_empty() { 0.0 } else { taken + space };
            if left + before + width <= room {
                if !line.is_empty() {
                    line.push(' ');
                }
                line.push_str(word);
                taken = before + width;
                continue;
            }
            if !line.is_empty() {
                lines.push((left, middle, NOTE, std::mem::take(&mut line)));
            }
            (left, middle) = (0.0, middle + if left > 0.0 { (FIRST_LINE + LEADING) / 2.0 } else { LEADING });
            (line, taken) = (word.to_owned(), width);
        }
        if !line.is_empty() {
            lines.push((left, middle, NOTE, line));
        }
        let bottom = middle + if left > 0.0 { FIRST_LINE / 2.0 } else { LEADING / 2.0 };
        Self { width, height: Length::mm(bottom + BELOW), map_tile: MAP_TILE, lines }
    }
}

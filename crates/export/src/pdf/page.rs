//! What does a page look like?

use geometry::{Bounds2, Circle, Point2, Vector2};
use units::Length;

use super::content::Content;
use super::pages::{BAND, FOOT, Placed, Room};
use super::ruler::rulers;
use super::sheet::Correction;
use super::template::{Mark, Pen, Reading, Side, Words};
use super::tiles::{CROSS, Piece};
use super::typeface::Typeface;
use super::{Booklet, PdfOptions};

/// Radius of the ring round a cross.
const RING: Length = Length::mm(2.0);
/// The size of the number beside a cross, and of the words of the map.
const SMALL: Length = Length::mm(2.0);
/// The size of the words of the foot, and from line to line.
const FOOT_WORDS: Length = Length::mm(2.4);
const FOOT_LEADING: f64 = 3.1;
/// How many lines of words there is room for.
const FOOT_LINES: usize = 3;
/// From the band to the words of the foot: the rulers and their words lie before them.
const BESIDE_RULERS: f64 = 112.0;

/// Everything that a page is drawn from.
pub(super) struct View<'a> {
    pub booklet: &'a Booklet,
    pub options: &'a PdfOptions,
    pub room: &'a Room,
    pub pieces: &'a [Piece<'a>],
    pub pages: &'a [Vec<Placed>],
}

/// One page, by its number from 0, as it is written.
pub(super) fn draw(view: &View<'_>, number: usize, typeface: &mut Typeface) -> Vec<u8> {
    let mut content = Content::on(view.room.sheet, view.options.correction);
    for placed in &view.pages[number] {
        tile(&mut content, view, placed, typeface);
    }
    foot(&mut content, view, number, typeface);
    content.into_bytes()
}

fn tile(content: &mut Content, view: &View<'_>, placed: &Placed, typeface: &mut Typeface) {
    let piece = &view.pieces[placed.piece];
    let tile = &piece.tiles[placed.tile];
    let corner = view.room.field_corner() + Vector2::new(placed.corner[0], -placed.corner[1]);
    let by = corner
        - Vector2::mm(0.0, piece.caption.height.as_mm())
        - Point2::mm(tile.window.min.x, tile.window.max.y);
    caption(content, view, placed, corner, typeface);
    let frame = tile.window.translated(by);
    if !piece.is_whole() {
        content.only_within(frame);
    }
    for (mark, bounds) in &piece.marks {
        match mark {
            Mark::Figure(figure, pen) if tile.window.overlaps(*bounds) => content.figure(figure, by, *pen),
            Mark::Words(words) if tile.window.contains_bounds(*bounds) => content.words(words, by, typeface),
            Mark::Figure(..) | Mark::Words(_) => {}
        }
    }
    if piece.is_whole() {
        return;
    }
    content.anywhere();
    content.rectangle(frame, Pen::Strand);
    for (place, cross) in piece.crosses.iter().enumerate() {
        if tile.window.contains_bounds(Bounds2::at(*cross).grown(CROSS)) {
            draw_cross(content, *cross + by, place + 1, typeface);
        }
    }
}

fn draw_cross(content: &mut Content, at: Point2, number: usize, typeface: &mut Typeface) {
    let arm = CROSS.as_mm();
    for arm in [Vector2::mm(arm, 0.0), Vector2::mm(0.0, arm)] {
        content.line(at - arm, at + arm, Pen::Fine);
    }
    content.ring(&Circle { center: at, radius: RING }, Pen::Fine);
    let words = words(at + Vector2::mm(1.7, 2.5), Side::Start, SMALL, number.to_string());
    content.words(&words, Vector2::ZERO, typeface);
}

fn caption(content: &mut Content, view: &View<'_>, placed: &Placed, corner: Point2, typeface: &mut Typeface) {
    let piece = &view.pieces[placed.piece];
    for (place, (right, down, size, text)) in piece.caption.lines.iter().enumerate() {
        let mut text = text.clone();
        if place == 0 && !piece.is_whole() {
            text = format!("{text}, tile {}", piece.tiles[placed.tile].name());
        }
        let line = words(corner + Vector2::mm(*right, -*down), Side::Start, *size, text);
        content.words(&line, Vector2::ZERO, typeface);
    }
    if piece.is_whole() {
        return;
    }
    map(content, view, placed, corner, typeface);
}

/// Which page each tile of the piece is on, this one tinted.
fn map(content: &mut Content, view: &View<'_>, placed: &Placed, corner: Point2, typeface: &mut Typeface) {
    let piece = &view.pieces[placed.piece];
    let [width, height] = piece.caption.map_tile;
    let cell = piece.cell(&piece.tiles[placed.tile]);
    let left = corner.x + cell[0].as_mm() - width * piece.count[0] as f64;
    for (place, tile) in piece.tiles.iter().enumerate() {
        let [column, row] = tile.place.map(|place| place as f64);
        let upper_left = Point2::mm(left + width * column, corner.y - height * row);
        let bounds = Bounds2::at(upper_left).union(Bounds2::at(upper_left + Vector2::mm(width, -height)));
        content.rectangle(bounds, if place == placed.tile { Pen::Recess } else { Pen::Fine });
        let page =
            page_of(view.pages, placed.piece, place).map_or(String::new(), |page| format!("p{}", page + 1));
        let label = words(bounds.center(), Side::Middle, SMALL, page);
        // On the map of very many tiles there is no room for numbers.
        if bounds.contains_bounds(label.bounds(typeface)) {
            content.words(&label, Vector2::ZERO, typeface);
        }
    }
}

/// The page, from 0, on which a tile of a piece lies.
fn page_of(pages: &[Vec<Placed>], piece: usize, tile: usize) -> Option<usize> {
    pages.iter().position(|page| page.iter().any(|placed| placed.piece == piece && placed.tile == tile))
}

/// The rulers, and the words beside them.
fn foot(content: &mut Content, view: &View<'_>, number: usize, typeface: &mut Typeface) {
    let corner = view.room.printable.min;
    rulers(content, corner + Vector2::mm(BAND.as_mm(), 0.0), Reading::Across, typeface);
    rulers(content, corner + Vector2::mm(0.0, FOOT.as_mm() + 2.0), Reading::Up, typeface);
    let left = corner.x + BAND.as_mm() + BESIDE_RULERS;
    let width = Length::mm(view.room.printable.max.x - left);
    let print = match view.options.correction {
        Correction::NONE => String::from(
            "Print at 100 %, without fitting to the page. Before you cut, measure both rulers both ways.",
        ),
        correction => {
            let [across, up] = correction.factors().map(|factor| 100.0 / factor);
            format!(
                "Print at 100 % where marks measured {across:.2} mm across, {up:.2} mm up; measure again before you cut."
            )
        }
    };
    let below: Vec<String> = [print].into_iter().chain(view.booklet.remark.map(String::from)).collect();
    let page = format!("{}: page {} of {}: ", view.booklet.title, number + 1, view.pages.len());
    let mut lines = wrapped(page, &shown(view, number), FOOT_LINES - below.len(), width, typeface);
    lines.extend(below);
    for (place, line) in lines.into_iter().enumerate() {
        let at = Point2::mm(left, corner.y + FOOT.as_mm() - 1.6 - FOOT_LEADING * place as f64);
        let line = words(at, Side::Start, FOOT_WORDS, typeface.shortened(&line, FOOT_WORDS, width));
        content.words(&line, Vector2::ZERO, typeface);
    }
}

/// What lies on a page: "plan, tiles A1, A2" and "block".
fn shown(view: &View<'_>, number: usize) -> Vec<String> {
    let mut things: Vec<(usize, Vec<String>)> = Vec::new();
    for placed in &view.pages[number] {
        let piece = &view.pieces[placed.piece];
        let tile = (!piece.is_whole()).then(|| piece.tiles[placed.tile].name());
        match things.last_mut() {
            Some((last, tiles)) if *last == placed.piece => tiles.extend(tile),
            _ => things.push((placed.piece, tile.into_iter().collect())),
        }
    }
    let said = |(piece, tiles): &(usize, Vec<String>)| {
        let name = &view.pieces[*piece].template.name;
        match tiles.as_slice() {
            [] => name.clone(),
            [tile] => format!("{name}, tile {tile}"),
            _ => format!("{name}, tiles {}", tiles.join(", ")),
        }
    };
    things.iter().map(said).collect()
}

/// A line with things behind it, in at most so many lines; what is then left over stays on the last.
fn wrapped(
    mut line: String,
    things: &[String],
    most: usize,
    width: Length,
    typeface: &Typeface,
) -> Vec<String> {
    let mut lines = Vec::new();
    for (place, thing) in things.iter().enumerate() {
        let end = if place + 1 == things.len() { "" } else { "; " };
        let longer = format!("{line}{thing}{end}");
        if place > 0 && lines.len() + 1 < most && typeface.width(&longer, FOOT_WORDS) > width {
            lines.push(std::mem::replace(&mut line, format!("{thing}{end}")));
        } else {
            line = longer;
        }
    }
    lines.push(line);
    lines
}

fn words(at: Point2, side: Side, size: Length, text: String) -> Words {
    Words { at, side, reading: Reading::Across, size, text }
}
